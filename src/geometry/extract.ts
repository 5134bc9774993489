/**
 * Triangle meshes of the owners of a face complex. Each face is triangulated once and given to both its
 * sides, so neighbouring solids share vertices and the volumes of all solids add up to the whole's.
 */
import { CUT, VOID, type FaceComplex, type LatheGrid } from './faceComplex.ts';
import { Triangulator } from './triangulate.ts';

export interface Solid {
  /** x, y, z of each vertex. */
  readonly positions: Float64Array;
  /** Vertex triples, counter-clockwise seen from outside. */
  readonly triangles: Uint32Array;
  readonly volume: number;
}

/**
 * One closed mesh per group. `groupOf(owner)` gives the index of the group that an owner belongs to, or −1
 * to leave it out; faces inside a group vanish.
 */
export function extractSolids(
  complex: FaceComplex,
  groupCount: number,
  groupOf: (owner: number) => number,
): Solid[] {
  const builders = Array.from({ length: groupCount }, () => new SolidBuilder());
  const triangulator = new Triangulator(complex, needlessVertices(complex));
  const group = (owner: number) => (owner === VOID ? -1 : groupOf(owner));
  const { grid } = complex;
  if (grid) {
    for (let row = 0; row < grid.rowCount; row++)
      for (let column = 0; column < grid.columns; column++) {
        const owner = grid.owner[row * grid.columns + column];
        if (owner === CUT || owner === VOID) continue;
        const g = group(owner);
        if (g < 0) continue;
        emitFacet(complex, grid, row, column, triangulator, builders[g]);
      }
  }
  for (const face of complex.faces) {
    if (!face) continue;
    const back = group(face.back);
    const front = group(face.front);
    if (back === front) continue;
    triangulator.divide(face.edges, face.normal);
    if (back >= 0) builders[back].add(triangulator, false);
    if (front >= 0) builders[front].add(triangulator, true);
  }
  const local = new Int32Array(complex.vertexCount).fill(-1);
  return builders.map((builder) => builder.build(complex.xyz, local));
}

/**
 * Vertices that lie along an edge and end no other: left by cuts whose slot stops short of them. A vertex is
 * needless when exactly two edges in use meet there (two planar faces then share both, on one line).
 */
function needlessVertices(complex: FaceComplex): Uint8Array {
  const degree = new Uint8Array(complex.vertexCount);
  const seen = new Uint8Array(complex.edgeCount);
  const { grid } = complex;
  const count = (edges: number[]) => {
    for (let i = 0; i < edges.length; i++) {
      const edge = edges[i] >> 1;
      if (seen[edge]) continue;
      seen[edge] = 1;
      const a = complex.halfFrom(edges[i]);
      const b = complex.halfTo(edges[i]);
      if (degree[a] < 3) degree[a]++;
      if (degree[b] < 3) degree[b]++;
    }
  };
  for (const face of complex.faces) {
    if (!face) continue;
    face.edges = complex.expand(face.edges);
    count(face.edges);
  }
  if (grid) {
    for (let v = 0; v < degree.length && v < grid.ringVertex[grid.ringCount - 1] + grid.columns; v++)
      degree[v] = 3;
    for (let row = 0; row < grid.rowCount; row++)
      for (let column = 0; column < grid.columns; column++) {
        const owner = grid.owner[row * grid.columns + column];
        if (owner === CUT || owner === VOID || !facetSplit(complex, grid, row, column)) continue;
        count(complex.expand(complex.facetEdges(row, column)));
      }
  }
  const needless = new Uint8Array(complex.vertexCount);
  for (let v = 0; v < degree.length; v++) if (degree[v] === 2) needless[v] = 1;
  return needless;
}

function facetSplit(complex: FaceComplex, grid: LatheGrid, row: number, column: number): boolean {
  const next = column + 1 === grid.columns ? 0 : column + 1;
  const low = grid.ringEdge[row];
  const high = grid.ringEdge[row + 1 === grid.ringCount ? 0 : row + 1];
  const side = grid.rowEdge[row];
  const { edgeChild } = complex;
  return (
    (low >= 0 && edgeChild[low + column] >= 0) ||
    (high >= 0 && edgeChild[high + column] >= 0) ||
    edgeChild[side + column] >= 0 ||
    edgeChild[side + next] >= 0
  );
}

