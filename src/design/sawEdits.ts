/**
 * Edits of what happens at the saw: how a set is cut, what was measured as made, which steps are done. Pure
 * functions from a document to the next, as in edits.ts. Lengths mm.
 */
import { writtenCut } from './cuts.ts';
import type { CutKind, Design, MadeSlot, Saw, SlotId, SlotSet } from './document.ts';
import { slotIdsOf } from './order.ts';

export function isSameSaw(a: Saw, b: Saw): boolean {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Saw>;
  return [...keys].every((key) => a[key] === b[key]);
}

/** How a set is cut; where that leaves a choice, its web ahead (azimuth + 90°) or behind. */
export function setCut(
  design: Design,
  id: string,
  cut: CutKind,
  web_side: SlotSet['web_side'] = 'ahead',
): Design {
  if (!design.sets.some((set) => set.id === id)) return design;
  const recut = (set: SlotSet): SlotSet => {
    const { cut: _, web_side: __, ...rest } = set;
    return { ...rest, ...writtenCut({ cut, web_side }) };
  };
  return { ...design, sets: design.sets.map((set) => (set.id === id ? recut(set) : set)) };
}

/**
 * Records what was measured at a slot; fields that are left out keep what was measured before, `undefined` forgets
 * it, null forgets all of the slot.
 */
export function setMade(design: Design, slot: SlotId, measured: MadeSlot | null): Design {
  if (!hasSlot(design, slot)) return design;
  const { [slot]: before, ...others } = design.made ?? {};
  const { kerf_mm, web_mm, strip_mm } = { ...before, ...measured };
  const entry: MadeSlot =
    measured === null
      ? {}
      : {
          ...(kerf_mm === undefined ? {} : { kerf_mm }),
          ...(web_mm === undefined ? {} : { web_mm }),
          ...(strip_mm === undefined ? {} : { strip_mm }),
        };
  return withMade(design, Object.keys(entry).length === 0 ? others : { ...others, [slot]: entry });
}

/** Ticks a step off (`S1.1:cut`, or `cure` for one of the whole work), or takes the tick away. */
export function setWorkDone(design: Design, step: string, done: boolean): Design {
  const before = design.work?.done ?? [];
  if (before.includes(step) === done) return design;
  const slot = slotOfStep(step);
  if (done && slot !== null && !hasSlot(design, slot)) return design;
  return withDone(design, done ? [...before, step] : before.filter((other) => other !== step));
}

/** Takes all ticks away: the work begins again. What was measured stays. */
export function clearWork(design: Design): Design {
  return design.work ? withDone(design, []) : design;
}

/** The slot that a step is about; null: the whole work. */
export function slotOfStep(step: string): SlotId | null {
  const colon = step.indexOf(':');
  return colon < 0 ? null : step.slice(0, colon);
}

/** Measures and steps follow their slots to new names; null: the slot is gone, and they with it. */
export function withProgress(design: Design, renamed: (slot: SlotId) => SlotId | null): Design {
  const made = Object.entries(design.made ?? {}).flatMap(([slot, entry]): [SlotId, MadeSlot][] => {
    const now = renamed(slot);
    return now === null ? [] : [[now, entry]];
  });
  const done = (design.work?.done ?? []).flatMap((step): string[] => {
    const slot = slotOfStep(step);
    if (slot === null) return [step];
    const now = renamed(slot);
    return now === null ? [] : [`${now}${step.slice(slot.length)}`];
  });
  return withDone(withMade(design, Object.fromEntries(made)), done);
}

function hasSlot(design: Design, slot: SlotId): boolean {
  return design.sets.some((set) => slotIdsOf(set).includes(slot));
}

function withMade(design: Design, made: Readonly<Record<SlotId, MadeSlot>>): Design {
  const { made: _, ...rest } = design;
  return Object.keys(made).length === 0 ? rest : { ...rest, made };
}

function withDone(design: Design, done: readonly string[]): Design {
  const { work: _, ...rest } = design;
  return done.length === 0 ? rest : { ...rest, work: { done } };
}
