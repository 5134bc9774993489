/**
 * GLSL: a small photographer's studio, worked out per pixel instead of from an environment picture: a large soft key on
 * the left, a strip on the right, a strip behind, a sky and a floor. Directions are in the rig's frame, which turns with
 * the camera about the vertical: the piece turns before the lights, as on a turntable.
 *
 * The fibre highlight follows the idea of Marschner, Westin, Arbree and Moon, "Measuring and modeling the appearance of
 * finished wood" (ACM TOG 24(3), 2005; from memory): light that has entered the wood leaves in a cone about the fibre.
 */
export const LIGHT = /* glsl */ `
uniform vec3 uSky;
uniform vec3 uGround;
uniform vec3 uKey;
uniform vec3 uFill;
uniform vec3 uRim;
uniform float uRough;
uniform float uCoat;
uniform float uSilk;

uniform vec3 uKeyTo;       // toward the key light
uniform mat3 uKeyPanel;    // what a polish shows of it: middle, and the panel's two sides
uniform vec2 uKeyHalf;     // half its width and height at distance one

const vec3 FILL = vec3(0.8498, 0.2124, 0.4824);
const vec3 RIM = vec3(0.3714, 0.3714, -0.8510);

/** Brightness of a rectangular light seen in direction R, its edge softened by the surface's roughness. */
float panel(vec3 R, vec3 c, vec3 x, vec3 y, vec2 half_, float soft) {
  float t = dot(R, c);
  if (t <= 0.02) return 0.0;
  vec2 d = abs(vec2(dot(R, x), dot(R, y)) / t) - half_;
  vec2 s = smoothstep(vec2(soft), vec2(-soft), d);
  return s.x * s.y * (half_.x / (half_.x + 0.6 * soft)) * (half_.y / (half_.y + 0.6 * soft));
}

/** What a polished surface shows of the studio: tall panels, so that upright forms have something to reflect. */
vec3 reflected(vec3 R, float soft) {
  vec3 c = mix(uGround, uSky, smoothstep(-0.35, 0.5, R.y)) * 0.6;
  c += uKey * 2.6 * panel(R, uKeyPanel[0], uKeyPanel[1], uKeyPanel[2], uKeyHalf, soft);
  c += uFill * 4.0 * panel(R, vec3(0.9236, 0.1026, 0.3694), vec3(0.3714, 0.0000, -0.9285), vec3(-0.0953, 0.9947, -0.0381), vec2(0.10, 1.1), soft);
  c += uRim * 2.0 * panel(R, vec3(0.3103, 0.3620, -0.8790), vec3(-0.9430, 0.0000, -0.3328), vec3(-0.1205, 0.9322, 0.3413), vec2(0.3, 0.8), soft);
  return c;
}

/** Lambert from a broad light: it still reaches a little round the corner. */
float broad(float c, float wrap) {
  return clamp((c + wrap) / (1.0 + wrap), 0.0, 1.0);
}

/** Cone of light about the fibre T; L toward the light, V toward the eye. Angles are those inside the wood. */
float cone(vec3 T, vec3 L, vec3 V, float width) {
  float s = (dot(T, L) + dot(T, V)) / 1.5;
  return exp(-s * s / (2.0 * width * width));
}

vec3 shade(vec3 albedo, vec3 N, vec3 T, vec3 V, float silk, float polish, float open, float sun) {
  float nv = clamp(dot(N, V), 0.0, 1.0);
  // Light that leaves the wood again has been coloured by it: dark corners of a warm wood stay warm.
  vec3 openC = open / (open + (1.0 - open) * (1.0 - 0.55 * albedo));
  float keyN = broad(dot(N, uKeyTo), 0.18) * sun;
  float fillN = broad(dot(N, FILL), 0.3);
  float rimN = broad(dot(N, RIM), 0.1);
  vec3 sky = mix(uGround, uSky, 0.5 + 0.5 * N.y);
  vec3 direct = uKey * keyN + (uFill * fillN + uRim * rimN) * open;
  float silkK = uSilk * silk * polish;
  vec3 fibre = uKey * (cone(T, uKeyTo, V, 0.16) * keyN) + uFill * (cone(T, FILL, V, 0.16) * fillN * open);
  vec3 c = albedo * (direct * (1.0 - 0.35 * silkK) + sky * openC);
  c += silkK * fibre * mix(albedo, sqrt(albedo), 0.5) * 0.95;

  vec3 R = reflect(-V, N);
  float fresnel = 0.04 + (max(1.0 - uRough, 0.04) - 0.04) * pow(1.0 - nv, 5.0);
  float hidden = clamp(pow(nv + open, 1.5) - 1.0 + open, 0.0, 1.0);
  c += reflected(R, 0.08 + 0.9 * uRough) * fresnel * uCoat * polish * hidden * mix(0.35, 1.0, sun);
  return c;
}

/**
 * The shoulder of Khronos PBR Neutral without its toe: colours below 0.76 stay exactly as they are, highlights roll off
 * toward white. (The toe takes out a mirror's 4 % that this studio does not add, and would darken dark woods.)
 */
vec3 neutral(vec3 c) {
  float peak = max(c.r, max(c.g, c.b));
  if (peak < 0.76) return c;
  float fresh = 1.0 - 0.0576 / (peak + 0.24 - 0.76);
  c *= fresh / peak;
  float g = 1.0 - 1.0 / (0.15 * (peak - fresh) + 1.0);
  return mix(c, vec3(fresh), g);
}

vec3 encode(vec3 c) {
  c = clamp(c, 0.0, 1.0);
  return mix(12.92 * c, 1.055 * pow(c, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, c));
}
`;
