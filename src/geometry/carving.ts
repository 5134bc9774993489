/**
 * What one carving knows: the region, on which side of its planes each vertex lies, and the edges of the
 * faces that the region gets inside each owner (carve.ts). Complex's frame, mm.
 */
import type { FaceComplex } from './faceComplex.ts';
import type { Plane } from './plane.ts';
import type { Vec3 } from './vector.ts';

/** Most planes that a region may have: sets of planes are bits of one number. */
export const MAX_REGION_PLANES = 31;

export class Carving {
  readonly complex: FaceComplex;
  readonly planes: readonly Plane[];
  readonly owner: number;
  readonly tolerance_mm: number;
  readonly count: number;
  /** Normal and offset of each plane, four numbers in a row. */
  readonly coefficients: Float64Array;
  /** Directed edges of the new faces, by owner and plane, turned as the new faces need them. */
  readonly caps = new Map<number, number[][]>();
  /** Whether an edge was asked for that was there before (halfBetween). */
  usedExisting = false;
  readonly #run: number;
  #distance: Float64Array;
  #above: Int32Array;
  #on: Int32Array;
  #stamp: Int32Array;
  /** Edges on two planes of the region at once, by their vertices. */
  readonly #cornerEdges = new Map<number, number>();

  constructor(complex: FaceComplex, planes: readonly Plane[], owner: number, tolerance_mm: number) {
    this.complex = complex;
    this.planes = planes;
    this.owner = owner;
    this.tolerance_mm = tolerance_mm;
    this.count = planes.length;
    this.coefficients = new Float64Array(4 * planes.length);
    planes.forEach(({ normal, offset_mm }, p) => {
      this.coefficients.set(normal, 4 * p);
      this.coefficients[4 * p + 3] = offset_mm;
    });
    const { scratch } = complex;
    this.#run = ++scratch.run;
    this.#distance = scratch.distance;
    this.#above = scratch.above;
    this.#on = scratch.on;
    this.#stamp = scratch.stamp;
  }

