/**
 * A closed arrangement of planar faces with shared vertices and shared edges: the data that the solids'
 * kernel carves (carve.ts). Any Cartesian frame; the engine uses the lathe frame in millimetres.
 *
 * Every face separates two owners (`back` behind it, `front` on the side of its normal). Faces name directed
 * edges and an edge is split once for all faces that use it, so neighbours can never disagree about the
 * vertices between them: no T-junction can arise, whatever the rounding.
 *
 * A directed edge ("half") is `2 · edge` from the edge's first vertex to its second, `2 · edge + 1` the other way.
 */

import type { Vec3 } from './vector.ts';
import { NumberTable } from './numberTable.ts';

/** Owner outside all material. */
export const VOID = -2;

export interface Face {
  /** Directed edges, counter-clockwise seen from the front; any order, several loops allowed. */
  edges: number[];
  back: number;
  front: number;
  /** Unit normal, from back to front. */
  readonly normal: Vec3;
}

/**
 * Facets of a surface of revolution that no cut has touched yet, kept as a grid: ring k (vertices at one
 * (z, r)), row k between rings k and k + 1, column c between azimuths c and c + 1.
 */
export interface LatheGrid {
  readonly columns: number;
  readonly ringCount: number;
  readonly rowCount: number;
  /** First vertex of each ring; a ring on the axis has one vertex. */
  readonly ringVertex: Int32Array;
  readonly ringZ: Float64Array;
  readonly ringR: Float64Array;
  /** First edge around each ring, −1 on the axis. */
  readonly ringEdge: Int32Array;
  /** First edge along each row, −1 where the row lies on the axis. */
  readonly rowEdge: Int32Array;
  /** Owner behind each facet, row-major; CUT where the facet has become faces, VOID where it is gone. */
  readonly owner: Int32Array;
}

/** Mark in LatheGrid.owner: the facet lives on as faces. */
export const CUT = -3;

export class FaceComplex {
  xyz = new Float64Array(3 * 1024);
  vertexCount = 0;
  /** The first and the second vertex of each edge: where its two directed edges begin. */
  edgeEnds = new Int32Array(8192);
  /** First of the two edges that an edge was split into (the second is the next one), or −1. */
  edgeChild = new Int32Array(4096);
  edgeCount = 0;
  /** null where a face is gone. */
  faces: (Face | null)[] = [];
  /** Box of each face: least x, y, z, greatest x, y, z. A face that is gone has none (NaN). */
  boxes = new Float64Array(6 * 1024);
  grid: LatheGrid | null = null;
  /** Room for carving: where vertices lie, valid where stamp equals the number of the run (carving.ts). */
  readonly scratch = {
    distance: new Float64Array(8192),
    above: new Int32Array(4096),
    on: new Int32Array(4096),
    stamp: new Int32Array(4096),
    run: 0,
  };
  /** For one face at a time: what belongs to a vertex. */
  readonly atVertex = new NumberTable();

  addVertex(x: number, y: number, z: number): number {
    if (3 * this.vertexCount + 3 > this.xyz.length) {
      const grown = new Float64Array(2 * this.xyz.length);
      grown.set(this.xyz);
      this.xyz = grown;
    }
    const v = this.vertexCount++;
    this.xyz[3 * v] = x;
    this.xyz[3 * v + 1] = y;
    this.xyz[3 * v + 2] = z;
    return v;
  }

  addEdge(from: number, to: number): number {
    if (this.edgeCount === this.edgeChild.length) {
      this.edgeEnds = grownInts(this.edgeEnds);
      this.edgeChild = grownInts(this.edgeChild);
    }
    const e = this.edgeCount++;
    this.edgeEnds[2 * e] = from;
    this.edgeEnds[2 * e + 1] = to;
    this.edgeChild[e] = -1;
    return e;
  }

  /** Splits an edge at a vertex on it. The edge stays as the name of the two. */
  splitEdge(edge: number, vertex: number): void {
    const from = this.edgeEnds[2 * edge];
    const to = this.edgeEnds[2 * edge + 1];
    const first = this.addEdge(from, vertex);
    this.addEdge(vertex, to);
    this.edgeChild[edge] = first;
  }

