/**
 * Pages of drawings as a PDF file: vector paths in the page's own coordinates (72 points to the inch, no
 * transformation in between, so that what is drawn 1 : 1 prints 1 : 1) and text in embedded subsets of the
 * typeface. The bytes follow from the pages alone: no dates, no random identifiers.
 */
import {
  LineCapStyle,
  LineJoinStyle,
  PDFArray,
  PDFDocument,
  PDFHexString,
  PDFOperator,
  PDFOperatorNames,
  appendBezierCurve,
  beginText,
  clip,
  closePath,
  endPath,
  endText,
  fill,
  fillAndStroke,
  lineTo,
  moveTo,
  popGraphicsState,
  pushGraphicsState,
  setDashPattern,
  setFillingRgbColor,
  setFontAndSize,
  setLineCap,
  setLineJoin,
  setLineWidth,
  setStrokingRgbColor,
  setTextMatrix,
  stroke,
  type PDFFont,
  type PDFPage,
} from '@cantoo/pdf-lib';
import * as fontkit from 'fontkit';
import type { Item, PathItem, PathStep, Point, TextItem } from '../drawing/pen.ts';
import { srgbComponents } from '../look.ts';
import { MM_PER_PT, type Face, type FontFiles, type Typeface } from './typeface.ts';

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
  document.registerFontkit(fontkit);
  document.setTitle(fields.title, { showInWindowTitleBar: true });
  document.setSubject(fields.subject);
  document.setCreator('Kerfweave');
  document.setProducer('Kerfweave');
  document.setLanguage('en');
  const fonts = await embedFonts(document, files, facesUsed(pages, typeface));
  for (const { width_mm, height_mm, items } of pages) {
    const page = document.addPage([width_mm / MM_PER_PT, height_mm / MM_PER_PT]);
    new PagePrinter(page, typeface, fonts).print(items);
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
  return Math.round((length_mm / MM_PER_PT) * 1e3) / 1e3 + 0;
}

/** Sines and cosines to six places: engines differ in the last digit of theirs, and the bytes must not. */
const sixth = (value: number) => Math.round(value * 1e6) / 1e6 + 0;

class PagePrinter {
  readonly #page: PDFPage;
  readonly #typeface: Typeface;
  readonly #fonts: EmbeddedFonts;
  readonly #keys = new Map<Face, ReturnType<PDFPage['node']['newFontDictionary']>>();

  constructor(page: PDFPage, typeface: Typeface, fonts: EmbeddedFonts) {
    this.#page = page;
    this.#typeface = typeface;
    this.#fonts = fonts;
  }

  print(items: readonly Item[]): void {
    for (const item of items)
      switch (item.kind) {
        case 'path':
          this.#path(item);
          break;
        case 'text':
          this.#text(item);
          break;
        case 'clip':
          this.#page.pushOperators(pushGraphicsState(), ...pathOperators(item.steps), clip(), endPath());
          this.print(item.items);
          this.#page.pushOperators(popGraphicsState());
          break;
      }
  }

  #path({ steps, fill: filling, stroke: pen }: PathItem): void {
    if (filling === undefined && pen === undefined) return;
    const operators: PDFOperator[] = [pushGraphicsState()];
    if (filling !== undefined) operators.push(setFillingRgbColor(...srgbComponents(filling)));
    if (pen) {
      operators.push(
        setStrokingRgbColor(...srgbComponents(pen.colour)),
        setLineWidth(points(pen.width_mm)),
        setDashPattern((pen.dash_mm ?? []).map(points), 0),
        setLineCap(pen.round ? LineCapStyle.Round : LineCapStyle.Butt),
        setLineJoin(pen.round ? LineJoinStyle.Round : LineJoinStyle.Miter),
      );
    }
    operators.push(...pathOperators(steps));
    operators.push(pen ? (filling === undefined ? stroke() : fillAndStroke()) : fill());
    this.#page.pushOperators(...operators, popGraphicsState());
  }

  #text({ at, text, style }: TextItem): void {
    const { size_pt, weight = 'regular', align = 'left', colour = '#000000', angle_deg = 0, halo } = style;
    const width_mm = this.#typeface.width_mm(text, size_pt, weight);
    const back_mm = align === 'left' ? 0 : align === 'right' ? width_mm : width_mm / 2;
    const cos = Math.cos((angle_deg * Math.PI) / 180);
    const sin = Math.sin((angle_deg * Math.PI) / 180);
    const along = (x: number, y: number): Point => [at[0] + cos * x - sin * y, at[1] + sin * x + cos * y];
    if (halo !== undefined) {
      const pad = 0.4;
      const low = -0.24 * size_pt * MM_PER_PT - pad / 2;
      const high = 0.76 * size_pt * MM_PER_PT + pad / 2;
      const corners: Point[] = [
        along(-back_mm - pad, low),
        along(width_mm - back_mm + pad, low),
        along(width_mm - back_mm + pad, high),
        along(-back_mm - pad, high),
      ];
      const steps = corners.map((corner, i): PathStep => [i === 0 ? 'move' : 'line', corner]);
      this.#path({ kind: 'path', steps: [...steps, ['close']], fill: halo });
    }
    const [x, y] = along(-back_mm, 0).map((value) => points(value));
    const operators: PDFOperator[] = [
      beginText(),
      setFillingRgbColor(...srgbComponents(colour)),
      setTextMatrix(sixth(cos), sixth(sin), sixth(-sin), sixth(cos), x, y),
    ];
    for (const run of this.#typeface.runs(text, weight)) {
      operators.push(setFontAndSize(this.#key(run.face), size_pt), this.#shown(run.face, run.text));
    }
    this.#page.pushOperators(pushGraphicsState(), ...operators, endText(), popGraphicsState());
  }

  /** The run as glyphs with their kerning. */
  #shown(face: Face, text: string): PDFOperator {
    const { advances, natural } = this.#typeface.layout({ face, text });
    const glyphs = this.#font(face).encodeText(text).asString();
    const pieces = PDFArray.withContext(this.#page.doc.context);
    let waiting = '';
    advances.forEach((advance, i) => {
      waiting += glyphs.slice(i * 4, i * 4 + 4);
      const kern = Math.round(natural[i] - advance);
      if (kern === 0 && i + 1 < advances.length) return;
      pieces.push(PDFHexString.of(waiting));
      waiting = '';
      if (kern !== 0) pieces.push(this.#page.doc.context.obj(kern));
    });
    return PDFOperator.of(PDFOperatorNames.ShowTextAdjusted, [pieces]);
  }

  #font(face: Face): PDFFont {
    const font = this.#fonts.get(face);
    if (!font) throw new Error(`the ${face} font is not embedded`);
    return font;
  }

  #key(face: Face) {
    let key = this.#keys.get(face);
    if (key === undefined) {
      const font = this.#font(face);
      key = this.#page.node.newFontDictionary(font.name, font.ref);
      this.#keys.set(face, key);
    }
    return key;
  }
}

function pathOperators(steps: readonly PathStep[]): PDFOperator[] {
  return steps.map((step) => {
    if (step[0] === 'close') return closePath();
    if (step[0] === 'curve') {
      const [a, b, c] = step.slice(1) as [Point, Point, Point];
      return appendBezierCurve(
        points(a[0]),
        points(a[1]),
        points(b[0]),
        points(b[1]),
        points(c[0]),
        points(c[1]),
      );
    }
    const [x, y] = step[1];
    return step[0] === 'move' ? moveTo(points(x), points(y)) : lineTo(points(x), points(y));
  });
}
