/**
 * Moisture and movement. Moisture content in % of the oven-dry mass, temperature in °C, relative humidity in
 * %, lengths in mm. Both are estimates: the equilibrium equation is good to about a point of moisture.
 */
import type { Known, Timber } from './timbers.ts';

/**
 * Moisture content that wood settles at, %. Hailwood–Horrobin form of the Wood Handbook, coefficients for °C
 * of Simpson 1998, FPL-RN-0268 (read in a program that cites it).
 */
export function equilibriumMoisture_pct(temperature_C: number, humidity_pct: number): number {
  const T = temperature_C;
  const W = 349 + 1.29 * T + 0.0135 * T * T;
  const K = 0.805 + 0.000736 * T - 0.00000273 * T * T;
  const K1 = 6.27 - 0.00938 * T - 0.000303 * T * T;
  const K2 = 1.91 + 0.0407 * T - 0.000293 * T * T;
  const Kh = (K * humidity_pct) / 100;
  const bound = K1 * Kh + 2 * K1 * K2 * Kh * Kh;
  return (1800 / W) * (Kh / (1 - Kh) + bound / (1 + K1 * Kh + K1 * K2 * Kh * Kh));
}

/**
 * Movement per percentage point of moisture where the growth rings stand at `ringAngle_deg` to the face:
 * 0 quarter-sawn (radial), 90 flat-sawn (tangential). C = C_R cos² + C_T sin² (small strains; from memory).
 */
export function movementAcross(timber: Timber, ringAngle_deg: number): Known {
  const radians = (ringAngle_deg * Math.PI) / 180;
  const { movementRadial: radial, movementTangential: tangential } = timber;
  if (ringAngle_deg === 0) return radial;
  if (ringAngle_deg === 90) return tangential;
  return {
    value: radial.value * Math.cos(radians) ** 2 + tangential.value * Math.sin(radians) ** 2,
    status: radial.status === 'M' && tangential.status === 'M' ? 'M' : 'DM',
  };
}

/**
 * Change of a dimension between two moisture contents, in the unit of the dimension: D C (M2 − M1), for 6 to
 * 14 % (Wood Handbook, chapter 13, as quoted by secondary texts).
 */
export function movement(dimension: number, coefficient: number, from_pct: number, to_pct: number): number {
  return dimension * coefficient * (to_pct - from_pct);
}

/** Movement coefficient from shrinkage green to oven-dry: S / (3000 − 20 S) (saturation 30 %, reference 10 %). */
export function movementFromShrinkage(shrinkage_pct: number): number {
  return shrinkage_pct / (3000 - 20 * shrinkage_pct);
}

/**
 * Tangential movement to reckon with where the sources disagree: the larger of the listed coefficient and the
 * one that the listed shrinkage implies.
 */
export function carefulMovementTangential(timber: Timber): Known {
  const implied = movementFromShrinkage(timber.shrinkageTangential_pct.value);
  if (implied <= timber.movementTangential.value) return timber.movementTangential;
  return { value: implied, status: timber.shrinkageTangential_pct.status === 'V' ? 'D' : 'DM' };
}
