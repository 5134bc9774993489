/**
 * GLSL: solid wood. `woodAt` is a function of the point in the piece's grain frame alone (q.z along the grain, the pith
 * at q.xy = 0, mm), so the figure runs through faces, cuts and turned surfaces. `dx`, `dy` are the pixel's sides in that
 * frame: whatever is finer than a pixel fades to its mean.
 */
export const WOOD = /* glsl */ `
uniform highp sampler2D uTimbers;
uniform mediump sampler2DArray uRings;
uniform mediump sampler3D uNoise;

struct Wood {
  vec3 colour;   // linear
  vec3 fibre;    // direction of the fibre, grain frame
  float silk;    // how much the fibre shines
  float endDark; // factor on end grain
};

vec4 noiseAt(vec3 x, float lod) {
  vec3 i = floor(x);
  vec3 f = x - i;
  f = f * f * (3.0 - 2.0 * f);
  return textureLod(uNoise, (i + f + 0.5) / NOISE_CELLS, lod);
}

float detail(vec3 dx, vec3 dy, float across, float along) {
  vec3 a = abs(dx) + abs(dy);
  return log2(max(max(max(a.x, a.y) / across, a.z / along), 1e-4));
}

vec3 hash3(vec2 cell, float salt) {
  vec3 h = fract(vec3(cell.xyx + salt) * vec3(0.1031, 0.1030, 0.0973));
  h += dot(h, h.yxz + 33.33);
  return fract((h.xxy + h.yzz) * h.zyx);
}

Wood woodAt(vec3 q, vec3 dx, vec3 dy, int row, bool fine) {
  vec4 base = texelFetch(uTimbers, ivec2(0, row), 0);
  vec4 line = texelFetch(uTimbers, ivec2(1, row), 0);
  vec4 streak = texelFetch(uTimbers, ivec2(2, row), 0);
  vec4 early = texelFetch(uTimbers, ivec2(3, row), 0);
  vec4 pore = texelFetch(uTimbers, ivec2(4, row), 0);
  vec4 ray = texelFetch(uTimbers, ivec2(5, row), 0);
  vec4 band = texelFetch(uTimbers, ivec2(6, row), 0);
  vec4 some = texelFetch(uTimbers, ivec2(7, row), 0);
  vec4 lean = texelFetch(uTimbers, ivec2(8, row), 0);
  float endDark = texelFetch(uTimbers, ivec2(9, row), 0).x;

  vec4 slow = noiseAt(vec3(q.xy / 37.0, q.z / 115.0) + 7.3, 0.0);
  vec4 mid = noiseAt(vec3(q.xy / 8.5, q.z / 58.0) + 19.7, 0.0);
  vec2 xy = q.xy + (slow.xy - 0.5) * (2.0 * some.w) + (mid.xy - 0.5) * (0.32 * some.w);
  float r = length(xy) + 1e-4;
  vec2 out_ = xy / r;
  float across = length(vec2(dot(out_, dx.xy), dot(out_, dy.xy)));
  vec4 ring = textureLod(uRings, vec3(r / RING_SPAN, 0.5, float(row)), log2(max(across / RING_TEXEL, 1e-3)));

  vec3 c = base.rgb;
  c *= mix(vec3(1.0), streak.rgb, ring.g * clamp(0.25 + 1.2 * slow.w, 0.0, 1.0));
  c *= mix(vec3(1.0), early.rgb, ring.b);
  c *= mix(vec3(1.0), line.rgb, ring.r);
  c *= 1.0 + (ring.a - 0.5) * 0.09;
  c *= 1.0 + some.z * ((slow.z - 0.5) * vec3(0.20, 0.26, 0.32) + (mid.z - 0.5) * vec3(0.10, 0.12, 0.15));

  if (band.w > 0.0) {
    float wave = 0.5 + 0.5 * sin(6.2832 * (r / band.w + 1.6 * mid.w + 0.9 * mid.y + 2.0 * slow.x));
    float seen = clamp(1.4 - across / (0.45 * band.w), 0.0, 1.0);
    c *= mix(vec3(1.0), band.rgb, mix(0.42, smoothstep(0.35, 0.8, wave), seen) * (0.55 + 0.9 * slow.x));
  }

  // The fibre leans to and fro: interlocked grain with the radius, ripple along the grain.
  float phase = 6.2832 * (r / lean.x + 0.8 * slow.z + 0.25 * mid.w);
  float interlock = lean.y * sin(phase);
  float ripple = lean.z * sin(6.2832 * (q.z / 8.5 + 1.7 * slow.w + 0.8 * mid.z)) * (2.0 * mid.w - 0.4);
  vec3 fibre = normalize(vec3(vec2(-out_.y, out_.x) * interlock + out_ * ripple, 1.0));
  c *= 1.0 + 0.45 * interlock * lean.w;

  if (fine) {
    vec4 coarse = noiseAt(vec3(q.xy / 0.62, q.z / 26.0), detail(dx, dy, 0.62, 26.0));
    vec4 hair = noiseAt(vec3(q.xy / 0.19, q.z / 7.0) + 3.1, detail(dx, dy, 0.19, 7.0));
    c *= 1.0 + ray.w * (0.26 * (coarse.x - 0.5) + 0.22 * (hair.x - 0.5));

    // Rays stand out radially: thin across the tangent, tall along the grain.
    float turn = atan(q.y, q.x) * 60.0;
    vec3 rayPlace = vec3(turn / (1.5 * early.w), r / 16.0, q.z / (0.9 * streak.w));
    float rayPixel = length(vec2(dot(vec2(-out_.y, out_.x), dx.xy), dot(vec2(-out_.y, out_.x), dy.xy)));
    float rayLod = log2(max(max(rayPixel / (1.5 * early.w), (abs(dx.z) + abs(dy.z)) / (0.9 * streak.w)), 1e-4));
    float flake = noiseAt(rayPlace + 41.0, min(rayLod, 3.0)).y;
    float lot = 1.0 - pore.w;
    c *= mix(vec3(1.0), ray.rgb, smoothstep(lot - 0.04, lot + 0.12, flake) * clamp(1.3 - 0.3 * rayLod, 0.0, 1.0));

    // Pores: tubes along the grain, one to a cell, that wander through their cell and so show as dashes on a face
    // along the grain and as dots on end grain.
    float cell = 3.4 * base.w;
    float poreScreen = max(length(dx.xy), length(dy.xy));
    float seen = clamp(1.6 - poreScreen / (1.6 * cell), 0.0, 1.0);
    float crowd = mix(some.x, some.y, ring.b) ;
    vec2 at = q.xy / cell;
    vec2 corner = floor(at);
    vec3 h = hash3(corner, 0.0);
    float z = q.z / line.w;
    vec2 centre = 0.5 + 0.27 * vec2(sin(z * (1.3 + h.x) + 40.0 * h.y), sin(z * (1.1 + h.y) + 40.0 * h.z));
    float d = length(at - corner - centre) * cell;
    float radius = 0.5 * base.w * (0.55 + 0.8 * h.z);
    float w = max(poreScreen, 1e-3);
    float inside = clamp((min(d + 0.5 * w, radius) - max(d - 0.5 * w, -radius)) / w, 0.0, 1.0);
    float taken = step(h.x, crowd);
    float mean = crowd * 0.11;
    c *= mix(vec3(1.0), pore.rgb, mix(mean, inside * taken, seen));
  }
  return Wood(c, fibre, lean.w, endDark);
}
`;
