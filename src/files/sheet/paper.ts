/** Which paper is printed on where nobody has chosen; apart from frame.ts, which is loaded when a sheet is made. */
import type { DisplayUnit } from '../../design/document.ts';
import type { PaperName } from './frame.ts';

/** Where inches are, paper is Letter. */
export function usualPaper(unit: DisplayUnit): PaperName {
  return unit === 'in' ? 'letter' : 'a4';
}
