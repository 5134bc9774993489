/** Messages that say the same of several cuts of a set, as one. */
import type { DisplayUnit, SlotId } from '../../design/document.ts';
import { setIdOf } from '../../design/order.ts';
import type { Message } from '../../plan/messages.ts';
import { worded } from '../../plan/wording.ts';

export interface MessageGroup {
  readonly level: Message['level'];
  /** The cuts it is about, in cutting order; none: the piece as a whole. */
  readonly slots: readonly SlotId[];
  /** Of several cuts: what is said of each. */
  readonly text: string;
}

/**
 * Groups in the order of their first messages, in the unit of the design; a text that names another cut as well stays
 * by itself.
 */
export function grouped(messages: readonly Message[], unit: DisplayUnit): MessageGroup[] {
  const groups = new Map<string, MessageGroup>();
  for (const { level, code, slot, words } of messages) {
    const text = worded(words, unit);
    const ofEach = slot === null ? text : saidOfEach(text, slot);
    const key = JSON.stringify([level, code, slot === null ? null : setIdOf(slot), ofEach]);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { level, slots: slot === null ? [] : [slot], text });
    else if (slot !== null && !known.slots.includes(slot))
      groups.set(key, { level, slots: [...known.slots, slot], text: ofEach });
  }
  return [...groups.values()];
}

/** `S1.1–S1.3, S1.5`: cuts of one set, runs of three and more drawn together. */
export function slotRanges(slots: readonly SlotId[]): string {
  const set = setIdOf(slots[0]);
  const numbers = slots.map((slot) => Number(slot.slice(set.length + 1))).sort((a, b) => a - b);
  const runs: number[][] = [];
  for (const n of numbers) {
    const run = runs.at(-1);
    if (run?.at(-1) === n - 1) run.push(n);
    else runs.push([n]);
  }
  const named = (n: number) => `${set}.${n}`;
  return runs
    .flatMap((run) => (run.length > 2 ? [`${named(run[0])}–${named(run[run.length - 1])}`] : run.map(named)))
    .join(', ');
}

function saidOfEach(text: string, slot: SlotId): string {
  const name = new RegExp(`(?<![\\w.])${slot.replaceAll('.', '\\.')}(?!\\d)`, 'g');
  return text.replace(name, (_, at: number) => (at === 0 ? 'Each' : 'each'));
}
