/**
 * Rings: where the mid-plane of each kerf meets the outside of the turned form (docs/geometry.md, "Rings").
 * Lathe frame, mm.
 */
import type { Profile } from '../geometry/outline.ts';
import type { SlotId } from '../design/document.ts';
import type { Slot } from './slots.ts';

export interface Ring {
  readonly slot: SlotId;
  /** Of the centreline on the outside, web included; null where the mid-plane misses the outside. */
  readonly zLow_mm: number | null;
  readonly zHigh_mm: number | null;
  readonly span_mm: number | null;
  /** Length of the centreline on the outside, web or not; 0 where it misses. */
  readonly length_mm: number;
  /** The part of it in the web. */
  readonly missing_mm: number;
  /** The part of it inside the slot but covered by later strips. */
  readonly hidden_mm: number;
  /** Whether the centreline closes on itself, web or not (in one loop or several). */
  readonly closed: boolean;
  /** Closed, and nothing missing. */
  readonly whole: boolean;
  /** Whole, and nothing hidden. */
  readonly unbroken: boolean;
  /** Ends of the outside that the centreline runs off, foot first. */
  readonly runsOff: readonly ('foot' | 'head')[];
}

export type PathState = 'shown' | 'hidden' | 'missing';

/** A run of the centreline in one state. */
export interface RingPath {
  readonly state: PathState;
  /** Points along it: distance along the outside, azimuth (continuous, may leave [0, 2π)), z and r. */
  readonly along_mm: Float64Array;
  readonly azimuth_rad: Float64Array;
  readonly z_mm: Float64Array;
  readonly r_mm: Float64Array;
}

/** One ring per slot, in cutting order. */
export function ringsOf(slots: readonly Slot[], profile: Profile): Ring[] {
  throw new Error(`not implemented: ${slots.length} ${profile.outsideStart}`);
}

/** The centreline of slot `index` on the outside, for drawing: runs of points at most `step_rad` of azimuth apart. */
export function ringPaths(
  slots: readonly Slot[],
  profile: Profile,
  index: number,
  step_rad = 0.05,
): RingPath[] {
  throw new Error(`not implemented: ${slots.length} ${profile.outsideStart} ${index} ${step_rad}`);
}
