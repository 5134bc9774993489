/**
 * Triangles of a planar face given by directed edges (faceComplex.ts), keeping every vertex on its boundary:
 * corners are triangulated first, then the triangles are divided at the vertices that lie along their sides,
 * so that neighbours meet vertex to vertex and no triangle has zero area.
 */
import earcut from 'earcut';
import { clipEars } from './clipEars.ts';
import type { FaceComplex } from './faceComplex.ts';
import type { Vec3 } from './vector.ts';
import { flatPoint, vertexLoops } from './vertexLoops.ts';

/** Sine of the turn below which a vertex counts as lying along a side. */
const STRAIGHT = 1e-7;

export class Triangulator {
  readonly #complex: FaceComplex;
  /** Faces that earcut could not cover completely and plain ear clipping had to. */
  clipped = 0;
  /** Vertex triples of the face at hand: the first 3 · `count` entries. */
  triples = new Int32Array(768);
  count = 0;
  #normal: Vec3 = [0, 0, 1];
  /** How sharply the loop at hand turns at each vertex (sine). */
  #turns = new Float64Array(64);

  readonly #needless: Uint8Array;

  /** `needless`: 1 for vertices to leave out wherever they occur (extract.ts). */
  constructor(complex: FaceComplex, needless: Uint8Array) {
    this.#complex = complex;
    this.#needless = needless;
  }

