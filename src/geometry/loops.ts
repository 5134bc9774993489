/** Boundaries of planar faces as bags of directed edges (faceComplex.ts): clearing and taking apart. */
import type { FaceComplex } from './faceComplex.ts';
import type { Vec3 } from './vector.ts';

/** The edges without pairs that run the same edge both ways. */
export function withoutOpposites(edges: number[]): number[] {
  if (edges.length < 32) {
    let found = false;
    for (let i = 0; i < edges.length && !found; i++)
      for (let j = i + 1; j < edges.length; j++)
        if ((edges[i] ^ edges[j]) === 1) {
          found = true;
          break;
        }
    if (!found) return edges;
  }
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

/** The loops of a face one by one, or all together where one of them is a hole. */
export function separateLoops(complex: FaceComplex, edges: number[], normal: Vec3): number[][] {
  if (edges.length < 6) return [edges];
  const starts = new Map<number, number>();
  for (let i = 0; i < edges.length; i++) {
    const v = complex.halfFrom(edges[i]);
    if (starts.has(v)) return [edges];
    starts.set(v, i);
  }
  const done = new Uint8Array(edges.length);
  const loops: number[][] = [];
  for (let i = 0; i < edges.length; i++) {
    if (done[i]) continue;
    const loop: number[] = [];
    for (
      let k: number | undefined = i;
      k !== undefined && !done[k];
      k = starts.get(complex.halfTo(edges[k]))
    ) {
      done[k] = 1;
      loop.push(edges[k]);
    }
    loops.push(loop);
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
