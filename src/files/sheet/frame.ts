/**
 * What every page of the sheet has: margins, a running head, page numbers, the fingerprint of the design, and two bars
 * of known length to hold a rule against, because a printer that scales to fit would spoil every 1 : 1 drawing.
 * Millimetres, y up.
 */
import { MM_PER_INCH } from '../../design/units.ts';
import { FAINT, INK, INK_FAINT, INK_SOFT, RULE, THIN } from '../drawing/ink.ts';
import { Pen, type Item, type Point } from '../drawing/pen.ts';
import type { PrintedPage } from './pdf.ts';
import type { Typeface } from './typeface.ts';

export const PAPERS = {
  a4: { name: 'A4', width_mm: 210, height_mm: 297 },
  letter: { name: 'US Letter', width_mm: 215.9, height_mm: 279.4 },
} as const;
export type PaperName = keyof typeof PAPERS;

export const MARGIN_MM = 14;
const FOOT_MM = 21;
const HEAD_MM = 20;
const FULL_FOOT_MM = 16.5;
const FULL_HEAD_MM = 15.5;
const BAR_MM = 100;
const BAR_IN = 4;

export interface Area {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export class SheetPages {
  readonly typeface: Typeface;
  readonly width_mm: number;
  readonly height_mm: number;
  readonly #title: string;
  readonly #fingerprint: string;
  readonly #pages: { items: Item[]; section: string; chapter: string }[] = [];

  constructor(paper: PaperName, title: string, fingerprint: string, typeface: Typeface) {
    this.typeface = typeface;
    this.#title = title;
    this.#fingerprint = fingerprint;
    ({ width_mm: this.width_mm, height_mm: this.height_mm } = PAPERS[paper]);
  }

  /** What a page leaves free. */
  get area(): Area {
    return {
      left: MARGIN_MM,
      right: this.width_mm - MARGIN_MM,
      top: this.height_mm - HEAD_MM,
      bottom: FOOT_MM,
    };
  }

  /** What a drawing at full size may fill: from the check bars to the line under the head. */
  get fullSizeArea(): Area {
    return { ...this.area, top: this.height_mm - FULL_HEAD_MM, bottom: FULL_FOOT_MM };
  }

  /** A new page; `section` stands at its head, `chapter` in the list of contents. */
  add(section: string, chapter = section): Pen {
    const items: Item[] = [];
    this.#pages.push({ items, section, chapter });
    return new Pen(items);
  }

  /** Chapters in order, each with the number of its first page. */
  contents(): { readonly chapter: string; readonly page: number }[] {
    return this.#pages
      .map(({ chapter }, i) => ({ chapter, page: i + 1 }))
      .filter(({ chapter }, i) => i === 0 || chapter !== this.#pages[i - 1].chapter);
  }

  /** The pages with their heads, feet and numbers. */
  finished(): PrintedPage[] {
    return this.#pages.map(({ items, section }, i) => {
      const pen = new Pen([...items]);
      this.#head(pen, section);
      this.#foot(pen, `${i + 1} / ${this.#pages.length}`);
      return { width_mm: this.width_mm, height_mm: this.height_mm, items: pen.items };
    });
  }

  #head(pen: Pen, section: string): void {
    const y = this.height_mm - 12;
    const { left, right } = this.area;
    const room = right - left - this.typeface.width_mm(section, 9, 'semibold') - 8;
    pen.text([left, y], section, { size_pt: 9, weight: 'semibold', colour: INK });
    pen.text([right, y], this.typeface.fit(this.#title, room, 9), {
      size_pt: 9,
      align: 'right',
      colour: INK_SOFT,
    });
    pen.line([left, y - 2.2], [right, y - 2.2], { colour: RULE, width_mm: 0.25 });
  }

  #foot(pen: Pen, number: string): void {
    const { left, right } = this.area;
    drawCheckBar(pen, [left, 11.5], BAR_MM, 10, `${BAR_MM} mm`);
    drawCheckBar(pen, [left, 6], BAR_IN * MM_PER_INCH, MM_PER_INCH / 2, `${BAR_IN} in`);
    const x = left + BAR_IN * MM_PER_INCH + 14;
    const note = 'Print at 100 %: both bars must be true.';
    pen.text([x, 11.6], this.typeface.fit(note, right - x - 12, 7), { size_pt: 7, colour: INK_FAINT });
    pen.text([right, 11.6], number, { size_pt: 9, align: 'right', colour: INK_SOFT });
    pen.text([x, 6.1], 'Kerfweave shop sheet', { size_pt: 7.5, colour: INK_FAINT });
    pen.text([right, 6.1], this.#fingerprint, { size_pt: 9, align: 'right', colour: INK_SOFT });
  }
}

/** A bar of exactly `length_mm` with a tick every `step_mm`, its ends a little taller. */
function drawCheckBar(pen: Pen, [x, y]: Point, length_mm: number, step_mm: number, label: string): void {
  pen.line([x, y], [x + length_mm, y], THIN);
  for (let i = 0; i * step_mm <= length_mm + 1e-9; i++) {
    const end = i === 0 || Math.abs(i * step_mm - length_mm) < 1e-9;
    pen.line([x + i * step_mm, y], [x + i * step_mm, y + (end ? 2.6 : 1.4)], end ? THIN : FAINT);
  }
  pen.text([x + length_mm + 2, y], label, { size_pt: 7.5, colour: INK_FAINT });
}
