/** All cuts at a glance, the glue-ups with their time, and lines to write down what was measured. */
import { faceUp, type Up } from '../drawing/setup.ts';
import type { CutKind, DisplayUnit } from '../../design/document.ts';
import type { AsMade } from '../../plan/made.ts';
import { sessionChoices } from '../../plan/sessionChoices.ts';
import { addFlow, type Flow } from './flow.ts';
import type { SheetPages } from './frame.ts';
import { angle, duration, length, onRule, thickness } from './numbers.ts';
import { cutsOf, wallsOf, type SheetSource } from './source.ts';
import { columnsOf, type CellRow } from './table.ts';

export function addOverview(pages: SheetPages, source: SheetSource): void {
  const choices = choicesText(source);
  addFlow(pages, 'Cuts and glue-ups', (flow) => {
    flow.heading('All cuts in working order');
    addCutTable(flow, source);
    flow.heading('Glue-ups');
    flow.paragraph(glueUpText(source));
    flow.paragraph(choices);
    addGlueUpTable(flow, source);
  });
}

function addCutTable(flow: Flow, source: SheetSource): void {
  const used = OVERVIEW.filter(({ kind }) => cutsOf(source, kind).length > 0);
  for (const { title, columns, rows } of used) {
    if (used.length > 1) flow.paragraph(title);
    const shown = rows(source);
    flow.table(columnsOf(flow.width, columns(source.design.unit, shown)), shown);
  }
}

type Heads = Parameters<typeof columnsOf>[1];

/** The cuts of one kind, each with what is set for it. */
interface KindOverview {
  readonly title: string;
  readonly columns: (unit: DisplayUnit, rows: readonly CellRow[]) => Heads;
  readonly rows: (source: SheetSource) => CellRow[];
}

/** In the order in which they stand on the page. */
const OVERVIEWS: Readonly<Record<CutKind, KindOverview>> = {
  table: { title: 'With the table tilted:', columns: tableHeads, rows: tableRows },
  fence: { title: 'Against the fence:', columns: fenceHeads, rows: fenceRows },
};
const OVERVIEW = Object.entries(OVERVIEWS).map(([kind, overview]) => ({
  kind: kind as CutKind,
  ...overview,
}));

/** A column for the reading of a rule, where the unit has one. */
const ruleHead = (unit: DisplayUnit): Heads[number] =>
  unit === 'in' ? ['on the rule', 27, 'right'] : ['', 1, 'right'];

const UP_COLUMN = 3;

function fenceHeads(unit: DisplayUnit, rows: readonly CellRow[]): Heads {
  return [
    ['Cut', 8],
    ['Slot', 14],
    ['At the fence', 16],
    rows.some(({ cells }) => cells[UP_COLUMN] !== '') ? ['Up', 10] : ['', 1],
    ['To the stop', 15],
    ['Fence', 12, 'right'],
    ['from square', 17, 'right'],
    ['Stop to mid-kerf', 24, 'right'],
    ruleHead(unit),
    ['Blade stop', 19, 'right'],
    ['Kerf', 18, 'right'],
  ];
}

/** The face that lies up, or the two that meet in the edge that does. */
function upCell({ letter, edge }: Up): string {
  return letter ?? edge ?? '';
}

function fenceRows(source: SheetSource): CellRow[] {
  const { unit } = source.design;
  return cutsOf(source, 'fence').map(({ number, setup }) => ({
    cells: [
      `${number}`,
      setup.slot,
      setup.face ?? angle(setup.fence_azimuth_deg),
      upCell(faceUp(source.design, setup)),
      setup.stop_end,
      angle(setup.fence_angle_deg),
      angle(setup.protractor_deg),
      length(setup.stop_to_kerf_center_mm, unit),
      onRule(setup.stop_to_kerf_center_mm, unit) ?? '',
      thickness(setup.blade_stop_mm, unit),
      thickness(setup.kerf_mm, unit),
    ],
  }));
}

function tableHeads(unit: DisplayUnit): Heads {
  return [
    ['Cut', 8],
    ['Slot', 14],
    ['At the ledge', 16],
    ['On the table', 17],
    ['Side down', 14],
    ['Table', 12, 'right'],
    ['to the blade', 17, 'right'],
    ['Ledge to mid-kerf', 24, 'right'],
    ruleHead(unit),
    ['Web', 19, 'right'],
    ['Kerf', 18, 'right'],
  ];
}

