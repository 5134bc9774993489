/**
 * The piece as it may come out: slots sawn with a fence and a stop that are off within their tolerances.
 * Lathe frame, mm, degrees.
 *
 * Every cut gets an error of the angle and one of the stop, each anywhere within ± its tolerance alike and
 * independent of the others (that is: fence and stop set anew for each cut; a fence that stays put repeats its
 * error). The stop holds the mark on the fence face, so the angle's error turns the kerf about that mark; with the
 * table tilted the ledge holds the mark on the end that lies on the table.
 */
import { cosDeg, cotDeg, sinDeg } from '../geometry/angle.ts';
import type { Design, Saw } from '../design/document.ts';
import type { Slot } from '../blank/slots.ts';
import { madeSlot } from './made.ts';
import { seededSampler } from './seeded.ts';

export interface CutError {
  /** Added to the angle between blade and fence, or to the tilt. */
  readonly angle_deg: number;
  /** Added to the place of the mark: on the fence face toward the head, on the table toward the ledge. */
  readonly stop_mm: number;
}

/** Errors of `count` cuts; the same seed gives the same errors. */
export function sampleErrors(
  count: number,
  saw: Pick<Saw, 'angle_tolerance_deg' | 'stop_tolerance_mm'>,
  seed: number,
): CutError[] {
  const sampler = seededSampler(seed);
  return Array.from({ length: count }, () => ({
    angle_deg: sampler.symmetric() * saw.angle_tolerance_deg,
    stop_mm: sampler.symmetric() * saw.stop_tolerance_mm,
  }));
}

/** A slot as it is cut with an error. An angle past 90° leans the other way; one at 0 or below is kept above 0. */
export function erredSlot(slot: Slot, error: CutError): Slot {
  const [u_mm, z_mm] = slot.heldAt_mm;
  const [du, dz] = slot.stopMoves;
  const held = [u_mm + du * error.stop_mm, z_mm + dz * error.stop_mm] as const;
  const wanted_deg = Math.max(slot.angle_deg + error.angle_deg, SMALLEST_DEG);
  const angle_deg = wanted_deg > 90 ? 180 - wanted_deg : wanted_deg;
  const slope = wanted_deg > 90 ? (slot.slope === 1 ? -1 : 1) : slot.slope;
  const center_mm = held[1] - slope * held[0] * cotDeg(angle_deg);
  const sine = sinDeg(angle_deg);
  const level = -slope * cosDeg(angle_deg);
  return {
    ...slot,
    angle_deg,
    slope,
    center_mm,
    heldAt_mm: held,
    normal: [level * slot.fenceDirection[0], level * slot.fenceDirection[1], sine],
    offset_mm: sine * center_mm,
  };
}

/** An error drawn larger than it is, to be seen: both parts of it `times` as large. */
export function enlarged(error: CutError, times: number): CutError {
  return { angle_deg: times * error.angle_deg, stop_mm: times * error.stop_mm };
}

/**
 * Slots of a piece with errors of their own, in the same order; what was measured at a slot takes the place of its plan.
 * `times`: how many times as large the errors are drawn as they are.
 */
export function asBuiltSlots(
  slots: readonly Slot[],
  saw: Pick<Saw, 'angle_tolerance_deg' | 'stop_tolerance_mm'>,
  seed: number,
  made: Design['made'] = {},
  times = 1,
): Slot[] {
  const errors = sampleErrors(slots.length, saw, seed);
  return slots.map((slot, n) => erredSlot(madeSlot(slot, made[slot.id] ?? {}), enlarged(errors[n], times)));
}

const SMALLEST_DEG = 1e-6;
