/**
 * What is drawn beside the wood: saw, fence and stop, dimension lines, face letters. Plain colours as they appear on
 * screen, a little shaded by the key light. Drawn frame (y-up), mm.
 */
import {
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  GLSL3,
  Mesh,
  ShaderMaterial,
  type Material,
  type Object3D,
} from 'three';
import type { WorkMesh } from '../meshes/mesh.ts';
import { LabelLayer, type LabelOptions } from './overlayLabel.ts';
import { shown, type OverlayLook } from './overlayLook.ts';
import { UNSHADED_LAYER } from './pieceMesh.ts';

export type { OverlayLook } from './overlayLook.ts';

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

/**
 * A line as a band that keeps its breadth on screen: each end of it twice, moved to either side of the line as it is seen.
 * uPicture: the viewport in pixels; uBreadth: in the same.
 */
const LINE_VERTEX = /* glsl */ `
in vec3 other;
in float side;
uniform vec2 uPicture;
uniform float uBreadth;
void main() {
  vec4 at = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
  vec4 end = projectionMatrix * modelViewMatrix * vec4(other, 1.0);
  vec2 along = (end.xy / end.w - at.xy / at.w) * uPicture;
  float long_ = length(along);
  vec2 across = long_ > 1e-6 ? vec2(-along.y, along.x) / long_ : vec2(0.0);
  at.xy += across * side * uBreadth / uPicture * at.w;
  gl_Position = at;
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

/** Breadth of a line, in pixels of a label. */
const LINE_PX = 1.25;

/** A group of overlay objects that is rebuilt as a whole. */
export class Overlay {
  readonly objects: Object3D[] = [];
  private readonly disposables: { dispose(): void }[] = [];
  private readonly toFace: Object3D[] = [];
  private readonly toRig: { value: unknown };
  /** Size of the viewport in pixels at a pixel ratio of one, shared by all labels. */
  private readonly picture = { value: [1, 1] };
  private readonly breadth = { value: LINE_PX };
  readonly labels = new LabelLayer(this.picture, this.breadth);

  constructor(toRig: { value: unknown }) {
    this.toRig = toRig;
  }

  /** For the next draw: the viewport in device pixels, and how many of them a pixel of a label has. */
  fitTo(width: number, height: number, labelScale: number): void {
    this.picture.value = [width / labelScale, height / labelScale];
    this.breadth.value = Math.max(LINE_PX, 1 / labelScale);
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
  lines(points: readonly (readonly [number, number, number])[], colour: string, throughWood = false): Mesh {
    const geometry = bandsOf(points);
    const material = new ShaderMaterial({
      glslVersion: GLSL3,
      vertexShader: LINE_VERTEX,
      fragmentShader: LINE_FRAGMENT,
      uniforms: { uColour: { value: shown(colour) }, uPicture: this.picture, uBreadth: this.breadth },
      depthTest: !throughWood,
      side: DoubleSide,
    });
    const mesh = new Mesh(geometry, material);
    mesh.frustumCulled = false;
    this.keep(mesh, geometry, material);
    return mesh;
  }

  /** Lines in the plane through the axis that is square to the view: x to the right, y up; `face` turns it there. */
  facing(points: readonly (readonly [number, number, number])[], colour: string): void {
    this.toFace.push(this.lines(points, colour));
  }

  /** For the next draw: turns what faces the eye about the axis. `turned_rad`: how far the piece is turned about it. */
  face(camera: Object3D, turned_rad: number): void {
    if (this.toFace.length === 0) return;
    camera.updateMatrixWorld();
    const [rightX, , rightZ] = camera.matrixWorld.elements;
    for (const object of this.toFace) object.rotation.y = Math.atan2(-rightZ, rightX) - turned_rad;
  }

  /** Words at a place; the labels that are asked for first have the first choice of theirs. */
  label(
    text: string,
    at: readonly [number, number, number],
    look: OverlayLook,
    options: LabelOptions = {},
  ): void {
    if (this.labels.empty) {
      const starter = this.labels.starter();
      this.keep(starter, starter.geometry, starter.material as Material);
    }
    const label = this.labels.add(text, at, look, options);
    if (label.leader) this.keep(label.leader);
    this.keep(label.mesh, label);
  }

  clear(parent: Object3D): void {
    parent.remove(...this.objects);
    this.objects.length = 0;
    this.toFace.length = 0;
    this.labels.clear();
    for (const disposable of this.disposables) disposable.dispose();
    this.disposables.length = 0;
  }

  private keep(object: Object3D, ...owned: { dispose(): void }[]): void {
    object.layers.set(UNSHADED_LAYER);
    this.objects.push(object);
    this.disposables.push(...owned);
  }
}

/** Two triangles for each pair of points. */
function bandsOf(points: readonly (readonly [number, number, number])[]): BufferGeometry {
  const position: number[] = [];
  const other: number[] = [];
  const side: number[] = [];
  const index: number[] = [];
  for (let i = 0; i + 1 < points.length; i += 2) {
    const [from, to] = [points[i], points[i + 1]];
    const first = position.length / 3;
    position.push(...from, ...from, ...to, ...to);
    other.push(...to, ...to, ...from, ...from);
    // Seen from the other end, the same side has the other sign.
    side.push(1, -1, -1, 1);
    index.push(first, first + 1, first + 2, first + 2, first + 1, first + 3);
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(position), 3));
  geometry.setAttribute('other', new BufferAttribute(Float32Array.from(other), 3));
  geometry.setAttribute('side', new BufferAttribute(Float32Array.from(side), 1));
  geometry.setIndex(index);
  return geometry;
}
