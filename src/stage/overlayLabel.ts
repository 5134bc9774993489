/**
 * Labels beside the wood: words that keep their size on screen and never cover one another, each with a fine line to
 * what it names. Laid out anew for every picture. Drawn frame (y-up), mm.
 */
import {
  BufferAttribute,
  BufferGeometry,
  CanvasTexture,
  DoubleSide,
  GLSL3,
  LinearFilter,
  Mesh,
  MeshBasicMaterial,
  PlaneGeometry,
  ShaderMaterial,
  Vector3,
  type Camera,
  type OrthographicCamera,
  type PerspectiveCamera,
} from 'three';
import { placeLabels, type LabelBox } from './labelLayout.ts';
import { shown, type OverlayLook } from './overlayLook.ts';

/** uSize: width and height in pixels; uShift: from the label's own place, pixels; uPicture: the viewport's. */
const LABEL_VERTEX = /* glsl */ `
uniform vec2 uSize;
uniform vec2 uShift;
uniform vec2 uPicture;
out vec2 vUv;
void main() {
  vUv = uv;
  vec4 at = projectionMatrix * modelViewMatrix * vec4(0.0, 0.0, 0.0, 1.0);
  at.xy += (position.xy * uSize + uShift) * 2.0 / uPicture * at.w;
  gl_Position = at;
}
`;

const LABEL_FRAGMENT = /* glsl */ `
precision highp float;
in vec2 vUv;
out vec4 outColour;
uniform sampler2D uText;
uniform float uShown;
void main() {
  outColour = texture(uText, vUv);
  outColour.a *= uShown;
  if (outColour.a < 0.02) discard;
}
`;

/** From the thing to the middle of its label, a band that keeps its breadth on screen (as the lines of overlay.ts). */
const LEADER_VERTEX = /* glsl */ `
in vec3 other;
in float side;
in float shifted;
uniform vec2 uShift;
uniform vec2 uPicture;
uniform float uBreadth;
void main() {
  vec2 shift = uShift * 2.0 / uPicture;
  vec4 at = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
  at.xy += shifted * shift * at.w;
  vec4 end = projectionMatrix * modelViewMatrix * vec4(other, 1.0);
  end.xy += (1.0 - shifted) * shift * end.w;
  vec2 along = (end.xy / end.w - at.xy / at.w) * uPicture;
  float long_ = length(along);
  vec2 across = long_ > 1e-6 ? vec2(-along.y, along.x) / long_ : vec2(0.0);
  at.xy += across * side * uBreadth / uPicture * at.w;
  gl_Position = at;
}
`;

const LEADER_FRAGMENT = /* glsl */ `
precision highp float;
out vec4 outColour;
uniform vec3 uColour;
uniform float uShown;
void main() {
  if (uShown < 0.5) discard;
  outColour = vec4(uColour, 1.0);
}
`;

export type Place = readonly [number, number, number];

export interface LabelOptions {
  /** What the label names: a fine line leads there. */
  readonly to?: Place;
  /** The way that the face looks which the label stands on: seen from behind there is no label. */
  readonly facing?: Place;
  /** A large first word, as the letter of a face. */
  readonly letter?: string;
  /** Best to the right of the axis in the picture, this far: clear of the piece. */
  readonly beside_mm?: number;
}

/** Pixels kept free at the edges of the picture. */
const EDGE = 4;
/** A place this far outside the picture, in its widths or heights, has no label. */
const OUTSIDE = 1.08;
/** Least cosine between a face's normal and the view at which its label is shown. */
const FACING = 0.08;

export interface PictureSize {
  /** Of the part that is drawn, pixels at a pixel ratio of one. */
  value: number[];
}

/** A camera whose picture may be drawn in parts. */
type PartCamera = PerspectiveCamera | OrthographicCamera;

export class LabelLayer {
  private readonly labels: OverlayLabel[] = [];
  private readonly picture: PictureSize;
  private readonly breadth: { readonly value: number };
  /** At the right edge, that tools cover. */
  inset_px = 0;

  constructor(picture: PictureSize, breadth: { readonly value: number }) {
    this.picture = picture;
    this.breadth = breadth;
  }

  /** The objects of a label, to be added to the overlay. */
  add(text: string, at: Place, look: OverlayLook, options: LabelOptions): OverlayLabel {
    const label = new OverlayLabel(text, at, look, options, this.picture, this.breadth);
    this.labels.push(label);
    return label;
  }