  halfFrom(half: number): number {
    return this.edgeEnds[half];
  }

  halfTo(half: number): number {
    return this.edgeEnds[half ^ 1];
  }

  /** The directed edges with every split edge replaced by its pieces; the same array when none is split. */
  expand(edges: number[]): number[] {
    const { edgeChild } = this;
    let split = false;
    for (let i = 0; i < edges.length; i++)
      if (edgeChild[edges[i] >> 1] >= 0) {
        split = true;
        break;
      }
    if (!split) return edges;
    const out: number[] = [];
    for (let i = 0; i < edges.length; i++) this.#expandHalf(edges[i], out);
    return out;
  }

  #expandHalf(half: number, out: number[]): void {
    const child = this.edgeChild[half >> 1];
    if (child < 0) {
      out.push(half);
    } else if (half & 1) {
      this.#expandHalf(2 * (child + 1) + 1, out);
      this.#expandHalf(2 * child + 1, out);
    } else {
      this.#expandHalf(2 * child, out);
      this.#expandHalf(2 * (child + 1), out);
    }
  }

  /** Adds a face; its edges must close. Returns its index. */
  addFace(edges: number[], back: number, front: number, normal: Vec3): number {
    const index = this.faces.length;
    if (6 * index + 6 > this.boxes.length) {
      const grown = new Float64Array(2 * this.boxes.length);
      grown.set(this.boxes);
      this.boxes = grown;
    }
    const { xyz, boxes } = this;
    let minX = Infinity;
    let minY = Infinity;
    let minZ = Infinity;
    let maxX = -Infinity;
    let maxY = -Infinity;
    let maxZ = -Infinity;
    for (let i = 0; i < edges.length; i++) {
      const v = 3 * this.halfFrom(edges[i]);
      const x = xyz[v];
      const y = xyz[v + 1];
      const z = xyz[v + 2];
      if (x < minX) minX = x;
      if (x > maxX) maxX = x;
      if (y < minY) minY = y;
      if (y > maxY) maxY = y;
      if (z < minZ) minZ = z;
      if (z > maxZ) maxZ = z;
    }
    const box = 6 * index;
    boxes[box] = minX;
    boxes[box + 1] = minY;
    boxes[box + 2] = minZ;
    boxes[box + 3] = maxX;
    boxes[box + 4] = maxY;
    boxes[box + 5] = maxZ;
    this.faces.push({ edges, back, front, normal });
    return index;
  }

  removeFace(index: number): void {
    this.faces[index] = null;
    this.boxes.fill(NaN, 6 * index, 6 * index + 6);
  }

  /** The directed edges of grid facet (row, column), counter-clockwise from outside; three at the axis. */
  facetEdges(row: number, column: number): number[] {
    const grid = this.grid as LatheGrid;
    const next = column + 1 === grid.columns ? 0 : column + 1;
    const upper = row + 1 === grid.ringCount ? 0 : row + 1;
    const edges: number[] = [];
    if (grid.ringEdge[row] >= 0) edges.push(2 * (grid.ringEdge[row] + column));
    edges.push(2 * (grid.rowEdge[row] + next));
    if (grid.ringEdge[upper] >= 0) edges.push(2 * (grid.ringEdge[upper] + column) + 1);
    edges.push(2 * (grid.rowEdge[row] + column) + 1);
    return edges;
  }
}

function grownInts(array: Int32Array): Int32Array<ArrayBuffer> {
  const grown = new Int32Array(2 * array.length);
  grown.set(array);
  return grown;
}

