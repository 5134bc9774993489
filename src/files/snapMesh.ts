/**
 * Brings a part's mesh onto the grid of numbers that a file can hold (float32, or the decimals of a text)
 * so that it is still sound after the rounding: vertices that fall together become one, triangles that
 * collapse go, slivers whose third corner lands on their longest edge are turned into their neighbour, and
 * every edge belongs to exactly two triangles at the end (manifoldEdges.ts).
 *
 * Lathe frame in, the caller's frame and unit out.
 */
import type { Part } from '../blank/parts.ts';
import { splitNonManifold, type IndexedMesh } from './manifoldEdges.ts';

/** Writes the image of the point (x, y, z) mm into `out` at `offset`, already rounded to the file's grid. */
export type PlacePoint = (x: number, y: number, z: number, out: Float64Array, offset: number) => void;

/** Lathe frame, millimetres, rounded to single precision: what STL holds and 3MF readers keep. */
export const placeFloat32: PlacePoint = (x, y, z, out, offset) => {
  out[offset] = Math.fround(x) + 0;
  out[offset + 1] = Math.fround(y) + 0;
  out[offset + 2] = Math.fround(z) + 0;
};

/** Steps of single precision over the size of a mesh: triangles lower than this are worth turning. */
const SLIVER = 2e-7;

/** A sound mesh of the part on the file's grid; empty when nothing of it is left there. */
export function snapMesh(part: Pick<Part, 'positions_mm' | 'triangles'>, place: PlacePoint): IndexedMesh {
  const welded = removeOppositePairs(weld(part, place));
  const sliver = SLIVER * welded.positions.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return turnSlivers(splitNonManifold(turnSlivers(welded, sliver)), sliver);
}

function weld(part: Pick<Part, 'positions_mm' | 'triangles'>, place: PlacePoint): IndexedMesh {
  const count = part.positions_mm.length / 3;
  const placed = new Float64Array(count * 3);
  for (let at = 0; at < placed.length; at += 3)
    place(part.positions_mm[at], part.positions_mm[at + 1], part.positions_mm[at + 2], placed, at);
  const first = firstOfEqualPoints(placed);
  const triangles = new Uint32Array(part.triangles.length);
  let length = 0;
  for (let t = 0; t < part.triangles.length; t += 3) {
    const a = first[part.triangles[t]];
    const b = first[part.triangles[t + 1]];
    const c = first[part.triangles[t + 2]];
    if (a === b || b === c || c === a) continue;
    triangles[length++] = a;
    triangles[length++] = b;
    triangles[length++] = c;
  }
  return compact({ positions: placed, triangles: triangles.subarray(0, length) });
}

/** For each point the first one with the same coordinates, found through a hash of their bits. */
function firstOfEqualPoints(points: Float64Array): Uint32Array {
  const count = points.length / 3;
  const bits = new Int32Array(points.buffer, points.byteOffset, points.length * 2);
  const first = new Uint32Array(count);
  const newest = new Map<number, number>();
  const older = new Int32Array(count).fill(-1);
  for (let v = 0; v < count; v++) {
    let hash = 0;
    for (let word = v * 6; word < v * 6 + 6; word++)
      hash = Math.imul(hash ^ bits[word], 0x9e3779b1) ^ (hash >>> 15);
    let known = newest.get(hash) ?? -1;
    older[v] = known;
    newest.set(hash, v);
    while (known >= 0 && !samePoint(points, known * 3, v * 3)) known = older[known];
    first[v] = known < 0 ? v : first[known];
  }
  return first;
}

function samePoint(points: Float64Array, a: number, b: number): boolean {
  return points[a] === points[b] && points[a + 1] === points[b + 1] && points[a + 2] === points[b + 2];
}

/** Two triangles over the same corners that face opposite ways enclose nothing: both go. */
function removeOppositePairs(mesh: IndexedMesh): IndexedMesh {
  const { triangles } = mesh;
  const byCorners = new Map<number, number[]>();
  const removed = new Set<number>();
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = rotatedToLowest(triangles[t], triangles[t + 1], triangles[t + 2]);
    const key = (a * 31 + Math.min(b, c)) * 31 + Math.max(b, c);
    const candidates = byCorners.get(key);
    if (!candidates) {
      byCorners.set(key, [t]);
      continue;
    }
    const match = candidates.findIndex((other) => {
      const [d, e, f] = rotatedToLowest(triangles[other], triangles[other + 1], triangles[other + 2]);
      return a === d && b === f && c === e;
    });
    if (match < 0) candidates.push(t);
    else removed.add(t).add(candidates.splice(match, 1)[0]);
  }
  if (removed.size === 0) return mesh;
  const kept: number[] = [];
  for (let t = 0; t < triangles.length; t += 3)
    if (!removed.has(t)) kept.push(triangles[t], triangles[t + 1], triangles[t + 2]);
  return compact({ positions: mesh.positions, triangles: Uint32Array.from(kept) });
}

