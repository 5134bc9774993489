/** How far rings and crossings may lie from their places, how likely, and which error to care for most. */
import { MM_PER_INCH } from '../../design/units.ts';
import type { CutKind } from '../../design/document.ts';
import {
  type Accuracy,
  careText,
  chanceText,
  grazingText,
  offCentreText,
  ringGroups,
  within_mm,
} from '../../plan/accuracy.ts';
import { chanceBeyond, type CrossingErrors } from '../../plan/crossingErrors.ts';
import { CUT_WORDS } from '../../plan/cutWords.ts';
import type { MakersChoices } from '../../plan/makersChoices.ts';
import { listed, slotRuns } from '../../plan/wording.ts';
import type { Flow } from './flow.ts';
import { length, thickness } from './numbers.ts';
import { kindsUsed, type SheetSource } from './source.ts';
import { columnsOf } from './table.ts';

export function addAccuracy(
  flow: Flow,
  { design, measures }: SheetSource,
  accuracy: Accuracy,
  choices: MakersChoices,
): void {
  const { unit, saw } = design;
  const { angle, stop } = settingsOf(measures);
  flow.heading('How far a ring may lie from its place');
  flow.paragraph(
    `With ${angle} true to ± ${saw.angle_tolerance_deg}° and ${stop} to ± ${thickness(saw.stop_tolerance_mm, unit)}, along the axis ` +
      'at the largest radius. Worst: both errors at their limit the same way; usual: root of the sum of squares. ' +
      offCentreText(design.sets),
  );
  const columns = columnsOf(flow.width, [
    ['Worst', 26, 'right'],
    ['Usual', 26, 'right'],
    ['', 6],
    ['Rings', 120],
  ]);
  flow.table(
    columns,
    ringGroups(accuracy.rings).map(({ worst_mm, rss_mm, slots }) => ({
      cells: [`± ${length(worst_mm, unit)}`, `± ${length(rss_mm, unit)}`, '', slotRuns(slots).join(', ')],
    })),
  );
  const { crossings } = accuracy;
  if (crossings && crossings.steady > 0) addCrossings(flow, crossings, measures, choices.offBy_mm, unit);
}

interface Settings {
  readonly angle: string;
  readonly stop: string;
}

/** What is set for a kind of cut, and what is turned to its angle. */
const SETTINGS: Readonly<Record<CutKind, Settings & { readonly turned: string }>> = {
  fence: { angle: 'the angle of the fence', stop: 'the stop', turned: 'fence' },
  table: { angle: 'the tilt of the table', stop: 'the ledge', turned: 'table' },
};

/** What is set for the angle and for the place of the cuts. */
function settingsOf({ setups }: SheetSource['measures']): Settings {
  const kinds = kindsUsed(setups);
  if (kinds.length === 1) return SETTINGS[kinds[0]];
  return {
    angle: `the angle of ${listed(kinds.map((kind) => SETTINGS[kind].turned))}`,
    stop: `the place of ${listed(kinds.map((kind) => CUT_WORDS[kind].stop))}`,
  };
}

/** Lengths whose chances are printed beside the maker's own, where they say something: marks of a rule. */
const STEPS_MM = {
  in: [64, 32, 16, 8, 4].map((parts) => MM_PER_INCH / parts),
  mm: [0.25, 0.5, 1, 2, 4],
};

function addCrossings(
  flow: Flow,
  errors: CrossingErrors,
  measures: SheetSource['measures'],
  offBy_mm: number,
  unit: 'in' | 'mm',
): void {
  const tries = errors.largest_mm.length;
  const size = (length_mm: number) => thickness(length_mm, unit);
  flow.heading('How well the crossings will come out');
  flow.paragraph(
    `${tries.toLocaleString('en-US')} pieces tried by chance, every cut with an angle and a stop of its own within those limits: half of ` +
      `the pieces have all ${errors.steady} crossings within ${size(within_mm(errors, 0.5))} of their places, 19 of 20 within ` +
      `${size(within_mm(errors, 0.95))}.${grazingText(errors)}`,
  );
  const chance = (limit_mm: number) => chanceBeyond(errors, limit_mm);
  const marks = STEPS_MM[unit];
  const telling = marks.filter(
    (mark, i) =>
      (chance(mark) > 0 || (i > 0 && chance(marks[i - 1]) > 0)) &&
      (chance(mark) < 1 || (i + 1 < marks.length && chance(marks[i + 1]) < 1)),
  );
  const steps = [...new Set([...telling, offBy_mm])].sort((a, b) => a - b);
  flow.table(
    columnsOf(flow.width, [
      ['Some crossing off by more than', 50, 'right'],
      ['Chance', 30, 'right'],
      ['', 6],
      ['', 92],
    ]),
    steps.map((limit_mm) => ({
      cells: [
        size(limit_mm),
        chanceText(chance(limit_mm), tries),
        '',
        limit_mm === offBy_mm ? 'the amount asked for' : '',
      ],
      strong: limit_mm === offBy_mm,
    })),
  );
  flow.paragraph(
    careText(
      errors,
      measures.slots.map(({ id }) => id),
      settingsOf(measures),
    ),
  );
}
