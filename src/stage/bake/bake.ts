/**
 * Draws the wood of a finished design into the picture that its skin is laid out in: the stage's own shader, without its
 * light, at the points of the skin (meshes/skin/). A renderer of its own, apart from the screen: it needs no stage, is
 * there when the stage's context is lost, and is given back afterwards.
 *
 * The picture is drawn in tiles, so that the page stays alive, the work can be given up between two of them, and the
 * graphics card needs no more than one tile's memory whatever the picture's size.
 */
import {
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  GLSL3,
  LinearSRGBColorSpace,
  LineSegments,
  Matrix3,
  Mesh,
  NoBlending,
  Camera,
  RGBAFormat,
  Scene,
  ShaderMaterial,
  UnsignedByteType,
  Vector3,
  WebGLRenderer,
  WebGLRenderTarget,
} from 'three';
import type { Design } from '../../design/document.ts';
import type { Skin } from '../../meshes/skin/skin.ts';
import { SharedLook } from '../light.ts';
import { MODE } from '../material.ts';
import { DEFAULT_VIEW, type Finish } from '../props.ts';
import { FRAGMENT } from '../shader/workpiece.ts';
import { FINISHED } from '../shape.ts';
import { VariantScene } from '../variantScene.ts';
import { spreadColours } from './spread.ts';

export interface BakeOptions {
  /** Oiled if left out. */
  readonly finish?: Finish;
  readonly signal?: AbortSignal;
  /** Share of the picture that is drawn, 0…1. */
  readonly onProgress?: (share: number) => void;
}

export interface BakedPicture {
  readonly size_px: number;
  /** RGBA in sRGB, rows from the top, opaque everywhere. */
  readonly data: Uint8ClampedArray<ArrayBuffer>;
}

const TILE_PX = 256;

/** The skin's points where the picture has them; the fragment shader gets what the stage's own vertex shader gives it. */
const VERTEX = /* glsl */ `
in float radius;
in float openness;
in vec2 place;
uniform vec3 uTile;   // x, y of the tile and its side, as shares of the picture
out vec3 vP;
out vec3 vNormal;
out vec3 vRig;
out float vRadius;
out float vOpen;

void main() {
  vP = vec3(position.x, -position.z, position.y);
  vNormal = vec3(normal.x, -normal.z, normal.y);
  vRig = vP;
  vRadius = radius;
  vOpen = openness;
  gl_Position = vec4((place - uTile.xy) / uTile.z * 2.0 - 1.0, 0.0, 1.0);
}
`;

export async function bakeSkin(
  design: Design,
  skin: Omit<Skin, 'texelsPerMm' | 'islands'>,
  options: BakeOptions = {},
): Promise<BakedPicture> {
  const canvas = document.createElement('canvas');
  const context = canvas.getContext('webgl2', { antialias: false, depth: false });
  if (!context) throw new Error('this browser offers no WebGL 2, which draws the wood');
  const renderer = new WebGLRenderer({ canvas, context });
  const look = new SharedLook();
  const variant = new VariantScene(look);
  const drawing = drawingOf(design, skin, variant, options.finish ?? 'oiled');
  const tile_px = Math.min(TILE_PX, skin.size_px);
  const target = new WebGLRenderTarget(tile_px, tile_px, {
    depthBuffer: false,
    format: RGBAFormat,
    type: UnsignedByteType,
    // The shader writes display colours; nothing is to be converted on the way.
    colorSpace: LinearSRGBColorSpace,
  });
  try {
    const picture = await drawTiles(renderer, target, drawing, skin.size_px, options);
    spreadColours(picture, skin.size_px);
    return { size_px: skin.size_px, data: picture };
  } finally {
    target.dispose();
    drawing.dispose();
    variant.dispose();
    look.dispose();
    renderer.dispose();
    renderer.forceContextLoss();
  }
}

interface Drawing {
  readonly scene: Scene;
  readonly tile: Vector3;
  dispose(): void;
}

