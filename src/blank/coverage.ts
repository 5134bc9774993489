/**
 * Coverage: the area of the outside that each strip and the body show, by last-cut-wins with the full kerf
 * (docs/geometry.md, "Rings"). Lathe frame, mm.
 */
import type { Profile } from '../geometry/outline.ts';
import type { Slot } from './slots.ts';

export interface Coverage {
  /** Area of the outside, the sum of all parts. */
  readonly outside_mm2: number;
  readonly body_mm2: number;
  /** One per slot, in cutting order. */
  readonly strips_mm2: Float64Array;
}

export function coverageOf(slots: readonly Slot[], profile: Profile): Coverage {
  throw new Error(`not implemented: ${slots.length} ${profile.outsideStart}`);
}
