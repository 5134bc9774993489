/**
 * How errors of several inputs add up in one result: y depends on x₁ … xₙ with the sensitivities cᵢ = ∂y/∂xᵢ.
 *
 *   worst case        Σ |cᵢ| Tᵢ                     (tolerance handbooks, e.g. Drake, as quoted at ph.creery.org)
 *   root sum square   √ Σ (cᵢ Tᵢ)²                  (same; with uncertainties: JCGM 100:2008 (GUM), 5.1.2)
 *
 * Units: whatever the inputs have; sensitivity × size is in the unit of the result.
 */

export interface ErrorSource {
  readonly sensitivity: number;
  /** Half-width of a tolerance, or a standard uncertainty. */
  readonly size: number;
}

/** All errors at their limits and in the same direction. */
export function worstCase(sources: readonly ErrorSource[]): number {
  return sources.reduce((sum, source) => sum + Math.abs(source.sensitivity * source.size), 0);
}

/** Independent errors. */
export function rootSumSquare(sources: readonly ErrorSource[]): number {
  return Math.hypot(...sources.map((source) => source.sensitivity * source.size));
}
