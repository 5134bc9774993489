/**
 * Carving one face at a time: split by the region's planes in turn, what is outside given back, what is inside
 * handed to the new owner (carve.ts, steps 1 and 2).
 */
import { withoutOpposites, separateLoops } from './loops.ts';
import { vertexPair, type Carving } from './carving.ts';
import { VOID, type Face } from './faceComplex.ts';
import { cross } from './vector.ts';

/** Marks of a face that no plane has split yet: none of its edges has one. */
const NO_MARKS: number[] = [];

interface Piece {
  edges: number[];
  /** Plane of the region that made the edge, or −1; same length as edges. */
  marks: number[];
}

export class FaceCarver {
  readonly carving: Carving;
  /** What each plane split off the face at hand. */
  readonly outside: (number[] | null)[] = [];
  /** links[p]: bit q set where what plane q split off borders on what plane p split off. */
  readonly links: number[] = [];
  readonly exits: number[] = [];
  readonly entries: number[] = [];
  /** Whether a split of the face at hand crossed it more than once. */
  severalWays = false;

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
    let anyOutside = false;
    for (let p = 0; p < count; p++) {
      let outside = 0;
      for (let i = 0; i < edges.length; i++) if (carving.at(complex.halfFrom(edges[i]), p) > 0) outside++;
      if (outside === edges.length) return;
      if (outside > 0) anyOutside = true;
    }
    if (!anyOutside) {
      this.#claim(index, face);
      return;
    }
    if (!this.#mayMeet(edges)) return;
    carving.noteCornerEdges(edges);
    this.severalWays = false;
    carving.usedExisting = false;
    for (let p = 0; p < count; p++) {
      this.outside[p] = null;
      this.links[p] = 0;
    }
    let piece: Piece = { edges, marks: NO_MARKS };
    for (let p = 0; p < count && piece.edges.length > 0; p++) {
      let crossed = false;
      for (let i = 0; i < piece.edges.length; i++)
        if (carving.at(complex.halfFrom(piece.edges[i]), p) > 0) {
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
      if (face.back !== VOID) carving.capEdges(face.back, mark).push(piece.edges[i] ^ 1);
      if (face.front !== VOID) carving.capEdges(face.front, mark).push(piece.edges[i]);
    }
    const back = face.back === VOID ? VOID : this.carving.owner;
    const front = face.front === VOID ? VOID : this.carving.owner;
    if (back === front) return;
    const inside = carving.usedExisting ? withoutOpposites(piece.edges) : piece.edges;
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
      if (!this.severalWays && !merged) {
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

  /** Splits a piece of a face by one plane; returns the inside, leaves the outside in this.outside. */
  #split(piece: Piece, p: number, face: Face): Piece {
    const { carving } = this;
    const { complex } = carving;
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
      const da = carving.at(a, p);
      const db = carving.at(b, p);
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
      const rest = carving.usedExisting ? withoutOpposites(outside) : outside;
      if (rest.length > 2) this.outside[p] = rest;
    }
    return { edges: inside, marks };
  }

  #edgeBetween(edges: number[], a: number, b: number): number {
    const { carving } = this;
    const { complex } = carving;
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
    const { carving } = this;
    const { complex } = carving;
    const along = cross(face.normal, carving.planes[p].normal);
    const position = (v: number) => carving.positionAlong(v, along);
    exits.sort((a, b) => position(a) - position(b));
    entries.sort((a, b) => position(a) - position(b));
    const on = new Set<number>();
    const onEdges = new Map<number, number>();
    for (const half of piece.edges) {
      const a = complex.halfFrom(half);
      if (carving.at(a, p) !== 0) continue;
      on.add(a);
      const b = complex.halfTo(half);
      if (carving.at(b, p) === 0) onEdges.set(vertexPair(a, b), half);
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
    const half = this.carving.halfBetween(from, to, existing);
    inside.push(half);
    marks.push(p);
    outside.push(half ^ 1);
  }

  /** Cuts an edge by a plane that its ends lie on either side of; returns the vertex. */
  #cut(edge: number, p: number): number {
    const { carving } = this;
    const { complex } = carving;
    const child = complex.edgeChild[edge];
    if (child >= 0) return complex.edgeTo[child];
    const a = complex.edgeFrom[edge];
    const b = complex.edgeTo[edge];
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
