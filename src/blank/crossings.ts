/**
 * Crossings: the points of the outside where the mid-planes of two slots meet and neither is in its web; the
 * later cut lies over the earlier one (docs/geometry.md, "Rings"). Lathe frame, mm.
 */
import type { Profile } from '../geometry/outline.ts';
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
  throw new Error(`not implemented: ${slots.length} ${profile.outsideStart}`);
}
