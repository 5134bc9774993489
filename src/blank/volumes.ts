/**
 * Volumes of the ideal parts: strips and body of the sawn and glued blank, and of the turned form ∩ blank
 * (docs/geometry.md, "Measures"). Nothing is faceted beyond the outline's polyline. Lathe frame, mm.
 */
import type { Profile } from '../geometry/outline.ts';
import type { SectionGeometry } from './section.ts';
import type { Slot } from './slots.ts';

export interface PartVolumes {
  /** The whole piece, the sum of all parts. */
  readonly volume_mm3: number;
  readonly body_mm3: number;
  /** One per slot, in cutting order. */
  readonly strips_mm3: Float64Array;
  /** Estimated bound on the error of any one strip. */
  readonly error_mm3: number;
}

export function blockVolumes(
  slots: readonly Slot[],
  section: SectionGeometry,
  length_mm: number,
): PartVolumes {
  throw new Error(`not implemented: ${slots.length} ${section.area_mm2} ${length_mm}`);
}

/** Volumes of the outline's solid ∩ the blank (z in 0 … length). */
export function turnedVolumes(
  slots: readonly Slot[],
  profile: Profile,
  section: SectionGeometry,
  length_mm: number,
): PartVolumes {
  throw new Error(
    `not implemented: ${slots.length} ${profile.outsideStart} ${section.area_mm2} ${length_mm}`,
  );
}
