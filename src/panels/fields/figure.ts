/**
 * Where a timber's figure lies in figure.webp: one tile each, in the order of the timbers. The tiles are drawn once by the
 * stage's shader (`npx tsx tests/browser/figure.ts`), so that panels show the wood of the stage without its 3D. They hold
 * no colour of their own: half is the timber's colour, less darkens it, more lightens it (CSS blend mode hard-light), and
 * a colour that the design gives a timber shows through.
 */
import { TIMBERS, timberById } from '../../timber/timbers.ts';

/** Side of a tile, in the picture and on the board. */
export const FIGURE_PX = 96;
export const FIGURE_MM = 20;
export const FIGURE_COLUMNS = 8;
export const FIGURE_ROWS = Math.ceil(TIMBERS.length / FIGURE_COLUMNS);

/** The tile of a timber as CSS background-position, or null for a timber that is not known here. */
export function figurePlace(timber: string): string | null {
  const known = timberById(timber);
  if (!known) return null;
  const index = TIMBERS.indexOf(known);
  const share = (n: number, of: number) => `${((100 * n) / (of - 1)).toFixed(3)}%`;
  return `${share(index % FIGURE_COLUMNS, FIGURE_COLUMNS)} ${share(Math.floor(index / FIGURE_COLUMNS), FIGURE_ROWS)}`;
}
