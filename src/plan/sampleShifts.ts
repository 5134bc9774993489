/**
 * How far rings and crossings of one sampled piece lie from where they were meant (asBuilt.ts). Lathe frame, mm, degrees.
 *
 * A ring: at a point of its centreline, u toward the fence, the mid-plane of the cut as made is higher or lower along the
 * axis by z(u) − z, with z(u) = z₀ + σ u cot θ of the cut as made (docs/geometry.md, "Slot"); the largest of these. A
 * crossing moves to first order (crossingErrors.ts).
 */
import type { Crossing } from '../blank/crossings.ts';
import type { RingPath } from '../blank/rings.ts';
import type { Slot } from '../blank/slots.ts';
import type { Saw, SlotId } from '../design/document.ts';
import { cotDeg } from '../geometry/angle.ts';
import type { Profile } from '../geometry/outline.ts';
import { norm, type Vec3 } from '../geometry/vector.ts';
import { erredSlot, sampleErrors, type CutError } from './asBuilt.ts';
import { crossingSensitivities } from './crossingErrors.ts';

export interface RingShift {
  readonly slot: SlotId;
  readonly error: CutError;
  /** Largest shift along the axis of any point of the centreline; null where the ring misses the outside. */
  readonly shift_mm: number | null;
  /** Where that is, on the ring as meant. */
  readonly at: Vec3 | null;
}

export interface CrossingShift {
  readonly under: SlotId;
  readonly over: SlotId;
  readonly crossing: Crossing;
  readonly shift_mm: number;
}

export interface SampleShifts {
  /** In cutting order. */
  readonly rings: readonly RingShift[];
  /** The one that is farthest off. */
  readonly worstRing: RingShift | null;
  readonly worstCrossing: CrossingShift | null;
}

/** `paths`: centrelines of the slots on the outside of `profile`; `crossings`: theirs. */
export function sampleShifts(
  slots: readonly Slot[],
  paths: readonly (readonly RingPath[])[],
  crossings: readonly Crossing[],
  profile: Profile,
  saw: Pick<Saw, 'angle_tolerance_deg' | 'stop_tolerance_mm'>,
  seed: number,
): SampleShifts {
  const errors = sampleErrors(slots.length, saw, seed);
  const rings = slots.map((slot, n) => ringShift(slot, paths[n], errors[n]));
  let worstRing: RingShift | null = null;
  for (const ring of rings)
    if (ring.shift_mm !== null && ring.shift_mm > (worstRing?.shift_mm ?? -1)) worstRing = ring;
  let worstCrossing: CrossingShift | null = null;
  for (const sensitivity of crossingSensitivities(slots, crossings, profile)) {
    const { crossing, underAngle, underStop, overAngle, overStop } = sensitivity;
    const [under, over] = [errors[crossing.under], errors[crossing.over]];
    const [x, y, z] = [0, 1, 2].map(
      (k) =>
        underAngle[k] * under.angle_deg +
        underStop[k] * under.stop_mm +
        overAngle[k] * over.angle_deg +
        overStop[k] * over.stop_mm,
    );
    const shift_mm = norm([x, y, z]);
    if (shift_mm > (worstCrossing?.shift_mm ?? -1))
      worstCrossing = {
        under: slots[crossing.under].id,
        over: slots[crossing.over].id,
        crossing,
        shift_mm,
      };
  }
  return { rings, worstRing, worstCrossing };
}

function ringShift(slot: Slot, paths: readonly RingPath[], error: CutError): RingShift {
  const made = erredSlot(slot, error);
  const climb = made.slope * cotDeg(made.angle_deg);
  let shift_mm: number | null = null;
  let at: Vec3 | null = null;
  for (const { azimuth_rad, r_mm, z_mm } of paths)
    for (let i = 0; i < z_mm.length; i++) {
      const point: Vec3 = [r_mm[i] * Math.cos(azimuth_rad[i]), r_mm[i] * Math.sin(azimuth_rad[i]), z_mm[i]];
      const u = point[0] * slot.fenceDirection[0] + point[1] * slot.fenceDirection[1];
      const off = Math.abs(made.center_mm + climb * u - z_mm[i]);
      if (shift_mm !== null && off <= shift_mm) continue;
      shift_mm = off;
      at = point;
    }
  return { slot: slot.id, error, shift_mm, at };
}