function emitFacet(
  complex: FaceComplex,
  grid: LatheGrid,
  row: number,
  column: number,
  triangulator: Triangulator,
  builder: SolidBuilder,
): void {
  const next = column + 1 === grid.columns ? 0 : column + 1;
  const upper = row + 1 === grid.ringCount ? 0 : row + 1;
  const low = grid.ringEdge[row];
  const high = grid.ringEdge[upper];
  const v0 = grid.ringVertex[row] + (low < 0 ? 0 : column);
  const v1 = grid.ringVertex[row] + (low < 0 ? 0 : next);
  const v2 = grid.ringVertex[upper] + (high < 0 ? 0 : next);
  const v3 = grid.ringVertex[upper] + (high < 0 ? 0 : column);
  if (!facetSplit(complex, grid, row, column)) {
    if (low >= 0) builder.triangle(v0, v1, v2);
    if (high >= 0) builder.triangle(v0, v2, v3);
    return;
  }
  const { xyz } = complex;
  const ux = xyz[3 * v2] - xyz[3 * v0];
  const uy = xyz[3 * v2 + 1] - xyz[3 * v0 + 1];
  const uz = xyz[3 * v2 + 2] - xyz[3 * v0 + 2];
  const wx = xyz[3 * v3] - xyz[3 * v1];
  const wy = xyz[3 * v3 + 1] - xyz[3 * v1 + 1];
  const wz = xyz[3 * v3 + 2] - xyz[3 * v1 + 2];
  const nx = uy * wz - uz * wy;
  const ny = uz * wx - ux * wz;
  const nz = ux * wy - uy * wx;
  const length = Math.hypot(nx, ny, nz);
  const edges = complex.expand(complex.facetEdges(row, column));
  triangulator.divide(edges, [nx / length, ny / length, nz / length]);
  builder.add(triangulator, false);
}

class SolidBuilder {
  #indices = new Int32Array(1536);
  #count = 0;

  triangle(a: number, b: number, c: number): void {
    if (this.#count + 3 > this.#indices.length) this.#grow(3);
    this.#indices[this.#count++] = a;
    this.#indices[this.#count++] = b;
    this.#indices[this.#count++] = c;
  }

  /** Adds the triangles of the face that was divided last. */
  add({ triples, count }: Triangulator, reversed: boolean): void {
    if (this.#count + 3 * count > this.#indices.length) this.#grow(3 * count);
    const indices = this.#indices;
    const second = reversed ? 2 : 1;
    let at = this.#count;
    for (let i = 0; i < 3 * count; i += 3) {
      indices[at] = triples[i];
      indices[at + 1] = triples[i + second];
      indices[at + 2] = triples[i + 3 - second];
      at += 3;
    }
    this.#count = at;
  }

  #grow(by: number): void {
    const grown = new Int32Array(2 * this.#indices.length + by);
    grown.set(this.#indices);
    this.#indices = grown;
  }

  /** `local` maps complex vertices to this solid's; −1 everywhere before and after. */
  build(xyz: Float64Array, local: Int32Array): Solid {
    const count = this.#count;
    const indices = this.#indices;
    const triangles = new Uint32Array(count);
    const used = new Int32Array(count);
    let vertices = 0;
    for (let i = 0; i < count; i++) {
      const v = indices[i];
      if (local[v] < 0) {
        used[vertices] = v;
        local[v] = vertices++;
      }
      triangles[i] = local[v];
    }
    const positions = new Float64Array(3 * vertices);
    for (let i = 0; i < vertices; i++) {
      const v = used[i];
      positions[3 * i] = xyz[3 * v];
      positions[3 * i + 1] = xyz[3 * v + 1];
      positions[3 * i + 2] = xyz[3 * v + 2];
      local[v] = -1;
    }
    return { positions, triangles, volume: enclosedVolume(positions, triangles) };
  }
}

/** Volume enclosed by a closed mesh (divergence theorem), about its first vertex; compensated sum. */
export function enclosedVolume(positions: Float64Array, triangles: ArrayLike<number>): number {
  if (triangles.length === 0) return 0;
  const ox = positions[0];
  const oy = positions[1];
  const oz = positions[2];
  let sum = 0;
  let lost = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const ax = positions[a] - ox;
    const ay = positions[a + 1] - oy;
    const az = positions[a + 2] - oz;
    const bx = positions[b] - ox;
    const by = positions[b + 1] - oy;
    const bz = positions[b + 2] - oz;
    const cx = positions[c] - ox;
    const cy = positions[c + 1] - oy;
    const cz = positions[c + 2] - oz;
    const term = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx) - lost;
    const next = sum + term;
    lost = next - sum - term;
    sum = next;
  }
  return sum / 6;
}