/** A closed prism along z as a complex: corners counter-clockwise, [x, y]; from z = bottom to top. */
export function prismComplex(
  corners: readonly (readonly [number, number])[],
  bottom: number,
  top: number,
  owner: number,
): FaceComplex {
  const complex = new FaceComplex();
  const n = corners.length;
  for (const z of [bottom, top]) for (const [x, y] of corners) complex.addVertex(x, y, z);
  for (let level = 0; level < 2; level++)
    for (let i = 0; i < n; i++) complex.addEdge(level * n + i, level * n + ((i + 1) % n));
  for (let i = 0; i < n; i++) complex.addEdge(i, n + i);
  const around = Array.from({ length: n }, (_, i) => i);
  complex.addFace(
    around.map((i) => 2 * i + 1),
    owner,
    VOID,
    [0, 0, -1],
  );
  complex.addFace(
    around.map((i) => 2 * (n + i)),
    owner,
    VOID,
    [0, 0, 1],
  );
  for (let i = 0; i < n; i++) {
    const next = (i + 1) % n;
    const dx = corners[next][0] - corners[i][0];
    const dy = corners[next][1] - corners[i][1];
    const length = Math.hypot(dx, dy);
    const edges = [2 * i, 2 * (2 * n + next), 2 * (n + i) + 1, 2 * (2 * n + i) + 1];
    complex.addFace(edges, owner, VOID, [dy / length, -dx / length, 0]);
  }
  return complex;
}

/**
 * A closed solid of revolution as a complex with a grid. The polyline (z, r) starts and ends on the axis, or
 * is a closed loop off the axis (then its last vertex is not repeated and `loop` is true). Vertex c of each
 * ring stands at azimuth 2π c / columns with radius r: the facets are inscribed.
 */
export function latheComplex(
  z: ArrayLike<number>,
  r: ArrayLike<number>,
  columns: number,
  owner: number,
  loop: boolean,
): FaceComplex {
  const complex = new FaceComplex();
  const ringCount = z.length;
  const rowCount = loop ? ringCount : ringCount - 1;
  complex.xyz = new Float64Array(3 * (ringCount * columns + 1024));
  complex.edgeChild = new Int32Array(2 * ringCount * columns + 2048);
  complex.edgeEnds = new Int32Array(2 * complex.edgeChild.length);
  const ringVertex = new Int32Array(ringCount);
  const ringEdge = new Int32Array(ringCount).fill(-1);
  const rowEdge = new Int32Array(rowCount).fill(-1);
  const cosines = new Float64Array(columns);
  const sines = new Float64Array(columns);
  for (let c = 0; c < columns; c++) {
    const [cosine, sine] = unitAt(c, columns);
    cosines[c] = cosine;
    sines[c] = sine;
  }
  for (let k = 0; k < ringCount; k++) {
    ringVertex[k] = complex.vertexCount;
    const count = r[k] === 0 ? 1 : columns;
    for (let c = 0; c < count; c++) complex.addVertex(r[k] * cosines[c], r[k] * sines[c], z[k]);
    if (count === 1) continue;
    ringEdge[k] = complex.edgeCount;
    for (let c = 0; c < columns; c++)
      complex.addEdge(ringVertex[k] + c, ringVertex[k] + (c + 1 === columns ? 0 : c + 1));
  }
  const grid: LatheGrid = {
    columns,
    ringCount,
    rowCount,
    ringVertex,
    ringZ: Float64Array.from(z),
    ringR: Float64Array.from(r),
    ringEdge,
    rowEdge,
    owner: new Int32Array(rowCount * columns).fill(owner),
  };
  for (let k = 0; k < rowCount; k++) {
    const upper = (k + 1) % ringCount;
    if (r[k] === 0 && r[upper] === 0) {
      grid.owner.fill(VOID, k * columns, (k + 1) * columns);
      continue;
    }
    rowEdge[k] = complex.edgeCount;
    for (let c = 0; c < columns; c++)
      complex.addEdge(
        ringVertex[k] + (ringEdge[k] < 0 ? 0 : c),
        ringVertex[upper] + (ringEdge[upper] < 0 ? 0 : c),
      );
  }
  complex.grid = grid;
  return complex;
}

/** Point c of n on the unit circle, exact on the axes and symmetric in the quadrants when 4 divides n. */
function unitAt(c: number, n: number): readonly [number, number] {
  if (n % 4 !== 0) return [Math.cos((2 * Math.PI * c) / n), Math.sin((2 * Math.PI * c) / n)];
  const quarter = n / 4;
  const angle = ((c % quarter) * 2 * Math.PI) / n;
  const x = Math.cos(angle);
  const y = Math.sin(angle);
  switch (Math.floor(c / quarter)) {
    case 0:
      return [x, y];
    case 1:
      return [-y, x];
    case 2:
      return [-x, -y];
    default:
      return [y, -x];
  }
}
