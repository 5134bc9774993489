/**
 * Vertex normals for display: the lathe's facets are shaded as the round they stand for, while every edge
 * sharper than the crease angle (slot faces, corners of the blank, corners of the outline) stays an edge.
 */
import { DEG } from '../geometry/angle.ts';
import type { IndexedMesh } from './manifoldEdges.ts';
import { triangleHeight } from './snapMesh.ts';

export interface ShadedMesh {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly indices: Uint32Array;
}

/** Facets of one round stay well below this; slots and corners well above. */
const CREASE_COSINE = Math.cos(20 * DEG);

/**
 * One vertex per position and normal. Normals are unit length and area-weighted over the triangles round the
 * vertex that face nearly the same way; a triangle too thin to have a normal takes that of the neighbours.
 */
export function shadeWithCreases(mesh: IndexedMesh): ShadedMesh {
  const { positions, triangles } = mesh;
  const count = triangles.length / 3;
  const area = new Float64Array(count * 3);
  const facing = new Float64Array(count * 3);
  for (let t = 0; t < count; t++) setFaceNormal(mesh, t, area, facing);

  const size = positions.length / 3;
  const start = new Uint32Array(size + 1);
  for (const vertex of triangles) start[vertex + 1]++;
  for (let v = 0; v < size; v++) start[v + 1] += start[v];
  const around = new Uint32Array(triangles.length);
  const filled = start.slice(0, size);
  triangles.forEach((vertex, corner) => (around[filled[vertex]++] = Math.floor(corner / 3)));

  const outPositions: number[] = [];
  const outNormals: number[] = [];
  const indices = new Uint32Array(triangles.length);
  const shadedOf: Map<string, number>[] = [];
  for (let corner = 0; corner < triangles.length; corner++) {
    const vertex = triangles[corner];
    const normal = cornerNormal(Math.floor(corner / 3), around.subarray(start[vertex], start[vertex + 1]));
    const known = (shadedOf[vertex] ??= new Map<string, number>());
    const key = normal.join();
    let index = known.get(key);
    if (index === undefined) {
      index = outPositions.length / 3;
      known.set(key, index);
      outPositions.push(positions[vertex * 3], positions[vertex * 3 + 1], positions[vertex * 3 + 2]);
      outNormals.push(...normal);
    }
    indices[corner] = index;
  }
  return {
    positions: Float32Array.from(outPositions),
    normals: Float32Array.from(outNormals),
    indices,
  };

  function cornerNormal(triangle: number, neighbours: Uint32Array): [number, number, number] {
    const own = triangle * 3;
    const thin = facing[own] === 0 && facing[own + 1] === 0 && facing[own + 2] === 0;
    let x = 0;
    let y = 0;
    let z = 0;
    for (const other of neighbours) {
      const o = other * 3;
      const cosine =
        facing[own] * facing[o] + facing[own + 1] * facing[o + 1] + facing[own + 2] * facing[o + 2];
      if (!thin && cosine < CREASE_COSINE) continue;
      x += area[o];
      y += area[o + 1];
      z += area[o + 2];
    }
    const length = Math.hypot(x, y, z);
    if (length > 0) return roundedUnit(x / length, y / length, z / length);
    return thin ? [0, 0, 1] : [facing[own], facing[own + 1], facing[own + 2]];
  }
}

/** Equal to six places counts as the same normal, so that a flat face keeps one vertex per corner. */
function roundedUnit(x: number, y: number, z: number): [number, number, number] {
  const round = (v: number) => Math.round(v * 1e6) / 1e6 + 0;
  return [round(x), round(y), round(z)];
}

function setFaceNormal(mesh: IndexedMesh, t: number, area: Float64Array, facing: Float64Array) {
  const { positions: p } = mesh;
  const [a, b, c] = mesh.triangles.subarray(t * 3, t * 3 + 3);
  const [ux, uy, uz] = [0, 1, 2].map((k) => p[b * 3 + k] - p[a * 3 + k]);
  const [vx, vy, vz] = [0, 1, 2].map((k) => p[c * 3 + k] - p[a * 3 + k]);
  const normal = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const length = Math.hypot(...normal);
  const longest = Math.max(Math.hypot(ux, uy, uz), Math.hypot(vx, vy, vz));
  // Under a hundred-thousandth of its length in height, rounding alone decides which way it faces.
  const thin = triangleHeight(p, a, b, c).height < longest * 1e-5;
  for (let k = 0; k < 3; k++) {
    area[t * 3 + k] = normal[k];
    facing[t * 3 + k] = thin || length === 0 ? 0 : normal[k] / length;
  }
}
