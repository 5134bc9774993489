/**
 * The one rule of the work: a later cut goes through everything before it, earlier strips included, so the
 * last cut wins. Solids, rings, map and shader must all agree with this file.
 */
import type { Vec3 } from '../geometry/vector.ts';
import { slotHolds, type Slot } from './slots.ts';

/** Index of the blank's own timber where an index into the slots is expected. */
export const BODY = -1;

/**
 * Material at a point of the blank, lathe frame, mm: the index of the last slot that holds it, or BODY.
 * `slots` are in cutting order; pass a shorter list for an earlier moment.
 */
export function materialAt(slots: readonly Slot[], p: Vec3): number {
  for (let i = slots.length - 1; i >= 0; i--) if (slotHolds(slots[i], p)) return i;
  return BODY;
}
