/**
 * The wood of a design: what blank and piece weigh, and how body and strips move between two climates.
 * Millimetres, °C, % relative humidity, % moisture content. Every figure carries how well it is known
 * (timber/timbers.ts); species spread alone makes a weight uncertain by 10 to 20 %.
 */
import type { PartVolumes } from '../blank/volumes.ts';
import type { Slot } from '../blank/slots.ts';
import type { Design } from '../design/document.ts';
import { sinDeg } from '../geometry/angle.ts';
import { carefulMovementTangential, equilibriumMoisture_pct, movement } from '../timber/moisture.ts';
import { timberById, type Known, type Status, type Timber } from '../timber/timbers.ts';
import { densityOf } from '../timber/weight.ts';
import { setupsOf } from './setups.ts';

export interface Weight {
  readonly mass_g: number;
  /** The least certain of the densities that went in. */
  readonly status: Status;
}

/** From best to least known. */
const CERTAINTY: readonly Status[] = ['V', 'D', 'DM', 'M'];

function leastCertain(statuses: readonly Status[]): Status {
  return statuses.reduce((worst, status) =>
    CERTAINTY.indexOf(status) > CERTAINTY.indexOf(worst) ? status : worst,
  );
}

function timberNamed(id: string): Timber {
  const timber = timberById(id);
  if (!timber) throw new Error(`no timber is called ${id}`);
  return timber;
}

/**
 * Weight of the glued block or the turned piece, by its parts' volumes. Glue is not counted; the layers of a
 * layered strip share its volume by their thickness.
 */
export function weightOf(
  design: Design,
  slots: readonly Slot[],
  volumes: PartVolumes,
  moisture_pct: number,
): Weight {
  const amounts = new Map<string, number>([[design.blank.timber, volumes.body_mm3]]);
  slots.forEach((slot, n) => {
    const total_mm = slot.layers.reduce((sum, layer) => sum + layer.thickness_mm, 0);
    for (const { timber, thickness_mm } of slot.layers)
      amounts.set(timber, (amounts.get(timber) ?? 0) + (volumes.strips_mm3[n] * thickness_mm) / total_mm);
  });
  const densities = [...amounts].map(([id, volume_mm3]) => ({
    volume_mm3,
    ...densityOf(timberNamed(id), moisture_pct),
  }));
  return {
    // kg/m³ · mm³ = 10⁻⁶ g.
    mass_g: densities.reduce((sum, { volume_mm3, kg_m3 }) => sum + volume_mm3 * kg_m3 * 1e-6, 0),
    status: leastCertain(densities.map(({ status }) => status)),
  };
}

export interface Climate {
  readonly temperature_C: number;
  readonly humidity_pct: number;
}

/** How a slot opens against its strip, along the strip's grain, between two climates. */
export interface StripMovement {
  readonly slot: Slot['id'];
  /** Change of the slot's depth in the body; the strip's own, along its grain, is next to nothing. */
  readonly relative_mm: number;
  readonly status: Status;
}

export interface Movement {
  readonly from_pct: number;
  readonly to_pct: number;
  /** Change of the blank's width across the grain, quarter-sawn (radial) and flat-sawn (tangential). */
  readonly radial: Known;
  readonly tangential: Known;
  readonly strips: readonly StripMovement[];
  /** The coefficients hold for 6 to 14 %; beyond it the figures are rough. */
  readonly withinRange: boolean;
}

/**
 * Movement between two climates once the wood has settled in each. The blank's grain runs along the axis, so a
 * line down a slot at θ stretches by C ΔM sin² θ of its length (small strains, elementary); C is the careful
 * tangential coefficient.
 */
export function movementBetween(design: Design, from: Climate, to: Climate): Movement {
  const from_pct = equilibriumMoisture_pct(from.temperature_C, from.humidity_pct);
  const to_pct = equilibriumMoisture_pct(to.temperature_C, to.humidity_pct);
  const timber = timberNamed(design.blank.timber);
  const { width_mm, depth_mm } = design.blank.section;
  const across_mm = Math.max(width_mm, depth_mm ?? 0);
  const careful = carefulMovementTangential(timber);
  const change = ({ value, status }: Known): Known => ({
    value: movement(across_mm, value, from_pct, to_pct),
    status,
  });
  return {
    from_pct,
    to_pct,
    radial: change(timber.movementRadial),
    tangential: change(careful),
    strips: setupsOf(design).map((setup) => ({
      slot: setup.slot,
      relative_mm:
        movement(setup.slot_depth_mm, careful.value, from_pct, to_pct) * sinDeg(setup.fence_angle_deg) ** 2,
      status: careful.status,
    })),
    withinRange: [from_pct, to_pct].every((moisture) => moisture >= 6 && moisture <= 14),
  };
}
