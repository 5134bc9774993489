/**
 * Carving the untouched facets of a lathe surface: whole facets change owner in place, and only those that a
 * plane of the region crosses become faces (carve.ts, step 1).
 */
import type { FaceCarver } from './carveFace.ts';
import { CUT, VOID } from './faceComplex.ts';
import { cross, type Vec3 } from './vector.ts';

/** Owners of grid facets wholly inside; facets that the region's planes cross become faces, to be carved. */
export function carveGrid(carver: FaceCarver): void {
  const { carving } = carver;
  const { complex, planes, owner, tolerance_mm } = carving;
  const grid = complex.grid;
  if (!grid) return;
  const { columns, ringCount, rowCount, ringZ, ringR, ringVertex, ringEdge } = grid;
  const radial = planes.map(({ normal }) => Math.hypot(normal[0], normal[1]));
  for (let row = 0; row < rowCount; row++) {
    const upper = row + 1 === ringCount ? 0 : row + 1;
    if (grid.rowEdge[row] < 0) continue;
    let reaches = true;
    for (let p = 0; p < planes.length && reaches; p++) {
      const { normal, offset_mm } = planes[p];
      const low = Math.min(
        normal[2] * ringZ[row] - radial[p] * ringR[row],
        normal[2] * ringZ[upper] - radial[p] * ringR[upper],
      );
      reaches = low - offset_mm <= tolerance_mm;
    }
    if (!reaches) continue;
    const lowerStep = ringEdge[row] < 0 ? 0 : 1;
    const upperStep = ringEdge[upper] < 0 ? 0 : 1;
    for (let c = 0; c < columns; c++) {
      const facet = row * columns + c;
      if (grid.owner[facet] === CUT || grid.owner[facet] === VOID) continue;
      const next = c + 1 === columns ? 0 : c + 1;
      const v0 = ringVertex[row] + lowerStep * c;
      const v1 = ringVertex[row] + lowerStep * next;
      const v2 = ringVertex[upper] + upperStep * next;
      const v3 = ringVertex[upper] + upperStep * c;
      let inside = true;
      let apart = false;
      for (let p = 0; p < planes.length; p++) {
        const d0 = carving.at(v0, p);
        const d1 = carving.at(v1, p);
        const d2 = carving.at(v2, p);
        const d3 = carving.at(v3, p);
        if (d0 > 0 && d1 > 0 && d2 > 0 && d3 > 0) {
          apart = true;
          break;
        }
        if (d0 > 0 || d1 > 0 || d2 > 0 || d3 > 0) inside = false;
      }
      if (apart) continue;
      if (inside) {
        grid.owner[facet] = owner;
        continue;
      }
      const back = grid.owner[facet];
      grid.owner[facet] = CUT;
      const normal = facetNormal(complex.xyz, v0, v1, v2, v3);
      carver.carveFace(complex.addFace(complex.facetEdges(row, c), back, VOID, normal));
    }
  }
}

/** Unit normal of the (planar) quadrilateral v0 v1 v2 v3 from its diagonals. */
function facetNormal(xyz: Float64Array, v0: number, v1: number, v2: number, v3: number): Vec3 {
  const at = (v: number): Vec3 => [xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]];
  const [a, b, c, d] = [at(v0), at(v1), at(v2), at(v3)];
  const n = cross([c[0] - a[0], c[1] - a[1], c[2] - a[2]], [d[0] - b[0], d[1] - b[1], d[2] - b[2]]);
  const length = Math.hypot(n[0], n[1], n[2]);
  return [n[0] / length, n[1] / length, n[2] / length];
}
