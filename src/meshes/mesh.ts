/**
 * The mesh that the stage draws: one closed surface of the whole workpiece, in typed arrays that go to the graphics
 * card, through a worker, or into the boolean library without a copy.
 *
 * Frame: y-up, millimetres: (X, Y, Z) = (x, z, −y) of the lathe frame, so Y = 0 is the foot. This folder is the only
 * one that knows y-up; the change is a rotation, so windings stay.
 */
import type { Vec3 } from '../geometry/vector.ts';

export interface WorkMesh {
  /** X, Y, Z of each vertex, mm. Vertices are doubled along creases. */
  readonly positions: Float32Array;
  /** Unit normals, three per vertex. */
  readonly normals: Float32Array;
  /**
   * Per vertex: the radius of the surface of revolution that the vertex lies on, mm, or −1 where the surface is
   * plane. The shader moves a facet's point out to the true surface with it.
   */
  readonly radii: Float32Array;
  /** Per vertex, 0…1: how much of the sky the point sees. */
  readonly openness: Float32Array;
  /** Three vertices per triangle, counter-clockwise seen from outside. */
  readonly indices: Uint32Array;
}

/** From the lathe frame to the drawn frame. */
export function toDrawn([x, y, z]: Vec3): [number, number, number] {
  return [x, z, 0 - y];
}

/** From the drawn frame to the lathe frame. */
export function toLathe(X: number, Y: number, Z: number): [number, number, number] {
  return [X, 0 - Z, Y];
}

/** Signed volume enclosed by a mesh, mm³; positive when the windings point out. */
export function meshVolume_mm3(mesh: Pick<WorkMesh, 'positions' | 'indices'>): number {
  const { positions: p, indices } = mesh;
  if (indices.length === 0) return 0;
  // Measured from a vertex of the mesh: the terms stay small and so does their rounding.
  const o = indices[0] * 3;
  const [ox, oy, oz] = [p[o], p[o + 1], p[o + 2]];
  let six = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const a = indices[t] * 3;
    const b = indices[t + 1] * 3;
    const c = indices[t + 2] * 3;
    const ax = p[a] - ox;
    const ay = p[a + 1] - oy;
    const az = p[a + 2] - oz;
    const bx = p[b] - ox;
    const by = p[b + 1] - oy;
    const bz = p[b + 2] - oz;
    const cx = p[c] - ox;
    const cy = p[c + 1] - oy;
    const cz = p[c + 2] - oz;
    six += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  }
  return six / 6;
}

export interface ClosedCheck {
  readonly closed: boolean;
  /** Directed edges without their opposite. */
  readonly openEdges: number;
  readonly triangles: number;
}

/**
 * Whether every directed edge has its opposite. Vertices are taken as one when their coordinates agree to
 * `weld_mm` (0: to the last bit). Triangles that weld to less than three vertices are left out.
 */
export function checkClosed(mesh: Pick<WorkMesh, 'positions' | 'indices'>, weld_mm = 0): ClosedCheck {
  const ids = weldedIds(mesh.positions, weld_mm);
  const edges = new Map<number, number>();
  const vertexCount = mesh.positions.length / 3;
  let triangles = 0;
  const count = (from: number, to: number): void => {
    const back = to * vertexCount + from;
    const pending = edges.get(back) ?? 0;
    if (pending > 1) edges.set(back, pending - 1);
    else if (pending === 1) edges.delete(back);
    else edges.set(from * vertexCount + to, (edges.get(from * vertexCount + to) ?? 0) + 1);
  };
  for (let t = 0; t < mesh.indices.length; t += 3) {
    const a = ids[mesh.indices[t]];
    const b = ids[mesh.indices[t + 1]];
    const c = ids[mesh.indices[t + 2]];
    if (a === b || b === c || c === a) continue;
    triangles++;
    count(a, b);
    count(b, c);
    count(c, a);
  }
  let openEdges = 0;
  for (const left of edges.values()) openEdges += left;
  return { closed: openEdges === 0 && triangles > 0, openEdges, triangles };
}

/** For each vertex, the first vertex at the same place. */
export function weldedIds(positions: Float32Array, weld_mm = 0): Uint32Array {
  const count = positions.length / 3;
  const ids = new Uint32Array(count);
  // Places as whole numbers: cells of the tolerance, or the very bits of the coordinate (with −0 as 0).
  const cells = new Int32Array(positions.length);
  if (weld_mm > 0) for (let i = 0; i < cells.length; i++) cells[i] = Math.round(positions[i] / weld_mm);
  else new Float32Array(cells.buffer).set(positions.map((value) => value + 0));
  let size = 16;
  while (size < 2 * count) size *= 2;
  const table = new Int32Array(size).fill(-1);
  for (let v = 0; v < count; v++) {
    const [x, y, z] = [cells[3 * v], cells[3 * v + 1], cells[3 * v + 2]];
    let slot = (Math.imul(x, 73856093) ^ Math.imul(y, 19349663) ^ Math.imul(z, 83492791)) >>> 0;
    slot = (slot ^ (slot >>> 15)) & (size - 1);
    for (;;) {
      const other = table[slot];
      if (other < 0) {
        table[slot] = v;
        ids[v] = v;
        break;
      }
      if (cells[3 * other] === x && cells[3 * other + 1] === y && cells[3 * other + 2] === z) {
        ids[v] = other;
        break;
      }
      slot = (slot + 1) & (size - 1);
    }
  }
  return ids;
}

/** A growing mesh: append vertices and triangles in the lathe frame, then take the typed arrays. */
export class MeshBuilder {
  private readonly positions: number[] = [];
  private readonly normals: number[] = [];
  private readonly radii: number[] = [];
  private readonly openness: number[] = [];
  private readonly indices: number[] = [];

  /** Adds a vertex given in the lathe frame; returns its index. */
  vertex(x: number, y: number, z: number, nx: number, ny: number, nz: number, radius = -1, open = 1): number {
    this.positions.push(x, z, 0 - y);
    this.normals.push(nx, nz, 0 - ny);
    this.radii.push(radius);
    this.openness.push(open);
    return this.radii.length - 1;
  }

  triangle(a: number, b: number, c: number): void {
    this.indices.push(a, b, c);
  }

  /** Convex polygon in the lathe frame, counter-clockwise seen from the side its normal points to. */
  polygon(points: readonly Vec3[], normal: Vec3): void {
    const first = points.map((p) => this.vertex(p[0], p[1], p[2], normal[0], normal[1], normal[2]))[0];
    for (let i = 1; i + 1 < points.length; i++) this.triangle(first, first + i, first + i + 1);
  }

  build(): WorkMesh {
    return {
      positions: Float32Array.from(this.positions),
      normals: Float32Array.from(this.normals),
      radii: Float32Array.from(this.radii),
      openness: Float32Array.from(this.openness),
      indices: Uint32Array.from(this.indices),
    };
  }
}
