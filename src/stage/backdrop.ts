/** The backdrop: one triangle behind everything that shows the floor with the piece's shade and the wall it rises into. */
import {
  BufferAttribute,
  BufferGeometry,
  GLSL3,
  Matrix4,
  Mesh,
  ShaderMaterial,
  Vector2,
  Vector4,
  type Camera,
} from 'three';
import type { Uniforms } from './material.ts';
import type { Viewport } from './viewports.ts';

const VERTEX = /* glsl */ `
out vec2 vNdc;
void main() {
  vNdc = position.xy;
  gl_Position = vec4(position.xy, 1.0, 1.0);
}
`;

const FRAGMENT = /* glsl */ `
precision highp float;
in vec2 vNdc;
out vec4 outColour;
// Where in the whole picture this part lies: middle and half size, both in −1…1, and its corner in pixels.
uniform vec4 uPart;
uniform vec2 uCorner;
uniform mat4 uFromClip;
uniform mat3 uToRig;
uniform sampler2D uFloorMap;
uniform float uReach;
uniform float uFloorY;
uniform float uSize;
uniform vec3 uFloorColour;
uniform vec3 uWallLow;
uniform vec3 uWallHigh;
uniform float uShade;
// 1 beside other variants: the shade ends before the seam between them; else 0.
uniform float uSeam;
void main() {
  vec2 at = uPart.xy + vNdc * uPart.zw;
  vec4 near_ = uFromClip * vec4(vNdc, -1.0, 1.0);
  vec4 far_ = uFromClip * vec4(vNdc, 1.0, 1.0);
  vec3 from = uToRig * (near_.xyz / near_.w);
  vec3 ray = normalize(uToRig * (far_.xyz / far_.w) - from);
  vec3 colour = mix(uWallLow, uWallHigh, smoothstep(-0.02, 0.55, ray.y + 0.06 * at.y));
  if (ray.y < -1e-4 && from.y > uFloorY) {
    vec3 hit = from + ray * ((uFloorY - from.y) / ray.y);
    float away = length(hit.xz) / uSize;
    vec3 shade = vec3(0.0);
    vec2 uv = hit.xz / uReach * 0.5 + 0.5;
    vec2 border = smoothstep(vec2(0.0), vec2(0.12), uv) * smoothstep(vec2(0.0), vec2(0.12), 1.0 - uv);
    if (all(greaterThan(uv, vec2(0.0))) && all(lessThan(uv, vec2(1.0)))) {
      for (int i = 0; i < 9; i++)
        shade += texture(uFloorMap, uv + vec2(float(i % 3 - 1), float(i / 3 - 1)) * (1.4 / 256.0)).rgb;
      shade *= border.x * border.y / 9.0;
    }
    shade *= 1.0 - uSeam * smoothstep(0.55, 0.98, max(abs(at.x), abs(at.y)));
    float pool = exp(-0.05 * away * away);
    vec3 ground = uFloorColour * (0.955 + 0.045 * pool);
    ground *= 1.0 - uShade * (0.30 * shade.r + 0.36 * shade.g + 0.07 * shade.b) * vec3(0.94, 1.0, 1.05);
    colour = mix(ground, colour, smoothstep(2.0, 9.0, away));
  }
  // A trace of noise keeps the slow gradients from banding.
  float grain = fract(sin(dot(gl_FragCoord.xy + uCorner, vec2(12.9898, 78.233))) * 43758.5453) - 0.5;
  outColour = vec4(colour + grain / 255.0, 1.0);
}
`;

export class Backdrop {
  readonly mesh: Mesh<BufferGeometry, ShaderMaterial>;
  private readonly fromClip = new Matrix4();

  constructor(shared: Uniforms) {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.of(-1, -1, 0, 3, -1, 0, -1, 3, 0), 3));
    const material = new ShaderMaterial({
      glslVersion: GLSL3,
      vertexShader: VERTEX,
      fragmentShader: FRAGMENT,
      depthTest: false,
      depthWrite: false,
      uniforms: {
        uToRig: shared.uToRig,
        uFloorColour: shared.uFloorColour,
        uWallLow: shared.uWallLow,
        uWallHigh: shared.uWallHigh,
        uFromClip: { value: this.fromClip },
        uFloorMap: { value: null },
        uReach: { value: 1 },
        uFloorY: { value: 0 },
        uSize: { value: 1 },
        uShade: shared.uShade,
        uSeam: { value: 0 },
        uPart: { value: new Vector4(0, 0, 1, 1) },
        uCorner: { value: new Vector2() },
      },
    });
    this.mesh = new Mesh(geometry, material);
    this.mesh.frustumCulled = false;
    this.mesh.renderOrder = -10;
    this.mesh.onBeforeRender = (_renderer, _scene, camera: Camera) => {
      this.fromClip.multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse).invert();
    };
  }

  /**
   * Draws a part of a box of the picture, both in pixels from the picture's lower left; `corner`: where the drawn target lies
   * in the picture.
   */
  setPart(box: Viewport, part: Viewport, corner: { readonly x: number; readonly y: number }): void {
    const u = this.mesh.material.uniforms;
    (u.uPart.value as Vector4).set(
      (2 * (part.x - box.x) + part.width) / box.width - 1,
      (2 * (part.y - box.y) + part.height) / box.height - 1,
      part.width / box.width,
      part.height / box.height,
    );
    (u.uCorner.value as Vector2).set(corner.x, corner.y);
  }

  dispose(): void {
    this.mesh.geometry.dispose();
    this.mesh.material.dispose();
  }
}
