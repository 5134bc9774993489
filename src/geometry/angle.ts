/**
 * Degrees and radians. Files, panels and sheets speak degrees; everything else radians.
 * Sine and cosine of degrees are exact where the value is exact (multiples of 30 and 90), so that a
 * quarter-turn of a design is a quarter-turn of its numbers and a square cut has no slope at all.
 */

export const DEG = Math.PI / 180;
/** Once round, radians. */
export const TURN = 2 * Math.PI;

/** Azimuth or angle reduced to [0, 360) degrees. */
export function normalizeDegrees(angle_deg: number): number {
  const reduced = angle_deg % 360;
  const positive = reduced < 0 ? reduced + 360 : reduced;
  return positive === 360 ? 0 : positive + 0;
}

/** Azimuths nearer than this are one, degrees. */
const SAME_AZIMUTH_DEG = 1e-9;

/** Whether two azimuths point the same way, whichever turns they are given in. */
export function sameAzimuth(a_deg: number, b_deg: number): boolean {
  const turn = normalizeDegrees(a_deg - b_deg);
  return Math.min(turn, 360 - turn) < SAME_AZIMUTH_DEG;
}

/** Sine of an angle in degrees; exact at multiples of 30. */
export function sinDeg(angle_deg: number): number {
  const a = normalizeDegrees(angle_deg);
  if (a > 180) return -sinFirstHalf(a - 180);
  return sinFirstHalf(a);
}

/** Cosine of an angle in degrees; exact at multiples of 30. */
export function cosDeg(angle_deg: number): number {
  return sinDeg(normalizeDegrees(angle_deg) + 90);
}

function sinFirstHalf(a: number): number {
  const folded = a > 90 ? 180 - a : a;
  if (folded === 0) return 0;
  if (folded === 30) return 0.5;
  if (folded === 90) return 1;
  return Math.sin(folded * DEG);
}

/** Cotangent of an angle in (0, 90] degrees; exactly 0 at 90, exactly 1 at 45. */
export function cotDeg(angle_deg: number): number {
  if (angle_deg === 45) return 1;
  return cosDeg(angle_deg) / sinDeg(angle_deg);
}

/** Azimuth of the point (x, y) in degrees, in [0, 360). */
export function azimuthOf(x: number, y: number): number {
  return normalizeDegrees(Math.atan2(y, x) / DEG);
}
