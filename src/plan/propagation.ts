/**
 * How errors of several inputs add up in one result: y depends on x₁ … xₙ with the sensitivities cᵢ = ∂y/∂xᵢ.
 *
 *   worst case        Σ |cᵢ| Tᵢ                     (tolerance handbooks, e.g. Drake, as quoted at ph.creery.org)
 *   root sum square   √ Σ (cᵢ Tᵢ)²                  (same; with uncertainties: JCGM 100:2008 (GUM), 5.1.2)
 *   effective degrees of freedom  u⁴ / Σ ((cᵢ uᵢ)⁴ / νᵢ)       (Welch–Satterthwaite; GUM, G.4, from memory)
 *
 * Units: whatever the inputs have; sensitivity × size is in the unit of the result.
 */

export interface ErrorSource {
  readonly sensitivity: number;
  /** Half-width of a tolerance, or a standard uncertainty. */
  readonly size: number;
  /** Degrees of freedom of an uncertainty; left out: known exactly (infinite). */
  readonly degreesOfFreedom?: number;
}

/** All errors at their limits and in the same direction. */
export function worstCase(sources: readonly ErrorSource[]): number {
  return sources.reduce((sum, source) => sum + Math.abs(source.sensitivity * source.size), 0);
}

/** Independent errors. */
export function rootSumSquare(sources: readonly ErrorSource[]): number {
  return Math.hypot(...sources.map((source) => source.sensitivity * source.size));
}

/** Degrees of freedom of a combined standard uncertainty; Infinity when every input's are. */
export function effectiveDegreesOfFreedom(sources: readonly ErrorSource[]): number {
  const combined = rootSumSquare(sources);
  const weighted = sources.reduce(
    (sum, { sensitivity, size, degreesOfFreedom = Infinity }) =>
      sum + (sensitivity * size) ** 4 / degreesOfFreedom,
    0,
  );
  return weighted === 0 ? Infinity : combined ** 4 / weighted;
}

/** Standard uncertainty of a value that lies anywhere within ± half-width alike (GUM 4.3.7, from memory). */
export function rectangularUncertainty(halfWidth: number): number {
  return halfWidth / Math.sqrt(3);
}

/** Standard uncertainty of a value that lies within ± half-width, the middle likelier (GUM 4.3.9, from memory). */
export function triangularUncertainty(halfWidth: number): number {
  return halfWidth / Math.sqrt(6);
}

/** Standard uncertainty of a value that swings like a sine between ± half-width (GUM H.1.3.4, from memory). */
export function arcsineUncertainty(halfWidth: number): number {
  return halfWidth / Math.sqrt(2);
}
