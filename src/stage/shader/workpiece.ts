/**
 * GLSL: the one material that paints any mesh of the workpiece. Modes (uMode):
 * 0 the picture; 1 moving: the same woods, without their finest figure; 2 flat colour in the same light (the yardstick
 * for speed); 3 the number of the material, for reading back; 4 the colour of the wood itself, without light (bake/).
 */
import { CELLS_ACROSS, CELLS_ALONG } from '../slotTexture.ts';
import { NOISE_CELLS } from '../wood/noise.ts';
import { RING_SPAN_MM } from '../wood/timberTexture.ts';
import { CLASSIFY } from './classify.ts';
import { LIGHT } from './light.ts';
import { WOOD } from './wood.ts';

const DEFINES = `
#define ACROSS ${CELLS_ACROSS.toFixed(1)}
#define ALONG ${CELLS_ALONG.toFixed(1)}
#define NOISE_CELLS ${NOISE_CELLS.toFixed(1)}
#define RING_SPAN ${RING_SPAN_MM.toFixed(1)}
#define RING_TEXEL ${(RING_SPAN_MM / 2048).toFixed(6)}
`;

/** Which wood is taken away: beyond the section plane, or inside the region that is cut out. Lathe frame. */
const TAKEN = /* glsl */ `
uniform vec4 uSection;      // normal, offset; a zero normal: none
uniform vec4 uCut[6];       // half-spaces of the region cut out
uniform int uCutCount;
uniform int uCapOf;         // on the cap of one of the region's planes: its number, else -1

uniform int uHoleCount;
uniform vec4 uHoleFrom[8];  // where a drill came in, radius
uniform vec4 uHoleTo[8];    // direction into the wood, depth

/** Inside a hole whose solid is still being worked out. */
bool inHole(vec3 p) {
  for (int i = 0; i < uHoleCount; i++) {
    vec3 from = p - uHoleFrom[i].xyz;
    float t = dot(from, uHoleTo[i].xyz);
    vec3 off = from - t * uHoleTo[i].xyz;
    if (t <= uHoleTo[i].w && dot(off, off) <= uHoleFrom[i].w * uHoleFrom[i].w) return true;
  }
  return false;
}

bool takenAway(vec3 p) {
  if (dot(uSection.xyz, p) > uSection.w + 1e-3) return true;
  if (uCutCount == 0) return false;
  bool inside = true;
  for (int i = 0; i < uCutCount; i++) {
    if (i == uCapOf) continue;
    if (dot(uCut[i].xyz, p) > uCut[i].w - (uCapOf < 0 ? 1e-3 : 0.0)) inside = false;
  }
  return uCapOf < 0 ? inside : !inside;
}
`;

export const VERTEX = /* glsl */ `
in float radius;
in float openness;
uniform mat3 uToRig;
out vec3 vP;
// Taken within the triangle: beyond it, at the outline's part-covered pixels, the normal faces away and shines.
centroid out vec3 vNormal;
out vec3 vRig;
out float vRadius;
out float vOpen;

void main() {
  vP = vec3(position.x, -position.z, position.y);
  vec4 world = modelMatrix * vec4(position, 1.0);
  vRig = uToRig * world.xyz;
  vNormal = uToRig * mat3(modelMatrix) * normal;
  vRadius = radius;
  vOpen = openness;
  gl_Position = projectionMatrix * viewMatrix * world;
}
`;

