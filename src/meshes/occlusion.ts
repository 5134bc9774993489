/**
 * How much of the sky each point of a turned form sees: the soft shade of a bowl's inside and of a waist. The form
 * is a surface of revolution, so one half-section is enough. An estimate for the picture only: rays are walked
 * through the half-section in steps. Lathe frame, mm.
 */
import type { SweptProfile } from './formProfile.ts';

const SAMPLES = 56;
const STEPS = 11;
/** Directions about the normal, weighted by the cosine: (sine, cosine) of the angle from the normal. */
const RINGS = [0.2, 0.45, 0.65, 0.82, 0.95] as const;
const SPOKES = 8;

/** Openness (0…1) at each vertex of a half-section. */
export function profileOpenness(profile: SweptProfile): Float64Array {
  const { z_mm: z, r_mm: r } = profile;
  const n = z.length;
  const along = new Float64Array(n);
  for (let i = 1; i < n; i++) along[i] = along[i - 1] + Math.hypot(z[i] - z[i - 1], r[i] - r[i - 1]);
  const total = along[n - 1];
  if (total === 0) return new Float64Array(n).fill(1);
  const polygon = thinned(z, r, along);
  const reach = 2.2 * Math.max(...r, (Math.max(...z) - Math.min(...z)) / 2);
  const samples = new Float64Array(SAMPLES);
  for (let s = 0, i = 0; s < SAMPLES; s++) {
    const at = ((s + 0.5) / SAMPLES) * total;
    while (i + 2 < n && along[i + 1] < at) i++;
    const t = (at - along[i]) / (along[i + 1] - along[i] || 1);
    const dz = z[i + 1] - z[i];
    const dr = r[i + 1] - r[i];
    const length = Math.hypot(dz, dr) || 1;
    const point = { z: z[i] + t * dz, r: r[i] + t * dr };
    samples[s] = openAt(point, -dr / length, dz / length, polygon, reach);
  }
  return Float64Array.from({ length: n }, (_, i) => {
    const at = Math.min(Math.max((along[i] / total) * SAMPLES - 0.5, 0), SAMPLES - 1);
    const low = Math.floor(at);
    const high = Math.min(low + 1, SAMPLES - 1);
    return samples[low] + (at - low) * (samples[high] - samples[low]);
  });
}

interface Polygon {
  readonly z: readonly number[];
  readonly r: readonly number[];
}

/** The half-section with about as many vertices as there are samples; corners stay within a pixel or so. */
function thinned(z: Float64Array, r: Float64Array, along: Float64Array): Polygon {
  const step = along[along.length - 1] / 64;
  const out = { z: [z[0]], r: [r[0]] };
  let last = 0;
  for (let i = 1; i < z.length; i++) {
    const next = i + 1 < z.length ? along[i + 1] - along[i] : Infinity;
    if (along[i] - along[last] < step && next < step) continue;
    out.z.push(z[i]);
    out.r.push(r[i]);
    last = i;
  }
  return out;
}

function openAt(
  point: { z: number; r: number },
  nz: number,
  nr: number,
  polygon: Polygon,
  reach: number,
): number {
  const startX = point.r + nr * reach * 0.004;
  const startZ = point.z + nz * reach * 0.004;
  let open = 0;
  let weights = 0;
  for (const sine of RINGS) {
    const cosine = Math.sqrt(1 - sine * sine);
    for (let k = 0; k < SPOKES; k++) {
      const angle = (2 * Math.PI * (k + 0.5)) / SPOKES;
      const a = sine * Math.cos(angle);
      const dx = cosine * nr - a * nz;
      const dz = cosine * nz + a * nr;
      const dy = sine * Math.sin(angle);
      weights += sine;
      open += sine * freeShare(startX, startZ, dx, dy, dz, polygon, reach);
    }
  }
  return weights === 0 ? 1 : open / weights;
}

/** 1 when the ray leaves freely; what it meets far off shades less. */
function freeShare(
  x0: number,
  z0: number,
  dx: number,
  dy: number,
  dz: number,
  polygon: Polygon,
  reach: number,
): number {
  let t = reach * 0.012;
  for (let step = 0; step < STEPS; step++) {
    const x = x0 + t * dx;
    const y = t * dy;
    if (holds(polygon, z0 + t * dz, Math.hypot(x, y))) return Math.min(1, (t / reach) * 0.9);
    t *= 1.5;
  }
  return 1;
}

function holds({ z, r }: Polygon, atZ: number, atR: number): boolean {
  let inside = false;
  for (let i = 0, j = z.length - 1; i < z.length; j = i++) {
    if (z[i] > atZ !== z[j] > atZ && atR < ((r[j] - r[i]) * (atZ - z[i])) / (z[j] - z[i]) + r[i])
      inside = !inside;
  }
  return inside;
}
