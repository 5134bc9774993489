/**
 * Text and tables that run on from page to page. Millimetres; y goes down the page.
 *
 * A chapter is laid out as often as it takes to spare a page that would stand nearly empty at its end: as it is, then with
 * its lines closer so that it ends on the page before, else with more of it carried over.
 */
import { INK, INK_SOFT, THIN } from '../drawing/ink.ts';
import { Pen, type Colour } from '../drawing/pen.ts';
import type { SheetPages } from './frame.ts';
import {
  TABLE_ROW_MM,
  drawTableHead,
  drawTableRow,
  rowsOfLines,
  type CellRow,
  type Column,
} from './table.ts';
import type { Typeface } from './typeface.ts';

/** From line to line, mm for every point of type. */
const LINE_MM = 0.46;
/** A last page filled by less than this share is nearly empty. */
const LEAST_SHARE = 0.25;
/** Distances between lines over their usual ones that still read well. */
const CLOSER = [0.95, 0.9];
/** Shares of a page that its end is raised by, to carry more over to the last. */
const RAISED = [0.08, 0.16, 0.24, 0.32, 0.4];

interface Setting {
  /** Distances between lines over their usual ones. */
  readonly closer: number;
  readonly raised: number;
}

/** Adds the pages of a chapter; `write` may be called several times and must do the same each time. */
export function addFlow(pages: SheetPages, section: string, write: (flow: Flow) => void): void {
  const laidOut = (setting: Setting): Flow => {
    const flow = new Flow(pages, section, setting);
    write(flow);
    return flow;
  };
  fullest(laidOut).addTo(pages);
}

function fullest(laidOut: (setting: Setting) => Flow): Flow {
  const plain = laidOut({ closer: 1, raised: 0 });
  if (!plain.endsNearlyEmpty) return plain;
  for (const closer of CLOSER) {
    const flow = laidOut({ closer, raised: 0 });
    if (flow.pageCount < plain.pageCount) return flow;
  }
  for (const raised of RAISED) {
    const flow = laidOut({ closer: 1, raised });
    if (flow.pageCount === plain.pageCount && !flow.endsNearlyEmpty) return flow;
  }
  return plain;
}

export class Flow {
  readonly pages: SheetPages;
  readonly #section: string;
  readonly #closer: number;
  readonly #bottom: number;
  readonly #pages: Pen[] = [];
  #pen: Pen;
  #y: number;

  constructor(pages: SheetPages, section: string, { closer, raised }: Setting) {
    const { top, bottom } = pages.area;
    this.pages = pages;
    this.#section = section;
    this.#closer = closer;
    this.#bottom = bottom + raised * (top - bottom);
    this.#pen = this.#turned();
    this.#y = top - 3;
  }

  #turned(): Pen {
    const pen = new Pen();
    this.#pages.push(pen);
    return pen;
  }

  get pageCount(): number {
    return this.#pages.length;
  }

  /** Whether the last of several pages has little on it. */
  get endsNearlyEmpty(): boolean {
    const { top, bottom } = this.pages.area;
    return this.pageCount > 1 && (top - this.#y) / (top - bottom) < LEAST_SHARE;
  }

  addTo(pages: SheetPages): void {
    this.#pages.forEach(({ items }, i) =>
      pages.add(i === 0 ? this.#section : `${this.#section}, continued`, this.#section).items.push(...items),
    );
  }

  get pen(): Pen {
    return this.#pen;
  }

  get y(): number {
    return this.#y;
  }

  get left(): number {
    return this.pages.area.left;
  }

  get width(): number {
    return this.pages.area.right - this.pages.area.left;
  }

  get typeface(): Typeface {
    return this.pages.typeface;
  }

  skip(height_mm: number): void {
    this.#y -= height_mm;
  }

  /** Turns to a new page when less than this is left; whether it did. */
  need(height_mm: number): boolean {
    if (this.#y - height_mm >= this.#bottom) return false;
    this.#pen = this.#turned();
    this.#y = this.pages.area.top - 3;
    return true;
  }

  heading(text: string): void {
    this.need(24);
    this.skip(8 * this.#closer);
    this.#pen.text([this.left, this.#y], text, { size_pt: 13, weight: 'semibold', colour: INK });
    this.skip(3.5 * this.#closer);
  }

  paragraph(
    text: string,
    {
      size_pt = 9,
      indent_mm = 0,
      colour = INK_SOFT,
    }: { size_pt?: number; indent_mm?: number; colour?: Colour } = {},
  ): void {
    const step = size_pt * LINE_MM * this.#closer;
    const lines = this.typeface.wrap(text, this.width - indent_mm, size_pt);
    lines.forEach((line, i) => {
      // No line stands alone at the foot of a page or at the head of the next.
      const together = i === 0 ? Math.min(2, lines.length) : i === lines.length - 2 ? 2 : 1;
      this.need(step * (lines.length === 3 && i === 0 ? 3 : together));
      this.skip(step);
      this.#pen.text([this.left + indent_mm, this.#y], line, { size_pt, colour });
    });
    this.skip(1.6 * this.#closer);
  }

  /** A paragraph with something in the margin before its first line: a number, a dot. */
  item(mark: string, text: string, size_pt = 9.5): void {
    const step = size_pt * LINE_MM * this.#closer;
    const lines = this.typeface.wrap(text, this.width - 7, size_pt);
    this.need(step * Math.min(lines.length, 3));
    const y = this.#y - step;
    this.#pen.text([this.left, y], mark, { size_pt, weight: 'semibold', colour: INK });
    this.paragraph(text, { size_pt, indent_mm: 7, colour: INK });
  }

  /** A line to tick, its source small behind it. */
  tick(text: string, source: string, colour: Colour): void {
    const lines = this.typeface.wrap(text, this.width - 6, 9.5);
    const sources = this.typeface.wrap(source, this.width - 6, 7);
    const [line, small] = [4.3 * this.#closer, 3.2 * this.#closer];
    const height = lines.length * line + sources.length * small + 1.8 * this.#closer;
    this.need(height);
    const top = this.#y;
    this.#pen.rectangle([this.left, top - 4.2], 3, 3, { stroke: THIN });
    lines.forEach((words, i) =>
      this.#pen.text([this.left + 6, top - 3.9 - i * line], words, { size_pt: 9.5, colour: INK }),
    );
    const below = top - 3.9 - (lines.length - 1) * line - 3.8 * this.#closer;
    sources.forEach((words, i) =>
      this.#pen.text([this.left + 6, below - i * small], words, { size_pt: 7, colour }),
    );
    this.skip(height);
  }

  /**
   * The head is repeated on every page that the table runs on to. At least two rows stand under a head; a cell that is
   * longer than its column goes on in lines below.
   */
  table(columns: readonly Column[], whole: readonly CellRow[], usual_mm = TABLE_ROW_MM): void {
    const row_mm = usual_mm * this.#closer;
    const rows = whole.flatMap((row) => rowsOfLines(this.typeface, columns, row));
    this.need(7 + Math.min(2, rows.length) * row_mm);
    this.skip(1.5);
    this.#y = drawTableHead(this.#pen, this.left, this.#y, columns);
    for (const [i, row] of rows.entries()) {
      const last = i === rows.length - 2 ? 2 : 1;
      if (this.need(last * row_mm)) this.#y = drawTableHead(this.#pen, this.left, this.#y, columns);
      this.#y = drawTableRow(this.#pen, this.typeface, this.left, this.#y, columns, row, row_mm);
    }
    this.skip(2.5);
  }
}
