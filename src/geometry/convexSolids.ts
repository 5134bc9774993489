/**
 * A region of space as disjoint convex solids, from which convex pieces are taken away one after the other.
 * Solids are only ever split by planes, each vertex being on one side, on the other, or (within a tolerance)
 * on the plane; the new face is the hull of what lies on the plane. So coincident planes and planes through
 * one line leave flat remains at worst, never a wrong region. Coordinates (x, y, w) are whatever the caller
 * chooses; lengths in mm.
 */

export interface ConvexSolid {
  /** x, y, w of each vertex. */
  readonly points: readonly number[];
  /** Vertex indices of each face, counter-clockwise seen from outside. */
  readonly faces: readonly (readonly number[])[];
}

/** The side a x + b y + c w ≤ d of a plane, (a, b, c) of length 1. */
export interface Side {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

/** Vertices no farther from a plane than this count as on it. */
export const ON_PLANE_MM = 1e-9;

export function boxSolid(low: readonly number[], high: readonly number[]): ConvexSolid {
  const points: number[] = [];
  for (let i = 0; i < 8; i++) for (let k = 0; k < 3; k++) points.push((i >> k) & 1 ? high[k] : low[k]);
  const faces = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ];
  return { points, faces };
}

export function solidVolume({ points, faces }: ConvexSolid): number {
  const [x0, y0, w0] = points;
  let six = 0;
  for (const face of faces) {
    const a = 3 * face[0];
    const ax = points[a] - x0;
    const ay = points[a + 1] - y0;
    const aw = points[a + 2] - w0;
    for (let i = 1; i + 1 < face.length; i++) {
      const b = 3 * face[i];
      const c = 3 * face[i + 1];
      const bx = points[b] - x0;
      const by = points[b + 1] - y0;
      const bw = points[b + 2] - w0;
      const cx = points[c] - x0;
      const cy = points[c + 1] - y0;
      const cw = points[c + 2] - w0;
      six += ax * (by * cw - bw * cy) + ay * (bw * cx - bx * cw) + aw * (bx * cy - by * cx);
    }
  }
  return six / 6;
}

export interface Halves {
  /** null where nothing, or only a face, edge or corner of the solid, is on that side. */
  readonly inside: ConvexSolid | null;
  readonly beyond: ConvexSolid | null;
}

export function splitSolid(solid: ConvexSolid, side: Side): Halves {
  const { points } = solid;
  const count = points.length / 3;
  const offsets = new Float64Array(count);
  let anyInside = false;
  let anyBeyond = false;
  for (let i = 0; i < count; i++) {
    const offset = side.a * points[3 * i] + side.b * points[3 * i + 1] + side.c * points[3 * i + 2] - side.d;
    if (offset > ON_PLANE_MM) {
      anyBeyond = true;
      offsets[i] = offset;
    } else if (offset < -ON_PLANE_MM) {
      anyInside = true;
      offsets[i] = offset;
    }
  }
  if (!anyBeyond) return { inside: anyInside ? solid : null, beyond: null };
  if (!anyInside) return { inside: null, beyond: solid };
  return { inside: kept(solid, offsets, side, 1), beyond: kept(solid, offsets, side, -1) };
}

/** The part of a solid with sign · offset ≤ 0. */
function kept(solid: ConvexSolid, offsets: Float64Array, side: Side, sign: 1 | -1): ConvexSolid {
  const old = solid.points;
  const points: number[] = [];
  const renumbered = new Int32Array(offsets.length).fill(-1);
  const cap: number[] = [];
  for (let i = 0; i < offsets.length; i++) {
    if (sign * offsets[i] > 0) continue;
    renumbered[i] = points.length / 3;
    if (offsets[i] === 0) cap.push(renumbered[i]);
    points.push(old[3 * i], old[3 * i + 1], old[3 * i + 2]);
  }
  const cuts = new Map<number, number>();
  const cutBetween = (i: number, j: number): number => {
    const key = i < j ? i * offsets.length + j : j * offsets.length + i;
    let index = cuts.get(key);
    if (index === undefined) {
      const [low, high] = i < j ? [i, j] : [j, i];
      const t = offsets[low] / (offsets[low] - offsets[high]);
      index = points.length / 3;
      for (let k = 0; k < 3; k++) points.push(old[3 * low + k] + t * (old[3 * high + k] - old[3 * low + k]));
      cuts.set(key, index);
      cap.push(index);
    }
    return index;
  };
  const faces: (readonly number[])[] = [];
  for (const face of solid.faces) {
    const loop: number[] = [];
    let previous = face[face.length - 1];
    for (const vertex of face) {
      if (offsets[previous] * offsets[vertex] < 0) loop.push(cutBetween(previous, vertex));
      if (renumbered[vertex] >= 0) loop.push(renumbered[vertex]);
      previous = vertex;
    }
    if (loop.length >= 3) faces.push(loop);
  }
  if (cap.length >= 3) faces.push(hullOrder(points, cap, side, sign));
  return { points, faces };
}

