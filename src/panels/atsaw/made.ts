/**
 * What follows from what was measured (plan/made.ts), as the steps need it: slot by slot, worked out once per
 * document, and fresh where the plan's own set-ups are those of the document before the last measure.
 */
import type { Design, SlotId } from '../../design/document.ts';
import { setMade } from '../../design/sawEdits.ts';
import { asMadeOf, type AsMade } from '../../plan/made.ts';

export interface SlotAsMade extends AsMade {
  /** Thickness of the strip to make, whatever strip was measured already. */
  readonly toMake_mm: number;
}

const known = new WeakMap<Design, ReadonlyMap<SlotId, SlotAsMade>>();

export function asMade(design: Design, slot: SlotId): SlotAsMade {
  let bySlot = known.get(design);
  if (!bySlot) {
    bySlot = allAsMade(design);
    known.set(design, bySlot);
  }
  const made = bySlot.get(slot);
  if (!made) throw new Error(`no slot ${slot}`);
  return made;
}

function allAsMade(design: Design): ReadonlyMap<SlotId, SlotAsMade> {
  const slots = Object.keys(design.made ?? {});
  const unfitted = slots.reduce((next, slot) => setMade(next, slot, { strip_mm: undefined }), design);
  const before = asMadeOf(unfitted);
  return new Map(asMadeOf(design).map((one, n) => [one.slot, { ...one, toMake_mm: before[n].strip_mm }]));
}
