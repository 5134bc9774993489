/** Text and tables that run on from page to page. Millimetres; y goes down the page. */
import { INK, INK_SOFT, THIN } from '../drawing/ink.ts';
import type { Colour, Pen } from '../drawing/pen.ts';
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

export class Flow {
  readonly pages: SheetPages;
  readonly #section: string;
  #pen: Pen;
  #y: number;

  constructor(pages: SheetPages, section: string) {
    this.pages = pages;
    this.#section = section;
    this.#pen = pages.add(section);
    this.#y = pages.area.top - 3;
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
    if (this.#y - height_mm >= this.pages.area.bottom) return false;
    this.#pen = this.pages.add(`${this.#section}, continued`, this.#section);
    this.#y = this.pages.area.top - 3;
    return true;
  }

  heading(text: string): void {
    this.need(24);
    this.skip(8);
    this.#pen.text([this.left, this.#y], text, { size_pt: 13, weight: 'semibold', colour: INK });
    this.skip(3.5);
  }

  paragraph(
    text: string,
    {
      size_pt = 9,
      indent_mm = 0,
      colour = INK_SOFT,
    }: { size_pt?: number; indent_mm?: number; colour?: Colour } = {},
  ): void {
    const step = size_pt * 0.46;
    const lines = this.typeface.wrap(text, this.width - indent_mm, size_pt);
    lines.forEach((line, i) => {
      // No line stands alone at the foot of a page or at the head of the next.
      const together = i === 0 ? Math.min(2, lines.length) : i === lines.length - 2 ? 2 : 1;
      this.need(step * (lines.length === 3 && i === 0 ? 3 : together));
      this.skip(step);
      this.#pen.text([this.left + indent_mm, this.#y], line, { size_pt, colour });
    });
    this.skip(1.6);
  }

  /** A paragraph with something in the margin before its first line: a number, a dot. */
  item(mark: string, text: string, size_pt = 9.5): void {
    const step = size_pt * 0.46;
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
    const height = lines.length * 4.3 + sources.length * 3.2 + 1.8;
    this.need(height);
    const top = this.#y;
    this.#pen.rectangle([this.left, top - 4.2], 3, 3, { stroke: THIN });
    lines.forEach((line, i) =>
      this.#pen.text([this.left + 6, top - 3.9 - i * 4.3], line, { size_pt: 9.5, colour: INK }),
    );
    const below = top - 3.4 - lines.length * 4.3;
    sources.forEach((line, i) =>
      this.#pen.text([this.left + 6, below - i * 3.2], line, { size_pt: 7, colour }),
    );
    this.skip(height);
  }

  /**
   * The head is repeated on every page that the table runs on to. At least two rows stand under a head; a cell that is
   * longer than its column goes on in lines below.
   */
  table(columns: readonly Column[], whole: readonly CellRow[], row_mm = TABLE_ROW_MM): void {
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
