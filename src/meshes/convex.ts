/**
 * Convex solids as the intersection of half-spaces n · p ≤ c: cutters for the boolean library, the strip on its way
 * in, and exact volumes to hold its results against. Lathe frame, mm.
 *
 * A solid is clipped by one half-space after another; the vertices of a cut are shared by the faces on both sides,
 * so the result is closed by construction.
 */
import type { Plane } from '../geometry/plane.ts';
import { cross, dot, norm, scale, subtract, type Vec3 } from '../geometry/vector.ts';

import { MeshBuilder, type WorkMesh } from './mesh.ts';

export interface ConvexFace {
  readonly plane: Plane;
  /** Vertex indices counter-clockwise seen from outside. */
  readonly loop: readonly number[];
}

export interface ConvexSolid {
  readonly vertices: readonly Vec3[];
  readonly faces: readonly ConvexFace[];
}

/** A prism over a convex polygon (counter-clockwise seen from the head) from z = from to z = to. */
export function convexPrism(
  corners: readonly (readonly [number, number])[],
  from_mm: number,
  to_mm: number,
): ConvexSolid {
  const n = corners.length;
  const vertices: Vec3[] = [
    ...corners.map(([x, y]): Vec3 => [x, y, from_mm]),
    ...corners.map(([x, y]): Vec3 => [x, y, to_mm]),
  ];
  const faces: ConvexFace[] = corners.map(([x, y], i) => {
    const [nextX, nextY] = corners[(i + 1) % n];
    const length = Math.hypot(nextX - x, nextY - y);
    const normal: Vec3 = [(nextY - y) / length, (x - nextX) / length, 0];
    const next = (i + 1) % n;
    return { plane: { normal, offset_mm: normal[0] * x + normal[1] * y }, loop: [i, next, n + next, n + i] };
  });
  const foot = Array.from({ length: n }, (_, i) => n - 1 - i);
  const head = Array.from({ length: n }, (_, i) => n + i);
  faces.push({ plane: { normal: [0, 0, -1], offset_mm: -from_mm }, loop: foot });
  faces.push({ plane: { normal: [0, 0, 1], offset_mm: to_mm }, loop: head });
  return { vertices, faces };
}

/** An upright box about a point, half-sizes in mm. */
export function convexBox(center: Vec3, half: Vec3): ConvexSolid {
  const [x, y, z] = center;
  const [a, b, c] = half;
  return convexPrism(
    [
      [x - a, y - b],
      [x + a, y - b],
      [x + a, y + b],
      [x - a, y + b],
    ],
    z - c,
    z + c,
  );
}

/**
 * The part of a convex solid with n · p ≤ c; null when nothing is left. A vertex within `tolerance_mm` of the plane
 * counts as on it.
 */
export function clipConvex(solid: ConvexSolid, plane: Plane, tolerance_mm = 1e-9): ConvexSolid | null {
  const side = solid.vertices.map((v) => {
    const d = dot(plane.normal, v) - plane.offset_mm;
    return Math.abs(d) <= tolerance_mm ? 0 : d;
  });
  if (!side.some((d) => d > 0)) return solid.vertices.length > 0 && side.some((d) => d < 0) ? solid : null;
  if (!side.some((d) => d < 0)) return null;
  const vertices: Vec3[] = [];
  const renamed = new Map<number, number>();
  const keep = (v: number): number => {
    const known = renamed.get(v);
    if (known !== undefined) return known;
    renamed.set(v, vertices.length);
    return vertices.push(solid.vertices[v]) - 1;
  };
  const cuts = new Map<string, number>();
  const cut = (a: number, b: number): number => {
    const [low, high] = a < b ? [a, b] : [b, a];
    const key = `${low},${high}`;
    const known = cuts.get(key);
    if (known !== undefined) return known;
    const t = side[low] / (side[low] - side[high]);
    const [p, q] = [solid.vertices[low], solid.vertices[high]];
    const at =
      vertices.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]), p[2] + t * (q[2] - p[2])]) - 1;
    cuts.set(key, at);
    return at;
  };
  const faces: ConvexFace[] = [];
  /** Edges of the new face, from the end of each clipped face's gap to its start. */
  const next = new Map<number, number>();
  for (const face of solid.faces) {
    const loop: number[] = [];
    face.loop.forEach((v, i) => {
      const w = face.loop[(i + 1) % face.loop.length];
      if (side[v] <= 0) loop.push(keep(v));
      if (side[v] * side[w] < 0) loop.push(cut(v, w));
    });
    if (loop.length >= 3) faces.push({ plane: face.plane, loop });
    const onPlane = borderEdge(face.loop, side, cut, keep);
    if (onPlane) next.set(onPlane[1], onPlane[0]);
  }
  const first = next.keys().next().value;
  if (first !== undefined) {
    const loop = [first];
    for (let v = next.get(first); v !== undefined && v !== first && loop.length <= next.size; v = next.get(v))
      loop.push(v);
    if (loop.length >= 3) faces.push({ plane, loop });
  }
  return { vertices, faces };
}

/** The directed edge of a clipped face that lies on the plane, or null. */
function borderEdge(
  loop: readonly number[],
  side: readonly number[],
  cut: (a: number, b: number) => number,
  keep: (v: number) => number,
): [number, number] | null {
  if (!loop.some((v) => side[v] < 0)) return null;
  let leaves: number | null = null;
  let enters: number | null = null;
  loop.forEach((v, i) => {
    const w = loop[(i + 1) % loop.length];
    if (side[v] < 0 && side[w] > 0) leaves = cut(v, w);
    if (side[v] > 0 && side[w] < 0) enters = cut(v, w);
    if (side[v] < 0 && side[w] === 0) leaves = keep(w);
    if (side[v] === 0 && side[w] < 0) enters = keep(v);
  });
  return leaves === null || enters === null || leaves === enters ? null : [leaves, enters];
}

/** A convex solid clipped by several half-spaces; null when nothing is left. */
export function clipAll(solid: ConvexSolid, planes: readonly Plane[]): ConvexSolid | null {
  let left: ConvexSolid | null = solid;
  for (const plane of planes) left = left && clipConvex(left, plane);
  return left;
}

export function convexVolume_mm3(solid: ConvexSolid | null): number {
  if (!solid || solid.faces.length === 0) return 0;
  const o = solid.vertices[0];
  let six = 0;
  for (const { loop } of solid.faces) {
    const a = subtract(solid.vertices[loop[0]], o);
    for (let i = 1; i + 1 < loop.length; i++) {
      const b = subtract(solid.vertices[loop[i]], o);
      const c = subtract(solid.vertices[loop[i + 1]], o);
      six += dot(a, cross(b, c));
    }
  }
  return six / 6;
}

/** A plane given by any normal, scaled to a unit normal. */
export function unitPlane(normal: Vec3, offset_mm: number): Plane {
  const length = norm(normal);
  return { normal: scale(normal, 1 / length), offset_mm: offset_mm / length };
}

/** The half-space on the other side. */
export function opposite(plane: Plane): Plane {
  return { normal: scale(plane.normal, -1), offset_mm: -plane.offset_mm };
}

/** A convex solid as a mesh with flat faces, in the drawn frame. */
export function convexMesh(solid: ConvexSolid): WorkMesh {
  const builder = new MeshBuilder();
  for (const { plane, loop } of solid.faces)
    builder.polygon(
      loop.map((v) => solid.vertices[v]),
      plane.normal,
    );
  return builder.build();
}
