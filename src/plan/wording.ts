/** Words and numbers as the plan's texts print them: millimetres and degrees, rounded, no trailing zeros. */
import type { Blank } from '../design/document.ts';

/** A length to 0.01 mm, or finer where asked. */
export function mm(length_mm: number, decimals = 2): string {
  return `${rounded(length_mm, decimals)} mm`;
}

/** An angle to 0.01°. */
export function degrees(angle_deg: number): string {
  return `${rounded(angle_deg, 2)}°`;
}

/** A number without trailing zeros; never "-0". */
export function rounded(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)) + 0);
}

/** "S1.1", "S1.1 and S1.2", "S1.1, S1.2 and S1.3". */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

export function noFlat({ section }: Pick<Blank, 'section'>): string {
  return section.shape === 'round' ? 'A round blank has no flat' : 'The blank has no flat';
}
