/**
 * Colours and line widths of everything printed. Two widths about 2 : 1 for edges and thin lines (ISO 128-2,
 * from memory), dashes for hidden edges, dash and dot for axes. Ink on white; layout blue marks the saw.
 */
import type { Colour, Stroke } from './pen.ts';

export const INK = '#1a2321';
export const INK_SOFT = '#46514d';
export const INK_FAINT = '#5d6863';
export const RULE = '#cdd2ca';
export const TINT = '#f1f3ee';
export const PAPER = '#ffffff';
export const MARK = '#17569b';
export const MARK_TINT = '#dde7f1';
export const WARN = '#9c2f1b';
export const WARN_TINT = '#f6e3dc';

export const EDGE: Stroke = { colour: INK, width_mm: 0.4, round: true };
export const THIN: Stroke = { colour: INK, width_mm: 0.2, round: true };
export const FAINT: Stroke = { colour: INK_FAINT, width_mm: 0.15 };
export const HIDDEN: Stroke = { colour: INK, width_mm: 0.2, dash_mm: [1.6, 0.8] };
export const AXIS: Stroke = { colour: INK_FAINT, width_mm: 0.18, dash_mm: [5, 1, 0.6, 1] };
export const BLADE: Stroke = { colour: MARK, width_mm: 0.4, round: true };
export const BLADE_PATH: Stroke = { colour: MARK, width_mm: 0.2, dash_mm: [4, 1, 0.6, 1] };

/** The colour mixed with white. */
export function paler(colour: Colour, share: number): Colour {
  const mixed = [1, 3, 5].map((i) => {
    const value = Number.parseInt(colour.slice(i, i + 2), 16);
    return Math.round(value + (255 - value) * share)
      .toString(16)
      .padStart(2, '0');
  });
  return `#${mixed.join('')}`;
}
