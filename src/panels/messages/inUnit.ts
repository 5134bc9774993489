/** Sentences of the engine in the maker's unit. */
import type { DisplayUnit } from '../../design/document.ts';
import { formatLength } from '../../design/lengthText.ts';

/** The engine words lengths as `12.3 mm`; a maker who works in inches reads them in inches. */
export function inUnit(text: string, unit: DisplayUnit): string {
  if (unit === 'mm') return text;
  return text.replace(/(-?\d+(?:\.\d+)?) mm\b/g, (_, value: string) => formatLength(Number(value), unit));
}
