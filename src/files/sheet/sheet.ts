/**
 * The shop sheet of a design as a PDF: cover, preparation, cautions, cuts and glue-ups, an entry per cut, strips and
 * fit, full-size templates. The same design gives the same bytes, in Node and in the browser.
 */
import type { CutKind, Design } from '../../design/document.ts';
import { usualChoices, type MakersChoices } from '../../plan/makersChoices.ts';
import { addBefore } from './before.ts';
import { addCautions } from './cautions.ts';
import { addCover } from './cover.ts';
import { addCradle } from './cradle.ts';
import { addCutPages } from './cuts.ts';
import { SheetPages, type PaperName } from './frame.ts';
import { addOverview } from './overview.ts';
import { writePdf } from './pdf.ts';
import { kindsUsed, sheetSource, type SheetSource } from './source.ts';
import { addStrips } from './strips.ts';
import { addIndexMarks } from './templates/indexMarks.ts';
import { addTurningTemplate } from './templates/outline.ts';
import { addTiltPages } from './templates/tilts.ts';
import { addFencePages } from './templates/wedges.ts';
import { addWrapLayout } from './templates/wrap.ts';
import { Typeface, type FontFiles } from './typeface.ts';

/** What sets the angle of a kind of cut, at full size. */
const SETTING_PAGES: Readonly<Record<CutKind, (pages: SheetPages, source: SheetSource) => void>> = {
  fence: addFencePages,
  table: addTiltPages,
};

export interface SheetOptions {
  readonly paper: PaperName;
  readonly fonts: FontFiles;
  /** What the maker asks of accuracy, wood and stock; left out: as usual. */
  readonly choices?: MakersChoices;
}

/** Bytes of the PDF; the design must be valid. */
export function shopSheet(
  design: Design,
  { paper, fonts, choices = usualChoices(design.unit) }: SheetOptions,
): Promise<Uint8Array> {
  const typeface = new Typeface(fonts);
  const title = design.name.trim() === '' ? 'Untitled' : design.name;
  const source = sheetSource(design);
  const pages = new SheetPages(paper, title, source.fingerprint, typeface);
  const listContents = addCover(pages, source);
  addBefore(pages, source);
  addCautions(pages, source);
  if (source.cuts.length > 0) {
    addOverview(pages, source);
    addCutPages(pages, source);
    addCradle(pages, source);
    addStrips(pages, source, choices);
    addWrapLayout(pages, source);
    addIndexMarks(pages, source);
  }
  addTurningTemplate(pages, source);
  for (const kind of kindsUsed(source.cuts.map(({ setup }) => setup))) SETTING_PAGES[kind](pages, source);
  listContents();
  return writePdf(pages.finished(), { title, subject: 'Shop sheet' }, fonts, typeface);
}
