/**
 * Weight of wood at a moisture content, in % of the oven-dry mass.
 *
 *   density = 1000 G_M (1 + M/100) kg/m³        G_M = oven-dry mass over volume at M
 *   G_M = G_b / (1 − 0.265 a G_b),  a = (30 − M)/30        (from memory of the Wood Handbook, chapter 4)
 *
 * G_b is taken so that G_12 is the tabulated gravity at 12 %, which lies in the range where turned wood is
 * kept; above fibre saturation (30 %) the volume no longer changes.
 */
import type { Status, Timber } from './timbers.ts';

const SWELLING = 0.265;
const FIBRE_SATURATION_PCT = 30;

/** Gravity at a moisture content from the basic gravity (oven-dry mass over green volume). */
export function gravityFromBasic(basicGravity: number, moisture_pct: number): number {
  const a = (FIBRE_SATURATION_PCT - Math.min(moisture_pct, FIBRE_SATURATION_PCT)) / FIBRE_SATURATION_PCT;
  return basicGravity / (1 - SWELLING * a * basicGravity);
}

/** Density of wood of gravity G_M at the same moisture content M, kg/m³. */
export function densityFromGravity_kg_m3(gravity: number, moisture_pct: number): number {
  return 1000 * gravity * (1 + moisture_pct / 100);
}

export interface Density {
  readonly kg_m3: number;
  /** The tabulated value's own status at 12 %; else no better than DM, because the relation is from memory. */
  readonly status: Status;
}

/** Density of a timber at a moisture content of 0 to 30 %, anchored at its gravity at 12 %. */
export function densityOf(timber: Timber, moisture_pct: number): Density {
  const { value: gravityAt12, status } = timber.gravityAt12;
  if (moisture_pct === 12) return { kg_m3: densityFromGravity_kg_m3(gravityAt12, 12), status };
  const aAt12 = (FIBRE_SATURATION_PCT - 12) / FIBRE_SATURATION_PCT;
  const basicGravity = gravityAt12 / (1 + SWELLING * aAt12 * gravityAt12);
  return {
    kg_m3: densityFromGravity_kg_m3(gravityFromBasic(basicGravity, moisture_pct), moisture_pct),
    status: status === 'M' ? 'M' : 'DM',
  };
}