  /** Divides a face into vertex triples, counter-clockwise seen from the front: `count` of them in `triples`. */
  divide(edges: number[], normal: Vec3): void {
    this.count = 0;
    this.#normal = normal;
    const loops = vertexLoops(this.#complex, edges, normal);
    for (let i = 0; i < loops.length; i++) loops[i] = this.#needed(loops[i]);
    if (loops.length === 1 && this.#convex(loops[0])) this.#fan(loops[0]);
    else this.#general(loops);
  }

  #add(a: number, b: number, c: number): void {
    const at = 3 * this.count++;
    if (at + 3 > this.triples.length) {
      const larger = new Int32Array(2 * this.triples.length);
      larger.set(this.triples);
      this.triples = larger;
    }
    this.triples[at] = a;
    this.triples[at + 1] = b;
    this.triples[at + 2] = c;
  }

  #needed(loop: number[]): number[] {
    for (let i = 0; i < loop.length; i++)
      if (this.#needless[loop[i]]) return loop.filter((v) => !this.#needless[v]);
    return loop;
  }

  /** Writes into `turns` the sine, by the face's normal, of the turn at each vertex of the loop. */
  #measure(loop: number[]): void {
    const { xyz } = this.#complex;
    const n = loop.length;
    if (n > this.#turns.length) this.#turns = new Float64Array(2 * n);
    const turns = this.#turns;
    const nx = this.#normal[0];
    const ny = this.#normal[1];
    const nz = this.#normal[2];
    let a = 3 * loop[n - 1];
    let b = 3 * loop[0];
    let ux = xyz[b] - xyz[a];
    let uy = xyz[b + 1] - xyz[a + 1];
    let uz = xyz[b + 2] - xyz[a + 2];
    let u = ux * ux + uy * uy + uz * uz;
    for (let i = 0; i < n; i++) {
      const c = 3 * loop[i + 1 === n ? 0 : i + 1];
      const vx = xyz[c] - xyz[b];
      const vy = xyz[c + 1] - xyz[b + 1];
      const vz = xyz[c + 2] - xyz[b + 2];
      const v = vx * vx + vy * vy + vz * vz;
      const area = nx * (uy * vz - uz * vy) + ny * (uz * vx - ux * vz) + nz * (ux * vy - uy * vx);
      const scale = Math.sqrt(u * v);
      turns[i] = scale > 0 ? area / scale : 0;
      a = b;
      b = c;
      ux = vx;
      uy = vy;
      uz = vz;
      u = v;
    }
  }

  /**
   * Convex or straight at every vertex, turning once around (a loop of few vertices cannot turn twice); measures
   * the loop on the way.
   */
  #convex(loop: number[]): boolean {
    const n = loop.length;
    if (n > 24) return false;
    this.#measure(loop);
    for (let i = 0; i < n; i++) if (this.#turns[i] < -STRAIGHT) return false;
    return true;
  }

  /** Indices into the loop, which is measured, of the vertices where it turns. */
  #corners(loop: number[]): number[] {
    const corners: number[] = [];
    for (let i = 0; i < loop.length; i++) if (Math.abs(this.#turns[i]) > STRAIGHT) corners.push(i);
    return corners;
  }

  /** A loop that is convex and measured. */
  #fan(loop: number[]): void {
    const n = loop.length;
    if (n === 3) {
      this.#add(loop[0], loop[1], loop[2]);
      return;
    }
    let straight = false;
    for (let i = 0; i < n; i++) if (!(Math.abs(this.#turns[i]) > STRAIGHT)) straight = true;
    if (!straight) {
      this.#fanFromFirst(loop);
      return;
    }
    const corners = this.#corners(loop);
    if (corners.length < 3) {
      this.#fanFromFirst(loop);
      return;
    }
    const side = (i: number, j: number): number[] => between(loop, corners[i], corners[j]);
    const last = corners.length - 1;
    for (let i = 1; i < last; i++)
      this.#divide(
        loop[corners[0]],
        loop[corners[i]],
        loop[corners[i + 1]],
        i === 1 ? side(0, 1) : [],
        side(i, i + 1),
        i + 1 === last ? side(last, 0) : [],
      );
  }

  /** All of a convex loop; and a loop without area, of which a fan of zero area closes what its neighbours need. */
  #fanFromFirst(loop: number[]): void {
    for (let i = 1; i + 1 < loop.length; i++) this.#add(loop[0], loop[i], loop[i + 1]);
  }

  /** Triangle a b c with vertices along its sides (ab, bc, ca, in that direction). */
  #divide(a: number, b: number, c: number, ab: number[], bc: number[], ca: number[]): void {
    if (ab.length > 0) {
      const middle = ab.length >> 1;
      const m = ab[middle];
      this.#divide(a, m, c, ab.slice(0, middle), [], ca);
      this.#divide(m, b, c, ab.slice(middle + 1), bc, []);
    } else if (bc.length > 0) {
      this.#divide(b, c, a, bc, ca, []);
    } else if (ca.length > 0) {
      this.#divide(c, a, b, ca, [], []);
    } else {
      this.#add(a, b, c);
    }
  }

  #general(loops: number[][]): void {
    const outer: Loop[] = [];
    const holes: Loop[] = [];
    for (const vertices of loops) {
      this.#measure(vertices);
      const corners = this.#corners(vertices);
      const loop = this.#makeLoop(vertices, corners);
      if (corners.length < 3 || loop.area === 0) this.#fanFromFirst(vertices);
      else (loop.area > 0 ? outer : holes).push(loop);
    }
    const holesOf = outer.map(() => [] as Loop[]);
    for (const hole of holes) {
      let best = -1;
      for (let i = 0; i < outer.length; i++)
        if (holds(outer[i], hole) && (best < 0 || outer[i].area < outer[best].area)) best = i;
      if (best < 0) this.#fanFromFirst(hole.vertices);
      else holesOf[best].push(hole);
    }
    outer.forEach((loop, i) => this.#polygon(loop, holesOf[i]));
  }

  #makeLoop(vertices: number[], corners: number[]): Loop {
    const points: [number, number][] = corners.map((i) =>
      flatPoint(this.#complex, vertices[i], this.#normal),
    );
    let area = 0;
    for (let i = 0; i < points.length; i++) {
      const a = points[i];
      const b = points[(i + 1) % points.length];
      area += a[0] * b[1] - a[1] * b[0];
    }
    return { vertices, corners, points, area };
  }

  #polygon(outer: Loop, holes: Loop[]): void {
    const flat: number[] = [];
    const holeStarts: number[] = [];
    const vertexOf: number[] = [];
    const sides = new Map<number, number[]>();
    let boundary = 0;
    for (const loop of [outer, ...holes]) {
      const base = vertexOf.length;
      if (loop !== outer) holeStarts.push(base);
      const count = loop.corners.length;
      for (let i = 0; i < count; i++) {
        flat.push(loop.points[i][0], loop.points[i][1]);
        vertexOf.push(loop.vertices[loop.corners[i]]);
        const chain = between(loop.vertices, loop.corners[i], loop.corners[(i + 1) % count]);
        sides.set((base + i) * 1048576 + base + ((i + 1) % count), chain);
        boundary++;
      }
    }
    let triples = counterClockwise(flat, earcut(flat, holeStarts.length > 0 ? holeStarts : undefined));
    if (!covers(triples, sides, boundary)) {
      this.clipped++;
      triples = clipEars(flat, holeStarts);
      if (!covers(triples, sides, boundary)) throw new Error('triangulate: a face could not be covered');
    }
    const chainOf = (i: number, j: number) => sides.get(i * 1048576 + j) ?? [];
    for (let t = 0; t < triples.length; t += 3) {
      const a = triples[t];
      const b = triples[t + 1];
      const c = triples[t + 2];
      this.#divide(vertexOf[a], vertexOf[b], vertexOf[c], chainOf(a, b), chainOf(b, c), chainOf(c, a));
    }
  }
}

