/** Plain tables: a head, rows, a hairline between them. Millimetres; y of the top, returns y below the last row. */
import { INK, INK_SOFT, RULE } from '../drawing/ink.ts';
import type { Align, Colour, Pen } from '../drawing/pen.ts';
import type { Typeface } from './typeface.ts';

export interface Column {
  readonly head: string;
  readonly width_mm: number;
  readonly align?: Align;
}

export interface CellRow {
  readonly cells: readonly string[];
  /** A patch of colour before the first cell. */
  readonly swatch?: Colour;
  readonly strong?: boolean;
  /** The row goes on in the next one: no line between them. */
  readonly goesOn?: boolean;
}

export const TABLE_ROW_MM = 5.6;
const SIZE_PT = 8.5;

export function drawTableHead(pen: Pen, left: number, top: number, columns: readonly Column[]): number {
  let x = left;
  for (const { head, width_mm, align = 'left' } of columns) {
    pen.text([align === 'right' ? x + width_mm : x, top - 3.4], head, {
      size_pt: 7.5,
      align,
      colour: INK_SOFT,
    });
    x += width_mm;
  }
  pen.line([left, top - 5], [x, top - 5], { colour: INK, width_mm: 0.25 });
  return top - 5;
}

export function drawTableRow(
  pen: Pen,
  typeface: Typeface,
  left: number,
  top: number,
  columns: readonly Column[],
  { cells, swatch, strong = false, goesOn = false }: CellRow,
  row_mm = TABLE_ROW_MM,
): number {
  let x = left;
  const weight = strong ? 'semibold' : 'regular';
  columns.forEach(({ width_mm, align = 'left' }, i) => {
    const patch = i === 0 && swatch !== undefined ? 5 : 0;
    if (patch > 0 && swatch !== undefined)
      pen.rectangle([x, top - row_mm + 1.1], 3.4, 3.2, {
        fill: swatch,
        stroke: { colour: INK, width_mm: 0.12 },
      });
    const whole = cells[i] ?? '';
    // An empty cell may be narrower than an ellipsis.
    const text = whole === '' ? '' : typeface.fit(whole, width_mm - patch - 1.5, SIZE_PT, weight);
    pen.text([align === 'right' ? x + width_mm : x + patch, top - row_mm + 1.6], text, {
      size_pt: SIZE_PT,
      weight,
      align,
      colour: INK,
    });
    x += width_mm;
  });
  const bottom = top - row_mm;
  if (!goesOn) pen.line([left, bottom], [x, bottom], { colour: RULE, width_mm: 0.15 });
  return bottom;
}

/** A row with cells longer than their columns as several, the words of those cells going on from one to the next. */
export function rowsOfLines(typeface: Typeface, columns: readonly Column[], row: CellRow): CellRow[] {
  const weight = row.strong ? 'semibold' : 'regular';
  const cells = columns.map(({ width_mm, align }, i): string[] => {
    const text = row.cells[i] ?? '';
    const room = width_mm - (i === 0 && row.swatch !== undefined ? 5 : 0) - 1.5;
    const isLong = text !== '' && align !== 'right' && typeface.width_mm(text, SIZE_PT, weight) > room;
    return isLong ? typeface.wrap(text, room, SIZE_PT, weight) : [text];
  });
  const lines = Math.max(...cells.map((cell) => cell.length));
  if (lines === 1) return [row];
  return Array.from({ length: lines }, (_, n) => ({
    ...(n === 0 ? row : { strong: row.strong }),
    cells: cells.map((cell) => cell[n] ?? ''),
    goesOn: n < lines - 1,
  }));
}

/** Widths in proportion to the numbers given, filling `width_mm`. */
export function columnsOf(
  width_mm: number,
  plan: readonly (readonly [head: string, share: number, align?: Align])[],
): Column[] {
  const total = plan.reduce((sum, [, share]) => sum + share, 0);
  return plan.map(([head, share, align]) => ({ head, width_mm: (share / total) * width_mm, align }));
}
