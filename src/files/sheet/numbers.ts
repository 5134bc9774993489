/**
 * Lengths and angles as the shop sheet prints them, in the design's display unit: inches as decimals with the
 * nearest sixty-fourth beside them where a rule is used, or millimetres. A column keeps its decimals, so
 * that figures line up.
 */
import type { DisplayUnit } from '../../design/document.ts';
import { fixed, ruleReading } from '../../design/lengthText.ts';
import { MM_PER_INCH } from '../../design/units.ts';

/** What stands behind inches. */
export const INCH = '″';

/** U+2212, as wide as the figures. */
const MINUS = '−';

function signed(value: number, decimals: number): string {
  const text = fixed(Math.abs(value), decimals);
  return value < 0 && Number(text) !== 0 ? `${MINUS}${text}` : text;
}

/** A place or size: `5.500″` or `139.70 mm`. */
export function length(length_mm: number, unit: DisplayUnit): string {
  return unit === 'in' ? `${signed(length_mm / MM_PER_INCH, 3)}″` : `${signed(length_mm, 2)} mm`;
}

/** A thickness or gap: thousandths of an inch, a decimal more where that hides something, or hundredths of a mm. */
export function thickness(length_mm: number, unit: DisplayUnit): string {
  if (unit === 'mm') return `${signed(length_mm, needsMore(length_mm, 2) ? 3 : 2)} mm`;
  const inches = length_mm / MM_PER_INCH;
  return `${signed(inches, needsMore(inches, 3) ? 4 : 3)}″`;
}

function needsMore(value: number, decimals: number): boolean {
  return Math.abs(Number(fixed(value, decimals)) - value) > 0.2 * 10 ** -decimals;
}

/** The nearest mark of a rule and what is left over: `5 1⁄2″`, `3 15⁄16 + 0.006″`; null in millimetres. */
export function onRule(length_mm: number, unit: DisplayUnit): string | null {
  if (unit === 'mm') return null;
  const { text, residual_mm } = ruleReading(length_mm);
  const marks = text.replace('/', '⁄').replace('-', MINUS);
  const over = -residual_mm / MM_PER_INCH;
  if (Math.abs(over) < 0.0005) return `${marks}″`;
  return `${marks} ${over < 0 ? MINUS : '+'} ${fixed(Math.abs(over), 3)}″`;
}

/** A place, with the reading of a rule beside it in inches. */
export function placeText(length_mm: number, unit: DisplayUnit): string {
  const rule = onRule(length_mm, unit);
  return rule === null ? length(length_mm, unit) : `${length(length_mm, unit)}  (${rule})`;
}

/** `45°`, `54.74°`. */
export function angle(angle_deg: number): string {
  return `${signed(angle_deg, 2).replace(/\.?0+$/, '')}°`;
}

/** `2 h 40 min`, `40 min`. */
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  const hours = Math.floor(whole / 60);
  if (hours === 0) return `${whole} min`;
  return whole % 60 === 0 ? `${hours} h` : `${hours} h ${whole % 60} min`;
}
