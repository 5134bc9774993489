/**
 * The face that a section plane opens: the drawn mesh sliced by the plane, as a flat mesh. Taken from the very
 * triangles that are drawn, so that cap and surface meet without a gap at any zoom. Plane in the lathe frame, mm.
 */
import earcut from 'earcut';
import type { Plane } from '../geometry/plane.ts';
import { cross, dot, norm, scale, type Vec3 } from '../geometry/vector.ts';
import { MeshBuilder, toLathe, weldedIds, type WorkMesh } from './mesh.ts';

const welded = new WeakMap<WorkMesh, Uint32Array>();

/** The cap, facing along the plane's normal (the wood on that side is taken away). Empty where the plane misses. */
export function sectionCap(mesh: WorkMesh, plane: Plane): WorkMesh {
  const loops = slice(mesh, plane);
  const builder = new MeshBuilder();
  const [u, v] = axesOf(plane.normal);
  const flat = loops.map((loop) => loop.map((p) => [dot(p, u), dot(p, v)] as const));
  const areas = flat.map(signedArea);
  const outers = flat.map((_, i) => i).filter((i) => areas[i] > 0);
  for (const outer of outers) {
    const holes = flat
      .map((_, i) => i)
      .filter((i) => areas[i] < 0 && ownerOf(i, flat, areas, outers) === outer);
    const points: Vec3[] = [...loops[outer]];
    const coordinates = flat[outer].flatMap(([a, b]) => [a, b]);
    const starts: number[] = [];
    for (const hole of holes) {
      starts.push(points.length);
      points.push(...loops[hole]);
      coordinates.push(...flat[hole].flatMap(([a, b]) => [a, b]));
    }
    const first = points.map((p) => builder.vertex(p[0], p[1], p[2], ...plane.normal))[0];
    const triangles = earcut(coordinates, starts);
    for (let t = 0; t < triangles.length; t += 3)
      builder.triangle(first + triangles[t], first + triangles[t + 1], first + triangles[t + 2]);
  }
  return builder.build();
}

/** Two directions in the plane, right-handed with its normal. */
function axesOf(normal: Vec3): [Vec3, Vec3] {
  const helper: Vec3 = Math.abs(normal[2]) < 0.7 ? [0, 0, 1] : [1, 0, 0];
  const side = cross(helper, normal);
  const u = scale(side, 1 / norm(side));
  return [u, cross(normal, u)];
}

function signedArea(loop: readonly (readonly [number, number])[]): number {
  let twice = 0;
  loop.forEach(([x, y], i) => {
    const [nx, ny] = loop[(i + 1) % loop.length];
    twice += x * ny - nx * y;
  });
  return twice / 2;
}

/** The smallest outer loop around a hole. */
function ownerOf(
  hole: number,
  flat: readonly (readonly (readonly [number, number])[])[],
  areas: readonly number[],
  outers: readonly number[],
): number {
  const point = flat[hole][0];
  let owner = -1;
  for (const outer of outers)
    if (
      areas[outer] > -areas[hole] &&
      holds(flat[outer], point) &&
      (owner < 0 || areas[outer] < areas[owner])
    )
      owner = outer;
  return owner;
}

function holds(loop: readonly (readonly [number, number])[], [x, y]: readonly [number, number]): boolean {
  let inside = false;
  for (let i = 0, j = loop.length - 1; i < loop.length; j = i++) {
    const [ax, ay] = loop[i];
    const [bx, by] = loop[j];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}

/**
 * Closed loops in which a closed mesh meets a plane, counter-clockwise about the solid seen against the normal's
 * point. A vertex on the plane counts as in front of it, so no loop ends at a vertex.
 */
function slice(mesh: WorkMesh, plane: Plane): Vec3[][] {
  let ids = welded.get(mesh);
  if (!ids) {
    ids = weldedIds(mesh.positions);
    welded.set(mesh, ids);
  }
  const { positions: p, indices } = mesh;
  const count = p.length / 3;
  const [nx, ny, nz] = plane.normal;
  const side = new Float64Array(count);
  // In the drawn frame the normal is (nx, nz, −ny).
  for (let i = 0; i < count; i++)
    side[i] = p[3 * i] * nx + p[3 * i + 1] * nz - p[3 * i + 2] * ny - plane.offset_mm;
  const next = new Map<number, number>();
  const points = new Map<number, Vec3>();
  const crossing = (a: number, b: number): number => {
    const [low, high] = a < b ? [a, b] : [b, a];
    const key = low * count + high;
    if (!points.has(key)) {
      const t = side[low] / (side[low] - side[high]);
      const at = (k: number): number => p[3 * low + k] + t * (p[3 * high + k] - p[3 * low + k]);
      points.set(key, toLathe(at(0), at(1), at(2)));
    }
    return key;
  };
  for (let t = 0; t < indices.length; t += 3) {
    const corners = [ids[indices[t]], ids[indices[t + 1]], ids[indices[t + 2]]];
    // A triangle that has shrunk to a line would lead from its edge to the same edge, and end the loop there.
    if (corners[0] === corners[1] || corners[1] === corners[2] || corners[2] === corners[0]) continue;
    const front = corners.map((c) => side[c] >= 0);
    if (front[0] === front[1] && front[1] === front[2]) continue;
    let leave = -1;
    let enter = -1;
    for (let k = 0; k < 3; k++) {
      const a = corners[k];
      const b = corners[(k + 1) % 3];
      if (front[k] && !front[(k + 1) % 3]) enter = crossing(a, b);
      if (!front[k] && front[(k + 1) % 3]) leave = crossing(a, b);
    }
    next.set(enter, leave);
  }
  const loops: Vec3[][] = [];
  while (next.size > 0) {
    const loop: Vec3[] = [];
    const start: number = next.keys().next().value ?? -1;
    let key: number | undefined = start;
    while (key !== undefined && next.has(key)) {
      const point = points.get(key);
      if (point) loop.push(point);
      const following: number | undefined = next.get(key);
      next.delete(key);
      key = following;
    }
    if (loop.length >= 3) loops.push(loop);
  }
  return loops;
}
