/**
 * Pages of drawings as a PDF file: vector paths in the page's own coordinates (72 points to the inch, no
 * transformation in between, so that what is drawn 1 : 1 prints 1 : 1) and text in embedded subsets of the
 * typeface. The bytes follow from the pages alone: no dates, no random identifiers. Operators (ISO 32000-1, annex A) are
 * written as text at once: a long sheet has millions of them.
 */
import { DEG } from '../../geometry/angle.ts';
import { PDFDocument, type PDFFont, type PDFPage } from '@cantoo/pdf-lib';
import {
  MM_PER_POINT,
  type Item,
  type PathItem,
  type PathStep,
  type Point,
  type TextItem,
} from '../drawing/pen.ts';
import { srgbComponents } from '../look.ts';
import type { Face, FontFiles, Typeface } from './typeface.ts';

export interface PrintedPage {
  readonly width_mm: number;
  readonly height_mm: number;
  readonly items: readonly Item[];
}

export interface PdfFields {
  readonly title: string;
  readonly subject: string;
}

/** Bytes of the PDF. `typeface` must be made of the same files. */
export async function writePdf(
  pages: readonly PrintedPage[],
  fields: PdfFields,
  files: FontFiles,
  typeface: Typeface,
): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.registerFontkit(typeface.fontkit);
  document.setTitle(fields.title, { showInWindowTitleBar: true });
  document.setSubject(fields.subject);
  document.setCreator('Kerfweave');
  document.setProducer('Kerfweave');
  document.setLanguage('en');
  const fonts = await embedFonts(document, files, facesUsed(pages, typeface));
  const shownRuns = new Map<string, string>();
  for (const { width_mm, height_mm, items } of pages) {
    const page = document.addPage([width_mm / MM_PER_POINT, height_mm / MM_PER_POINT]);
    new PagePrinter(page, typeface, fonts, shownRuns).print(items);
  }
  return document.save({ useObjectStreams: false });
}

type EmbeddedFonts = ReadonlyMap<Face, PDFFont>;

function facesUsed(pages: readonly PrintedPage[], typeface: Typeface): Set<Face> {
  const faces = new Set<Face>();
  const visit = (items: readonly Item[]) => {
    for (const item of items) {
      if (item.kind === 'clip') visit(item.items);
      if (item.kind === 'text')
        for (const run of typeface.runs(item.text, item.style.weight ?? 'regular')) faces.add(run.face);
    }
  };
  for (const page of pages) visit(page.items);
  return faces;
}

async function embedFonts(
  document: PDFDocument,
  files: FontFiles,
  used: ReadonlySet<Face>,
): Promise<EmbeddedFonts> {
  const plan: readonly (readonly [Face, Uint8Array, boolean])[] = [
    ['regular', files.regular, false],
    ['regular-fraction', files.regular, true],
    ['semibold', files.semibold, false],
    ['semibold-fraction', files.semibold, true],
    ['fallback', files.fallback, false],
  ];
  const fonts = new Map<Face, PDFFont>();
  for (const [face, bytes, frac] of plan)
    if (used.has(face))
      fonts.set(face, await document.embedFont(bytes, { subset: true, features: frac ? { frac } : {} }));
  return fonts;
}

/** Thousandths of a point: 0.35 µm. */
function points(length_mm: number): number {
  if (!Number.isFinite(length_mm)) throw new Error(`${length_mm} has no place on paper`);
  return Math.round((length_mm / MM_PER_POINT) * 1e3) / 1e3 + 0;
}

/** Sines and cosines to six places: engines differ in the last digit of theirs, and the bytes must not. */
const sixth = (value: number) => Math.round(value * 1e6) / 1e6 + 0;

/** As PDF writes a number: rounded before, so never with an exponent. */
const written = (length_mm: number) => String(points(length_mm));

/** A component of a colour, to four places. */
const shade = (value: number) => String(Math.round(value * 1e4) / 1e4);

class PagePrinter {
  readonly #page: PDFPage;
  readonly #typeface: Typeface;
  readonly #fonts: EmbeddedFonts;
  readonly #shownRuns: Map<string, string>;
  readonly #keys = new Map<Face, string>();
  readonly #lines: string[] = [];

  /** `shownRuns` keeps the operators of runs of text from page to page. */
  constructor(page: PDFPage, typeface: Typeface, fonts: EmbeddedFonts, shownRuns: Map<string, string>) {
    this.#page = page;
    this.#typeface = typeface;
    this.#fonts = fonts;
    this.#shownRuns = shownRuns;
  }

