/**
 * Shadows of one variant. The key light turns with the camera, so all of this lives in the rig's frame: a depth map seen
 * from the key light, and from it a small picture of the floor's shade, soft where the piece is far. Both are drawn
 * only when the piece or its place before the light has changed.
 */
import {
  DepthTexture,
  GLSL3,
  LessEqualCompare,
  LinearFilter,
  Matrix4,
  Mesh,
  NoBlending,
  OrthographicCamera,
  PlaneGeometry,
  Scene,
  ShaderMaterial,
  UnsignedIntType,
  Vector3,
  WebGLRenderTarget,
  type WebGLRenderer,
} from 'three';
import type { WorkMesh } from '../meshes/mesh.ts';
import type { SharedLook } from './light.ts';
import type { Uniforms } from './material.ts';

const MAP_SIZE = 768;
const FLOOR_SIZE = 256;

const FLOOR_FRAGMENT = /* glsl */ `
precision highp float;
in vec2 vUv;
out vec4 outColour;
uniform mat4 uSunMatrix;
uniform highp sampler2DShadow uSunMap;
uniform float uReach;   // half-width of the floor's picture, mm
uniform float uFoot;    // largest radius of the piece at the floor, mm
uniform vec3 uFaces[8];  // the blank's flats: cos, sin, distance
uniform int uFaceCount;
uniform mat3 uModel;    // lathe frame to the rig's
uniform vec4 uSection;  // normal, offset of what is taken away; a zero normal: nothing
uniform float uWide;    // its largest radius
uniform float uTall;
uniform float uFloorY;
uniform float uSunSoft;

/** How far a place of the floor lies outside what stands on it: a circle, less what the flats and the section take off. */
float besideFoot(vec2 at) {
  vec2 p = (vec3(at.x, 0.0, at.y) * uModel).xy;
  float squares = 0.0;
  for (int i = 0; i < uFaceCount; i++) {
    float beyond = max(0.0, dot(uFaces[i].xy, p) - uFaces[i].z);
    squares += beyond * beyond;
  }
  float opened = dot(uSection.xyz, vec3(p, uFloorY)) - uSection.w;
  if (opened > 0.0) squares += opened * opened / max(dot(uSection.xy, uSection.xy), 1e-3);
  return max(sqrt(squares), max(0.0, length(at) - uFoot));
}

void main() {
  vec2 at = (vUv * 2.0 - 1.0) * uReach;
  float away = length(at);
  float beside = besideFoot(at);
  float lit = 0.0;
  float spread = uSunSoft * (0.04 * uWide + 0.02 * uTall + 0.24 * beside);
  float turn = 6.2832 * fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715))));
  for (int i = 0; i < 40; i++) {
    float a = float(i) * 2.39996 + turn;
    float d = sqrt((float(i) + 0.5) / 40.0) * spread;
    vec4 s = uSunMatrix * vec4(at.x + d * cos(a), uFloorY + 0.2, at.y + d * sin(a), 1.0);
    vec3 m = s.xyz * 0.5 + 0.5 - vec3(0.0, 0.0, 0.001);
    bool seen = all(greaterThan(m.xy, vec2(0.0))) && all(lessThan(m.xy, vec2(1.0)));
    lit += seen ? texture(uSunMap, m) : 1.0;
  }
  float contact = exp(-beside / (0.07 * min(uTall, 2.0 * uWide) + 1.0));
  float fade = exp(-max(0.0, away - uWide) / (1.1 * uWide + 0.3 * uTall));
  float near_ = exp(-max(0.0, away - uWide) / (0.9 * uWide));
  outColour = vec4((1.0 - lit / 40.0) * fade, contact, near_, 1.0);
}
`;

const FLOOR_VERTEX = /* glsl */ `
out vec2 vUv;
void main() {
  vUv = uv;
  gl_Position = vec4(position.xy, 0.0, 1.0);
}
`;

export interface Casting {
  readonly centerY_mm: number;
  readonly radius_mm: number;
  readonly floorY_mm: number;
  readonly foot_mm: number;
  readonly wide_mm: number;
  readonly tall_mm: number;
}

/** What a mesh (drawn frame) casts; `foot_mm`: its largest radius where it stands. */
export function castingOf(mesh: WorkMesh, foot_mm: number): Casting {
  let low = Infinity;
  let high = -Infinity;
  let wide = 0;
  const p = mesh.positions;
  for (let i = 0; i < p.length; i += 3) {
    low = Math.min(low, p[i + 1]);
    high = Math.max(high, p[i + 1]);
    wide = Math.max(wide, p[i] * p[i] + p[i + 2] * p[i + 2]);
  }
  const wide_mm = Math.sqrt(wide);
  const tall_mm = high - low;
  return {
    centerY_mm: (low + high) / 2,
    radius_mm: Math.hypot(wide_mm, tall_mm / 2) * 1.15,
    floorY_mm: low,
    foot_mm,
    wide_mm,
    tall_mm,
  };
}