function tableRows(source: SheetSource): CellRow[] {
  const { unit } = source.design;
  return cutsOf(source, 'table').map(({ number, setup }) => {
    const { table } = setup;
    const ledge_mm = table.ledge_to_kerf_center_mm;
    return {
      cells: [
        `${number}`,
        setup.slot,
        setup.face ?? angle(setup.fence_azimuth_deg),
        table.end_down,
        table.tilts,
        angle(table.tilt_deg),
        angle(90 - table.tilt_deg),
        ledge_mm === null
          ? 'never'
          : ledge_mm < 0
            ? `${length(-ledge_mm, unit)} beyond`
            : length(ledge_mm, unit),
        (ledge_mm === null || ledge_mm < 0 ? null : onRule(ledge_mm, unit)) ?? '',
        thickness(setup.blade_stop_mm, unit),
        thickness(setup.kerf_mm, unit),
      ],
    };
  });
}

function glueUpText({ design, measures }: SheetSource): string {
  const { plan } = measures;
  const count = plan.sessions.length;
  const { clamp_minutes, max_open_slots } = design.saw;
  const proof = plan.exact
    ? 'No plan has fewer.'
    : `The fewest found; fewer than ${plan.bound} are not possible.`;
  return (
    `${count} glue-up${count === 1 ? '' : 's'} with at most ${max_open_slots} slot${max_open_slots === 1 ? '' : 's'} open at a time, ` +
    `${duration(clamp_minutes)} in clamps each: ${duration(count * clamp_minutes)} in all. ${proof} Clamp until the glue holds; ` +
    'before turning let all of it cure as long as its label says, which is longer.'
  );
}

/** What another number of open slots would bring. */
function choicesText({ design, measures }: SheetSource): string {
  const choices = sessionChoices(measures.slots, design.blank, design.saw, measures.plan);
  // Of choices that bring nothing only the one that this sheet is made for is named.
  const worth = choices.filter(
    ({ maxOpen, glueUps }, i) =>
      i === 0 || glueUps < choices[i - 1].glueUps || maxOpen === design.saw.max_open_slots,
  );
  const words = worth.map(
    ({ maxOpen, glueUps, clampMinutes, exact }) =>
      `${maxOpen === 1 ? 'one slot open at a time' : `up to ${maxOpen}`}: ${glueUps}${exact ? '' : ' found'} (${duration(clampMinutes)})`,
  );
  return `Glue-ups by choice: ${words.join('; ')}. More slots open at once leave the blank weaker until the glue holds.`;
}

const DOTS = '…………………';

/** Kerf, web and strip where they were measured. */
const MEASURES: readonly ((made: AsMade | undefined) => number | null)[] = [
  (made) => (made?.kerfFrom === 'slot' ? made.kerf_mm : null),
  (made) => (made?.webMeasured ? made.web_mm : null),
  (made) => (made?.stripMeasured ? made.strip_mm : null),
];

function addGlueUpTable(flow: Flow, source: SheetSource): void {
  const { plan, setups, made } = source.measures;
  const { unit } = source.design;
  const columns = columnsOf(flow.width, [
    ['Glue-up', 12],
    ['Slots', 40],
    [`At ${wallsOf(source.design.sets)}`, 20],
    ['Clamps', 16],
    ['clamped at', 22],
    ['kerf measured', 24],
    ['web measured', 24],
    ['strip measured', 24],
  ]);
  const rows = plan.sessions.map((session, i): CellRow => {
    const faces = new Set(
      session.map((id) => {
        const setup = setups.find(({ slot }) => slot === id);
        return setup ? (setup.face ?? angle(setup.fence_azimuth_deg)) : '';
      }),
    );
    return {
      cells: [
        `${i + 1}`,
        session.join(', '),
        [...faces].join(' '),
        duration(source.design.saw.clamp_minutes),
        DOTS,
        ...MEASURES.map((measure) => {
          const values = session.map((id) => measure(made.find(({ slot }) => slot === id)));
          return values.some((value) => value !== null)
            ? values.map((value) => (value === null ? '…' : thickness(value, unit))).join(' ')
            : DOTS;
        }),
      ],
    };
  });
  flow.table(columns, rows, 6.4);
}
