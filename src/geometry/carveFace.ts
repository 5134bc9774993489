/**
 * Carving one face at a time: split by the region's planes in turn, what is outside given back, what is inside
 * handed to the new owner (carve.ts, steps 1 and 2).
 */
import { withoutOpposites, separateLoops } from './loops.ts';
import type { Carving } from './carving.ts';
import { VOID, type Face } from './faceComplex.ts';
import { cross } from './vector.ts';

/** A piece of a face, in arrays that are used again: the first `count` entries hold. */
interface Piece {
  edges: number[];
  /** Plane of the region that made the edge, or −1. */
  readonly marks: number[];
  count: number;
}

export class FaceCarver {
  readonly carving: Carving;
  /** What each plane split off the face at hand. */
  readonly outside: (number[] | null)[] = [];
  /** links[p]: bit q set where what plane q split off borders on what plane p split off. */
  readonly links: number[] = [];
  /** Vertices where the border of the piece at hand leaves the inside of a plane, and where it comes back. */
  readonly #exits: number[] = [];
  readonly #entries: number[] = [];
  #exitCount = 0;
  #entryCount = 0;
  /** Inside and outside of the split at hand; the piece that is split is one of the first two. */
  #piece: Piece = { edges: [], marks: [], count: 0 };
  #next: Piece = { edges: [], marks: [], count: 0 };
  readonly #outside: number[] = [];
  #outsideCount = 0;
  /** Whether a split of the face at hand crossed it more than once. */
  #severalWays = false;

  constructor(carving: Carving) {
    this.carving = carving;
  }

  /** Carves one face of the complex. */
  carveFace(index: number): void {
    const { carving } = this;
    const { complex, count } = carving;
    const face = complex.faces[index] as Face;
    const edges = complex.expand(face.edges);
    face.edges = edges;
    let allOutside = -1;
    let anyOutside = 0;
    let anyWithin = false;
    let anyCorner = false;
    for (let i = 0; i < edges.length; i++) {
      const vertex = complex.halfFrom(edges[i]);
      const above = carving.above(vertex);
      allOutside &= above;
      anyOutside |= above;
      if (above === 0) anyWithin = true;
      const on = carving.on(vertex);
      if (on & (on - 1)) anyCorner = true;
    }
    if (allOutside !== 0) return;
    if (anyOutside === 0) {
      this.#claim(index, face);
      return;
    }
    if (!anyWithin && !this.#mayMeet(edges)) return;
    if (anyCorner) carving.noteCornerEdges(edges);
    this.#severalWays = false;
    carving.usedExisting = false;
    for (let p = 0; p < count; p++) {
      this.outside[p] = null;
      this.links[p] = 0;
    }
    this.#begin(edges);
    for (let p = 0; p < count && this.#piece.count > 0; p++) {
      const { edges: left, count: n } = this.#piece;
      let crossed = 0;
      for (let i = 0; i < n; i++) crossed |= carving.above(complex.halfFrom(left[i]));
      if (crossed & (1 << p)) this.#split(p, face);
    }
    const piece = this.#piece;
    if (piece.count === 0) return;
    complex.removeFace(index);
    this.#keepOutside(face);
    for (let i = 0; i < piece.count; i++) {
      const mark = piece.marks[i];
      if (mark < 0) continue;
      if (face.back !== VOID) carving.capEdges(face.back, mark).push(piece.edges[i] ^ 1);
      if (face.front !== VOID) carving.capEdges(face.front, mark).push(piece.edges[i]);
    }
    const back = face.back === VOID ? VOID : this.carving.owner;
    const front = face.front === VOID ? VOID : this.carving.owner;
    if (back === front) return;
    const left = piece.edges.slice(0, piece.count);
    const inside = carving.usedExisting ? withoutOpposites(left) : left;
    if (inside.length > 2) complex.addFace(inside, back, front, face.normal);
  }

  /**
   * Whether an edge of a face comes within the region (widened by the tolerance). A region of up to three
   * planes, a slot, reaches through the whole piece and so meets a face only where it meets its edges.
   */
  #mayMeet(edges: number[]): boolean {
    const { carving } = this;
    const { complex, count } = carving;
    if (count > 3) return true;
    const slack = 3 * carving.tolerance_mm;
    for (let i = 0; i < edges.length; i++) {
      const a = complex.halfFrom(edges[i]);
      const b = complex.halfTo(edges[i]);
      let from = 0;
      let to = 1;
      for (let p = 0; p < count && from <= to; p++) {
        const da = carving.at(a, p) - slack;
        const db = carving.at(b, p) - slack;
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
    const { outside, links } = this;
    const { complex } = this.carving;
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
      if (!this.#severalWays && !merged) {
        complex.addFace(edges, face.back, face.front, face.normal);
        continue;
      }
      for (const loop of separateLoops(complex, edges, face.normal))
        if (loop.length > 2) complex.addFace(loop, face.back, face.front, face.normal);
    }
  }

  #claim(index: number, face: Face): void {
    if (face.back !== VOID) face.back = this.carving.owner;
    if (face.front !== VOID) face.front = this.carving.owner;
    if (face.back === face.front) this.carving.complex.removeFace(index);
  }