interface Loop {
  vertices: number[];
  /** Indices into vertices. */
  corners: number[];
  points: [number, number][];
  /** Twice the signed area. */
  area: number;
}

/** Vertices of a loop strictly between two of its indices, going forward. */
function between(loop: number[], from: number, to: number): number[] {
  const out: number[] = [];
  for (let i = (from + 1) % loop.length; i !== to; i = (i + 1) % loop.length) out.push(loop[i]);
  return out;
}

/** Whether an outer loop holds a hole: by the middle of the hole's first side, moved off shared vertices. */
function holds(outer: Loop, hole: Loop): boolean {
  const [ax, ay] = hole.points[0];
  const [bx, by] = hole.points[1];
  const x = (ax + bx) / 2;
  const y = (ay + by) / 2;
  let inside = false;
  for (let i = 0, j = outer.points.length - 1; i < outer.points.length; j = i++) {
    const [xi, yi] = outer.points[i];
    const [xj, yj] = outer.points[j];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}

/**
 * Triangles of one orientation, turned counter-clockwise together. One by one it could not be told: a
 * triangle may be so thin that its own area has no sign.
 */
function counterClockwise(flat: number[], triples: number[]): number[] {
  let area = 0;
  for (let t = 0; t < triples.length; t += 3) {
    const i = 2 * triples[t];
    const j = 2 * triples[t + 1];
    const k = 2 * triples[t + 2];
    area +=
      (flat[j] - flat[i]) * (flat[k + 1] - flat[i + 1]) - (flat[j + 1] - flat[i + 1]) * (flat[k] - flat[i]);
  }
  if (area >= 0) return triples;
  for (let t = 0; t < triples.length; t += 3)
    [triples[t + 1], triples[t + 2]] = [triples[t + 2], triples[t + 1]];
  return triples;
}

/** Whether triangles use every boundary side once, forward, and every other side once each way. */
function covers(triples: ArrayLike<number>, sides: Map<number, number[]>, boundary: number): boolean {
  const balance = new Map<number, number>();
  for (let t = 0; t < triples.length; t += 3)
    for (let s = 0; s < 3; s++) {
      const a = triples[t + s];
      const b = triples[t + ((s + 1) % 3)];
      const key = a < b ? a * 1048576 + b : b * 1048576 + a;
      balance.set(key, (balance.get(key) ?? 0) + (a < b ? 1 : -1));
    }
  let found = 0;
  for (const [key, times] of balance) {
    if (times === 0) continue;
    const low = Math.floor(key / 1048576);
    const high = key % 1048576;
    if (!(times === 1 ? sides.has(low * 1048576 + high) : times === -1 && sides.has(high * 1048576 + low)))
      return false;
    found++;
  }
  return found === boundary;
}
