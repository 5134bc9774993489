/**
 * Lengths and angles as a maker types and reads them. Everything inside is millimetres and degrees; 1 in is
 * 25.4 mm exactly (international inch, 1 July 1959). Fractions of an inch are those of a rule: halves to
 * sixty-fourths, reduced.
 */
import type { DisplayUnit } from './document.ts';
import { quoted } from './faults.ts';

export const MM_PER_INCH = 25.4;
/** Smallest step of a rule, in. */
export const RULE_STEPS_PER_INCH = 64;

export type Typed =
  | { readonly ok: true; readonly value: number }
  /** `reason` is a sentence for the maker. */
  | { readonly ok: false; readonly reason: string };

const MM_PER: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: MM_PER_INCH,
  inch: MM_PER_INCH,
  inches: MM_PER_INCH,
  '"': MM_PER_INCH,
  thou: MM_PER_INCH / 1000,
  thousandths: MM_PER_INCH / 1000,
};

/** Signs that mean the same as a plain one: primes, curly quotes, fraction slash, minus, no-break spaces. */
const PLAIN: readonly (readonly [RegExp, string])[] = [
  [/[″”“]|''|′′|’’/g, '"'],
  [/[⁄∕]/g, '/'],
  [/[−–]/g, '-'],
  [/[\s\u00a0\u2009\u202f]+/g, ' '],
];

const VULGAR_FRACTIONS = '½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚';
const VULGAR_FRACTION = new RegExp(`[${VULGAR_FRACTIONS}]`, 'g');
const VULGAR_VALUES = '1/2 1/4 3/4 1/8 3/8 5/8 7/8 1/3 2/3 1/5 2/5 3/5 4/5 1/6 5/6'.split(' ');

function plain(text: string): string {
  const spelled = text.replace(
    VULGAR_FRACTION,
    (sign) => ` ${VULGAR_VALUES[VULGAR_FRACTIONS.indexOf(sign)]}`,
  );
  return PLAIN.reduce((result, [sign, by]) => result.replace(sign, by), spelled)
    .trim()
    .toLowerCase();
}

/** Whole and fraction (`3 1/8`, `3-1/8`), fraction alone, or decimal with point or comma. */
const NUMBER = /^(?:(-)?(?:(\d+)(?: +| ?- ?))?(\d+) ?\/ ?(\d+)|(-?)(\d+(?:[.,]\d*)?|[.,]\d+))/;

/** The number that a text begins with, and what follows it. */
function readNumber(text: string): { value: number; rest: string } | { reason: string } {
  const match = NUMBER.exec(text);
  if (!match) return { reason: text === '' ? 'a number is needed' : `${quoted(text)} is not a number` };
  const rest = text.slice(match[0].length).trim();
  if (/^[\d.,/+*-]/.test(rest)) return { reason: `${quoted(text)} is not one number` };
  const [, minusFraction, whole, numerator, denominator, minusDecimal, decimal] = match;
  if (decimal !== undefined) {
    const value = Number(decimal.replace(',', '.'));
    return { value: minusDecimal ? -value : value, rest };
  }
  if (Number(denominator) === 0) return { reason: 'a fraction cannot be of 0 parts' };
  const value = Number(whole ?? 0) + Number(numerator) / Number(denominator);
  return { value: minusFraction ? -value : value, rest };
}

/**
 * A typed length in mm: `3 1/8 in`, `3-1/8"`, `1/64`, `.04`, `40 thou`, `79,4 mm`, `12 cm`. A number without a
 * unit is in the display unit.
 */
export function parseLength(text: string, unit: DisplayUnit): Typed {
  const number = readNumber(plain(text));
  if ('reason' in number) return { ok: false, reason: number.reason };
  const { value, rest } = number;
  const name = rest === '' ? unit : rest.replace(/\.$/, '');
  if (!Object.hasOwn(MM_PER, name))
    return { ok: false, reason: `${quoted(rest)} is no unit of length: use in, ", thou, mm or cm` };
  // In this order a number of inches keeps its exact place: 3.125 in is 79.375 mm and 40 thou 1.016 mm.
  const mm = name.startsWith('thou') ? (value * MM_PER_INCH) / 1000 : value * MM_PER[name];
  return finite(mm);
}

/** A typed angle in degrees: `45°`, `45.5`, `45 deg`, `22 1/2`. */
export function parseAngle(text: string): Typed {
  const number = readNumber(plain(text));
  if ('reason' in number) return { ok: false, reason: number.reason };
  if (!['', '°', 'deg', 'deg.', 'degree', 'degrees'].includes(number.rest))
    return { ok: false, reason: `${quoted(number.rest)} is no unit of angle: use degrees` };
  return finite(number.value);
}

function finite(value: number): Typed {
  if (!Number.isFinite(value)) return { ok: false, reason: 'the number is too large' };
  return { ok: true, value: value + 0 };
}
