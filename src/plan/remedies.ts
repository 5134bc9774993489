/**
 * Changes to a design that would let the maker's saw cut a slot, and whether the saw can then cut it: what is offered
 * is worked out on the changed design with the same set-ups, never only said. Millimetres, degrees.
 */
import type { CutKind, Design, SlotId, SlotSet } from '../design/document.ts';
import { setCut } from '../design/sawEdits.ts';
import { CUT_FACTS } from './cutFacts.ts';
import { setupsOf, type End, type Setup } from './setups.ts';
import { ROUNDING_MM } from './thresholds.ts';
import { throatFault } from './throat.ts';
import type { Wording } from './wording.ts';

export type LimitKind = 'angle' | 'height' | 'throat' | 'face' | 'kerf';

export type Change =
  | { readonly kind: 'angle'; readonly angle_deg: number }
  | { readonly kind: 'cut'; readonly cut: CutKind }
  | { readonly kind: 'azimuth'; readonly azimuth_deg: number }
  /** The strip's layers keep their shares. */
  | { readonly kind: 'kerf'; readonly kerf_mm: number }
  /** Width and depth of the section. */
  | { readonly kind: 'narrower'; readonly by_mm: number }
  /** What comes off an end; the set keeps its distance from the other one. */
  | { readonly kind: 'shorter'; readonly end: End; readonly by_mm: number };

export interface Remedy {
  readonly words: Wording;
  /** What it changes in the design; null: it changes saw, jig or blade. */
  readonly change: Change | null;
}

/** The design with a change to the set of a slot, and to the blank. */
export function changed(design: Design, slot: SlotId, change: Change): Design {
  const { set, index } = placeOf(design, slot);
  const withSet = (to: Partial<SlotSet>): Design => ({
    ...design,
    sets: design.sets.map((one) => (one === set ? { ...one, ...to } : one)),
  });
  if (change.kind === 'angle') return withSet({ angle_deg: change.angle_deg });
  if (change.kind === 'cut') return setCut(design, set.id, change.cut);
  if (change.kind === 'azimuth')
    return withSet({
      fence_azimuths_deg: set.fence_azimuths_deg.map((azimuth, i) =>
        i === index ? change.azimuth_deg : azimuth,
      ),
    });
  if (change.kind === 'kerf') {
    const share = change.kerf_mm / set.kerf_mm;
    const layers = set.strip.layers.map((layer) => ({ ...layer, thickness_mm: layer.thickness_mm * share }));
    return withSet({ kerf_mm: change.kerf_mm, strip: { ...set.strip, layers } });
  }
  if (change.kind === 'narrower') {
    const { section } = design.blank;
    const depth = section.depth_mm === undefined ? {} : { depth_mm: section.depth_mm - change.by_mm };
    const narrower = { ...section, width_mm: section.width_mm - change.by_mm, ...depth };
    return { ...design, blank: { ...design.blank, section: narrower } };
  }
  const moved_mm = change.end === 'foot' ? change.by_mm : 0;
  return {
    ...design,
    blank: { ...design.blank, length_mm: design.blank.length_mm - change.by_mm },
    sets: design.sets.map((one) => ({ ...one, center_mm: one.center_mm - moved_mm })),
  };
}

/** What of a set-up is beyond the saw. */
export function limitsOfSetup(setup: Setup, { saw }: Pick<Design, 'saw'>): Set<LimitKind> {
  const limits = new Set<LimitKind>();
  const angle = setup.fence_angle_deg;
  const [least, most] = CUT_FACTS[setup.cut].angles_deg(saw);
  if (angle < least || angle > most) limits.add('angle');
  if (setup.cut_height_mm > saw.max_cut_height_mm + ROUNDING_MM) limits.add('height');
  if (throatFault(setup, saw)?.level === 'warning') limits.add('throat');
  if (setup.face === null) limits.add('face');
  const { blade_kerf_mm, strip_tolerance_mm } = saw;
  if (blade_kerf_mm !== undefined && blade_kerf_mm - setup.kerf_mm > strip_tolerance_mm + ROUNDING_MM)
    limits.add('kerf');
  return limits;
}

/** Whether a change lifts a limit of a slot, puts no other in its place, and still saws the blank where it has wood. */
export function helps(design: Design, slot: SlotId, limit: LimitKind, change: Change): boolean {
  const before = setupIn(design, slot);
  const next = changed(design, slot, change);
  if (!isPossible(next)) return false;
  const after = setupIn(next, slot);
  const limits = limitsOfSetup(after, next);
  const known = limitsOfSetup(before, design);
  return (
    !limits.has(limit) &&
    [...limits].every((one) => known.has(one)) &&
    (webInside(after, next) || !webInside(before, design))
  );
}

function isPossible({ blank, sets }: Design): boolean {
  const { width_mm, depth_mm = width_mm } = blank.section;
  return (
    blank.length_mm > 0 &&
    Math.min(width_mm, depth_mm) > 0 &&
    sets.every((set) => set.web_mm < Math.min(width_mm, depth_mm))
  );
}

/** Whether the mid-plane is between the ends where the web holds the blank together. */
function webInside(setup: Setup, { blank }: Design): boolean {
  const z_mm = CUT_FACTS[setup.cut].atWeb_mm(setup);
  return z_mm > 0 && z_mm < blank.length_mm;
}

/** The set-up of one slot, without those of the other sets. */
function setupIn(design: Design, slot: SlotId): Setup {
  const { set } = placeOf(design, slot);
  return setupsOf({ ...design, sets: [set], order: [slot] })[0];
}

function placeOf(design: Design, slot: SlotId): { set: SlotSet; index: number } {
  const at = slot.lastIndexOf('.');
  const set = design.sets.find(({ id }) => id === slot.slice(0, at));
  if (!set) throw new Error(`no set has the slot ${slot}`);
  return { set, index: Number(slot.slice(at + 1)) - 1 };
}

/** Angles are set to a tenth of a degree (common practice). */
const STEP_DEG = 0.1;

/** The nearest lower angle, in tenths of a degree, that lifts a limit; null: none does. */
export function nearestLowerAngle_deg(design: Design, setup: Setup, limit: LimitKind): number | null {
  const tenths = Math.ceil(setup.fence_angle_deg / STEP_DEG - 1e-9) - 1;
  for (let n = tenths; n > 0; n--) {
    const angle_deg = Number((n * STEP_DEG).toFixed(1));
    if (helps(design, setup.slot, limit, { kind: 'angle', angle_deg })) return angle_deg;
  }
  return null;
}
