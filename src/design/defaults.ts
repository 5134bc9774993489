/** What a design file may leave out, and what it then means. Lengths mm, angles degrees. */
import type { CutKind, Saw } from './document.ts';

export const DEFAULT_SAW: Saw = {
  stop_side: 'acute',
  fence_min_deg: 30,
  fence_max_deg: 90,
  max_cut_height_mm: 150,
  strip_overhang_mm: 3,
  angle_tolerance_deg: 0.1,
  stop_tolerance_mm: 0.1,
  strip_tolerance_mm: 0.0508,
  max_open_slots: 1,
  clamp_minutes: 20,
  table_tilt_max_deg: 45,
};

export const DEFAULT_HIGH_SIDE = 'fence';
export const DEFAULT_CUT: CutKind = 'fence';
