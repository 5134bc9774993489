/**
 * How far the crossings of a piece lie from their places when every cut has its own errors (asBuilt.ts): a
 * seeded Monte Carlo over the whole piece. Lathe frame, mm.
 *
 * To first order a crossing p of the mid-planes f₁ = 0, f₂ = 0 on the surface s = 0 moves by δp with
 *
 *     n₁ · δp = −δf₁,   n₂ · δp = −δf₂,   ∇s · δp = 0
 *
 * and a cut with the mark m on the fence face has, at the distance u toward the fence (docs/shop-plan.md),
 *
 *     δf = −sin θ · δm − σ (h − u) δθ / sin θ,
 *
 * or with the mark t of the tilted table, δf = σ cos θ · δt − σ (t − u) δθ / sin θ.
 *
 * Where the three planes are nearly parallel the rings only graze each other: such a crossing may wander far or
 * vanish. It is counted as unsteady and left out.
 */
import type { Crossing } from '../blank/crossings.ts';
import type { Slot } from '../blank/slots.ts';
import type { Saw } from '../design/document.ts';
import { cosDeg, DEG, sinDeg } from '../geometry/angle.ts';
import type { Profile } from '../geometry/outline.ts';
import { cross, dot, norm, scale, type Vec3 } from '../geometry/vector.ts';
import { sampleErrors } from './asBuilt.ts';

/** Crossings whose three normals span less than this (1: at right angles) are unsteady. */
export const STEADY_FROM = 0.05;

/** How a crossing moves per unit of each of its four errors: angle (per degree) and stop of both cuts. */
export interface CrossingSensitivity {
  readonly crossing: Crossing;
  readonly underAngle: Vec3;
  readonly underStop: Vec3;
  readonly overAngle: Vec3;
  readonly overStop: Vec3;
}

export interface CrossingErrors {
  /** Largest displacement of any steady crossing in each sample, mm, ascending. */
  readonly largest_mm: Float64Array;
  /** Steady crossings. */
  readonly steady: number;
  readonly unsteady: number;
  /** Shares of the mean squared displacement that come from angles and from stops; both 0 without crossings. */
  readonly angleShare: number;
  readonly stopShare: number;
  /** The same by cut, in cutting order: which one to set with the most care. */
  readonly slotShares: Float64Array;
}

/** Sensitivities of the steady crossings. `crossings` belong to `slots` on the outside of `profile`. */
export function crossingSensitivities(
  slots: readonly Slot[],
  crossings: readonly Crossing[],
  profile: Profile,
): CrossingSensitivity[] {
  return crossings.flatMap((crossing) => {
    const under = slots[crossing.under];
    const over = slots[crossing.over];
    const azimuth = crossing.azimuth_deg * DEG;
    const p: Vec3 = [
      crossing.radius_mm * Math.cos(azimuth),
      crossing.radius_mm * Math.sin(azimuth),
      crossing.z_mm,
    ];
    const surface = surfaceNormal(profile, crossing);
    const span = dot(cross(under.normal, over.normal), surface);
    if (Math.abs(span) < STEADY_FROM) return [];
    // Cramer's rule: δp = (−δf₁ (n₂ × s) − δf₂ (s × n₁)) / (n₁ · n₂ × s).
    const perUnder = scale(cross(over.normal, surface), -1 / span);
    const perOver = scale(cross(surface, under.normal), -1 / span);
    return [
      {
        crossing,
        underAngle: scale(perUnder, angleEffect(under, p)),
        underStop: scale(perUnder, stopEffect(under)),
        overAngle: scale(perOver, angleEffect(over, p)),
        overStop: scale(perOver, stopEffect(over)),
      },
    ];
  });
}

/** δf per degree at a point of the kerf's mid-plane. */
function angleEffect(slot: Slot, p: Vec3): number {
  const arm_mm = slot.heldAt_mm[0] - dot(slot.fenceDirection, p);
  return (-slot.slope * arm_mm * DEG) / sinDeg(slot.angle_deg);
}

/** δf per mm of the stop. */
function stopEffect(slot: Slot): number {
  const [du, dz] = slot.stopMoves;
  return slot.slope * cosDeg(slot.angle_deg) * du - sinDeg(slot.angle_deg) * dz;
}

