/**
 * Carving: every part of a face complex that lies in a convex region (an intersection of half-spaces) gets a
 * new owner, and the region's own faces appear as new faces between what was cut and the new owner.
 *
 * Signs decide everything and are taken once per vertex and plane: a vertex closer to a plane than the
 * tolerance counts as on it, and "on" counts as inside (the region is infinitesimally larger than its
 * planes). So coincident planes, planes through one line and planes that touch need no case of their own,
 * and the result is closed as a chain of edges whatever the rounding:
 *
 * 1. Each face that the region may reach is split by the region's planes in turn; what is outside goes back,
 *    what is left is inside. The edge that a split makes is marked with its plane.
 * 2. Inside, owners become the new owner; a face with the same owner on both sides is gone.
 * 3. For each owner that was cut and each plane, the marked edges, turned round, bound the new face on that
 *    plane. Where two planes of the region meet inside an owner, the ends of these edges are joined in pairs
 *    along the line of the two planes.
 */
import { CUT, VOID, type Face, type FaceComplex } from './faceComplex.ts';
import { cross, dot, type Vec3 } from './vector.ts';
import type { Plane } from './plane.ts';

/** Most planes that a region may have. */
export const MAX_REGION_PLANES = 6;

/** Marks of a face that no plane has split yet: none of its edges has one. */
const NO_MARKS: number[] = [];

interface Piece {
  edges: number[];
  /** Plane of the region that made the edge, or −1; same length as edges. */
  marks: number[];
}

class Carver {
  readonly complex: FaceComplex;
  readonly planes: readonly Plane[];
  readonly owner: number;
  readonly tolerance: number;
  distance: Float64Array;
  stamp: Int32Array;
  readonly run: number;
  readonly count: number;
  /** Marked edges of the new faces: key owner · 8 + plane. */
  readonly caps = new Map<number, number[]>();
  /** Existing edges on two planes of the region at once, by their vertices. */
  readonly cornerEdges = new Map<number, number>();
  /** What each plane split off the face at hand: outside[p], and whether a split crossed the face twice. */
  readonly outside: (number[] | null)[] = [];
  /** links[p]: bit q set where what plane q split off borders on what plane p split off. */
  readonly links: number[] = [];
  readonly exits: number[] = [];
  readonly entries: number[] = [];
  severalWays = false;
  /** Whether a split of the face at hand ran along an edge that was there before. */
  usedExisting = false;

  constructor(complex: FaceComplex, planes: readonly Plane[], owner: number, tolerance: number) {
    this.complex = complex;
    this.planes = planes;
    this.owner = owner;
    this.tolerance = tolerance;
    this.count = planes.length;
    this.run = ++complex.scratch.run;
    this.distance = complex.scratch.distance;
    this.stamp = complex.scratch.stamp;
  }

  /** Signed distance of a vertex from a plane of the region, 0 within the tolerance. */
  at(vertex: number, plane: number): number {
    if (this.stamp[vertex] !== this.run) this.#measure(vertex);
    return this.distance[vertex * this.count + plane];
  }

