/**
 * What a kind of cut decides of the plan, besides its set-up (setups.ts) and its words (cutWords.ts, fenceMessages.ts,
 * tableMessages.ts). Millimetres, degrees.
 */
import type { Slot } from '../blank/slots.ts';
import type { CutKind, Saw } from '../design/document.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { Setup } from './setups.ts';
import { webSide } from './tableSetup.ts';

type Web = Pick<Setup, 'blade_stop_mm' | 'fence_angle_deg' | 'thinnest_web_mm'>;

export interface CutFacts {
  /** The angles that the maker's saw can be set to. */
  readonly angles_deg: (saw: Saw) => readonly [least: number, most: number];
  /** How much of a way along the fence, or across the table, goes across the kerf. */
  readonly acrossKerf: (angle_deg: number) => number;
  /** Web left by a blade narrower than the slot, where it is thinnest. */
  readonly webOfPass_mm: (setup: Web, bladeKerf_mm: number) => number;
  /** Height of the mid-plane where the web holds the blank together. */
  readonly atWeb_mm: (setup: Pick<Setup, 'mark_fence_mm' | 'mark_entry_mm'>) => number;
  /** Whether a blank with open slots lies alike for two cuts with the same side at fence or ledge. */
  readonly liesAlike: (a: Slot, b: Slot) => boolean;
}

/** The square end of a narrow pass leaves more at its deeper corner. The blank may go end for end. */
const AT_FENCE: CutFacts = {
  angles_deg: ({ fence_min_deg, fence_max_deg }) => [fence_min_deg, fence_max_deg],
  acrossKerf: sinDeg,
  webOfPass_mm: ({ blade_stop_mm, fence_angle_deg }, bladeKerf_mm) =>
    blade_stop_mm - (bladeKerf_mm / 2) * cosDeg(fence_angle_deg),
  atWeb_mm: ({ mark_fence_mm }) => mark_fence_mm,
  liesAlike: () => true,
};

/** A pass ends as the slot does, however narrow. The blank is not turned over, and it is fed one way. */
const ON_TABLE: CutFacts = {
  angles_deg: ({ table_tilt_max_deg }) => [0, table_tilt_max_deg],
  acrossKerf: cosDeg,
  webOfPass_mm: ({ thinnest_web_mm }) => thinnest_web_mm,
  atWeb_mm: ({ mark_fence_mm, mark_entry_mm }) => (mark_fence_mm + mark_entry_mm) / 2,
  liesAlike: (a, b) => a.slope === b.slope && webSide(a) === webSide(b),
};

export const CUT_FACTS: Readonly<Record<CutKind, CutFacts>> = { fence: AT_FENCE, table: ON_TABLE };
