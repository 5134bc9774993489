/**
 * The wood of a design: what blank and piece weigh, and how body and strips move between two climates.
 * Millimetres, °C, % relative humidity, % moisture content. Every figure carries how well it is known
 * (timber/timbers.ts); species spread alone makes a weight uncertain by 10 to 20 %.
 */
import type { PartVolumes } from '../blank/volumes.ts';
import { sectionGeometry, support_mm } from '../blank/section.ts';
import { slotsOf, type Slot } from '../blank/slots.ts';
import type { Blank, Design, StripGrain } from '../design/document.ts';
import { grainOf, stripGrainOf } from '../design/grain.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import { add, dot, scale, type Vec3 } from '../geometry/vector.ts';
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

/** How a slot's faces grow against its strip between two climates, mm; positive: the body grows more. */
export interface StripMovement {
  readonly slot: Slot['id'];
  /** Down the slope, over the slot's depth. */
  readonly depth_mm: number;
  /** Across the slope, over the slot's extent there. */
  readonly length_mm: number;
  readonly status: Status;
}

export interface Movement {
  readonly from_pct: number;
  readonly to_pct: number;
  /** Change of the blank's largest size across its grain, quarter-sawn (radial) and flat-sawn (tangential). */
  readonly radial: Known;
  readonly tangential: Known;
  readonly strips: readonly StripMovement[];
  /** The coefficients hold for 6 to 14 %; beyond it the figures are rough. */
  readonly withinRange: boolean;
}

/**
 * Movement between two climates once the wood has settled in each. Along a direction at an angle γ to its fibre
 * wood grows by C ΔM sin² γ of its length (small strains, elementary; the growth along the fibre is neglected); C
 * is the careful tangential coefficient. Strip and body each follow their own fibre; of a layered strip the layer
 * that differs most from the body counts.
 */
export function movementBetween(design: Design, from: Climate, to: Climate): Movement {
  const from_pct = equilibriumMoisture_pct(from.temperature_C, from.humidity_pct);
  const to_pct = equilibriumMoisture_pct(to.temperature_C, to.humidity_pct);
  const timber = timberNamed(design.blank.timber);
  const body = carefulMovementTangential(timber);
  const across_mm = largestAcrossGrain_mm(design.blank);
  const change = ({ value, status }: Known): Known => ({
    value: movement(across_mm, value, from_pct, to_pct),
    status,
  });
  const setups = setupsOf(design);
  return {
    from_pct,
    to_pct,
    radial: change(timber.movementRadial),
    tangential: change(body),
    strips: slotsOf(design).map((slot, n) => {
      const { fibre } = grainOf(design.blank);
      const slope = add(scale(slot.fenceDirection, sinDeg(slot.angle_deg)), [
        0,
        0,
        slot.slope * cosDeg(slot.angle_deg),
      ]);
      const strips = slot.layers.map((layer) => ({
        grain: stripGrainOf(layer),
        ...carefulMovementTangential(timberNamed(layer.timber)),
      }));
      const most = (direction: Vec3, own: StripGrain, size_mm: number) => {
        const bodyStrain = body.value * (1 - dot(direction, fibre) ** 2);
        return strips
          .map(({ grain, value }) => bodyStrain - (grain === own ? 0 : value))
          .map((strain) => movement(size_mm, strain, from_pct, to_pct))
          .reduce((worst, moved) => (Math.abs(moved) > Math.abs(worst) ? moved : worst));
      };
      return {
        slot: slot.id,
        depth_mm: most(slope, 'depth', setups[n].slot_depth_mm),
        length_mm: most(slot.bladeDirection, 'length', setups[n].slot_length_mm),
        status: leastCertain([body.status, ...strips.map(({ status }) => status)]),
      };
    }),
    withinRange: [from_pct, to_pct].every((moisture) => moisture >= 6 && moisture <= 14),
  };
}

export interface GrainChoice {
  /** Which way the fibre of every strip would run. */
  readonly grain: StripGrain;
  /** The most that a body and its strip would move against each other, and at which slot; positive: the body grows more. */
  readonly worst_mm: number;
  readonly slot: Slot['id'];
  readonly direction: 'down the slope' | 'along the blade';
}

/** Movement against the body for either direction of the strips' fibre, the lesser first; empty without cuts. */
export function grainChoices(design: Design, from: Climate, to: Climate): GrainChoice[] {
  return (['length', 'depth'] as const)
    .flatMap((grain): GrainChoice[] => {
      const sets = design.sets.map((set) => ({
        ...set,
        strip: { layers: set.strip.layers.map((layer) => ({ ...layer, grain })) },
      }));
      const worst = worstStrip(movementBetween({ ...design, sets }, from, to).strips);
      return worst ? [{ grain, ...worst }] : [];
    })
    .sort((a, b) => Math.abs(a.worst_mm) - Math.abs(b.worst_mm));
}

/** The strip that moves most against its body; null without strips. */
export function worstStrip(strips: readonly StripMovement[]): Omit<GrainChoice, 'grain'> | null {
  let worst: Omit<GrainChoice, 'grain'> | null = null;
  for (const { slot, depth_mm, length_mm } of strips)
    for (const [worst_mm, direction] of [
      [length_mm, 'along the blade'],
      [depth_mm, 'down the slope'],
    ] as const)
      if (worst === null || Math.abs(worst_mm) > Math.abs(worst.worst_mm) + 1e-9)
        worst = { slot, worst_mm, direction };
  return worst;
}

function largestAcrossGrain_mm(blank: Blank): number {
  const { along, azimuth_deg } = grainOf(blank);
  const { width_mm, depth_mm } = blank.section;
  if (along === 'axis') return Math.max(width_mm, depth_mm ?? 0);
  return Math.max(blank.length_mm, 2 * support_mm(sectionGeometry(blank.section), azimuth_deg + 90));
}