  #measure(vertex: number): void {
    const { count } = this;
    if (vertex >= this.stamp.length || (vertex + 1) * count > this.distance.length) {
      const { scratch } = this.complex;
      const stamp = new Int32Array(2 * vertex + 4096);
      stamp.set(this.stamp.subarray(0, Math.min(this.stamp.length, stamp.length)));
      this.stamp = scratch.stamp = stamp;
      const distance = new Float64Array((2 * vertex + 4096) * count);
      distance.set(this.distance.subarray(0, Math.min(this.distance.length, distance.length)));
      this.distance = scratch.distance = distance;
    }
    const { xyz } = this.complex;
    const x = xyz[3 * vertex];
    const y = xyz[3 * vertex + 1];
    const z = xyz[3 * vertex + 2];
    for (let p = 0; p < count; p++) {
      const { normal, offset_mm } = this.planes[p];
      const d = normal[0] * x + normal[1] * y + normal[2] * z - offset_mm;
      this.distance[vertex * count + p] = Math.abs(d) < this.tolerance ? 0 : d;
    }
    this.stamp[vertex] = this.run;
  }

  /** Carves one face of the complex. */
  carveFace(index: number): void {
    const { complex, count } = this;
    const face = complex.faces[index] as Face;
    const edges = complex.expand(face.edges);
    face.edges = edges;
    let anyOutside = false;
    for (let p = 0; p < count; p++) {
      let outside = 0;
      for (let i = 0; i < edges.length; i++) if (this.at(complex.halfFrom(edges[i]), p) > 0) outside++;
      if (outside === edges.length) return;
      if (outside > 0) anyOutside = true;
    }
    if (!anyOutside) {
      this.#claim(index, face);
      return;
    }
    if (!this.#mayMeet(edges)) return;
    this.#noteCornerEdges(edges);
    this.severalWays = false;
    this.usedExisting = false;
    for (let p = 0; p < count; p++) {
      this.outside[p] = null;
      this.links[p] = 0;
    }
    let piece: Piece = { edges, marks: NO_MARKS };
    for (let p = 0; p < count && piece.edges.length > 0; p++) {
      let crossed = false;
      for (let i = 0; i < piece.edges.length; i++)
        if (this.at(complex.halfFrom(piece.edges[i]), p) > 0) {
          crossed = true;
          break;
        }
      if (crossed) piece = this.#split(piece, p, face);
    }
    if (piece.edges.length === 0) return;
    complex.removeFace(index);
    this.#keepOutside(face);
    for (let i = 0; i < piece.edges.length; i++) {
      const mark = piece.marks[i];
      if (mark < 0) continue;
      if (face.back !== VOID) this.#capEdges(face.back, mark).push(piece.edges[i] ^ 1);
      if (face.front !== VOID) this.#capEdges(face.front, mark).push(piece.edges[i]);
    }
    const back = face.back === VOID ? VOID : this.owner;
    const front = face.front === VOID ? VOID : this.owner;
    if (back === front) return;
    const inside = this.usedExisting ? withoutOpposites(piece.edges) : piece.edges;
    if (inside.length > 2) complex.addFace(inside, back, front, face.normal);
  }

  /**
   * Whether an edge of a face comes within the region (widened by the tolerance). A region of up to three
   * planes, a slot, reaches through the whole piece and so meets a face only where it meets its edges.
   */
  #mayMeet(edges: number[]): boolean {
    const { complex, count } = this;
    if (count > 3) return true;
    const slack = 3 * this.tolerance;
    for (let i = 0; i < edges.length; i++) {
      const a = complex.halfFrom(edges[i]);
      const b = complex.halfTo(edges[i]);
      let from = 0;
      let to = 1;
      for (let p = 0; p < count && from <= to; p++) {
        const da = this.at(a, p) - slack;
        const db = this.at(b, p) - slack;
        if (da <= 0 && db <= 0) continue;
        if (da > 0 && db > 0) to = -1;
        else if (da > 0) from = Math.max(from, da / (da - db));
        else to = Math.min(to, da / (da - db));
      }
      if (from <= to) return true;
    }
    return false;
  }

  /** Gives back what lies outside, without the splits between its pieces: no line is left in a face. */
  #keepOutside(face: Face): void {
    const { complex, outside, links } = this;
    for (let p = 0; p < outside.length; p++) {
      let edges = outside[p];
      if (!edges) continue;
      outside[p] = null;
      let merged = false;
      for (let pending = links[p]; pending !== 0;) {
        const q = 31 - Math.clz32(pending);
        pending &= ~(1 << q);
        const more = outside[q];
        if (!more) continue;
        outside[q] = null;
        pending |= links[q];
        edges = edges.concat(more);
        merged = true;
      }
      if (merged) edges = withoutOpposites(complex.expand(edges));
      if (!this.severalWays && !merged) {
        complex.addFace(edges, face.back, face.front, face.normal);
        continue;
      }
      for (const loop of separateLoops(complex, edges, face.normal))
        if (loop.length > 2) complex.addFace(loop, face.back, face.front, face.normal);
    }
  }

  #claim(index: number, face: Face): void {
    if (face.back !== VOID) face.back = this.owner;
    if (face.front !== VOID) face.front = this.owner;
    if (face.back === face.front) this.complex.removeFace(index);
  }

  #capEdges(owner: number, plane: number): number[] {
    const key = owner * 8 + plane;
    let edges = this.caps.get(key);
    if (!edges) this.caps.set(key, (edges = []));
    return edges;
  }

  #noteCornerEdges(edges: number[]): void {
    const { complex } = this;
    for (let i = 0; i < edges.length; i++) {
      const a = complex.halfFrom(edges[i]);
      const b = complex.halfTo(edges[i]);
      if (this.#onTwoPlanes(a, b)) this.cornerEdges.set(vertexPair(a, b), edges[i]);
    }
  }

  /** Splits a piece of a face by one plane; returns the inside, leaves the outside in this.outside. */
  #split(piece: Piece, p: number, face: Face): Piece {
    const { complex } = this;
    const inside: number[] = [];
    const marks: number[] = [];
    const outside: number[] = [];
    const { exits, entries } = this;
    exits.length = 0;
    entries.length = 0;
    const unmarked = piece.marks === NO_MARKS;
    let touching = 0;
    let onCrossings = 0;
    const { edges } = piece;
    for (let i = 0; i < edges.length; i++) {
      const half = edges[i];
      const a = complex.halfFrom(half);
      const b = complex.halfTo(half);
      const da = this.at(a, p);
      const db = this.at(b, p);
      const mark = unmarked ? -1 : piece.marks[i];
      if (da === 0) touching++;
      if (da <= 0 && db <= 0) {
        inside.push(half);
        marks.push(mark);
      } else if (da > 0 && db > 0) {
        outside.push(half);
        this.#link(mark, p);
      } else if (da === 0 || db === 0) {
        outside.push(half);
        this.#link(mark, p);
        onCrossings++;
        if (da === 0) exits.push(a);
        else entries.push(b);
      } else {
        const middle = this.#cut(half >> 1, p);
        const child = complex.edgeChild[half >> 1];
        const first = half & 1 ? 2 * (child + 1) + 1 : 2 * child;
        const second = half & 1 ? 2 * child + 1 : 2 * (child + 1);
        if (da < 0) {
          inside.push(first);
          outside.push(second);
          exits.push(middle);
        } else {
          outside.push(first);
          inside.push(second);
          entries.push(middle);
        }
        marks.push(mark);
        this.#link(mark, p);
      }
    }
    if (exits.length > 1) this.severalWays = true;
    if (exits.length === 1 && touching === onCrossings) {
      const existing = onCrossings === 2 ? this.#edgeBetween(edges, exits[0], entries[0]) : -1;
      this.#join(exits[0], entries[0], existing, p, inside, marks, outside);
    } else if (exits.length > 0) {
      this.#joinAlong(piece, p, face, exits, entries, inside, marks, outside);
    }
    if (outside.length > 0) {
      const rest = this.usedExisting ? withoutOpposites(outside) : outside;
      if (rest.length > 2) this.outside[p] = rest;
    }
    return { edges: inside, marks };
  }

  #edgeBetween(edges: number[], a: number, b: number): number {
    const { complex } = this;
    for (let i = 0; i < edges.length; i++) {
      const from = complex.halfFrom(edges[i]);
      const to = complex.halfTo(edges[i]);
      if ((from === a && to === b) || (from === b && to === a)) return edges[i];
    }
    return -1;
  }

  /** Notes that an edge made by plane `mark` borders on what plane p splits off. */
  #link(mark: number, p: number): void {
    if (mark < 0) return;
    this.links[mark] |= 1 << p;
    this.links[p] |= 1 << mark;
  }

  /** Joins exits to entries along the cut, in pairs sorted along it, through vertices that lie on it. */
  #joinAlong(
    piece: Piece,
    p: number,
    face: Face,
    exits: number[],
    entries: number[],
    inside: number[],
    marks: number[],
    outside: number[],
  ): void {
    const { complex } = this;
    const along = cross(face.normal, this.planes[p].normal);
    const position = (v: number) => positionAlong(complex.xyz, v, along);
    exits.sort((a, b) => position(a) - position(b));
    entries.sort((a, b) => position(a) - position(b));
    const on = new Set<number>();
    const onEdges = new Map<number, number>();
    for (const half of piece.edges) {
      const a = complex.halfFrom(half);
      if (this.at(a, p) !== 0) continue;
      on.add(a);
      const b = complex.halfTo(half);
      if (this.at(b, p) === 0) onEdges.set(vertexPair(a, b), half);
    }
    for (let i = 0; i < exits.length; i++) {
      const from = position(exits[i]);
      const to = position(entries[i]);
      const between = [...on].filter(
        (v) => v !== exits[i] && v !== entries[i] && position(v) > from && position(v) < to,
      );
      between.sort((a, b) => position(a) - position(b));
      const chain = [exits[i], ...between, entries[i]];
      for (let k = 0; k + 1 < chain.length; k++) {
        const existing = onEdges.get(vertexPair(chain[k], chain[k + 1])) ?? -1;
        this.#join(chain[k], chain[k + 1], existing, p, inside, marks, outside);
      }
    }
  }

  #join(
    from: number,
    to: number,
    existing: number,
    p: number,
    inside: number[],
    marks: number[],
    outside: number[],
  ): void {
    if (from === to) return;
    const half = this.#halfBetween(from, to, existing);
    inside.push(half);
    marks.push(p);
    outside.push(half ^ 1);
  }

  /** The directed edge between two vertices: the existing one, the one on the same two planes, or a new one. */
  #halfBetween(from: number, to: number, existing: number): number {
    if (existing >= 0) {
      this.usedExisting = true;
      return this.complex.halfFrom(existing) === from ? existing : existing ^ 1;
    }
    if (!this.#onTwoPlanes(from, to)) return 2 * this.complex.addEdge(from, to);
    const key = vertexPair(from, to);
    const known = this.cornerEdges.get(key);
    if (known !== undefined) {
      this.usedExisting = true;
      return this.complex.halfFrom(known) === from ? known : known ^ 1;
    }
    const half = 2 * this.complex.addEdge(from, to);
    this.cornerEdges.set(key, half);
    return half;
  }

  #onTwoPlanes(a: number, b: number): boolean {
    let on = 0;
    for (let p = 0; p < this.planes.length; p++) if (this.at(a, p) === 0 && this.at(b, p) === 0) on++;
    return on > 1;
  }

  /** Cuts an edge by a plane that its ends lie on either side of; returns the vertex. */
  #cut(edge: number, p: number): number {
    const { complex } = this;
    const child = complex.edgeChild[edge];
    if (child >= 0) return complex.edgeTo[child];
    const a = complex.edgeFrom[edge];
    const b = complex.edgeTo[edge];
    const da = this.at(a, p);
    const t = da / (da - this.at(b, p));
    const { xyz } = complex;
    const v = complex.addVertex(
      xyz[3 * a] + t * (xyz[3 * b] - xyz[3 * a]),
      xyz[3 * a + 1] + t * (xyz[3 * b + 1] - xyz[3 * a + 1]),
      xyz[3 * a + 2] + t * (xyz[3 * b + 2] - xyz[3 * a + 2]),
    );
    this.#measure(v);
    const count = this.planes.length;
    this.distance[v * count + p] = 0;
    // Ends on one side of another plane keep the point between them there: no new crossing by rounding.
    for (let q = 0; q < count; q++) {
      if (q === p) continue;
      const qa = this.at(a, q);
      const qb = this.at(b, q);
      const d = this.distance[v * count + q];
      if (qa === 0 && qb === 0) this.distance[v * count + q] = 0;
      else if (qa >= 0 && qb >= 0 && d < 0) this.distance[v * count + q] = 0;
      else if (qa <= 0 && qb <= 0 && d > 0) this.distance[v * count + q] = 0;
    }
    complex.splitEdge(edge, v);
    return v;
  }

  /** Makes the new faces on the region's planes. */
  finish(): void {
    const { complex, planes } = this;
    const owners = new Set<number>();
    for (const key of this.caps.keys()) owners.add(Math.floor(key / 8));
    for (const owner of owners) {
      const apexes = new Map<string, number>();
      for (let p = 0; p < planes.length; p++)
        for (let q = p + 1; q < planes.length; q++) this.#joinCorner(owner, p, q, apexes);
      for (let p = 0; p < planes.length; p++) {
        const edges = this.caps.get(owner * 8 + p);
        if (!edges || owner === this.owner) continue;
        const { normal } = planes[p];
        for (const loop of separateLoops(complex, withoutOpposites(complex.expand(edges)), normal))
          if (loop.length > 2) complex.addFace(loop, this.owner, owner, normal);
      }
    }
  }

  /** Joins the open ends of an owner's new faces p and q along the line where the planes meet. */
  #joinCorner(owner: number, p: number, q: number, apexes: Map<string, number>): void {
    const { complex } = this;
    const along = cross(this.planes[p].normal, this.planes[q].normal);
    if (dot(along, along) < 1e-24) return;
    const ofP = this.caps.get(owner * 8 + p);
    const ofQ = this.caps.get(owner * 8 + q);
    if (!ofP && !ofQ) return;
    const exits: number[] = [];
    const entries: number[] = [];
    const on = new Set<number>();
    const balance = new Map<number, number>();
    for (const half of complex.expand(ofP ?? [])) {
      const a = complex.halfFrom(half);
      const b = complex.halfTo(half);
      balance.set(a, (balance.get(a) ?? 0) - 1);
      balance.set(b, (balance.get(b) ?? 0) + 1);
    }
    for (const half of complex.expand(ofQ ?? [])) {
      const a = complex.halfFrom(half);
      if (this.at(a, q) === 0 && this.at(a, p) === 0) on.add(a);
    }
    for (const [v, excess] of balance) {
      if (this.at(v, p) !== 0 || this.at(v, q) !== 0) continue;
      on.add(v);
      for (let i = 0; i < excess; i++) exits.push(v);
      for (let i = 0; i < -excess; i++) entries.push(v);
    }
    if (exits.length !== entries.length) {
      const apex = this.#apex(p, q, apexes);
      (exits.length < entries.length ? exits : entries).push(apex);
    }
    if (exits.length === 0) return;
    const position = (v: number) => positionAlong(complex.xyz, v, along);
    exits.sort((a, b) => position(a) - position(b));
    entries.sort((a, b) => position(a) - position(b));
    const capP = this.#capEdges(owner, p);
    const capQ = this.#capEdges(owner, q);
    for (let i = 0; i < exits.length; i++) {
      const from = position(exits[i]);
      const to = position(entries[i]);
      const between = [...on].filter(
        (v) => v !== exits[i] && v !== entries[i] && position(v) > from && position(v) < to,
      );
      between.sort((a, b) => position(a) - position(b));
      const chain = [exits[i], ...between, entries[i]];
      for (let k = 0; k + 1 < chain.length; k++) {
        if (chain[k] === chain[k + 1]) continue;
        const half = this.#halfBetween(chain[k], chain[k + 1], -1);
        capP.push(half);
        capQ.push(half ^ 1);
      }
    }
  }

  /** The vertex where planes p, q and the third plane of the region nearest to both meet inside an owner. */
  #apex(p: number, q: number, apexes: Map<string, number>): number {
    const { planes, complex } = this;
    for (let r = 0; r < planes.length; r++) {
      if (r === p || r === q) continue;
      const point = meetingPoint(planes[p], planes[q], planes[r]);
      if (!point) continue;
      if (planes.some((plane) => dot(plane.normal, point) - plane.offset_mm > this.tolerance)) continue;
      const key = [p, q, r].sort((a, b) => a - b).join();
      const found = apexes.get(key);
      if (found !== undefined) return found;
      const v = complex.addVertex(point[0], point[1], point[2]);
      this.#measure(v);
      for (const plane of [p, q, r]) this.distance[v * planes.length + plane] = 0;
      apexes.set(key, v);
      return v;
    }
    throw new Error('carve: the corner of a region has an open end and no apex');
  }
}

