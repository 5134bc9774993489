/** The boundary of a planar face, a bag of directed edges (faceComplex.ts), walked as loops of vertices. */
import type { FaceComplex } from './faceComplex.ts';
import type { Vec3 } from './vector.ts';

/** Loops of vertices, interior on the left; at a vertex with several ways on, the first clockwise. */
export function vertexLoops(complex: FaceComplex, edges: number[], normal: Vec3): number[][] {
  return plainLoops(complex, edges) ?? crossedLoops(complex, edges, normal);
}

/** The loop that is walked; used again for the next. */
const walked: number[] = [];

/** The loops where each vertex has one way on, else null. */
function plainLoops(complex: FaceComplex, edges: number[]): number[][] | null {
  const starts = complex.atVertex;
  starts.clear();
  for (let i = 0; i < edges.length; i++) {
    const v = complex.halfFrom(edges[i]);
    if (starts.get(v) >= 0) return null;
    starts.set(v, i);
  }
  const loops: number[][] = [];
  for (let i = 0; i < edges.length; i++) {
    const origin = complex.halfFrom(edges[i]);
    if (starts.get(origin) < 0) continue;
    let length = 0;
    let v = origin;
    do {
      const k = starts.get(v);
      if (k < 0) throw nowhere();
      walked[length++] = v;
      starts.set(v, -1);
      v = complex.halfTo(edges[k]);
    } while (v !== origin);
    loops.push(walked.slice(0, length));
  }
  return loops;
}

function nowhere(): Error {
  return new Error('triangulate: an edge of a face leads nowhere');
}

function crossedLoops(complex: FaceComplex, edges: number[], normal: Vec3): number[][] {
  const loops: number[][] = [];
  const from = new Map<number, number[]>();
  for (const half of edges) {
    const v = complex.halfFrom(half);
    const list = from.get(v);
    if (list) list.push(half);
    else from.set(v, [half]);
  }
  const firstClockwise = (incoming: number, ways: number[]) =>
    firstWayClockwise(complex, normal, incoming, ways);
  for (const start of edges) {
    const first = from.get(complex.halfFrom(start));
    const index = first ? first.indexOf(start) : -1;
    if (!first || index < 0) continue;
    first.splice(index, 1);
    const loop: number[] = [];
    let half = start;
    const origin = complex.halfFrom(start);
    for (;;) {
      loop.push(complex.halfFrom(half));
      const v = complex.halfTo(half);
      const ways = from.get(v);
      if (!ways || ways.length === 0) {
        if (v !== origin) throw nowhere();
        break;
      }
      // Back at the loop's first vertex it ends, unless another way on comes before its own first edge.
      if (v === origin && firstClockwise(half, [start, ...ways]) === 0) break;
      const pick = ways.length === 1 ? 0 : firstClockwise(half, ways);
      half = ways[pick];
      ways.splice(pick, 1);
    }
    loops.push(loop);
  }
  return loops;
}

function firstWayClockwise(complex: FaceComplex, normal: Vec3, incoming: number, ways: number[]): number {
  const at = complex.halfTo(incoming);
  const [bx, by] = direction(complex, normal, at, complex.halfFrom(incoming));
  let best = 0;
  let bestTurn = Infinity;
  for (let i = 0; i < ways.length; i++) {
    const [x, y] = direction(complex, normal, at, complex.halfTo(ways[i]));
    let turn = Math.atan2(bx * y - by * x, bx * x + by * y);
    turn = turn < 0 ? -turn : 2 * Math.PI - turn;
    if (turn < 1e-9) turn = 2 * Math.PI;
    if (turn < bestTurn) {
      bestTurn = turn;
      best = i;
    }
  }
  return best;
}

/** Direction from vertex a to b in the face's plane. */
function direction(complex: FaceComplex, normal: Vec3, a: number, b: number): [number, number] {
  const [ax, ay] = flatPoint(complex, a, normal);
  const [bx, by] = flatPoint(complex, b, normal);
  return [bx - ax, by - ay];
}

/** A vertex in the plane of a face, by dropping the coordinate of the normal's largest component. */
export function flatPoint(complex: FaceComplex, v: number, normal: Vec3): [number, number] {
  const { xyz } = complex;
  const x = xyz[3 * v];
  const y = xyz[3 * v + 1];
  const z = xyz[3 * v + 2];
  const ax = Math.abs(normal[0]);
  const ay = Math.abs(normal[1]);
  const az = Math.abs(normal[2]);
  if (az >= ax && az >= ay) return normal[2] > 0 ? [x, y] : [y, x];
  if (ay >= ax) return normal[1] > 0 ? [z, x] : [x, z];
  return normal[0] > 0 ? [y, z] : [z, y];
}
