/**
 * Carving: every part of a face complex that lies in a convex region (an intersection of half-spaces) gets a
 * new owner, and the region's own faces appear as new faces between what was cut and the new owner.
 *
 * Signs decide everything and are taken once per vertex and plane: a vertex closer to a plane than the
 * tolerance counts as on it, and "on" counts as inside (the region is infinitesimally larger than its
 * planes). So coincident planes, planes through one line and planes that touch need no case of their own,
 * and the result is closed as a chain of edges whatever the rounding:
 *
 * 1. Each face that the region may reach is split by the region's planes in turn; what is outside goes back,
 *    what is left is inside. The edge that a split makes is marked with its plane.
 * 2. Inside, owners become the new owner; a face with the same owner on both sides is gone.
 * 3. For each owner that was cut and each plane, the marked edges, turned round, bound the new face on that
 *    plane. Where two planes of the region meet inside an owner, the ends of these edges are joined in pairs
 *    along the line of the two planes.
 */
import { Carving, MAX_REGION_PLANES } from './carving.ts';
import { closeRegion } from './carveCorners.ts';
import { FaceCarver } from './carveFace.ts';
import { carveGrid } from './carveGrid.ts';
import type { FaceComplex } from './faceComplex.ts';
import type { Plane } from './plane.ts';

/**
 * Gives every part of the complex inside all half-spaces normal · p ≤ offset to `owner`.
 * Planes: at most 31. Vertices closer to a plane than `tolerance_mm` count as on it.
 */
export function carve(
  complex: FaceComplex,
  planes: readonly Plane[],
  owner: number,
  tolerance_mm: number,
): void {
  if (planes.length > MAX_REGION_PLANES) throw new Error(`carve: ${planes.length} planes`);
  const carving = new Carving(complex, planes, owner, tolerance_mm);
  const carver = new FaceCarver(carving);
  const before = complex.faces.length;
  if (complex.grid) carveGrid(carver);
  carveFaces(carver, before);
  closeRegion(carving);
}

/** Carves the faces 0 … count − 1 whose box has a part on the inner side of every plane. */
function carveFaces(carver: FaceCarver, count: number): void {
  const { planes, complex, tolerance_mm, coefficients: plane } = carver.carving;
  /** The corner of a box that lies furthest inside each plane: where its x, y and z stand in the box. */
  const corner = Int32Array.from(
    planes.flatMap(({ normal }) => normal.map((n, axis) => (n > 0 ? axis : axis + 3))),
  );
  for (let i = 0; i < count; i++) {
    const { boxes } = complex;
    let reaches = true;
    for (let p = 0; p < planes.length; p++) {
      const nearest =
        plane[4 * p] * boxes[6 * i + corner[3 * p]] +
        plane[4 * p + 1] * boxes[6 * i + corner[3 * p + 1]] +
        plane[4 * p + 2] * boxes[6 * i + corner[3 * p + 2]];
      // A face that is gone has a box of NaN and reaches nothing.
      if (!(nearest - plane[4 * p + 3] <= tolerance_mm)) {
        reaches = false;
        break;
      }
    }
    if (reaches) carver.carveFace(i);
  }
}