  /** Signed distance of a vertex from a plane of the region, 0 within the tolerance. */
  at(vertex: number, plane: number): number {
    if (this.#stamp[vertex] !== this.#run) this.#measure(vertex);
    return this.#distance[vertex * this.count + plane];
  }

  /** Bit p set: the vertex lies outside plane p. */
  above(vertex: number): number {
    if (this.#stamp[vertex] !== this.#run) this.#measure(vertex);
    return this.#above[vertex];
  }

  /** Bit p set: the vertex lies on plane p. */
  on(vertex: number): number {
    if (this.#stamp[vertex] !== this.#run) this.#measure(vertex);
    return this.#on[vertex];
  }

  #measure(vertex: number): void {
    const { count } = this;
    if (vertex >= this.#stamp.length || (vertex + 1) * count > this.#distance.length) this.#grow(vertex);
    const { xyz } = this.complex;
    const plane = this.coefficients;
    const x = xyz[3 * vertex];
    const y = xyz[3 * vertex + 1];
    const z = xyz[3 * vertex + 2];
    let above = 0;
    let on = 0;
    for (let p = 0; p < count; p++) {
      const d = plane[4 * p] * x + plane[4 * p + 1] * y + plane[4 * p + 2] * z - plane[4 * p + 3];
      if (Math.abs(d) < this.tolerance_mm) {
        this.#distance[vertex * count + p] = 0;
        on |= 1 << p;
      } else {
        this.#distance[vertex * count + p] = d;
        if (d > 0) above |= 1 << p;
        else if (d === 0) on |= 1 << p;
      }
    }
    this.#above[vertex] = above;
    this.#on[vertex] = on;
    this.#stamp[vertex] = this.#run;
  }

  #grow(vertex: number): void {
    const { scratch } = this.complex;
    const size = 2 * vertex + 4096;
    this.#stamp = scratch.stamp = grown(this.#stamp, size);
    this.#above = scratch.above = grown(this.#above, size);
    this.#on = scratch.on = grown(this.#on, size);
    const distance = new Float64Array(size * this.count);
    distance.set(this.#distance.subarray(0, Math.min(this.#distance.length, distance.length)));
    this.#distance = scratch.distance = distance;
  }

  /** From now on the vertex lies on the plane. */
  #setOn(vertex: number, plane: number): void {
    this.#distance[vertex * this.count + plane] = 0;
    this.#on[vertex] |= 1 << plane;
    this.#above[vertex] &= ~(1 << plane);
  }

  /** Measures a new vertex that lies on the given planes by construction. */
  placeOn(vertex: number, planes: readonly number[]): void {
    this.#measure(vertex);
    for (const p of planes) this.#setOn(vertex, p);
  }

  /**
   * Measures a new vertex on edge a b and plane p. Where both ends lie on one side of another plane, so does
   * the point between them: no new crossing by rounding.
   */
  placeBetween(vertex: number, a: number, b: number, p: number): void {
    this.#measure(vertex);
    const { count } = this;
    this.#setOn(vertex, p);
    for (let q = 0; q < count; q++) {
      if (q === p) continue;
      const qa = this.at(a, q);
      const qb = this.at(b, q);
      const d = this.#distance[vertex * count + q];
      if ((qa === 0 && qb === 0) || (qa >= 0 && qb >= 0 && d < 0) || (qa <= 0 && qb <= 0 && d > 0))
        this.#setOn(vertex, q);
    }
  }

  capEdges(owner: number, plane: number): number[] {
    let byPlane = this.caps.get(owner);
    if (!byPlane) this.caps.set(owner, (byPlane = this.planes.map(() => [])));
    return byPlane[plane];
  }

  noteCornerEdges(edges: number[]): void {
    const { complex } = this;
    for (let i = 0; i < edges.length; i++) {
      const a = complex.halfFrom(edges[i]);
      const b = complex.halfTo(edges[i]);
      if (this.#onTwoPlanes(a, b)) this.#cornerEdges.set(vertexPair(a, b), edges[i]);
    }
  }

  /** The directed edge between two vertices: the existing one, the one on the same two planes, or a new one. */
  halfBetween(from: number, to: number, existing: number): number {
    if (existing >= 0) {
      this.usedExisting = true;
      return this.complex.halfFrom(existing) === from ? existing : existing ^ 1;
    }
    if (!this.#onTwoPlanes(from, to)) return 2 * this.complex.addEdge(from, to);
    const key = vertexPair(from, to);
    const known = this.#cornerEdges.get(key);
    if (known !== undefined) {
      this.usedExisting = true;
      return this.complex.halfFrom(known) === from ? known : known ^ 1;
    }
    const half = 2 * this.complex.addEdge(from, to);
    this.#cornerEdges.set(key, half);
    return half;
  }

  #onTwoPlanes(a: number, b: number): boolean {
    const both = this.on(a) & this.on(b);
    return (both & (both - 1)) !== 0;
  }

  /** Sorts vertices along a direction, in place; there are few of them. */
  sortAlong(vertices: number[], along: Vec3): void {
    for (let i = 1; i < vertices.length; i++) {
      const v = vertices[i];
      const position = this.positionAlong(v, along);
      let j = i;
      while (j > 0 && this.positionAlong(vertices[j - 1], along) > position) {
        vertices[j] = vertices[j - 1];
        j--;
      }
      vertices[j] = v;
    }
  }

  /** Position of a vertex along a direction. */
  positionAlong(vertex: number, along: Vec3): number {
    const { xyz } = this.complex;
    return xyz[3 * vertex] * along[0] + xyz[3 * vertex + 1] * along[1] + xyz[3 * vertex + 2] * along[2];
  }
}

function grown(array: Int32Array, size: number): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(size);
  larger.set(array.subarray(0, Math.min(array.length, size)));
  return larger;
}

export function vertexPair(a: number, b: number): number {
  return a < b ? a * 67108864 + b : b * 67108864 + a;
}