  print(items: readonly Item[]): void {
    this.#print(items);
    const { context } = this.#page.doc;
    const contents = new TextEncoder().encode(this.#lines.join('\n'));
    this.#page.node.addContentStream(context.register(context.flateStream(contents)));
  }

  #print(items: readonly Item[]): void {
    for (const item of items)
      switch (item.kind) {
        case 'path':
          this.#path(item);
          break;
        case 'text':
          this.#text(item);
          break;
        case 'clip':
          this.#lines.push('q', pathText(item.steps), 'W n');
          this.#print(item.items);
          this.#lines.push('Q');
          break;
      }
  }

  #path({ steps, fill: filling, stroke: pen }: PathItem): void {
    if (filling === undefined && pen === undefined) return;
    this.#lines.push('q');
    if (filling !== undefined) this.#lines.push(`${colourText(filling)} rg`);
    if (pen) {
      this.#lines.push(`${colourText(pen.colour)} RG`, `${written(pen.width_mm)} w`);
      if (pen.dash_mm && pen.dash_mm.length > 0)
        this.#lines.push(`[${pen.dash_mm.map(written).join(' ')}] 0 d`);
      // Butt caps and mitred joins are what a page begins with.
      if (pen.round) this.#lines.push('1 J 1 j');
    }
    this.#lines.push(pathText(steps), pen ? (filling === undefined ? 'S' : 'B') : 'f', 'Q');
  }

  #text({ at, text, style }: TextItem): void {
    const { size_pt, weight = 'regular', align = 'left', colour = '#000000', angle_deg = 0, halo } = style;
    const width_mm = this.#typeface.width_mm(text, size_pt, weight);
    const back_mm = align === 'left' ? 0 : align === 'right' ? width_mm : width_mm / 2;
    const cos = Math.cos(angle_deg * DEG);
    const sin = Math.sin(angle_deg * DEG);
    const along = (x: number, y: number): Point => [at[0] + cos * x - sin * y, at[1] + sin * x + cos * y];
    if (halo !== undefined) {
      const pad = 0.4;
      const low = -0.24 * size_pt * MM_PER_POINT - pad / 2;
      const high = 0.76 * size_pt * MM_PER_POINT + pad / 2;
      const corners: Point[] = [
        along(-back_mm - pad, low),
        along(width_mm - back_mm + pad, low),
        along(width_mm - back_mm + pad, high),
        along(-back_mm - pad, high),
      ];
      const steps = corners.map((corner, i): PathStep => [i === 0 ? 'move' : 'line', corner]);
      this.#path({ kind: 'path', steps: [...steps, ['close']], fill: halo });
    }
    const place = along(-back_mm, 0).map(written).join(' ');
    const turn = [cos, sin, -sin, cos].map((value) => String(sixth(value))).join(' ');
    this.#lines.push('q BT', `${colourText(colour)} rg`, `${turn} ${place} Tm`);
    for (const run of this.#typeface.runs(text, weight))
      this.#lines.push(`${this.#key(run.face)} ${size_pt} Tf`, this.#shown(run.face, run.text));
    this.#lines.push('ET Q');
  }

  /** The run as glyphs with their kerning. */
  #shown(face: Face, text: string): string {
    const name = `${face} ${text}`;
    let shown = this.#shownRuns.get(name);
    if (shown === undefined) {
      shown = this.#glyphs(face, text);
      this.#shownRuns.set(name, shown);
    }
    return shown;
  }

  #glyphs(face: Face, text: string): string {
    const { advances, natural } = this.#typeface.layout({ face, text });
    const glyphs = this.#font(face).encodeText(text).asString();
    let pieces = '';
    let waiting = '';
    advances.forEach((advance, i) => {
      waiting += glyphs.slice(i * 4, i * 4 + 4);
      const kern = Math.round(natural[i] - advance);
      if (kern === 0 && i + 1 < advances.length) return;
      pieces += `<${waiting}>${kern === 0 ? '' : kern}`;
      waiting = '';
    });
    return `[${pieces}] TJ`;
  }

  #font(face: Face): PDFFont {
    const font = this.#fonts.get(face);
    if (!font) throw new Error(`the ${face} font is not embedded`);
    return font;
  }

  #key(face: Face): string {
    let key = this.#keys.get(face);
    if (key === undefined) {
      const font = this.#font(face);
      key = this.#page.node.newFontDictionary(font.name, font.ref).toString();
      this.#keys.set(face, key);
    }
    return key;
  }
}

function colourText(colour: string): string {
  return srgbComponents(colour).map(shade).join(' ');
}

function pathText(steps: readonly PathStep[]): string {
  const at = ([x, y]: Point) => `${written(x)} ${written(y)}`;
  return steps
    .map((step) => {
      if (step[0] === 'close') return 'h';
      if (step[0] === 'curve') return `${at(step[1])} ${at(step[2])} ${at(step[3])} c`;
      return `${at(step[1])} ${step[0] === 'move' ? 'm' : 'l'}`;
    })
    .join('\n');
}