export const FRAGMENT = /* glsl */ `
precision highp float;
precision highp int;
${DEFINES}
in vec3 vP;
centroid in vec3 vNormal;
in vec3 vRig;
in float vRadius;
in float vOpen;
out vec4 outColour;

uniform int uMode;
uniform int uForced;          // layer row that the whole mesh is made of, or -1
uniform int uForcedSlot;
uniform mat3 uModel;          // lathe frame to the rig's
uniform vec3 uEye;            // rig's frame
uniform vec3 uView;           // toward the eye when the projection is parallel, else zero
uniform mat4 uSunMatrix;
uniform highp sampler2DShadow uSunMap;
uniform float uSunTexel;
uniform float uSunSoft;       // breadth of the shadow's edge; 1: the studio's key
uniform float uOil;
uniform int uHighlight;
uniform vec4 uOpenKerf;       // normal, offset of the slot that stands open
uniform float uOpenHalf;      // its half width, 0: none
uniform vec3 uFaces[8];       // the blank's flats: cos, sin, distance; for the shade in the kerf
uniform int uFaceCount;
uniform float uOpacity;
uniform float uExposure;
${TAKEN}
${CLASSIFY}
${WOOD}
${LIGHT}

float sunAt(vec3 rig, vec3 N) {
  if (uMode == 4) return 1.0;
  vec4 s = uSunMatrix * vec4(rig + N * 0.4, 1.0);
  vec3 at = s.xyz / s.w * 0.5 + 0.5;
  if (uMode == 1) return texture(uSunMap, vec3(at.xy, at.z - 0.002));
  float sum = 0.0;
  for (int i = 0; i < 10; i++) {
    float a = float(i) * 2.39996;
    float d = sqrt(float(i) + 0.5) * 2.1 * uSunSoft * uSunTexel;
    sum += texture(uSunMap, vec3(at.xy + d * vec2(cos(a), sin(a)), at.z - 0.002));
  }
  return sum * 0.1;
}

/** How much light finds its way into an open kerf: less with every kerf width of depth. */
float kerfOpen(vec3 p) {
  if (uOpenHalf <= 0.0) return 1.0;
  if (abs(dot(uOpenKerf.xyz, p) - uOpenKerf.w) > uOpenHalf + 0.02) return 1.0;
  float depth = uFaceCount == 0 ? uFaces[0].z - length(p.xy) : 1e6;
  for (int i = 0; i < uFaceCount; i++) depth = min(depth, uFaces[i].z - dot(uFaces[i].xy, p.xy));
  return 2.0 * uOpenHalf / (2.0 * uOpenHalf + max(0.0, depth));
}

void main() {
  vec3 p = vP;
  if (vRadius > 0.0) {
    float there = length(p.xy);
    if (there > 1e-3) p.xy *= clamp(vRadius / there, 0.97, 1.03);
  }
  if (takenAway(p)) discard;
  vec3 dx = dFdx(vP);
  vec3 dy = dFdy(vP);

  if (uMode == 3) {
    int m = uForced >= 0 ? uForcedSlot : exactMaterial(p);
    outColour = vec4(float(m + 1) / 255.0, 0.0, 0.0, 1.0);
    return;
  }

  vec3 N = normalize(vNormal);
  vec3 V = uView == vec3(0.0) ? normalize(uEye - vRig) : uView;
  float kerf = kerfOpen(p);
  float open = vOpen * kerf;
  float sun = dot(N, uKeyTo) > -0.2 ? sunAt(vRig, N) : 0.0;
  if (uMode == 2) {
    vec3 flatColour = shade(vec3(0.35, 0.22, 0.12), N, uModel * vec3(0.0, 0.0, 1.0), V, 0.5, 1.0, open, sun);
    outColour = vec4(encode(neutral(flatColour * uExposure)), uOpacity);
    return;
  }

  Paint paint = Paint(uForced, uForced, 1.0, 0.0, uForcedSlot);
  if (uForced < 0) paint = paintAt(p, dx, dy);
  float coverage = uMode == 1 ? 1.0 : paint.cover;
  if (uMode == 1 && paint.cover < 0.5) paint.top = paint.under;

  vec3 albedo = vec3(0.0);
  vec3 fibre = vec3(0.0, 0.0, 1.0);
  float silk = 0.0;
  float endSeen = 0.0;
  vec3 nl = N * uModel;
  for (int pass = 0; pass < 2; pass++) {
    float share = pass == 0 ? coverage : 1.0 - coverage;
    if (share < 0.004) continue;
    int row = pass == 0 ? paint.top : paint.under;
    vec4 head = texelFetch(uLayers, ivec2(0, row), 0);
    vec4 a = texelFetch(uLayers, ivec2(1, row), 0);
    vec4 b = texelFetch(uLayers, ivec2(2, row), 0);
    vec4 g = texelFetch(uLayers, ivec2(3, row), 0);
    mat3 grain = transpose(mat3(a.xyz, b.xyz, g.xyz));
    vec3 q = grain * p + vec3(a.w, b.w, g.w);
    Wood wood = woodAt(q, grain * dx, grain * dy, int(head.y), uMode != 1);
    float end = abs(dot(nl, g.xyz));
    end = smoothstep(0.35, 0.95, end);
    vec3 c = wood.colour * mix(1.0, wood.endDark, end);
    // Oil and lacquer deepen the colour, end grain drinks most.
    c = pow(c, vec3(1.0 + uOil * (0.15 + 0.1 * end)));
    c = max(mix(vec3(dot(c, vec3(0.2126, 0.7152, 0.0722))), c, 1.0 + 0.04 * uOil), 0.0);
    // It is amber itself.
    c *= mix(vec3(1.0), vec3(1.02, 1.0, 0.91), uOil);
    albedo += share * c;
    if (share >= 0.5) {
      fibre = wood.fibre * grain;
      silk = wood.silk * (1.0 - 0.85 * end);
      endSeen = end;
    }
  }
  albedo *= mix(vec3(1.0), vec3(0.34, 0.27, 0.21), 0.85 * paint.line);
  silk *= 1.0 - paint.line;

  if (uMode == 4) {
    outColour = vec4(encode(albedo), 1.0);
    return;
  }
  if (inHole(p)) albedo *= 0.06;
  if (uHighlight >= 0) {
    if (paint.slot == uHighlight) albedo = mix(albedo, vec3(1.0, 0.72, 0.28), 0.22) * 1.12;
    else if (paint.slot >= 0) albedo = mix(albedo, vec3(dot(albedo, vec3(0.3, 0.6, 0.1))), 0.35) * 0.82;
  }
  vec3 T = normalize(uModel * fibre);
  // Freshly sawn faces have no finish yet; end grain drinks a thin one and stays duller.
  float polish = kerf < 1.0 ? 0.0 : 1.0 - min(1.0, 2.2 * uRough) * endSeen;
  vec3 c = shade(albedo, N, T, V, silk, polish, open, sun * kerf);
  if (uHighlight >= 0 && paint.slot == uHighlight) c += vec3(0.10, 0.06, 0.015);
  outColour = vec4(encode(neutral(c * uExposure)), uOpacity);
}
`;

/** Depth only, for the light's view; drops the same wood. */
export const DEPTH_VERTEX = /* glsl */ `
out vec3 vP;
void main() {
  vP = vec3(position.x, -position.z, position.y);
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}
`;

export const DEPTH_FRAGMENT = /* glsl */ `
precision highp float;
in vec3 vP;
out vec4 outColour;
${TAKEN}
void main() {
  if (takenAway(vP)) discard;
  outColour = vec4(1.0);
}
`;
