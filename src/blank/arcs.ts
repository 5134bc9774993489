/**
 * Which strip shows where on the turned surface: exact azimuth intervals on the circle of radius r at height
 * z, and bands of one slot as rows of such intervals (for the unrolled map). Lathe frame, mm, radians,
 * azimuth counter-clockwise seen from the head. Same rule as material.ts: the last cut wins.
 */
import type { Profile } from '../geometry/outline.ts';
import type { Slot } from './slots.ts';

/** Azimuths from `from_rad` (in [0, 2π)) counter-clockwise to `to_rad` (≤ from + 2π, may pass 2π). */
export interface Arc {
  readonly from_rad: number;
  readonly to_rad: number;
}

export interface MaterialArc extends Arc {
  /** Index of the slot whose strip shows, or BODY. */
  readonly material: number;
}

export interface BandRow {
  /** Distance along the outside from its beginning, mm. */
  readonly along_mm: number;
  readonly z_mm: number;
  readonly r_mm: number;
  readonly arcs: readonly Arc[];
}

/** Arcs of the circle (z, r) that the slot holds, ascending; a full circle is one arc of 2π from 0. */
export function slotArcsAt(slot: Slot, z_mm: number, r_mm: number): Arc[] {
  throw new Error(`not implemented: ${slot.id} ${z_mm} ${r_mm}`);
}

/** The whole circle (z, r) as arcs of one material each, counter-clockwise from azimuth 0, without gaps. */
export function materialArcsAt(slots: readonly Slot[], z_mm: number, r_mm: number): MaterialArc[] {
  throw new Error(`not implemented: ${slots.length} ${z_mm} ${r_mm}`);
}

/** What shows of slot `index` on the outside, row by row at most `step_mm` apart along the outline; rows without any are left out. */
export function ringBand(slots: readonly Slot[], profile: Profile, index: number, step_mm = 0.5): BandRow[] {
  throw new Error(`not implemented: ${slots.length} ${profile.outsideStart} ${index} ${step_mm}`);
}
