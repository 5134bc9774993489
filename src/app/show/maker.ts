/**
 * What this browser remembers of the maker for the next design: the name on quotes and the rates used last. It is in the
 * browser's own storage and in no design; where the storage is blocked, it is forgotten with the page.
 */
import type { Quote } from '../../design/document.ts';
import { MAX_LINE_CHARACTERS } from '../../design/limits.ts';
import { checkDesign } from '../../design/parse.ts';
import { emptyDesign } from '../starter.ts';

const KEY = 'kerfweave-maker';

/** Rates without what belongs to one piece: its hours and extras. */
export type Rates = Omit<Quote, 'hours' | 'extras'>;

export interface Maker {
  readonly name: string;
  readonly quote: Rates;
}

const NOBODY: Maker = { name: '', quote: {} };
let known: Maker | null = null;

export function rememberedMaker(): Maker {
  known ??= stored();
  return known;
}

export function rememberMaker(change: Partial<Maker>): void {
  known = { ...rememberedMaker(), ...change };
  try {
    localStorage.setItem(KEY, JSON.stringify(known));
  } catch {
    // Storage is blocked or full: remembered until the page goes, as the header says.
  }
}

export function ratesOf(quote: Quote): Rates {
  const { hours: _, extras: __, ...rates } = quote;
  return rates;
}

function stored(): Maker {
  try {
    return makerFrom(JSON.parse(localStorage.getItem(KEY) ?? 'null'));
  } catch {
    // Blocked, or not what this page wrote: then nothing is remembered.
    return NOBODY;
  }
}

/** Checked as the same fields of a design are. */
export function makerFrom(value: unknown): Maker {
  if (typeof value !== 'object' || value === null) return NOBODY;
  const { name, quote } = value as { name?: unknown; quote?: unknown };
  const checked = checkDesign({ ...emptyDesign('mm'), quote: quote ?? {} });
  return {
    name: typeof name === 'string' ? name.slice(0, MAX_LINE_CHARACTERS) : '',
    quote: checked.ok ? ratesOf(checked.design.quote ?? {}) : {},
  };
}
