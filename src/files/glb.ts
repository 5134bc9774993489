/**
 * Parts as one binary glTF 2.0 file (Khronos glTF 2.0 specification: GLB container, metres, y up).
 * The lathe frame (x, y, z) mm becomes (x, z, −y) / 1000, so that the piece stands on its foot.
 * One named node and mesh per part, one material per timber. The bytes follow from the parts alone.
 */
import type { Part } from '../blank/parts.ts';
import { linearComponents, materialIndex, type TimberLook, type TimberLooks } from './look.ts';
import { shadeWithCreases } from './meshNormals.ts';
import { snapMesh, type PlacePoint } from './snapMesh.ts';

const FLOAT = 5126;
const UNSIGNED_INT = 5125;
const ARRAY_BUFFER = 34962;
const ELEMENT_ARRAY_BUFFER = 34963;
const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;
const MAGIC = 0x46546c67;

const placeMetresYUp: PlacePoint = (x, y, z, out, offset) => {
  out[offset] = Math.fround(x / 1000) + 0;
  out[offset + 1] = Math.fround(z / 1000) + 0;
  out[offset + 2] = Math.fround(-y / 1000) + 0;
};

/** Bytes of the .glb file; parts of which nothing is left are not written. */
export function writeGlb(title: string, parts: readonly Part[], looks: TimberLooks): Uint8Array {
  const materials: TimberLook[] = [];
  const buffers: (Float32Array | Uint32Array)[] = [];
  const bufferViews: object[] = [];
  const accessors: object[] = [];
  const meshes: object[] = [];
  const nodes: object[] = [];
  let byteLength = 0;

  const addAccessor = (data: Float32Array | Uint32Array, target: number, fields: object): number => {
    bufferViews.push({ buffer: 0, byteOffset: byteLength, byteLength: data.byteLength, target });
    buffers.push(data);
    byteLength += data.byteLength;
    return accessors.push({ bufferView: bufferViews.length - 1, ...fields }) - 1;
  };

  for (const part of parts) {
    const mesh = snapMesh(part, placeMetresYUp);
    if (mesh.triangles.length === 0) continue;
    const material = materialIndex(materials, looks(part.timber));
    const { positions, normals, indices } = shadeWithCreases(mesh);
    const vertices = { componentType: FLOAT, count: positions.length / 3, type: 'VEC3' };
    const position = addAccessor(positions, ARRAY_BUFFER, { ...vertices, ...bounds(positions) });
    const normal = addAccessor(normals, ARRAY_BUFFER, vertices);
    const index = addAccessor(indices, ELEMENT_ARRAY_BUFFER, {
      componentType: UNSIGNED_INT,
      count: indices.length,
      type: 'SCALAR',
    });
    meshes.push({
      name: part.name,
      primitives: [
        {
          attributes: { POSITION: position, NORMAL: normal },
          indices: index,
          material,
        },
      ],
    });
    nodes.push({ name: part.name, mesh: meshes.length - 1 });
  }
  if (nodes.length === 0) throw new Error('there is no part to write');

  const json = {
    asset: { version: '2.0', generator: 'Kerfweave' },
    scene: 0,
    scenes: [{ name: title, nodes: nodes.map((_, i) => i) }],
    nodes,
    meshes,
    materials: materials.map(({ name, srgb }) => ({
      name,
      pbrMetallicRoughness: {
        baseColorFactor: [...linearComponents(srgb).map((c) => Number(c.toFixed(6))), 1],
        metallicFactor: 0,
        roughnessFactor: 0.55,
      },
    })),
    accessors,
    bufferViews,
    buffers: [{ byteLength }],
  };
  return container(new TextEncoder().encode(JSON.stringify(json)), buffers, byteLength);
}

function bounds(positions: Float32Array): { min: number[]; max: number[] } {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  positions.forEach((value, i) => {
    min[i % 3] = Math.min(min[i % 3], value);
    max[i % 3] = Math.max(max[i % 3], value);
  });
  return { min, max };
}

/** GLB header, JSON chunk padded with spaces, binary chunk (always a multiple of four bytes long here). */
function container(
  json: Uint8Array,
  buffers: readonly (Float32Array | Uint32Array)[],
  byteLength: number,
): Uint8Array {
  const jsonLength = Math.ceil(json.length / 4) * 4;
  const bytes = new Uint8Array(12 + 8 + jsonLength + 8 + byteLength);
  const view = new DataView(bytes.buffer);
  [MAGIC, 2, bytes.length, jsonLength, JSON_CHUNK].forEach((word, i) => view.setUint32(i * 4, word, true));
  bytes.fill(0x20, 20, 20 + jsonLength);
  bytes.set(json, 20);
  view.setUint32(20 + jsonLength, byteLength, true);
  view.setUint32(24 + jsonLength, BINARY_CHUNK, true);
  let at = 28 + jsonLength;
  for (const buffer of buffers) {
    if (buffer instanceof Float32Array)
      for (const value of buffer) {
        view.setFloat32(at, value, true);
        at += 4;
      }
    else
      for (const value of buffer) {
        view.setUint32(at, value, true);
        at += 4;
      }
  }
  return bytes;
}