function rotatedToLowest(a: number, b: number, c: number): [number, number, number] {
  if (a < b && a < c) return [a, b, c];
  return b < c ? [b, c, a] : [c, a, b];
}

/** Drops the vertices that no triangle uses. */
function compact(mesh: IndexedMesh): IndexedMesh {
  const index = new Int32Array(mesh.positions.length / 3).fill(-1);
  const positions = new Float64Array(mesh.positions.length);
  let used = 0;
  const triangles = mesh.triangles.map((vertex) => {
    if (index[vertex] < 0) {
      index[vertex] = used / 3;
      positions[used++] = mesh.positions[vertex * 3];
      positions[used++] = mesh.positions[vertex * 3 + 1];
      positions[used++] = mesh.positions[vertex * 3 + 2];
    }
    return index[vertex];
  });
  return { positions: positions.slice(0, used), triangles };
}

/**
 * Turns the longest edge of every triangle lower than `sliver` to join its apex with the neighbour's, where
 * that makes the lower of the two triangles higher. The surface moves by less than `sliver`.
 */
function turnSlivers(mesh: IndexedMesh, sliver: number): IndexedMesh {
  const { positions } = mesh;
  const triangles = mesh.triangles.slice();
  const size = positions.length / 3;
  const height = (a: number, b: number, c: number) => triangleHeight(positions, a, b, c).height;
  let low: number[] = [];
  for (let t = 0; t < triangles.length; t += 3)
    if (height(triangles[t], triangles[t + 1], triangles[t + 2]) < sliver) low.push(t);
  if (low.length === 0) return mesh;

  const halfEdges = new Map<number, number | 'crowded'>();
  for (let t = 0; t < triangles.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const key = triangles[t + k] * size + triangles[t + ((k + 1) % 3)];
      halfEdges.set(key, halfEdges.has(key) ? 'crowded' : t);
    }
  const own = (from: number, to: number, t: number) => {
    const key = from * size + to;
    if (halfEdges.get(key) !== 'crowded') halfEdges.set(key, t);
  };
  const triangleAt = (from: number, to: number) => halfEdges.get(from * size + to);

  // Each turn raises the lower of two triangles; a chain of slivers is undone from its end inward.
  for (let pass = 0, turned = true; turned && pass < 64; pass++) {
    turned = false;
    const next: number[] = [];
    for (const t of low) {
      const corners = [triangles[t], triangles[t + 1], triangles[t + 2]];
      const { height: before, longest } = triangleHeight(positions, corners[0], corners[1], corners[2]);
      if (before >= sliver) continue;
      const a = corners[longest];
      const b = corners[(longest + 1) % 3];
      const c = corners[(longest + 2) % 3];
      const other = triangleAt(b, a);
      next.push(t);
      if (typeof other !== 'number' || triangleAt(a, b) !== t) continue;
      const d = triangles[other] + triangles[other + 1] + triangles[other + 2] - a - b;
      if (d === c || triangleAt(c, d) !== undefined || triangleAt(d, c) !== undefined) continue;
      const lower = Math.min(before, height(b, a, d));
      if (Math.min(height(a, d, c), height(d, b, c)) <= lower) continue;
      halfEdges.delete(a * size + b);
      halfEdges.delete(b * size + a);
      triangles.set([a, d, c], t);
      triangles.set([d, b, c], other);
      own(a, d, t);
      own(d, c, t);
      own(c, a, t);
      own(d, b, other);
      own(b, c, other);
      own(c, d, other);
      next.push(other);
      turned = true;
    }
    low = [...new Set(next)];
  }
  return { positions, triangles };
}

/** Height of a triangle over its longest edge, and which edge (from corner `longest` on) that is. */
export function triangleHeight(
  positions: Float64Array,
  a: number,
  b: number,
  c: number,
): { height: number; longest: 0 | 1 | 2 } {
  const side = (p: number, q: number) =>
    Math.hypot(
      positions[p * 3] - positions[q * 3],
      positions[p * 3 + 1] - positions[q * 3 + 1],
      positions[p * 3 + 2] - positions[q * 3 + 2],
    );
  const sides = [side(a, b), side(b, c), side(c, a)];
  const longest = sides[0] >= sides[1] && sides[0] >= sides[2] ? 0 : sides[1] >= sides[2] ? 1 : 2;
  const ux = positions[b * 3] - positions[a * 3];
  const uy = positions[b * 3 + 1] - positions[a * 3 + 1];
  const uz = positions[b * 3 + 2] - positions[a * 3 + 2];
  const vx = positions[c * 3] - positions[a * 3];
  const vy = positions[c * 3 + 1] - positions[a * 3 + 1];
  const vz = positions[c * 3 + 2] - positions[a * 3 + 2];
  const doubleArea = Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
  return { height: sides[longest] === 0 ? 0 : doubleArea / sides[longest], longest };
}