  #begin(edges: number[]): void {
    const piece = this.#piece;
    for (let i = 0; i < edges.length; i++) {
      piece.edges[i] = edges[i];
      piece.marks[i] = -1;
    }
    piece.count = edges.length;
  }

  #keep(half: number, mark: number): void {
    const next = this.#next;
    next.edges[next.count] = half;
    next.marks[next.count++] = mark;
  }

  #leave(half: number): void {
    this.#outside[this.#outsideCount++] = half;
  }

  /** Splits the piece at hand by one plane: the inside becomes the piece, the outside goes to this.outside. */
  #split(p: number, face: Face): void {
    const { carving } = this;
    const { complex } = carving;
    const piece = this.#piece;
    const next = this.#next;
    next.count = 0;
    this.#outsideCount = 0;
    this.#exitCount = 0;
    this.#entryCount = 0;
    const bit = 1 << p;
    let touching = 0;
    let onCrossings = 0;
    const { edges, marks } = piece;
    for (let i = 0; i < piece.count; i++) {
      const half = edges[i];
      const a = complex.halfFrom(half);
      const b = complex.halfTo(half);
      const aboveA = carving.above(a) & bit;
      const aboveB = carving.above(b) & bit;
      const onA = carving.on(a) & bit;
      const mark = marks[i];
      if (onA) touching++;
      if (!aboveA && !aboveB) {
        this.#keep(half, mark);
      } else if (aboveA && aboveB) {
        this.#leave(half);
        this.#link(mark, p);
      } else if (onA || carving.on(b) & bit) {
        this.#leave(half);
        this.#link(mark, p);
        onCrossings++;
        if (onA) this.#exits[this.#exitCount++] = a;
        else this.#entries[this.#entryCount++] = b;
      } else {
        const middle = this.#cut(half >> 1, p);
        const child = complex.edgeChild[half >> 1];
        const first = half & 1 ? 2 * (child + 1) + 1 : 2 * child;
        const second = half & 1 ? 2 * child + 1 : 2 * (child + 1);
        if (aboveB) {
          this.#keep(first, mark);
          this.#leave(second);
          this.#exits[this.#exitCount++] = middle;
        } else {
          this.#leave(first);
          this.#keep(second, mark);
          this.#entries[this.#entryCount++] = middle;
        }
        this.#link(mark, p);
      }
    }
    if (this.#exitCount > 1) this.#severalWays = true;
    if (this.#exitCount === 1 && touching === onCrossings) {
      const exit = this.#exits[0];
      const entry = this.#entries[0];
      this.#join(exit, entry, onCrossings === 2 ? this.#edgeBetween(exit, entry) : -1, p);
    } else if (this.#exitCount > 0) {
      this.#joinAlong(p, face);
    }
    if (this.#outsideCount > 0) {
      const outside = this.#outside.slice(0, this.#outsideCount);
      const rest = carving.usedExisting ? withoutOpposites(outside) : outside;
      if (rest.length > 2) this.outside[p] = rest;
    }
    this.#next = piece;
    this.#piece = next;
  }

  /** An edge of the piece that is split between two vertices, the last of several, or −1. */
  #edgeBetween(a: number, b: number): number {
    const { complex } = this.carving;
    const { edges } = this.#piece;
    for (let i = this.#piece.count - 1; i >= 0; i--) {
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
  #joinAlong(p: number, face: Face): void {
    const { carving } = this;
    const { complex } = carving;
    const exits = this.#exits.slice(0, this.#exitCount);
    const entries = this.#entries.slice(0, this.#entryCount);
    const bit = 1 << p;
    const along = cross(face.normal, carving.planes[p].normal);
    const position = (v: number) => carving.positionAlong(v, along);
    carving.sortAlong(exits, along);
    carving.sortAlong(entries, along);
    const { edges, count } = this.#piece;
    for (let i = 0; i < exits.length; i++) {
      const from = position(exits[i]);
      const to = position(entries[i]);
      const between: number[] = [];
      for (let k = 0; k < count; k++) {
        const v = complex.halfFrom(edges[k]);
        if ((carving.on(v) & bit) === 0 || v === exits[i] || v === entries[i]) continue;
        if (position(v) > from && position(v) < to && !between.includes(v)) between.push(v);
      }
      carving.sortAlong(between, along);
      let last = exits[i];
      for (let k = 0; k <= between.length; k++) {
        const v = k < between.length ? between[k] : entries[i];
        this.#join(last, v, this.#edgeBetween(last, v), p);
        last = v;
      }
    }
  }

  #join(from: number, to: number, existing: number, p: number): void {
    if (from === to) return;
    const half = this.carving.halfBetween(from, to, existing);
    this.#keep(half, p);
    this.#leave(half ^ 1);
  }

  /** Cuts an edge by a plane that its ends lie on either side of; returns the vertex. */
  #cut(edge: number, p: number): number {
    const { carving } = this;
    const { complex } = carving;
    const child = complex.edgeChild[edge];
    if (child >= 0) return complex.halfTo(2 * child);
    const a = complex.halfFrom(2 * edge);
    const b = complex.halfTo(2 * edge);
    const da = carving.at(a, p);
    const t = da / (da - carving.at(b, p));
    const { xyz } = complex;
    const v = complex.addVertex(
      xyz[3 * a] + t * (xyz[3 * b] - xyz[3 * a]),
      xyz[3 * a + 1] + t * (xyz[3 * b + 1] - xyz[3 * a + 1]),
      xyz[3 * a + 2] + t * (xyz[3 * b + 2] - xyz[3 * a + 2]),
    );
    carving.placeBetween(v, a, b, p);
    complex.splitEdge(edge, v);
    return v;
  }
}
