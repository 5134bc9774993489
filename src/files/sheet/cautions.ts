/** The cautions that go with the work, each with its source (plan/cautions.ts). */
import type { DisplayUnit } from '../../design/document.ts';
import { cautionsOf, type Caution, type CautionPlace } from '../../plan/cautions.ts';
import { worded } from '../../plan/wording.ts';
import { INK, INK_FAINT } from '../drawing/ink.ts';
import { addFlow, type Flow } from './flow.ts';
import type { SheetPages } from './frame.ts';
import { INCH } from './numbers.ts';
import type { SheetSource } from './source.ts';

const PLACES: readonly (readonly [CautionPlace, string | null])[] = [
  ['everywhere', null],
  ['saw', 'At the saw'],
  ['glue', 'Glue'],
  ['lathe', 'At the lathe'],
  ['dust', 'Dust'],
];

export function addCautions(pages: SheetPages, { design, measures }: SheetSource): void {
  const cautions = cautionsOf(design, measures);
  addFlow(pages, 'Cautions', (flow) => writeCautions(flow, cautions, design.unit));
}

function writeCautions(flow: Flow, cautions: readonly Caution[], unit: DisplayUnit): void {
  for (const [place, heading] of PLACES) {
    const here = cautions.filter(({ where }) => where === place);
    if (here.length === 0) continue;
    if (heading !== null) flow.heading(heading);
    for (const { words, source } of here) {
      const text = worded(words, unit, INCH);
      if (heading === null) {
        flow.skip(3);
        flow.paragraph(text, { size_pt: 11, colour: INK });
      } else flow.tick(text, source, INK_FAINT);
    }
  }
}
