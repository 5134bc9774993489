/**
 * The piece as it may come out: slots sawn with a fence and a stop that are off within their tolerances.
 * Lathe frame, mm, degrees.
 *
 * Every cut gets an error of the angle and one of the stop, each anywhere within ± its tolerance alike and
 * independent of the others (that is: fence and stop set anew for each cut; a fence that stays put repeats its
 * error). The stop holds the mark on the fence face, so the angle's error turns the kerf about that mark.
 */
import { cosDeg, cotDeg, sinDeg } from '../geometry/angle.ts';
import type { Saw } from '../design/document.ts';
import type { Slot } from '../blank/slots.ts';
import { seededSampler } from './seeded.ts';

export interface CutError {
  /** Added to the angle between blade and fence. */
  readonly angle_deg: number;
  /** Added to the place of the mark on the fence face, toward the head. */
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
  const mark_mm = slot.center_mm + slot.slope * slot.fenceSupport_mm * cotDeg(slot.angle_deg) + error.stop_mm;
  const wanted_deg = Math.max(slot.angle_deg + error.angle_deg, SMALLEST_DEG);
  const angle_deg = wanted_deg > 90 ? 180 - wanted_deg : wanted_deg;
  const slope = wanted_deg > 90 ? (slot.slope === 1 ? -1 : 1) : slot.slope;
  const center_mm = mark_mm - slope * slot.fenceSupport_mm * cotDeg(angle_deg);
  const sine = sinDeg(angle_deg);
  const level = -slope * cosDeg(angle_deg);
  return {
    ...slot,
    angle_deg,
    slope,
    center_mm,
    normal: [level * slot.fenceDirection[0], level * slot.fenceDirection[1], sine],
    offset_mm: sine * center_mm,
  };
}

/** Slots of a piece with errors of their own, in the same order. */
export function asBuiltSlots(
  slots: readonly Slot[],
  saw: Pick<Saw, 'angle_tolerance_deg' | 'stop_tolerance_mm'>,
  seed: number,
): Slot[] {
  const errors = sampleErrors(slots.length, saw, seed);
  return slots.map((slot, n) => erredSlot(slot, errors[n]));
}

const SMALLEST_DEG = 1e-6;