/**
 * Gives every part of the complex inside all half-spaces normal · p ≤ offset to `owner`.
 * Planes: at most six. Vertices closer to a plane than `tolerance_mm` count as on it.
 */
export function carve(
  complex: FaceComplex,
  planes: readonly Plane[],
  owner: number,
  tolerance_mm: number,
): void {
  if (planes.length > MAX_REGION_PLANES) throw new Error(`carve: ${planes.length} planes`);
  const carver = new Carver(complex, planes, owner, tolerance_mm);
  const before = complex.faces.length;
  if (complex.grid) carveGrid(carver);
  carveFaces(carver, before);
  carver.finish();
}

/** Carves the faces 0 … count − 1 whose box has a part on the inner side of every plane. */
function carveFaces(carver: Carver, count: number): void {
  const { planes, complex, tolerance } = carver;
  const low = planes.map(({ normal }) => normal.map((n, axis) => (n > 0 ? axis : axis + 3)));
  for (let i = 0; i < count; i++) {
    const { boxes } = complex;
    let reaches = true;
    for (let p = 0; p < planes.length; p++) {
      const { normal, offset_mm } = planes[p];
      const corner = low[p];
      const nearest =
        normal[0] * boxes[6 * i + corner[0]] +
        normal[1] * boxes[6 * i + corner[1]] +
        normal[2] * boxes[6 * i + corner[2]];
      // A face that is gone has a box of NaN and reaches nothing.
      if (!(nearest - offset_mm <= tolerance)) {
        reaches = false;
        break;
      }
    }
    if (reaches) carver.carveFace(i);
  }
}

