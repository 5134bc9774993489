/**
 * How far a ring can lie from its place when fence and stop are as accurate as the saw's tolerances say.
 * Lathe frame, mm, degrees. Formulas: docs/shop-plan.md, "Fit and tolerance".
 *
 * The stop fixes the kerf at the fence face, so an error of the angle pivots there: at the radius r on the
 * entry side the arm is h + r, and the kerf shifts along the axis by (h + r) · δθ / sin² θ. With the table tilted
 * the ledge fixes the kerf on the table, at u = t: an error of the ledge is cot θ times as large along the axis, and
 * the angle's arm is |t| + r.
 */
import { cotDeg, DEG, sinDeg } from '../geometry/angle.ts';
import { flattenOutline } from '../geometry/outline.ts';
import type { Design, Form, SlotId } from '../design/document.ts';
import { slotsOf, type Slot } from '../blank/slots.ts';
import { rootSumSquare, worstCase, type ErrorSource } from './propagation.ts';

export interface RingTolerance {
  readonly slot: SlotId;
  /** Both errors at their limits and in the same direction. */
  readonly worst_mm: number;
  /** Independent errors, root of the sum of squares. */
  readonly rss_mm: number;
}

/** One per slot, in cutting order. */
export function toleranceOf(
  design: Pick<Design, 'blank' | 'sets' | 'order' | 'saw'> & { readonly form: Form },
): RingTolerance[] {
  const radius_mm = largestOutsideRadius_mm(design.form);
  return slotsOf(design).map((slot) => {
    const sources = shiftSources(slot, design.saw, radius_mm);
    return { slot: slot.id, worst_mm: worstCase(sources), rss_mm: rootSumSquare(sources) };
  });
}

/** What shifts a ring along the axis at a radius: the stop by the way it moves the kerf, the angle by its arm. */
function shiftSources(
  slot: Slot,
  saw: Pick<Design['saw'], 'angle_tolerance_deg' | 'stop_tolerance_mm'>,
  radius_mm: number,
): readonly [stop: ErrorSource, angle: ErrorSource] {
  const [du, dz] = slot.stopMoves;
  const alongAxis = Math.abs(dz - slot.slope * cotDeg(slot.angle_deg) * du);
  return [
    { sensitivity: alongAxis, size: saw.stop_tolerance_mm },
    {
      sensitivity: ringShift_mm(Math.abs(slot.heldAt_mm[0]) + radius_mm, slot.angle_deg, 1),
      size: saw.angle_tolerance_deg,
    },
  ];
}

/** Shift along the axis of a plane's trace at the distance `arm_mm` from its pivot, per small error of the angle. */
export function ringShift_mm(arm_mm: number, angle_deg: number, error_deg: number): number {
  return (arm_mm * error_deg * DEG) / sinDeg(angle_deg) ** 2;
}

/** Largest radius of the outside of a form, mm. */
export function largestOutsideRadius_mm(form: Form): number {
  const profile = flattenOutline(form.outline, 1e-5, form.loop);
  let largest = 0;
  for (let i = profile.outsideStart; i <= profile.outsideEnd; i++)
    largest = Math.max(largest, profile.r_mm[i]);
  return largest;
}
