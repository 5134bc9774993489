/** What a step shows in words and numbers; the numbers are worded as on the shop sheet. */
import type { DisplayUnit } from '../../design/document.ts';
import { length, onRule } from '../../files/sheet/numbers.ts';
import type { SlotKind } from './steps.ts';

/** One number, big enough to read from two metres. */
export interface BigNumber {
  readonly name: string;
  readonly value: string;
  readonly note?: string;
}

export interface StepWords {
  readonly title: string;
  readonly lead: string;
  readonly numbers: readonly BigNumber[];
  readonly checks: readonly string[];
}

/** The steps of a slot that each kind of cut words for itself. */
export type SettingWords = Readonly<
  Record<Extract<SlotKind, 'lay' | 'fence' | 'stop' | 'bladestop' | 'marks'>, () => StepWords>
>;

/** A place with the nearest mark of a rule as its note. */
export function placeNumber(name: string, place_mm: number, unit: DisplayUnit, note?: string): BigNumber {
  const rule = onRule(place_mm, unit);
  const notes = [note, rule === null ? undefined : `rule: ${rule}`].filter((part) => part !== undefined);
  return { name, value: length(place_mm, unit), ...(notes.length === 0 ? {} : { note: notes.join(' · ') }) };
}

/** With a capital letter at its beginning. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