  /** Draws nothing, before any label is drawn: then they are laid out. */
  starter(): Mesh {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(new Float32Array(9), 3));
    const mesh = new Mesh(geometry, new MeshBasicMaterial({ colorWrite: false, depthWrite: false }));
    mesh.frustumCulled = false;
    mesh.renderOrder = -1;
    mesh.onBeforeRender = (_renderer, _scene, camera) => this.layOut(camera);
    return mesh;
  }

  get empty(): boolean {
    return this.labels.length === 0;
  }

  clear(): void {
    this.labels.length = 0;
  }

  private layOut(camera: Camera): void {
    const [width, height] = this.picture.value;
    const { view } = camera as PartCamera;
    const whole = view?.enabled ? view : null;
    const full = whole
      ? [(width * whole.fullWidth) / whole.width, (height * whole.fullHeight) / whole.height]
      : [width, height];
    const corner = whole
      ? [
          (full[0] * whole.offsetX) / whole.fullWidth,
          (full[1] * (whole.fullHeight - whole.offsetY - whole.height)) / whole.fullHeight,
        ]
      : [0, 0];
    // The last of several columns is drawn on beyond its own picture, under the tools.
    const end = Math.max(full[0], corner[0] + width);
    const room = { left: EDGE, bottom: EDGE, right: end - this.inset_px - EDGE, top: full[1] - EDGE };
    const boxes: LabelBox[] = [];
    const placed: { readonly label: OverlayLabel; readonly aside: readonly [number, number] }[] = [];
    for (const label of this.labels) {
      const box = label.boxIn(camera, width, height);
      const x = box.x + corner[0];
      const y = box.y + corner[1];
      const inside = Math.abs(x / full[0] - 0.5) < OUTSIDE / 2 && Math.abs(y / full[1] - 0.5) < OUTSIDE / 2;
      if (!inside || !label.facesEye(camera)) {
        label.show(null);
        continue;
      }
      let aside = label.asideIn(camera, box, width, height);
      // No room beside the piece: at the foot of the picture, where it hides nothing that it names.
      if (label.isBeside && x + aside[0] + box.width / 2 > room.right)
        aside = [(room.left + room.right) / 2 - x, room.bottom + box.height / 2 - y];
      boxes.push({ ...box, x: x + aside[0], y: y + aside[1] });
      placed.push({ label, aside });
    }
    placeLabels(boxes, room).forEach((shift, i) => {
      const { label, aside } = placed[i];
      label.show(shift && [shift[0] + aside[0], shift[1] + aside[1]]);
    });
  }
}

export class OverlayLabel {
  readonly mesh: Mesh<PlaneGeometry, ShaderMaterial>;
  readonly leader: Mesh<BufferGeometry, ShaderMaterial> | null;
  private readonly texture: CanvasTexture;
  private readonly size: readonly [number, number];
  private readonly facing: Vector3 | null;
  private readonly beside_mm: number | null;
  private readonly shift = { value: [0, 0] };
  private readonly isShown = { value: 1 };

  constructor(
    text: string,
    at: Place,
    look: OverlayLook,
    options: LabelOptions,
    picture: PictureSize,
    breadth: { readonly value: number },
  ) {
    const { canvas, width, height } = written(text, look, options.letter ?? '');
    this.size = [width, height];
    this.beside_mm = options.beside_mm ?? null;
    this.facing = options.facing ? new Vector3(...options.facing) : null;
    this.texture = new CanvasTexture(canvas);
    this.texture.minFilter = LinearFilter;
    this.texture.generateMipmaps = false;
    const shared = { uShift: this.shift, uShown: this.isShown, uPicture: picture };
    const material = new ShaderMaterial({
      glslVersion: GLSL3,
      vertexShader: LABEL_VERTEX,
      fragmentShader: LABEL_FRAGMENT,
      uniforms: { uText: { value: this.texture }, uSize: { value: [width, height] }, ...shared },
      transparent: true,
      depthTest: false,
      depthWrite: false,
    });
    this.mesh = new Mesh(new PlaneGeometry(1, 1), material);
    this.mesh.position.set(...at);
    this.mesh.renderOrder = 10;
    this.mesh.frustumCulled = false;
    this.leader = options.to ? leaderOf(options.to, at, look, { ...shared, uBreadth: breadth }) : null;
  }

  /** Middle and size in the part that is drawn. */
  boxIn(camera: Camera, width: number, height: number): LabelBox {
    const at = this.mesh.getWorldPosition(new Vector3()).project(camera);
    return {
      x: ((at.x + 1) / 2) * width,
      y: ((at.y + 1) / 2) * height,
      width: this.size[0],
      height: this.size[1],
    };
  }

  get isBeside(): boolean {
    return this.beside_mm !== null;
  }