/** Unit normal of the outside at a crossing. */
function surfaceNormal(profile: Profile, crossing: Crossing): Vec3 {
  const { z_mm, r_mm, outsideStart, outsideEnd } = profile;
  let nearest = outsideStart;
  let least = Infinity;
  for (let i = outsideStart; i < outsideEnd; i++) {
    const dz = z_mm[i + 1] - z_mm[i];
    const dr = r_mm[i + 1] - r_mm[i];
    const z = crossing.z_mm - z_mm[i];
    const r = crossing.radius_mm - r_mm[i];
    const t = Math.min(1, Math.max(0, (z * dz + r * dr) / (dz * dz + dr * dr)));
    const distance = Math.hypot(z - t * dz, r - t * dr);
    if (distance < least) {
      least = distance;
      nearest = i;
    }
  }
  const dz = z_mm[nearest + 1] - z_mm[nearest];
  const dr = r_mm[nearest + 1] - r_mm[nearest];
  const azimuth = crossing.azimuth_deg * DEG;
  const length = Math.hypot(dz, dr);
  return [(Math.cos(azimuth) * dz) / length, (Math.sin(azimuth) * dz) / length, -dr / length];
}

/** Samples whole pieces; sample n is drawn from `seed + n`. */
export function sampleCrossingErrors(
  slots: readonly Slot[],
  crossings: readonly Crossing[],
  profile: Profile,
  saw: Pick<Saw, 'angle_tolerance_deg' | 'stop_tolerance_mm'>,
  samples: number,
  seed: number,
): CrossingErrors {
  const sensitivities = crossingSensitivities(slots, crossings, profile);
  const largest_mm = new Float64Array(samples);
  for (let n = 0; n < samples; n++) {
    const errors = sampleErrors(slots.length, saw, seed + n);
    let largest = 0;
    for (const { crossing, underAngle, underStop, overAngle, overStop } of sensitivities) {
      const under = errors[crossing.under];
      const over = errors[crossing.over];
      let squared = 0;
      for (let k = 0; k < 3; k++) {
        const moved =
          underAngle[k] * under.angle_deg +
          underStop[k] * under.stop_mm +
          overAngle[k] * over.angle_deg +
          overStop[k] * over.stop_mm;
        squared += moved * moved;
      }
      if (squared > largest) largest = squared;
    }
    largest_mm[n] = Math.sqrt(largest);
  }
  const shares = sharesOf(sensitivities, slots.length, saw);
  return {
    largest_mm: largest_mm.sort(),
    steady: sensitivities.length,
    unsteady: crossings.length - sensitivities.length,
    ...shares,
  };
}

/** Chance that some crossing is off by more than a length, from the samples. */
export function chanceBeyond(errors: CrossingErrors, limit_mm: number): number {
  const { largest_mm } = errors;
  if (largest_mm.length === 0) return 0;
  let low = 0;
  let high = largest_mm.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (largest_mm[middle] > limit_mm) high = middle;
    else low = middle + 1;
  }
  return (largest_mm.length - low) / largest_mm.length;
}

function sharesOf(
  sensitivities: readonly CrossingSensitivity[],
  slots: number,
  saw: Pick<Saw, 'angle_tolerance_deg' | 'stop_tolerance_mm'>,
): Pick<CrossingErrors, 'angleShare' | 'stopShare' | 'slotShares'> {
  const slotShares = new Float64Array(slots);
  let angle = 0;
  let stop = 0;
  for (const { crossing, underAngle, underStop, overAngle, overStop } of sensitivities) {
    const pairs = [
      [crossing.under, underAngle, underStop],
      [crossing.over, overAngle, overStop],
    ] as const;
    for (const [slot, perDegree, perMm] of pairs) {
      const fromAngle = (norm(perDegree) * saw.angle_tolerance_deg) ** 2;
      const fromStop = (norm(perMm) * saw.stop_tolerance_mm) ** 2;
      angle += fromAngle;
      stop += fromStop;
      slotShares[slot] += fromAngle + fromStop;
    }
  }
  const whole = angle + stop;
  if (whole === 0) return { angleShare: 0, stopShare: 0, slotShares };
  return {
    angleShare: angle / whole,
    stopShare: stop / whole,
    slotShares: slotShares.map((share) => share / whole),
  };
}
