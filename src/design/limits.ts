/**
 * How large a design may be (docs/file-format.md, "Limits"). The limits of length are far beyond any lathe;
 * they keep the arithmetic sound. Lengths mm, angles degrees.
 */

export const MAX_FILE_BYTES = 2_000_000;
/** Lists and objects inside one another. A design needs 6. */
export const MAX_DEPTH = 32;

export const MAX_NAME_CHARACTERS = 200;
export const MAX_NOTES_CHARACTERS = 2_000;
/** Texts of one line beside the name: delivery, tax, who chose, what an extra is. */
export const MAX_LINE_CHARACTERS = 200;
export const MAX_SETS = 200;
export const MAX_SLOTS = 200;
export const MAX_LAYERS = 20;
export const MIN_OUTLINE_POINTS = 3;
export const MAX_OUTLINE_POINTS = 500;
export const MAX_HOLES = 20;
export const MAX_STEPS_DONE = 5_000;

/** Smallest length that must be positive: kerf, thickness, sides of the blank. */
export const MIN_LENGTH_MM = 0.001;
/** Sides and length of the blank, radii of the form, height under the saw's guide. */
export const MAX_LENGTH_MM = 10_000;
/** Places along the axis, from the foot, either way. */
export const MAX_PLACE_MM = 20_000;
export const MAX_KERF_MM = 1_000;
export const MAX_OVERHANG_MM = 1_000;
export const MAX_TOLERANCE_MM = 100;

export const MIN_ANGLE_DEG = 1e-6;
export const MAX_AZIMUTH_DEG = 3_600;
export const MAX_ANGLE_TOLERANCE_DEG = 45;

/** Prices, rates and amounts, in whole units of a currency. */
export const MAX_AMOUNT = 1e9;
/** Hours of one part of the work. */
export const MAX_HOURS = 10_000;
export const MAX_MARKUP_PERCENT = 1_000;
export const MAX_TAX_PERCENT = 100;
export const MAX_EXTRAS = 20;

/** A week. */
export const MAX_CLAMP_MINUTES = 10_080;
