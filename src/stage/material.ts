/**
 * The materials of the stage. Every mesh of a variant shares one set of uniforms (its slots, its woods, the light) and
 * adds the few that are its own, so a change of the design is one write and all meshes use one program.
 */
import { GLSL3, Matrix3, ShaderMaterial, Vector3, Vector4, type IUniform, type Texture } from 'three';
import { DEPTH_FRAGMENT, DEPTH_VERTEX, FRAGMENT, VERTEX } from './shader/workpiece.ts';

/** What uMode means; see shader/workpiece.ts. */
export const MODE = { picture: 0, moving: 1, flat: 2, number: 3, albedo: 4 } as const;
export type Mode = (typeof MODE)[keyof typeof MODE];

export type Uniforms = Record<string, IUniform>;

/** Uniforms shared by every mesh of one variant. */
export function variantUniforms(shared: Uniforms): Uniforms {
  return {
    ...shared,
    uTimbers: { value: null as Texture | null },
    uRough: { value: 0.8 },
    uCoat: { value: 0.4 },
    uSilk: { value: 0.3 },
    uOil: { value: 0 },
    uSlots: { value: null },
    uLayers: { value: null },
    uCells: { value: null },
    uList: { value: null },
    uCellOrigin: { value: new Vector3() },
    uCellScale: { value: new Vector3() },
    uFilled: { value: 0 },
    uModel: { value: new Matrix3() },
    uSunMatrix: { value: null },
    uSunMap: { value: null as Texture | null },
    uSunTexel: { value: 1 / 512 },
    uHighlight: { value: -1 },
    uSection: { value: new Vector4() },
    uCut: { value: Array.from({ length: 6 }, () => new Vector4()) },
    uCutCount: { value: 0 },
    uHoleCount: { value: 0 },
    uHoleFrom: { value: Array.from({ length: 8 }, () => new Vector4()) },
    uHoleTo: { value: Array.from({ length: 8 }, () => new Vector4()) },
    uOpenKerf: { value: new Vector4() },
    uOpenHalf: { value: 0 },
    uFaces: { value: Array.from({ length: 8 }, () => new Vector3()) },
    uFaceCount: { value: 0 },
  };
}

/** Uniforms of one mesh. */
export interface OwnUniforms {
  /** Layer row that the whole mesh is made of, and the slot that it stands for. */
  readonly forced?: { readonly row: number; readonly slot: number };
  /** The mesh is the cap of this plane of the region cut out. */
  readonly capOf?: number;
  /** Neither section nor region takes anything from this mesh. */
  readonly whole?: boolean;
  readonly opacity?: number;
}

export function workpieceMaterial(variant: Uniforms, own: OwnUniforms = {}): ShaderMaterial {
  const material = new ShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: VERTEX,
    fragmentShader: FRAGMENT,
    uniforms: { ...variant, ...ownUniforms(own), uOpacity: { value: own.opacity ?? 1 } },
    transparent: (own.opacity ?? 1) < 1,
    depthWrite: (own.opacity ?? 1) >= 1,
  });
  material.name = 'workpiece';
  return material;
}

export function depthMaterial(variant: Uniforms, own: OwnUniforms = {}): ShaderMaterial {
  const material = new ShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: DEPTH_VERTEX,
    fragmentShader: DEPTH_FRAGMENT,
    uniforms: { ...variant, ...ownUniforms(own) },
    colorWrite: false,
  });
  material.name = 'workpiece-depth';
  return material;
}

function ownUniforms(own: OwnUniforms): Uniforms {
  return {
    uForced: { value: own.forced?.row ?? -1 },
    uForcedSlot: { value: own.forced?.slot ?? -1 },
    uCapOf: { value: own.capOf ?? -1 },
    ...(own.whole ? { uSection: { value: new Vector4() }, uCutCount: { value: 0 } } : {}),
  };
}
