/**
 * The outline of a turned form as an exact curve and as a polyline. Frame: (z, r), z along the lathe axis
 * from foot to head, r from the axis, mm. Points run from the axis at the foot, around the outside, over the
 * rim, along the inside if the form is hollow, to the axis again.
 *
 * A loop is an outline that closes on itself off the axis (a bangle): its last point joins the first.
 *
 * Segments between two corners are straight; all others are cubic Béziers whose handles are one third of the
 * chord long: parallel to the chord of the two neighbours at a smooth point, along the segment at a corner
 * (docs/geometry.md, "Form").
 */

export interface OutlinePointLike {
  readonly z_mm: number;
  readonly r_mm: number;
  readonly smooth?: boolean;
}

export interface Profile {
  /** Vertices of the polyline in the outline's direction; same length as r_mm. */
  readonly z_mm: Float64Array;
  readonly r_mm: Float64Array;
  /** 1 where the vertex is a corner of the outline (the surface has a crease there). */
  readonly corner: Uint8Array;
  /** Vertex where the outside begins: the last at the lowest z before the rim. */
  readonly outsideStart: number;
  /** Vertex where the outside ends (the rim): the first at the highest z. */
  readonly outsideEnd: number;
}

type Point = readonly [z: number, r: number];

/** Heights closer than this are the same: 203.2 and 8 × 25.4 minus a rounding must not make an end face of the outside. */
const LEVEL_MM = 1e-9;

/** Number of segments: in a loop the last point joins the first. */
export function segmentCount(outline: readonly OutlinePointLike[], loop = false): number {
  return loop ? outline.length : outline.length - 1;
}

/** Control points [P0, P1, P2, P3] of segment i (from point i to the next), each (z, r) in mm. */
export function outlineSegment(
  outline: readonly OutlinePointLike[],
  i: number,
  loop = false,
): [Point, Point, Point, Point] {
  const next = (i + 1) % outline.length;
  const a = outline[i];
  const b = outline[next];
  const third = Math.hypot(b.z_mm - a.z_mm, b.r_mm - a.r_mm) / 3;
  const [az, ar] = handleDirection(outline, i, i, loop);
  const [bz, br] = handleDirection(outline, next, i, loop);
  return [
    [a.z_mm, a.r_mm],
    [a.z_mm + az * third, a.r_mm + ar * third],
    [b.z_mm - bz * third, b.r_mm - br * third],
    [b.z_mm, b.r_mm],
  ];
}

/** Whether the curve passes a point without a corner; the ends of an open outline are corners. */
export function isSmooth(outline: readonly OutlinePointLike[], point: number, loop = false): boolean {
  return outline[point].smooth === true && (loop || (point > 0 && point < outline.length - 1));
}

function handleDirection(
  outline: readonly OutlinePointLike[],
  point: number,
  segment: number,
  loop: boolean,
): Point {
  const n = outline.length;
  const smooth = isSmooth(outline, point, loop);
  const from = outline[smooth ? (point + n - 1) % n : segment];
  const to = outline[smooth ? (point + 1) % n : (segment + 1) % n];
  const dz = to.z_mm - from.z_mm;
  const dr = to.r_mm - from.r_mm;
  const length = Math.hypot(dz, dr);
  return length === 0 ? [0, 0] : [dz / length, dr / length];
}

/**
 * Polyline of an outline whose distance from the exact curve is at most tolerance_mm. The outline must have
 * at least three points. r is kept ≥ 0 and z within the range of the outline's points. The polyline of a
 * loop starts at its lowest z, wherever the outline does, and ends on its first vertex again.
 */
export function flattenOutline(
  outline: readonly OutlinePointLike[],
  tolerance_mm = 2e-3,
  loop = false,
): Profile {
  const z: number[] = [outline[0].z_mm];
  const r: number[] = [outline[0].r_mm];
  const corner: number[] = [isSmooth(outline, 0, loop) ? 0 : 1];
  const zMin = Math.min(...outline.map((p) => p.z_mm));
  const zMax = Math.max(...outline.map((p) => p.z_mm));
  for (let i = 0; i < segmentCount(outline, loop); i++) {
    const next = (i + 1) % outline.length;
    const straight = !isSmooth(outline, i, loop) && !isSmooth(outline, next, loop);
    const curve = outlineSegment(outline, i, loop);
    const pieces = straight ? 1 : piecesFor(curve, tolerance_mm);
    for (let k = 1; k <= pieces; k++) {
      const [pz, pr] = k === pieces ? curve[3] : bezierAt(curve, k / pieces);
      const nextZ = Math.min(Math.max(pz, zMin), zMax);
      const nextR = Math.max(pr, 0);
      if (nextZ === z[z.length - 1] && nextR === r[r.length - 1]) continue;
      z.push(nextZ);
      r.push(nextR);
      corner.push(k === pieces && !isSmooth(outline, next, loop) ? 1 : 0);
    }
  }
  if (loop) {
    const lowest = z.indexOf(Math.min(...z));
    for (const values of [z, r, corner]) {
      values.pop();
      values.push(...values.splice(0, lowest));
      values.push(values[0]);
    }
  }
  let outsideEnd = 0;
  for (let i = 1; i < z.length; i++) if (z[i] > z[outsideEnd] + LEVEL_MM) outsideEnd = i;
  let outsideStart = 0;
  for (let i = 1; i < outsideEnd; i++) if (z[i] <= z[outsideStart] + LEVEL_MM) outsideStart = i;
  return {
    z_mm: Float64Array.from(z),
    r_mm: Float64Array.from(r),
    corner: Uint8Array.from(corner),
    outsideStart,
    outsideEnd,
  };
}

/** Point of a cubic Bézier at parameter t in [0, 1]. */
export function bezierAt(curve: readonly [Point, Point, Point, Point], t: number): Point {
  const s = 1 - t;
  const w0 = s * s * s;
  const w1 = 3 * s * s * t;
  const w2 = 3 * s * t * t;
  const w3 = t * t * t;
  return [
    w0 * curve[0][0] + w1 * curve[1][0] + w2 * curve[2][0] + w3 * curve[3][0],
    w0 * curve[0][1] + w1 * curve[1][1] + w2 * curve[2][1] + w3 * curve[3][1],
  ];
}

/** Equal steps of the parameter that keep the chord error (h²/8 · max |B″|) within the tolerance. */
function piecesFor(curve: readonly [Point, Point, Point, Point], tolerance_mm: number): number {
  const bend = (a: Point, b: Point, c: Point) => Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]);
  const second = 6 * Math.max(bend(curve[0], curve[1], curve[2]), bend(curve[1], curve[2], curve[3]));
  return Math.max(1, Math.min(2000, Math.ceil(Math.sqrt(second / (8 * tolerance_mm)))));
}
