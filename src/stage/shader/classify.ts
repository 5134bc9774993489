/**
 * GLSL: which wood a pixel shows. The same rule as blank/material.ts: of the slots that hold the point, the last one
 * cut wins. p is in the lathe frame, mm.
 *
 * `exactMaterial` is that rule and nothing else. `paintAt` adds what a picture needs: an edge is shared between the
 * two woods by the part of the pixel that each covers, measured by the distance to the plane over the pixel's size in
 * that direction, so an edge stays one pixel wide at any zoom.
 */
export const CLASSIFY = /* glsl */ `
#define LAYER_LINE 0.03
uniform highp sampler2D uSlots;
uniform highp sampler2D uLayers;
uniform highp usampler2D uCells;
uniform highp usampler2D uList;
uniform vec3 uCellOrigin;
uniform vec3 uCellScale;
uniform int uFilled;

uvec2 slotsNear(vec3 p) {
  ivec3 cell = ivec3(clamp((p - uCellOrigin) * uCellScale, vec3(0.0), vec3(ACROSS - 0.5, ACROSS - 0.5, ALONG - 0.5)));
  uint packed = texelFetch(uCells, ivec2(cell.y * int(ACROSS) + cell.x, cell.z), 0).r;
  return uvec2(packed >> 8u, packed & 255u);
}

int slotAt(uint place) {
  return int(texelFetch(uList, ivec2(int(place & 1023u), int(place >> 10u)), 0).r);
}

int exactMaterial(vec3 p) {
  uvec2 near = slotsNear(p);
  for (uint k = 0u; k < near.y; k++) {
    int slot = slotAt(near.x + k);
    if (slot >= uFilled) continue;
    vec4 kerf = texelFetch(uSlots, ivec2(0, slot), 0);
    if (abs(dot(kerf.xyz, p) - kerf.w) > 1.0) continue;
    vec4 stop = texelFetch(uSlots, ivec2(1, slot), 0);
    if (dot(stop.xyz, p) <= stop.w) return slot;
  }
  return -1;
}

/** Size of the pixel along a direction of the lathe frame, mm. */
float pixelAlong(vec3 n, vec3 dx, vec3 dy) {
  float a = dot(n, dx);
  float b = dot(n, dy);
  return sqrt(a * a + b * b) + 1e-7;
}

/** Share of a pixel of width w, centred at d, that lies in [0, g]. */
float overlap(float d, float w, float g) {
  return clamp((min(d + 0.5 * w, g) - max(d - 0.5 * w, 0.0)) / w, 0.0, 1.0);
}

struct Paint {
  int top;        // layer row
  int under;      // layer row seen through the top's edge
  float cover;    // share of the pixel that the top covers
  float line;     // share that is glue line
  int slot;       // slot of the top, -1: the blank
};

Paint paintAt(vec3 p, vec3 dx, vec3 dy) {
  Paint paint = Paint(0, 0, 1.0, 0.0, -1);
  uvec2 near = slotsNear(p);
  bool found = false;
  for (uint k = 0u; k < near.y; k++) {
    int slot = slotAt(near.x + k);
    if (slot >= uFilled) continue;
    vec4 kerf = texelFetch(uSlots, ivec2(0, slot), 0);
    float f = dot(kerf.xyz, p) - kerf.w;
    float wf = pixelAlong(kerf.xyz, dx, dy);
    if (abs(f) > 1.0 + 0.5 * wf) continue;
    vec4 rest = texelFetch(uSlots, ivec2(2, slot), 0);
    f *= rest.x;
    wf = min(wf * rest.x, 1.2);
    if (abs(f) > rest.x + 0.5 * wf) continue;
    vec4 stop = texelFetch(uSlots, ivec2(1, slot), 0);
    float room = stop.w - dot(stop.xyz, p);
    float ws = min(pixelAlong(stop.xyz, dx, dy), 1.2);
    float share = clamp((min(f + 0.5 * wf, rest.x) - max(f - 0.5 * wf, -rest.x)) / wf, 0.0, 1.0)
      * clamp(0.5 + room / ws, 0.0, 1.0);
    if (share <= 0.0) continue;
    int row = int(rest.z);
    int other = row;
    float cover = 1.0;
    float between = 0.0;
    int count = int(rest.y);
    if (count > 1) {
      int layer = count - 1;
      float below = -1e6;
      float above = 1e6;
      for (int i = 0; i < count - 1; i++) {
        float bound = texelFetch(uLayers, ivec2(0, row + i), 0).x;
        if (f < bound) {
          layer = i;
          above = bound;
          break;
        }
        below = bound;
      }
      row += layer;
      float nearest = min(above - f, f - below);
      cover = clamp(0.5 + nearest / wf, 0.0, 1.0);
      other = row + (above - f < f - below ? 1 : -1);
      between = overlap(nearest + LAYER_LINE, wf, 2.0 * LAYER_LINE);
    }
    if (!found) {
      found = true;
      paint.slot = slot;
      paint.top = row;
      paint.under = other;
      paint.cover = cover;
      float edges = overlap(rest.x - f, wf, rest.w) + overlap(rest.x + f, wf, rest.w) + overlap(room, ws, rest.w);
      paint.line = min(1.0, edges + between);
      if (share >= 0.996) return paint;
      paint.cover = share;
      paint.under = 0;
    } else if (share > 0.5) {
      paint.under = row;
      return paint;
    }
  }
  return paint;
}
`;
