/**
 * Crossings: the points of the outside where the mid-planes of two slots meet and neither is in its web; the
 * later cut lies over the earlier one (docs/geometry.md, "Rings"). Lathe frame, mm.
 *
 * The two mid-planes meet in a line p = a + s d (elementary); on a frustum x² + y² = r(z)² makes that a
 * quadratic in s. Points on a joint of two frusta are found from both sides and counted once; so is a
 * tangency: a line within SAME_MM of touching the surface. A line that runs within a flat ring
 * of the outside crosses at the ring's edges.
 */
import { azimuthOf } from '../geometry/angle.ts';
import { frustaOf, SAME_MM, type Frustum } from '../geometry/frustum.ts';
import type { Profile } from '../geometry/outline.ts';
import { add, cross, dot, norm, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import type { Slot } from './slots.ts';

export interface Crossing {
  /** Index of the earlier cut. */
  readonly under: number;
  /** Index of the later cut. */
  readonly over: number;
  readonly z_mm: number;
  /** In [0, 360); 0 on the axis. */
  readonly azimuth_deg: number;
  readonly radius_mm: number;
}

/** All crossings, by under, over, z, azimuth. */
export function crossingsOf(slots: readonly Slot[], profile: Profile): Crossing[] {
  const frusta = frustaOf(profile);
  const rMost = frusta.reduce((most, { ra_mm, dr_mm }) => Math.max(most, ra_mm + dr_mm), 0);
  const crossings: Crossing[] = [];
  for (let under = 0; under < slots.length; under++)
    for (let over = under + 1; over < slots.length; over++) {
      const points = meetingPoints(slots[under], slots[over], frusta, rMost);
      if (points.length > 0) crossings.push(...inOrder(points.map((p) => crossingAt(under, over, p))));
    }
  return crossings;
}

function crossingAt(under: number, over: number, p: Vec3): Crossing {
  const radius_mm = Math.hypot(p[0], p[1]);
  const azimuth = radius_mm <= SAME_MM ? 0 : azimuthOf(p[0], p[1]);
  return { under, over, z_mm: p[2], azimuth_deg: azimuth > 360 - 1e-9 ? 0 : azimuth, radius_mm };
}

/** Points of the frusta on both mid-planes and in neither web. */
function meetingPoints(a: Slot, b: Slot, frusta: readonly Frustum[], rMost: number): Vec3[] {
  const points: Vec3[] = [];
  const across = cross(a.normal, b.normal);
  const square = dot(across, across);
  if (square < 1e-20) return points;
  // The point of the line nearest the origin: (ca (nb × d) + cb (d × na)) / |d|².
  const nbd = cross(b.normal, across);
  const dna = cross(across, a.normal);
  const start = add(scale(nbd, a.offset_mm / square), scale(dna, b.offset_mm / square));
  const d = scale(across, 1 / Math.sqrt(square));
  // Heights at which the line is no farther from the axis than the outside.
  const level = d[0] * d[0] + d[1] * d[1];
  const nearest = -(start[0] * d[0] + start[1] * d[1]) / level;
  const past = Math.hypot(start[0] + nearest * d[0], start[1] + nearest * d[1]);
  if (past > rMost + 1e-6 * (1 + rMost)) return points;
  const half = Math.sqrt(Math.max(0, rMost * rMost - past * past) / level) + 1e-3 * rMost;
  const middle = start[2] + nearest * d[2];
  const zLow = middle - half * Math.abs(d[2]) - SAME_MM;
  const zHigh = middle + half * Math.abs(d[2]) + SAME_MM;
  for (const frustum of frusta) {
    const end = frustum.za_mm + frustum.dz_mm;
    if (Math.min(frustum.za_mm, end) > zHigh || Math.max(frustum.za_mm, end) < zLow) continue;
    for (const p of meet(start, d, frustum)) {
      if (dot(a.stopNormal, p) > a.stop_mm + SAME_MM || dot(b.stopNormal, p) > b.stop_mm + SAME_MM) continue;
      // A line SAME_MM inside a circle meets it in two points √(8 r · SAME_MM) apart.
      const reach = 2 * Math.sqrt(8 * rMost * SAME_MM);
      if (!points.some((q) => norm(subtract(p, q)) <= reach)) points.push(p);
    }
  }
  return points;
}

/** Points of a line (d of length 1) on a frustum, its ends included. */
function meet(origin: Vec3, d: Vec3, frustum: Frustum): Vec3[] {
  const { za_mm: za, ra_mm: ra, dz_mm: dz, dr_mm: dr } = frustum;
  const isFlat = Math.abs(dz) < SAME_MM;
  if (isFlat && Math.abs(d[2]) < 1e-12) return [];
  // Counted from the line's point at the height of the frustum's end, or nearest to the axis there, so that the
  // quadratic keeps its digits.
  const atHeight = Math.abs(dz) < dr && Math.abs(d[2]) > 1e-3;
  const shift = isFlat || atHeight ? (za - origin[2]) / d[2] : d[2] * za - dot(origin, d);
  const a = add(origin, scale(d, shift));
  if (isFlat) {
    const r = Math.hypot(a[0], a[1]);
    return r >= ra - SAME_MM && r <= ra + dr + SAME_MM ? [a] : [];
  }
  const m = dr / dz;
  // r(z) along the line is r0 + r1 s.
  const r0 = ra + m * (a[2] - za);
  const r1 = m * d[2];
  const c2 = d[0] * d[0] + d[1] * d[1] - r1 * r1;
  const c1 = a[0] * d[0] + a[1] * d[1] - r0 * r1;
  const c0 = a[0] * a[0] + a[1] * a[1] - r0 * r0;
  const zLow = Math.min(za, za + dz) - SAME_MM;
  const zHigh = Math.max(za, za + dz) + SAME_MM;
  // What a shift of the surface by SAME_MM makes of the discriminant.
  const blur = 2 * SAME_MM * (Math.abs(c2) * (ra + dr) + Math.abs(c1 * r1));
  return roots(c2, c1, c0, blur)
    .map((s) => add(a, scale(d, s)))
    .filter((p) => p[2] >= zLow && p[2] <= zHigh && ra + m * (p[2] - za) >= -SAME_MM);
}

/**
 * Real roots of c2 s² + 2 c1 s + c0 = 0, one where the discriminant is within `blur` of 0. Where c2 = 0 one of
 * them is not finite, and no point of any frustum.
 */
function roots(c2: number, c1: number, c0: number, blur: number): number[] {
  const discriminant = c1 * c1 - c2 * c0;
  if (Math.abs(discriminant) <= blur) return [-c1 / c2];
  if (discriminant < 0) return [];
  const root = Math.sqrt(discriminant);
  const sum = c1 > 0 ? -(c1 + root) : root - c1;
  return [sum / c2, c0 / sum];
}

/** By z, then azimuth, heights that differ by rounding only being the same. */
function inOrder(crossings: Crossing[]): Crossing[] {
  const byHeight = [...crossings].sort((p, q) => p.z_mm - q.z_mm);
  let level = 0;
  const levels = new Map(
    byHeight.map((p, i) => {
      if (i > 0 && p.z_mm - byHeight[i - 1].z_mm > 1e-7) level++;
      return [p, level] as const;
    }),
  );
  const levelOf = (p: Crossing) => levels.get(p) as number;
  return byHeight.sort((p, q) => levelOf(p) - levelOf(q) || p.azimuth_deg - q.azimuth_deg);
}
