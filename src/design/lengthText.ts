/**
 * Lengths and angles as text. Inches are shown as a rule shows them only where a rule is used; thicknesses of
 * kerfs and strips are shown in thousandths and never rounded to a sixty-fourth: half of that step, 0.198 mm,
 * is wider than a good glue line.
 */
import type { DisplayUnit } from './document.ts';
import { MM_PER_INCH, RULE_STEPS_PER_INCH } from './units.ts';

/**
 * The value with so many decimals. What the conversion of units leaves at the sixteenth digit decides no half: 3/32 in
 * reads 0.0938 whichever sum it came from.
 */
export function fixed(value: number, decimals: number): string {
  return Number(value.toPrecision(12)).toFixed(decimals);
}

/** Decimals without trailing zeros, and never `-0`. */
function trimmed(value: number, decimals: number): string {
  const text = fixed(value, decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

/** `76.2 mm`; hundredths, or thousandths below 10 mm, where kerfs and tolerances lie. */
export function formatMillimetres(length_mm: number): string {
  return `${trimmed(length_mm, Math.abs(length_mm) < 10 ? 3 : 2)} mm`;
}

/** `3.125 in`; thousandths. */
export function formatInches(length_mm: number): string {
  return `${trimmed(length_mm / MM_PER_INCH, 3)} in`;
}

export interface RuleReading {
  /** `3 15/16`, `25/64`, `0`, `-1/8`. */
  readonly text: string;
  /** What the rule shows, mm. */
  readonly shown_mm: number;
  /** shown_mm less the length itself, mm: positive when the rule shows more. */
  readonly residual_mm: number;
}

/** The nearest sixty-fourth of an inch, reduced, and what it leaves over. */
export function ruleReading(length_mm: number): RuleReading {
  const steps = Math.round(Math.abs(length_mm / MM_PER_INCH) * RULE_STEPS_PER_INCH);
  const shown_mm = (Math.sign(length_mm) * (steps * MM_PER_INCH)) / RULE_STEPS_PER_INCH + 0;
  const whole = Math.floor(steps / RULE_STEPS_PER_INCH);
  let numerator = steps % RULE_STEPS_PER_INCH;
  let denominator = RULE_STEPS_PER_INCH;
  while (numerator > 0 && numerator % 2 === 0) {
    numerator /= 2;
    denominator /= 2;
  }
  const parts = [
    whole > 0 || numerator === 0 ? `${whole}` : '',
    numerator > 0 ? `${numerator}/${denominator}` : '',
  ];
  const sign = length_mm < 0 && steps > 0 ? '-' : '';
  return {
    text: sign + parts.filter((part) => part !== '').join(' '),
    shown_mm,
    residual_mm: shown_mm - length_mm,
  };
}

/** A thickness: `0.040 in` to the thousandth, a decimal more where the thousandth is off by more than a twentieth. */
export function formatThousandths(length_mm: number): string {
  const inches = length_mm / MM_PER_INCH;
  const toThousandth = fixed(inches, 3);
  const text = Math.abs(Number(toThousandth) - inches) <= 0.000_05 ? toThousandth : fixed(inches, 4);
  return `${Number(text) === 0 ? text.replace('-', '') : text} in`;
}

/** A place or size in the display unit: decimal. */
export function formatLength(length_mm: number, unit: DisplayUnit): string {
  return unit === 'in' ? formatInches(length_mm) : formatMillimetres(length_mm);
}

/** A kerf, strip or tolerance in the display unit. */
export function formatThickness(length_mm: number, unit: DisplayUnit): string {
  return unit === 'in' ? formatThousandths(length_mm) : formatMillimetres(length_mm);
}

/** `45°`, `54.74°`; hundredths. */
export function formatAngle(angle_deg: number): string {
  return `${trimmed(angle_deg, 2)}°`;
}
