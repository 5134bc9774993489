/**
 * The finished piece as one binary glTF 2.0 file with its wood as a picture (Khronos glTF 2.0 specification): metres, y up,
 * standing on y = 0. Lacquer by the extension KHR_materials_clearcoat, which a viewer may leave out.
 */
import type { Skin } from '../meshes/skin/skin.ts';
import { GlbContainer } from './glbContainer.ts';
import type { Shine } from './look.ts';

/** The wood of a skin as a picture. */
export interface SkinPicture {
  readonly bytes: Uint8Array;
  readonly mimeType: 'image/jpeg' | 'image/png';
}

const LINEAR = 9729;
const LINEAR_MIPMAP_LINEAR = 9987;
const CLAMP_TO_EDGE = 33071;

/** Vertices in metres, moved down so that the lowest is at y = 0. */
export function standing_m({ mesh }: Skin): Float32Array {
  const { positions } = mesh;
  let floor_mm = Infinity;
  for (let i = 1; i < positions.length; i += 3) floor_mm = Math.min(floor_mm, positions[i]);
  return positions.map((value, i) => (i % 3 === 1 ? value - floor_mm : value) / 1000);
}

export function writeSkinGlb(
  title: string,
  skin: Skin,
  picture: SkinPicture,
  shine: Shine,
): Uint8Array<ArrayBuffer> {
  const container = new GlbContainer();
  const attributes = {
    POSITION: container.addVertices(standing_m(skin), 'VEC3', true),
    NORMAL: container.addVertices(skin.mesh.normals, 'VEC3'),
    TEXCOORD_0: container.addVertices(skin.places, 'VEC2'),
  };
  const indices = container.addIndices(skin.mesh.indices);
  const clearcoat =
    shine.lacquer === undefined
      ? {}
      : {
          extensions: {
            KHR_materials_clearcoat: { clearcoatFactor: 1, clearcoatRoughnessFactor: shine.lacquer },
          },
        };
  return container.write({
    asset: { version: '2.0', generator: 'Kerfweave' },
    ...(shine.lacquer === undefined ? {} : { extensionsUsed: ['KHR_materials_clearcoat'] }),
    scene: 0,
    scenes: [{ name: title, nodes: [0] }],
    nodes: [{ name: title, mesh: 0 }],
    meshes: [{ name: title, primitives: [{ attributes, indices, material: 0 }] }],
    materials: [
      {
        name: 'Wood',
        pbrMetallicRoughness: {
          baseColorTexture: { index: 0 },
          metallicFactor: 0,
          roughnessFactor: shine.roughness,
        },
        ...clearcoat,
      },
    ],
    textures: [{ sampler: 0, source: 0 }],
    samplers: [
      {
        magFilter: LINEAR,
        minFilter: LINEAR_MIPMAP_LINEAR,
        wrapS: CLAMP_TO_EDGE,
        wrapT: CLAMP_TO_EDGE,
      },
    ],
    images: [{ name: 'wood', mimeType: picture.mimeType, bufferView: container.addBytes(picture.bytes) }],
  });
}