function drawingOf(
  design: Design,
  skin: Pick<Skin, 'mesh' | 'places' | 'borders'>,
  variant: VariantScene,
  finish: Finish,
): Drawing {
  variant.update(design, {
    variants: [{ key: 'main', label: '', design }],
    position: FINISHED,
    view: DEFAULT_VIEW,
    theme: 'light',
    finish,
    highlight: null,
  });
  const tile = new Vector3();
  const material = new ShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: VERTEX,
    fragmentShader: FRAGMENT,
    side: DoubleSide,
    blending: NoBlending,
    depthTest: false,
    depthWrite: false,
    uniforms: {
      ...variant.uniforms,
      uMode: { value: MODE.albedo },
      uModel: { value: new Matrix3() },
      uTile: { value: tile },
      uSunMap: { value: null },
      uForced: { value: -1 },
      uForcedSlot: { value: -1 },
      uCapOf: { value: -1 },
      // Bored in the mesh.
      uHoleCount: { value: 0 },
      uOpacity: { value: 1 },
    },
  });
  const { mesh, places, borders } = skin;
  const attributes = {
    position: new BufferAttribute(mesh.positions, 3),
    normal: new BufferAttribute(mesh.normals, 3),
    radius: new BufferAttribute(mesh.radii, 1),
    openness: new BufferAttribute(mesh.openness, 1),
    place: new BufferAttribute(places, 2),
  };
  const geometryOf = (index: Uint32Array): BufferGeometry => {
    const geometry = new BufferGeometry();
    for (const [name, attribute] of Object.entries(attributes)) geometry.setAttribute(name, attribute);
    geometry.setIndex(new BufferAttribute(index, 1));
    return geometry;
  };
  // Lines along the islands' borders first: they reach the pixels whose middle no triangle holds.
  const outline = new LineSegments(geometryOf(borders), material);
  const inside = new Mesh(geometryOf(mesh.indices), material);
  inside.renderOrder = 1;
  const scene = new Scene();
  for (const object of [outline, inside]) {
    object.frustumCulled = false;
    scene.add(object);
  }
  return {
    scene,
    tile,
    dispose() {
      outline.geometry.dispose();
      inside.geometry.dispose();
      material.dispose();
    },
  };
}

async function drawTiles(
  renderer: WebGLRenderer,
  target: WebGLRenderTarget,
  { scene, tile }: Drawing,
  size_px: number,
  { signal, onProgress }: BakeOptions,
): Promise<Uint8ClampedArray<ArrayBuffer>> {
  const picture = new Uint8ClampedArray(4 * size_px * size_px);
  const tile_px = target.width;
  const across = Math.ceil(size_px / tile_px);
  const pixels = new Uint8Array(4 * tile_px * tile_px);
  const camera = new Camera();
  renderer.setClearColor(0x000000, 0);
  renderer.setRenderTarget(target);
  for (let n = 0; n < across * across; n++) {
    // A timer and not a frame: it goes on in a tab that is not in sight.
    await new Promise((resolve) => setTimeout(resolve));
    signal?.throwIfAborted();
    const x = (n % across) * tile_px;
    const y = Math.floor(n / across) * tile_px;
    tile.set(x / size_px, y / size_px, tile_px / size_px);
    renderer.render(scene, camera);
    renderer.readRenderTargetPixels(target, 0, 0, tile_px, tile_px, pixels);
    if (renderer.getContext().isContextLost())
      throw new Error('the graphics card was reset while the wood was drawn; try again');
    const wide = Math.min(tile_px, size_px - x);
    for (let row = 0; row < Math.min(tile_px, size_px - y); row++)
      picture.set(
        pixels.subarray(4 * row * tile_px, 4 * (row * tile_px + wide)),
        4 * ((y + row) * size_px + x),
      );
    onProgress?.((n + 1) / across ** 2);
  }
  return picture;
}