/** Owners of grid facets wholly inside; facets that the region's planes cross become faces, to be carved. */
function carveGrid(carver: Carver): void {
  const { complex, planes, owner, tolerance } = carver;
  const grid = complex.grid;
  if (!grid) return;
  const { columns, ringCount, rowCount, ringZ, ringR, ringVertex, ringEdge } = grid;
  const radial = planes.map(({ normal }) => Math.hypot(normal[0], normal[1]));
  for (let row = 0; row < rowCount; row++) {
    const upper = row + 1 === ringCount ? 0 : row + 1;
    if (grid.rowEdge[row] < 0) continue;
    let reaches = true;
    for (let p = 0; p < planes.length && reaches; p++) {
      const { normal, offset_mm } = planes[p];
      const low = Math.min(
        normal[2] * ringZ[row] - radial[p] * ringR[row],
        normal[2] * ringZ[upper] - radial[p] * ringR[upper],
      );
      reaches = low - offset_mm <= tolerance;
    }
    if (!reaches) continue;
    const lowerStep = ringEdge[row] < 0 ? 0 : 1;
    const upperStep = ringEdge[upper] < 0 ? 0 : 1;
    for (let c = 0; c < columns; c++) {
      const facet = row * columns + c;
      if (grid.owner[facet] === CUT || grid.owner[facet] === VOID) continue;
      const next = c + 1 === columns ? 0 : c + 1;
      const v0 = ringVertex[row] + lowerStep * c;
      const v1 = ringVertex[row] + lowerStep * next;
      const v2 = ringVertex[upper] + upperStep * next;
      const v3 = ringVertex[upper] + upperStep * c;
      let inside = true;
      let apart = false;
      for (let p = 0; p < planes.length; p++) {
        const d0 = carver.at(v0, p);
        const d1 = carver.at(v1, p);
        const d2 = carver.at(v2, p);
        const d3 = carver.at(v3, p);
        if (d0 > 0 && d1 > 0 && d2 > 0 && d3 > 0) {
          apart = true;
          break;
        }
        if (d0 > 0 || d1 > 0 || d2 > 0 || d3 > 0) inside = false;
      }
      if (apart) continue;
      if (inside) {
        grid.owner[facet] = owner;
        continue;
      }
      const back = grid.owner[facet];
      grid.owner[facet] = CUT;
      const normal = facetNormal(complex.xyz, v0, v1, v2, v3);
      carver.carveFace(complex.addFace(complex.facetEdges(row, c), back, VOID, normal));
    }
  }
}

