/** Boundaries of planar faces as bags of directed edges (faceComplex.ts): clearing and taking apart. */
import type { FaceComplex } from './faceComplex.ts';
import { NumberTable } from './numberTable.ts';
import type { Vec3 } from './vector.ts';

/** Where each edge was met last. */
const met = new NumberTable();

/** The edges without pairs that run the same edge both ways; the same array when there are none. */
export function withoutOpposites(edges: number[]): number[] {
  met.clear();
  let out: number[] | null = null;
  for (let i = 0; i < edges.length; i++) {
    const edge = edges[i] >> 1;
    const before = met.get(edge);
    if (before < 0) {
      met.set(edge, i);
      continue;
    }
    if (edges[before] === edges[i]) return withoutRepeatedOpposites(edges);
    out ??= edges.slice();
    out[before] = -1;
    out[i] = -1;
    met.set(edge, -1);
  }
  return out ? out.filter((half) => half >= 0) : edges;
}

/** The same where a directed edge may occur more than once. */
function withoutRepeatedOpposites(edges: number[]): number[] {
  const count = new Map<number, number>();
  for (const half of edges) {
    const opposite = count.get(half ^ 1) ?? 0;
    if (opposite > 0) count.set(half ^ 1, opposite - 1);
    else count.set(half, (count.get(half) ?? 0) + 1);
  }
  const out: number[] = [];
  for (const [half, times] of count) for (let i = 0; i < times; i++) out.push(half);
  return out;
}

/** The loop that is walked; used again for the next. */
const walked: number[] = [];

/** The loops of a face one by one, or all together where one of them is a hole. */
export function separateLoops(complex: FaceComplex, edges: number[], normal: Vec3): number[][] {
  if (edges.length < 6) return [edges];
  const starts = complex.atVertex;
  starts.clear();
  for (let i = 0; i < edges.length; i++) {
    const v = complex.halfFrom(edges[i]);
    if (starts.get(v) >= 0) return [edges];
    starts.set(v, i);
  }
  const loops: number[][] = [];
  for (let i = 0; i < edges.length; i++) {
    if (starts.get(complex.halfFrom(edges[i])) < 0) continue;
    let count = 0;
    for (let k = i; k >= 0; k = starts.get(complex.halfTo(edges[k]))) {
      starts.set(complex.halfFrom(edges[k]), -1);
      walked[count++] = edges[k];
    }
    loops.push(walked.slice(0, count));
  }
  if (loops.length === 1) return loops;
  return loops.some((loop) => signedArea(complex, loop, normal) < 0) ? [edges] : loops;
}

/** Twice the area of a loop, positive when it runs counter-clockwise about the face's normal. */
export function signedArea(complex: FaceComplex, loop: number[], normal: Vec3): number {
  const { xyz } = complex;
  const o = 3 * complex.halfFrom(loop[0]);
  let area = 0;
  for (const half of loop) {
    const a = 3 * complex.halfFrom(half);
    const b = 3 * complex.halfTo(half);
    const ax = xyz[a] - xyz[o];
    const ay = xyz[a + 1] - xyz[o + 1];
    const az = xyz[a + 2] - xyz[o + 2];
    const bx = xyz[b] - xyz[o];
    const by = xyz[b + 1] - xyz[o + 1];
    const bz = xyz[b + 2] - xyz[o + 2];
    area +=
      normal[0] * (ay * bz - az * by) + normal[1] * (az * bx - ax * bz) + normal[2] * (ax * by - ay * bx);
  }
  return area;
}
