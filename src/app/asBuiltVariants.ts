/**
 * The design beside one piece as it may be sawn: every slot of the sample is a set of its own, because every cut has
 * errors of its own (plan/asBuilt.ts). Lengths mm, angles degrees, as in the file.
 */
import type { Design, SlotSet } from '../design/document.ts';
import { SET_ID } from '../design/schema.ts';
import { slotsOf } from '../blank/slots.ts';
import { asBuiltSlots } from '../plan/asBuilt.ts';
import type { Variant, Work } from '../panels/bench.ts';

const IDEAL = 'ideal';
const SAWN = /^sawn(\d+)$/;

/** Whether a variant is a sample of how a piece may come out, and nothing that is offered. */
export function isSample({ id }: Variant): boolean {
  return SAWN.test(id);
}

/** A design whose slots lie as a sawn piece's may. What was measured is in its sets; progress at the saw is left out. */
export function asBuiltDesign(design: Design, seed: number): Design {
  const taken = new Set(design.sets.map(({ id }) => id));
  const sets = asBuiltSlots(slotsOf(design), design.saw, seed, design.made).map((slot): SlotSet => {
    const set = design.sets[slot.setIndex];
    const n = Number(slot.id.slice(slot.id.lastIndexOf('.') + 1));
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
  return { ...planned, sets, order: sets.map(({ id }) => `${id}.1`) };
}

/** The number of the sample that comes next; its seed too. */
export function nextTry({ variants }: Work): number {
  if (!variants.some(({ id }) => id === IDEAL)) return 1;
  return 1 + Math.max(0, ...variants.map(({ id }) => Number(SAWN.exec(id)?.[1] ?? 0)));
}

/**
 * The active design and a first sample of it; where they stand side by side already, the next sample of the ideal in
 * the place of the one before. The ideal is the active one afterwards.
 */
export function asBuiltVariants(work: Work): Work {
  const tried = nextTry(work);
  const found = work.variants.findIndex(({ id }) => id === IDEAL);
  const ideal =
    found >= 0
      ? work.variants[found]
      : { id: IDEAL, name: 'Ideal', design: work.variants[work.active].design };
  const sample = {
    id: `sawn${tried}`,
    name: `As sawn, try ${tried}`,
    design: asBuiltDesign(ideal.design, tried),
  };
  const others = found >= 0 ? work.variants.filter(({ id }) => id !== IDEAL && !SAWN.test(id)) : [];
  return { variants: [ideal, sample, ...others], active: 0 };
}

function freeId(wanted: string, taken: ReadonlySet<string>): string {
  if (SET_ID.test(wanted) && !taken.has(wanted)) return wanted;
  for (let n = 1; ; n++) if (!taken.has(`C${n}`)) return `C${n}`;
}
