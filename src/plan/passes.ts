/**
 * Slots wider than the blade: the passes that open them. The blank is moved along the fence between passes, the
 * blade stop stays; with the table tilted the ledge is moved. Millimetres, degrees.
 *
 * Passes stand side by side across the kerf, at equal steps of at most one blade kerf; a step s across the kerf
 * is s / sin θ along the fence, s / cos θ across the tilted table (elementary).
 */
import type { Design } from '../design/document.ts';
import { CUT_FACTS } from './cutFacts.ts';
import type { Setup } from './setups.ts';

export interface Pass {
  /** From 1; the one nearest to the stop first. */
  readonly number: number;
  /** Along the fence, from the stop to the middle of the blade; table tilted: on it, from the ledge. */
  readonly stop_to_blade_center_mm: number;
}

export interface Passes {
  readonly passes: readonly Pass[];
  /** How far the stop (or a spacer on it), or the ledge, moves from one pass to the next; 0 for one pass. */
  readonly step_along_fence_mm: number;
  /** Least overlap of two passes; none for one pass. */
  readonly overlap_mm: number;
  /** Web left at the deeper corner of every pass: the ends of narrow passes are closer to parallel with the fence. */
  readonly thinnest_web_mm: number;
}

type Cut = Pick<
  Setup,
  'cut' | 'kerf_mm' | 'fence_angle_deg' | 'stop_to_kerf_center_mm' | 'blade_stop_mm' | 'thinnest_web_mm'
>;

/** The passes of a slot that is wider than the saw's kerf by more than a strip may be off; null: one pass. */
export function passesOf(saw: Design['saw'], setup: Cut): Passes | null {
  const { blade_kerf_mm, strip_tolerance_mm } = saw;
  if (blade_kerf_mm === undefined || setup.kerf_mm - blade_kerf_mm <= strip_tolerance_mm + 1e-9) return null;
  return passesFor(setup, blade_kerf_mm);
}

/** Passes of a blade through a slot; null when the blade's own kerf is wider than the slot. */
export function passesFor(setup: Cut, bladeKerf_mm: number): Passes | null {
  const spare_mm = setup.kerf_mm - bladeKerf_mm;
  if (spare_mm < -SAME_MM) return null;
  const count = Math.max(1, Math.ceil(setup.kerf_mm / bladeKerf_mm - 1e-9));
  const step_mm = count === 1 ? 0 : spare_mm / (count - 1);
  const facts = CUT_FACTS[setup.cut];
  const along = facts.acrossKerf(setup.fence_angle_deg);
  // A kerf flat on the table (tilted by 90°) meets neither table nor ledge: it has no passes.
  if (along === 0) return null;
  const first_mm = setup.stop_to_kerf_center_mm - (count === 1 ? 0 : spare_mm / 2 / along);
  return {
    passes: Array.from({ length: count }, (_, n) => ({
      number: n + 1,
      stop_to_blade_center_mm: first_mm + (n * step_mm) / along,
    })),
    step_along_fence_mm: step_mm / along,
    overlap_mm: count === 1 ? 0 : bladeKerf_mm - step_mm,
    thinnest_web_mm: facts.webOfPass_mm(setup, bladeKerf_mm),
  };
}

/** A blade this much wider than the slot is the same. */
const SAME_MM = 1e-6;
