/**
 * What is drawn beside the wood: saw, fence and stop, dimension lines, face letters. Plain colours as they appear on
 * screen, a little shaded by the key light. Drawn frame (y-up), mm.
 */
import {
  BufferAttribute,
  BufferGeometry,
  CanvasTexture,
  Color,
  DoubleSide,
  GLSL3,
  LinearFilter,
  LineSegments,
  Mesh,
  PlaneGeometry,
  ShaderMaterial,
  type Object3D,
} from 'three';
import type { WorkMesh } from '../meshes/mesh.ts';
import { UNSHADED_LAYER } from './pieceMesh.ts';

const SOLID_VERTEX = /* glsl */ `
uniform mat3 uToRig;
out vec3 vNormal;
void main() {
  vNormal = uToRig * mat3(modelMatrix) * normal;
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}
`;

const SOLID_FRAGMENT = /* glsl */ `
precision highp float;
in vec3 vNormal;
out vec4 outColour;
uniform vec3 uColour;
uniform float uOpacity;
void main() {
  vec3 n = normalize(vNormal) * (gl_FrontFacing ? 1.0 : -1.0);
  float light = 0.72 + 0.34 * clamp(dot(n, vec3(-0.5445, 0.6028, 0.5834)), -0.4, 1.0);
  outColour = vec4(uColour * light, uOpacity);
}
`;

const LINE_VERTEX = /* glsl */ `
void main() {
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}
`;

const LINE_FRAGMENT = /* glsl */ `
precision highp float;
out vec4 outColour;
uniform vec3 uColour;
void main() {
  outColour = vec4(uColour, 1.0);
}
`;

/** Labels keep their size on screen. uSize: width and height in pixels; uPicture: the viewport's. */
const LABEL_VERTEX = /* glsl */ `
uniform vec2 uSize;
uniform vec2 uPicture;
out vec2 vUv;
void main() {
  vUv = uv;
  vec4 at = projectionMatrix * modelViewMatrix * vec4(0.0, 0.0, 0.0, 1.0);
  at.xy += position.xy * 2.0 * uSize / uPicture * at.w;
  gl_Position = at;
}
`;

const LABEL_FRAGMENT = /* glsl */ `
precision highp float;
in vec2 vUv;
out vec4 outColour;
uniform sampler2D uText;
void main() {
  outColour = texture(uText, vUv);
  if (outColour.a < 0.02) discard;
}
`;

export interface OverlayLook {
  readonly ink: string;
  readonly paper: string;
}

/** A group of overlay objects that is rebuilt as a whole. */
export class Overlay {
  readonly objects: Object3D[] = [];
  private readonly disposables: { dispose(): void }[] = [];
  private readonly toRig: { value: unknown };
  /** Size of the viewport in pixels at a pixel ratio of one, shared by all labels. */
  readonly picture = { value: [1, 1] };

  constructor(toRig: { value: unknown }) {
    this.toRig = toRig;
  }

  solid(mesh: WorkMesh, colour: string, opacity = 1): void {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
    geometry.setAttribute('normal', new BufferAttribute(mesh.normals, 3));
    geometry.setIndex(new BufferAttribute(mesh.indices, 1));
    const material = new ShaderMaterial({
      glslVersion: GLSL3,
      vertexShader: SOLID_VERTEX,
      fragmentShader: SOLID_FRAGMENT,
      uniforms: { uToRig: this.toRig, uColour: { value: shown(colour) }, uOpacity: { value: opacity } },
      transparent: opacity < 1,
      depthWrite: opacity >= 1,
      side: DoubleSide,
    });
    this.keep(new Mesh(geometry, material), geometry, material);
  }

  /** Pairs of points, drawn frame. */
  lines(points: readonly (readonly [number, number, number])[], colour: string, throughWood = false): void {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.from(points.flat()), 3));
    const material = new ShaderMaterial({
      glslVersion: GLSL3,
      vertexShader: LINE_VERTEX,
      fragmentShader: LINE_FRAGMENT,
      uniforms: { uColour: { value: shown(colour) } },
      depthTest: !throughWood,
    });
    this.keep(new LineSegments(geometry, material), geometry, material);
  }

  /** `on: 'face'` is larger and hidden behind the wood. */
  label(
    text: string,
    at: readonly [number, number, number],
    look: OverlayLook,
    on: 'air' | 'face' = 'air',
  ): void {
    const { canvas, width, height } = written(text, look, on === 'face');
    const texture = new CanvasTexture(canvas);
    texture.minFilter = LinearFilter;
    texture.generateMipmaps = false;
    const material = new ShaderMaterial({
      glslVersion: GLSL3,
      vertexShader: LABEL_VERTEX,
      fragmentShader: LABEL_FRAGMENT,
      uniforms: { uText: { value: texture }, uSize: { value: [width, height] }, uPicture: this.picture },
      transparent: true,
      depthTest: on === 'face',
      depthWrite: false,
    });
    const geometry = new PlaneGeometry(1, 1);
    const mesh = new Mesh(geometry, material);
    mesh.position.set(...at);
    mesh.renderOrder = 10;
    mesh.frustumCulled = false;
    this.disposables.push(texture);
    this.keep(mesh, geometry, material);
  }

  clear(parent: Object3D): void {
    parent.remove(...this.objects);
    this.objects.length = 0;
    for (const disposable of this.disposables) disposable.dispose();
    this.disposables.length = 0;
  }

  private keep(object: Object3D, ...owned: { dispose(): void }[]): void {
    object.layers.set(UNSHADED_LAYER);
    this.objects.push(object);
    this.disposables.push(...owned);
  }
}

/** Display colour, not to be converted: the overlay's shaders write it as it is. */
function shown(colour: string): Color {
  return new Color().setStyle(colour, 'srgb-linear');
}

/** Canvas pixels per label pixel: sharp at the highest pixel ratio that the stage draws. */
const SHARPNESS = 2;

function written(
  text: string,
  look: OverlayLook,
  large: boolean,
): { canvas: HTMLCanvasElement; width: number; height: number } {
  const canvas = document.createElement('canvas');
  const context = canvas.getContext('2d');
  if (!context) throw new Error('no second canvas for labels');
  const size = large ? 17 : 12.5;
  const font = `${large ? 600 : 500} ${size * SHARPNESS}px system-ui, sans-serif`;
  context.font = font;
  const padding = 5 * SHARPNESS;
  canvas.width = Math.ceil(context.measureText(text).width + 2 * padding);
  canvas.height = Math.ceil(size * SHARPNESS * 1.25 + padding);
  context.font = font;
  context.fillStyle = look.paper;
  context.globalAlpha = 0.86;
  context.beginPath();
  context.roundRect(0, 0, canvas.width, canvas.height, 5 * SHARPNESS);
  context.fill();
  context.globalAlpha = 1;
  context.fillStyle = look.ink;
  context.textBaseline = 'middle';
  context.fillText(text, padding, canvas.height / 2 + SHARPNESS / 2);
  return { canvas, width: canvas.width / SHARPNESS, height: canvas.height / SHARPNESS };
}
