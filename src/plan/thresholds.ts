/** Thresholds that several messages share. Millimetres; docs/report.md, "Messages". */

/** A web thinner than this may break in the cut (common practice). */
export const THINNEST_SOUND_WEB_MM = 1.5;

/** The same where the web bends across its grain: our own choice, twice that. */
export const THINNEST_CROSS_GRAIN_WEB_MM = 3;

/** Rounding of a computed place is no fault of the design. */
export const ROUNDING_MM = 1e-9;