/** Unit normal of the (planar) quadrilateral v0 v1 v2 v3 from its diagonals. */
function facetNormal(xyz: Float64Array, v0: number, v1: number, v2: number, v3: number): Vec3 {
  const at = (v: number): Vec3 => [xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]];
  const [a, b, c, d] = [at(v0), at(v1), at(v2), at(v3)];
  const n = cross([c[0] - a[0], c[1] - a[1], c[2] - a[2]], [d[0] - b[0], d[1] - b[1], d[2] - b[2]]);
  const length = Math.hypot(n[0], n[1], n[2]);
  return [n[0] / length, n[1] / length, n[2] / length];
}

/** The edges without pairs that run the same edge both ways. */
function withoutOpposites(edges: number[]): number[] {
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
function separateLoops(complex: FaceComplex, edges: number[], normal: Vec3): number[][] {
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
function signedArea(complex: FaceComplex, loop: number[], normal: Vec3): number {
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

function positionAlong(xyz: Float64Array, v: number, along: Vec3): number {
  return xyz[3 * v] * along[0] + xyz[3 * v + 1] * along[1] + xyz[3 * v + 2] * along[2];
}

function vertexPair(a: number, b: number): number {
  return a < b ? a * 67108864 + b : b * 67108864 + a;
}

/** Point on three planes, or null where they have none in common. */
function meetingPoint(a: Plane, b: Plane, c: Plane): Vec3 | null {
  const bc = cross(b.normal, c.normal);
  const determinant = dot(a.normal, bc);
  if (Math.abs(determinant) < 1e-12) return null;
  const ca = cross(c.normal, a.normal);
  const ab = cross(a.normal, b.normal);
  return [0, 1, 2].map(
    (i) => (a.offset_mm * bc[i] + b.offset_mm * ca[i] + c.offset_mm * ab[i]) / determinant,
  ) as unknown as Vec3;
}
