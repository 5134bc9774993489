/**
 * The design beside one piece as it may be sawn: every slot of the sample is a set of its own, because every cut has
 * errors of its own (plan/asBuilt.ts). Lengths mm, angles degrees, as in the file.
 */
import type { Design, SlotSet } from '../design/document.ts';
import { MAX_NAME_CHARACTERS } from '../design/limits.ts';
import { slotNumberOf } from '../design/order.ts';
import { SET_ID } from '../design/schema.ts';
import { slotsOf } from '../blank/slots.ts';
import { asBuiltSlots } from '../plan/asBuilt.ts';
import type { Variant, Work } from '../panels/bench.ts';
import { IDEAL_ID, sampleId, sampleName, sampleOf, type Sample } from '../panels/plan/sampleVariant.ts';

/** Whether a variant is a sample of how a piece may come out, and nothing that is offered. */
export function isSample(variant: Variant): boolean {
  return sampleOf(variant) !== null;
}

/**
 * A design whose slots lie as a sawn piece's may. What was measured is in its sets; progress at the saw is left out.
 * Errors that are drawn larger than they are stand in its name, which goes with it to files, links and sheets.
 */
export function asBuiltDesign(design: Design, seed: number, times = 1): Design {
  const taken = new Set(design.sets.map(({ id }) => id));
  const sets = asBuiltSlots(slotsOf(design), design.saw, seed, design.made, times).map((slot): SlotSet => {
    const set = design.sets[slot.setIndex];
    const n = slotNumberOf(slot.id);
    const id = freeId(`${set.id}-${n}`, taken);
    taken.add(id);
    return {
      ...set,
      id,
      angle_deg: slot.angle_deg,
      center_mm: slot.center_mm,
      high_side: slot.slope === 1 ? 'fence' : 'entry',
      fence_azimuths_deg: [set.fence_azimuths_deg[n - 1]],
      kerf_mm: slot.kerf_mm,
      web_mm: slot.web_mm,
    };
  });
  const { made: _made, work: _work, choice: _choice, ...planned } = design;
  const name = times === 1 ? design.name : enlargedName(design.name, { tried: seed, times });
  return { ...planned, name, sets, order: sets.map(({ id }) => `${id}.1`) };
}

function enlargedName(name: string, sample: Sample): string {
  const words = ` (${sampleName(sample).toLowerCase()})`;
  return name.slice(0, MAX_NAME_CHARACTERS - words.length) + words;
}

/** The sample that comes next: the next try, or the one that stands there with its errors drawn otherwise. */
export function nextSample({ variants }: Work, times?: number): Sample {
  const tries = variants.some(({ id }) => id === IDEAL_ID)
    ? variants.flatMap((variant) => sampleOf(variant) ?? [])
    : [];
  const last = tries.reduce<Sample | null>((a, b) => (a && a.tried > b.tried ? a : b), null);
  if (times !== undefined) return { tried: last?.tried ?? 1, times };
  return { tried: (last?.tried ?? 0) + 1, times: last?.times ?? 1 };
}

/**
 * The active design and a sample of it; where they stand side by side already, the sample of the ideal in the place of the
 * one before. The ideal is the active one afterwards.
 */
export function asBuiltVariants(work: Work, times?: number): Work {
  const next = nextSample(work, times);
  const found = work.variants.findIndex(({ id }) => id === IDEAL_ID);
  const ideal =
    found >= 0 ? work.variants[found] : { ...work.variants[work.active], id: IDEAL_ID, name: 'Ideal' };
  const sample = {
    id: sampleId(next),
    name: sampleName(next),
    design: asBuiltDesign(ideal.design, next.tried, next.times),
  };
  const others = found >= 0 ? work.variants.filter((variant) => variant !== ideal && !isSample(variant)) : [];
  return { variants: [ideal, sample, ...others], active: 0 };
}

function freeId(wanted: string, taken: ReadonlySet<string>): string {
  if (SET_ID.test(wanted) && !taken.has(wanted)) return wanted;
  for (let n = 1; ; n++) if (!taken.has(`C${n}`)) return `C${n}`;
}