/** Points on a plane in the order of their hull, counter-clockwise seen from where sign · (a, b, c) points. */
function hullOrder(points: readonly number[], cap: readonly number[], side: Side, sign: 1 | -1): number[] {
  const normal = [side.a, side.b, side.c];
  let drop = 0;
  for (let k = 1; k < 3; k++) if (Math.abs(normal[k]) > Math.abs(normal[drop])) drop = k;
  const first = (drop + 1) % 3;
  const second = (drop + 2) % 3;
  const turn = sign * Math.sign(normal[drop]);
  let middleX = 0;
  let middleY = 0;
  for (const index of cap) {
    middleX += points[3 * index + first] / cap.length;
    middleY += points[3 * index + second] / cap.length;
  }
  const angles = new Map(
    cap.map((index) => [
      index,
      turn * Math.atan2(points[3 * index + second] - middleY, points[3 * index + first] - middleX),
    ]),
  );
  return [...cap].sort((i, j) => (angles.get(i) as number) - (angles.get(j) as number));
}

/** The solids without the convex piece that the half-spaces have in common. */
export function withoutPiece(solids: readonly ConvexSolid[], piece: readonly Side[]): ConvexSolid[] {
  const out: ConvexSolid[] = [];
  for (const solid of solids) {
    if (piece.some((side) => isBeyond(solid, side))) {
      out.push(solid);
      continue;
    }
    let inside: ConvexSolid | null = solid;
    for (const side of piece) {
      const halves: Halves = splitSolid(inside, side);
      if (halves.beyond) out.push(halves.beyond);
      inside = halves.inside;
      if (!inside) break;
    }
  }
  return out;
}

/** Whether no more than a face, edge or corner of the solid is in the half-space. */
export function isBeyond({ points }: ConvexSolid, { a, b, c, d }: Side): boolean {
  for (let i = 0; i < points.length; i += 3)
    if (a * points[i] + b * points[i + 1] + c * points[i + 2] < d - ON_PLANE_MM) return false;
  return true;
}

/** Levels of w at which the solid has vertices, ascending; those closer than the tolerance are one. */
export function levelsOf({ points }: ConvexSolid): number[] {
  const levels: number[] = [];
  for (let i = 2; i < points.length; i += 3) levels.push(points[i]);
  levels.sort((x, y) => x - y);
  return levels.filter((w, i) => i === 0 || w - levels[i - 1] > 2 * ON_PLANE_MM);
}

/**
 * Sides of the polygon in which the plane w = level (at none of the vertices) cuts the solid: x, y of start and
 * end of each, counter-clockwise in (x, y), in no order.
 */
export function sidesAt({ points, faces }: ConvexSolid, level: number): number[] {
  const sides: number[] = [];
  for (const face of faces) {
    let rising = -1;
    let falling = -1;
    let from = face[face.length - 1];
    const ends = [0, 0, 0, 0];
    for (const to of face) {
      const wFrom = points[3 * from + 2];
      const wTo = points[3 * to + 2];
      if (wFrom < level !== wTo < level) {
        const t = (level - wFrom) / (wTo - wFrom);
        // Seen from outside, the inner side of a face's cut lies to the left when w falls on the way in.
        const at = wFrom < level ? 2 : 0;
        ends[at] = points[3 * from] + t * (points[3 * to] - points[3 * from]);
        ends[at + 1] = points[3 * from + 1] + t * (points[3 * to + 1] - points[3 * from + 1]);
        if (at === 0) falling = to;
        else rising = to;
      }
      from = to;
    }
    if (rising >= 0 && falling >= 0) sides.push(ends[0], ends[1], ends[2], ends[3]);
  }
  return sides;
}

/** The sides (as sidesAt gives them) of the part of a convex polygon with y between two values, in order. */
export function sidesBetween(sides: readonly number[], yLow: number, yHigh: number): number[] {
  let corners: (readonly [x: number, y: number])[] = [];
  let middleX = 0;
  let middleY = 0;
  for (let i = 0; i < sides.length; i += 4) {
    corners.push([sides[i], sides[i + 1]]);
    middleX += (4 * sides[i]) / sides.length;
    middleY += (4 * sides[i + 1]) / sides.length;
  }
  const turn = ([x, y]: readonly [number, number]) => Math.atan2(y - middleY, x - middleX);
  corners.sort((a, b) => turn(a) - turn(b));
  for (const [limit, sign] of [
    [yHigh, 1],
    [yLow, -1],
  ] as const) {
    const within: (readonly [number, number])[] = [];
    corners.forEach((corner, i) => {
      const before = corners.at(i - 1) as readonly [number, number];
      const past = sign * (corner[1] - limit);
      const pastBefore = sign * (before[1] - limit);
      if (past * pastBefore < 0)
        within.push([before[0] + ((corner[0] - before[0]) * pastBefore) / (pastBefore - past), limit]);
      if (past <= 0) within.push(corner);
    });
    corners = within;
  }
  return corners.flatMap((corner, i) => {
    const next = corners[(i + 1) % corners.length];
    return [corner[0], corner[1], next[0], next[1]];
  });
}