export class VariantShadow {
  /** Rig's frame to the light's clip space. */
  readonly sunMatrix = new Matrix4();
  readonly texel = 1 / MAP_SIZE;
  private readonly camera = new OrthographicCamera();
  private readonly map: WebGLRenderTarget;
  private readonly floor = new WebGLRenderTarget(FLOOR_SIZE, FLOOR_SIZE, { depthBuffer: false });
  private readonly floorScene = new Scene();
  private readonly floorMaterial: ShaderMaterial;
  private readonly floorMesh: Mesh;
  reach_mm = 100;

  private readonly look: SharedLook;

  /** `variant`: where its flats are, and how it is turned. */
  constructor(look: SharedLook, variant: Uniforms) {
    this.look = look;
    const depth = new DepthTexture(MAP_SIZE, MAP_SIZE, UnsignedIntType);
    depth.compareFunction = LessEqualCompare;
    depth.minFilter = depth.magFilter = LinearFilter;
    this.map = new WebGLRenderTarget(MAP_SIZE, MAP_SIZE, { depthTexture: depth });
    this.floorMaterial = new ShaderMaterial({
      glslVersion: GLSL3,
      vertexShader: FLOOR_VERTEX,
      fragmentShader: FLOOR_FRAGMENT,
      blending: NoBlending,
      depthTest: false,
      depthWrite: false,
      uniforms: {
        uSunMatrix: { value: this.sunMatrix },
        uSunMap: { value: depth },
        uReach: { value: 1 },
        uFoot: { value: 1 },
        uWide: { value: 1 },
        uTall: { value: 1 },
        uFloorY: { value: 0 },
        uFaces: variant.uFaces,
        uFaceCount: variant.uFaceCount,
        uModel: variant.uModel,
        uSection: variant.uSection,
        uSunSoft: look.uniforms.uSunSoft,
      },
    });
    this.floorMesh = new Mesh(new PlaneGeometry(2, 2), this.floorMaterial);
    this.floorMesh.frustumCulled = false;
    this.floorScene.add(this.floorMesh);
  }

  get sunTexture(): DepthTexture | null {
    return this.map.depthTexture;
  }

  get floorTexture(): WebGLRenderTarget['texture'] {
    return this.floor.texture;
  }

  /** Draws the depth map; `scene` holds the variant with its depth materials in place. */
  drawMap(renderer: WebGLRenderer, scene: Scene, toRig: Matrix4, casting: Casting): void {
    const { camera } = this;
    const r = casting.radius_mm;
    const center = new Vector3(0, casting.centerY_mm, 0);
    const fromRig = toRig.clone().transpose();
    const toward = this.look.keyTo.clone().transformDirection(fromRig);
    camera.left = camera.bottom = -r;
    camera.right = camera.top = r;
    camera.near = 0;
    camera.far = 4 * r;
    camera.position.copy(center).addScaledVector(toward, 2 * r);
    camera.lookAt(center);
    camera.updateMatrixWorld();
    camera.updateProjectionMatrix();
    const before = renderer.getRenderTarget();
    renderer.setRenderTarget(this.map);
    renderer.clear(true, true, false);
    renderer.render(scene, camera);
    renderer.setRenderTarget(before);
    this.sunMatrix.multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse).multiply(fromRig);
  }

  /** Draws the floor's shade from the depth map. */
  drawFloor(renderer: WebGLRenderer, casting: Casting): void {
    this.reach_mm = casting.radius_mm * 2.6;
    const u = this.floorMaterial.uniforms;
    u.uReach.value = this.reach_mm;
    u.uFoot.value = casting.foot_mm;
    u.uWide.value = casting.wide_mm;
    u.uTall.value = casting.tall_mm;
    u.uFloorY.value = casting.floorY_mm;
    const before = renderer.getRenderTarget();
    renderer.setRenderTarget(this.floor);
    renderer.render(this.floorScene, this.camera);
    renderer.setRenderTarget(before);
  }

  dispose(): void {
    this.map.depthTexture?.dispose();
    this.map.dispose();
    this.floor.dispose();
    this.floorMaterial.dispose();
    this.floorMesh.geometry.dispose();
  }
}
