/**
 * Triangles of a planar face given by directed edges (faceComplex.ts), keeping every vertex on its boundary:
 * corners are triangulated first, then the triangles are divided at the vertices that lie along their sides,
 * so that neighbours meet vertex to vertex and no triangle has zero area.
 */
import earcut from 'earcut';
import { clipEars } from './clipEars.ts';
import type { FaceComplex } from './faceComplex.ts';
import type { Vec3 } from './vector.ts';

/** Sine of the turn below which a vertex counts as lying along a side. */
const STRAIGHT = 1e-7;

export class Triangulator {
  readonly #complex: FaceComplex;
  /** Faces that earcut could not cover completely and plain ear clipping had to. */
  clipped = 0;
  readonly #out: number[] = [];
  #normal: Vec3 = [0, 0, 1];

  readonly #needless: Uint8Array;

  /** `needless`: 1 for vertices to leave out wherever they occur (extract.ts). */
  constructor(complex: FaceComplex, needless: Uint8Array) {
    this.#complex = complex;
    this.#needless = needless;
  }

  /** Vertex triples, counter-clockwise seen from the front. The array is reused by the next call. */
  triangles(edges: number[], normal: Vec3): readonly number[] {
    this.#out.length = 0;
    this.#normal = normal;
    const loops = this.#loops(edges).map((loop) => this.#needed(loop));
    if (loops.length === 1 && this.#convex(loops[0])) this.#fan(loops[0]);
    else this.#general(loops);
    return this.#out;
  }

  #needed(loop: number[]): number[] {
    for (let i = 0; i < loop.length; i++)
      if (this.#needless[loop[i]]) return loop.filter((v) => !this.#needless[v]);
    return loop;
  }

  /** Loops of vertices, interior on the left; at a vertex with several ways on, the first clockwise. */
  #loops(edges: number[]): number[][] {
    const complex = this.#complex;
    const n = edges.length;
    const loops: number[][] = [];
    if (n <= 12) {
      let mask = 0;
      let ambiguous = false;
      for (let i = 0; i < n && !ambiguous; i++)
        for (let j = i + 1; j < n; j++)
          if (complex.halfFrom(edges[i]) === complex.halfFrom(edges[j])) ambiguous = true;
      if (!ambiguous) {
        for (let i = 0; i < n; i++) {
          if (mask & (1 << i)) continue;
          const loop: number[] = [];
          let k = i;
          do {
            mask |= 1 << k;
            loop.push(complex.halfFrom(edges[k]));
            const to = complex.halfTo(edges[k]);
            k = -1;
            for (let j = 0; j < n; j++)
              if (complex.halfFrom(edges[j]) === to) {
                k = j;
                break;
              }
            if (k < 0) throw new Error('triangulate: an edge of a face leads nowhere');
          } while (k !== i);
          loops.push(loop);
        }
        return loops;
      }
    }
    const from = new Map<number, number[]>();
    for (const half of edges) {
      const v = complex.halfFrom(half);
      const list = from.get(v);
      if (list) list.push(half);
      else from.set(v, [half]);
    }
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
          if (v !== origin) throw new Error('triangulate: an edge of a face leads nowhere');
          break;
        }
        if (v === origin && !this.#goesOn(half, start, ways)) break;
        const pick = ways.length === 1 ? 0 : this.#firstClockwise(half, ways);
        half = ways[pick];
        ways.splice(pick, 1);
      }
      loops.push(loop);
    }
    return loops;
  }

  /** Whether, back at the loop's first vertex, another way on comes before the loop's own first edge. */
  #goesOn(half: number, start: number, ways: number[]): boolean {
    const all = [start, ...ways];
    return this.#firstClockwise(half, all) !== 0;
  }

  #firstClockwise(incoming: number, ways: number[]): number {
    const complex = this.#complex;
    const at = complex.halfTo(incoming);
    const [bx, by] = this.#direction(at, complex.halfFrom(incoming));
    let best = 0;
    let bestTurn = Infinity;
    for (let i = 0; i < ways.length; i++) {
      const [x, y] = this.#direction(at, complex.halfTo(ways[i]));
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

  /** Direction from vertex a to b in the face's plane, by dropping the normal's largest component. */
  #direction(a: number, b: number): [number, number] {
    const [ax, ay] = this.#flat(a);
    const [bx, by] = this.#flat(b);
    return [bx - ax, by - ay];
  }

  #flat(v: number): [number, number] {
    const { xyz } = this.#complex;
    const [nx, ny, nz] = this.#normal;
    const x = xyz[3 * v];
    const y = xyz[3 * v + 1];
    const z = xyz[3 * v + 2];
    const ax = Math.abs(nx);
    const ay = Math.abs(ny);
    const az = Math.abs(nz);
    if (az >= ax && az >= ay) return nz > 0 ? [x, y] : [y, x];
    if (ay >= ax) return ny > 0 ? [z, x] : [x, z];
    return nx > 0 ? [y, z] : [z, y];
  }

  /** Twice the area of the triangle a b c along the face's normal, and the product of two sides. */
  #turn(a: number, b: number, c: number): number {
    const { xyz } = this.#complex;
    const [nx, ny, nz] = this.#normal;
    const ux = xyz[3 * b] - xyz[3 * a];
    const uy = xyz[3 * b + 1] - xyz[3 * a + 1];
    const uz = xyz[3 * b + 2] - xyz[3 * a + 2];
    const vx = xyz[3 * c] - xyz[3 * b];
    const vy = xyz[3 * c + 1] - xyz[3 * b + 1];
    const vz = xyz[3 * c + 2] - xyz[3 * b + 2];
    const area = nx * (uy * vz - uz * vy) + ny * (uz * vx - ux * vz) + nz * (ux * vy - uy * vx);
    const scale = Math.sqrt((ux * ux + uy * uy + uz * uz) * (vx * vx + vy * vy + vz * vz));
    return scale > 0 ? area / scale : 0;
  }

  /** Convex or straight at every vertex, turning once around (a loop of few vertices cannot turn twice). */
  #convex(loop: number[]): boolean {
    const n = loop.length;
    if (n > 24) return false;
    for (let i = 0; i < n; i++)
      if (this.#turn(loop[(i + n - 1) % n], loop[i], loop[(i + 1) % n]) < -STRAIGHT) return false;
    return true;
  }

  /** Indices into the loop of the vertices where it turns. */
  #corners(loop: number[]): number[] {
    const n = loop.length;
    const corners: number[] = [];
    for (let i = 0; i < n; i++)
      if (Math.abs(this.#turn(loop[(i + n - 1) % n], loop[i], loop[(i + 1) % n])) > STRAIGHT) corners.push(i);
    return corners;
  }

  #fan(loop: number[]): void {
    const n = loop.length;
    if (n === 3) {
      this.#out.push(loop[0], loop[1], loop[2]);
      return;
    }
    const corners = this.#corners(loop);
    if (corners.length < 3) {
      this.#sliver(loop);
      return;
    }
    if (corners.length === n) {
      for (let i = 1; i + 1 < n; i++) this.#out.push(loop[0], loop[i], loop[i + 1]);
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

  /** A loop without area keeps its vertices: a fan of zero area closes what its neighbours need. */
  #sliver(loop: number[]): void {
    for (let i = 1; i + 1 < loop.length; i++) this.#out.push(loop[0], loop[i], loop[i + 1]);
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
      this.#out.push(a, b, c);
    }
  }

  #general(loops: number[][]): void {
    const outer: Loop[] = [];
    const holes: Loop[] = [];
    for (const vertices of loops) {
      const corners = this.#corners(vertices);
      const loop = this.#makeLoop(vertices, corners);
      if (corners.length < 3 || loop.area === 0) this.#sliver(vertices);
      else (loop.area > 0 ? outer : holes).push(loop);
    }
    const holesOf = outer.map(() => [] as Loop[]);
    for (const hole of holes) {
      let best = -1;
      for (let i = 0; i < outer.length; i++)
        if (holds(outer[i], hole) && (best < 0 || outer[i].area < outer[best].area)) best = i;
      if (best < 0) this.#sliver(hole.vertices);
      else holesOf[best].push(hole);
    }
    outer.forEach((loop, i) => this.#polygon(loop, holesOf[i]));
  }

  #makeLoop(vertices: number[], corners: number[]): Loop {
    const points: [number, number][] = corners.map((i) => this.#flat(vertices[i]));
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