  /** From its place in the picture to where it is best. */
  asideIn(camera: Camera, box: LabelBox, width: number, height: number): readonly [number, number] {
    if (this.beside_mm === null) return [0, 0];
    const { parent } = this.mesh;
    const axis = new Vector3(0, this.mesh.position.y, 0);
    if (parent) axis.applyMatrix4(parent.matrixWorld);
    const right = new Vector3().setFromMatrixColumn(camera.matrixWorld, 0);
    const at = axis.addScaledVector(right, this.beside_mm).project(camera);
    return [((at.x + 1) / 2) * width + box.width / 2 - box.x, ((at.y + 1) / 2) * height - box.y];
  }

  facesEye(camera: Camera): boolean {
    if (!this.facing) return true;
    const out = this.facing.clone().transformDirection(this.mesh.matrixWorld);
    const at = this.mesh.getWorldPosition(new Vector3());
    const view = 'isOrthographicCamera' in camera ? camera.getWorldDirection(new Vector3()).negate() : null;
    return out.dot(view ?? camera.position.clone().sub(at).normalize()) > FACING;
  }

  /** null: not at all. */
  show(shift: readonly [number, number] | null): void {
    this.isShown.value = shift === null ? 0 : 1;
    this.shift.value = shift === null ? [0, 0] : [...shift];
  }

  dispose(): void {
    this.texture.dispose();
    for (const drawn of [this.mesh, this.leader]) {
      drawn?.geometry.dispose();
      drawn?.material.dispose();
    }
  }
}

function leaderOf(
  to: Place,
  at: Place,
  look: OverlayLook,
  shared: ShaderMaterial['uniforms'],
): Mesh<BufferGeometry, ShaderMaterial> {
  const geometry = new BufferGeometry();
  const floats = (size: number, ...values: number[]) => new BufferAttribute(Float32Array.from(values), size);
  geometry.setAttribute('position', floats(3, ...to, ...to, ...at, ...at));
  geometry.setAttribute('other', floats(3, ...at, ...at, ...to, ...to));
  // Seen from the other end, the same side has the other sign.
  geometry.setAttribute('side', floats(1, 1, -1, -1, 1));
  geometry.setAttribute('shifted', floats(1, 0, 0, 1, 1));
  geometry.setIndex([0, 1, 2, 2, 1, 3]);
  const material = new ShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: LEADER_VERTEX,
    fragmentShader: LEADER_FRAGMENT,
    uniforms: { uColour: { value: shown(look.ink) }, ...shared },
    // Sorted with the labels, after them and under them.
    transparent: true,
    depthTest: false,
    depthWrite: false,
    side: DoubleSide,
  });
  const line = new Mesh(geometry, material);
  line.renderOrder = 9;
  line.frustumCulled = false;
  return line;
}

/** Canvas pixels per label pixel: sharp at the highest pixel ratio that the stage draws. */
const SHARPNESS = 2;
const WORDS_PX = 12.5;
const LETTER_PX = 17;

function written(
  text: string,
  look: OverlayLook,
  letter: string,
): { canvas: HTMLCanvasElement; width: number; height: number } {
  const canvas = document.createElement('canvas');
  const context = canvas.getContext('2d');
  if (!context) throw new Error('no second canvas for labels');
  const large = `600 ${LETTER_PX * SHARPNESS}px system-ui, sans-serif`;
  const small = `500 ${WORDS_PX * SHARPNESS}px system-ui, sans-serif`;
  context.font = large;
  const letterWidth = letter === '' ? 0 : context.measureText(letter).width;
  const space = letter !== '' && text !== '' ? 5 * SHARPNESS : 0;
  context.font = small;
  const padding = 5 * SHARPNESS;
  const size = letter === '' ? WORDS_PX : LETTER_PX;
  canvas.width = Math.ceil(letterWidth + space + context.measureText(text).width + 2 * padding);
  canvas.height = Math.ceil(size * SHARPNESS * 1.25 + padding);
  context.fillStyle = look.paper;
  context.globalAlpha = 0.9;
  context.beginPath();
  context.roundRect(0, 0, canvas.width, canvas.height, 5 * SHARPNESS);
  context.fill();
  context.globalAlpha = 1;
  context.fillStyle = look.ink;
  context.textBaseline = 'middle';
  const middle = canvas.height / 2 + SHARPNESS / 2;
  context.font = small;
  context.fillText(text, padding + letterWidth + space, middle);
  context.font = large;
  context.fillText(letter, padding, middle);
  return { canvas, width: canvas.width / SHARPNESS, height: canvas.height / SHARPNESS };
}
