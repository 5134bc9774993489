/**
 * Parts as one binary glTF 2.0 file (Khronos glTF 2.0 specification: GLB container, metres, y up).
 * The lathe frame (x, y, z) mm becomes (x, z, −y) / 1000, so that the piece stands on its foot.
 * One named node and mesh per part, one material per timber. The bytes follow from the parts alone.
 */
import type { Part } from '../blank/parts.ts';
import { GlbContainer } from './glbContainer.ts';
import { linearComponents, materialIndex, type TimberLook, type TimberLooks } from './look.ts';
import { shadeWithCreases } from './meshNormals.ts';
import { snapMesh, type PlacePoint } from './snapMesh.ts';

const placeMetresYUp: PlacePoint = (x, y, z, out, offset) => {
  out[offset] = Math.fround(x / 1000) + 0;
  out[offset + 1] = Math.fround(z / 1000) + 0;
  out[offset + 2] = Math.fround(-y / 1000) + 0;
};

/** Bytes of the .glb file; parts of which nothing is left are not written. */
export function writeGlb(title: string, parts: readonly Part[], looks: TimberLooks): Uint8Array {
  const materials: TimberLook[] = [];
  const container = new GlbContainer();
  const meshes: object[] = [];
  const nodes: object[] = [];

  for (const part of parts) {
    const mesh = snapMesh(part, placeMetresYUp);
    if (mesh.triangles.length === 0) continue;
    const material = materialIndex(materials, looks(part.timber));
    const { positions, normals, indices } = shadeWithCreases(mesh);
    const position = container.addVertices(positions, 'VEC3', true);
    const normal = container.addVertices(normals, 'VEC3');
    const index = container.addIndices(indices);
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

  return container.write({
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
  });
}
