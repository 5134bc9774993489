/** The strips to prepare, from what stock, how they fit; and how far each ring may lie from its place. */
import type { CutKind, Design, Hole } from '../../design/document.ts';
import { accuracyOf } from '../../plan/accuracy.ts';
import { boardsFor, sliceKerfOf_mm, stripGroups } from '../../plan/strips.ts';
import { movementWords, stockWords, weightWords, weightsOf } from '../../plan/woodWords.ts';
import type { MakersChoices } from '../../plan/makersChoices.ts';
import { slotRuns, worded } from '../../plan/wording.ts';
import { addAccuracy } from './accuracy.ts';
import { addFlow, type Flow } from './flow.ts';
import type { SheetPages } from './frame.ts';
import { angle, INCH, length, thickness } from './numbers.ts';
import { kindsUsed, type SheetSource } from './source.ts';
import { columnsOf, type CellRow } from './table.ts';
import { timberName } from '../../timber/names.ts';

export function addStrips(pages: SheetPages, source: SheetSource, choices: MakersChoices): void {
  const accuracy = accuracyOf(source.design, source.measures);
  addFlow(pages, 'Strips and fit', (flow) => {
    flow.heading('Strips to cut');
    addStripTables(flow, source, choices.board);
    flow.heading('Fit');
    addFitTable(flow, source);
    addMade(flow, source);
    if (accuracy) addAccuracy(flow, source, accuracy, choices);
    addHoles(flow, source.design);
    addWood(flow, source, choices);
  });
}

function addStripTables(flow: Flow, { design, looks }: SheetSource, board: MakersChoices['board']): void {
  const { unit } = design;
  const slice_mm = sliceKerfOf_mm(design);
  flow.paragraph(
    `Deep is down the slope of the slot, long is along the blade${kindsUsed(design.sets)
      .map((kind) => LONG_OTHERWISE[kind])
      .join('')}. Both stand ` +
      `${length(design.saw.strip_overhang_mm, unit)} proud for trimming. One spare for every four. Stock is for slices with a kerf ` +
      `of ${thickness(slice_mm, unit)}.${layersText(design)}`,
  );
  const columns = columnsOf(flow.width, [
    ['Timber', 40],
    ['Thick', 18, 'right'],
    ['Deep', 22, 'right'],
    ['Long', 22, 'right'],
    ['Pieces', 14, 'right'],
    ['', 5],
    ['For slots', 70],
  ]);
  for (const group of stripGroups(design, { sliceKerf_mm: slice_mm })) {
    const look = looks(group.timber);
    const rows = group.pieces.map((piece, i): CellRow => ({
      cells: [
        i === 0 ? look.name : '',
        thickness(group.thickness_mm, unit),
        length(piece.depth_mm, unit),
        length(piece.length_mm, unit),
        `${piece.slots.length}`,
        '',
        counted(piece.slots),
      ],
      swatch: i === 0 ? look.srgb : undefined,
    }));
    flow.table(columns, rows);
    const boards = boardsFor(group, board, slice_mm);
    const size = `${length(board.length_mm, unit)} × ${length(board.width_mm, unit)} × ${length(board.thickness_mm, unit)}`;
    flow.paragraph(
      `${worded(stockWords(group, unit), unit, INCH)} ${
        boards === null
          ? `A board of ${size} is too small for them.`
          : `Or ${boards} board${boards === 1 ? '' : 's'} of ${size}.`
      }`,
      { size_pt: 8.5 },
    );
  }
}

/** `S1.1 ×2 S1.2`: a slot that takes several equal pieces is named once. */
function counted(slots: readonly string[]): string {
  const times = new Map<string, number>();
  for (const slot of slots) times.set(slot, (times.get(slot) ?? 0) + 1);
  const alike = new Set(times.values());
  const [n] = alike;
  if (alike.size === 1)
    return slotRuns([...times.keys()])
      .map((run) => (n > 1 ? `${run} ×${n}` : run))
      .join(', ');
  return [...times].map(([slot, count]) => (count > 1 ? `${slot} ×${count}` : slot)).join(', ');
}

function addFitTable(flow: Flow, { design }: SheetSource): void {
  const { unit, saw } = design;
  const columns = columnsOf(flow.width, [
    ['Set', 50],
    ['Kerf', 24, 'right'],
    ['Strip, all layers', 30, 'right'],
    ['', 8],
    ['Fit', 80],
  ]);
  const rows = design.sets.map((set): CellRow => {
    const strip = set.strip.layers.reduce((sum, layer) => sum + layer.thickness_mm, 0);
    const fit = strip - set.kerf_mm;
    const beyond = Math.abs(fit) > saw.strip_tolerance_mm + 1e-9;
    const text =
      Math.abs(fit) < 5e-4
        ? 'as thick as the kerf'
        : `${thickness(Math.abs(fit), unit)} ${fit > 0 ? 'thicker: tight' : 'thinner: loose'}` +
          (beyond ? `, beyond ± ${thickness(saw.strip_tolerance_mm, unit)}` : '');
    return { cells: [set.id, thickness(set.kerf_mm, unit), thickness(strip, unit), '', text] };
  });
  flow.table(
    columns,
    alikeTogether(rows, (sets) => sets.join(', ')),
  );
}

/** In which order the layers of a strip lie in its slot; nothing where no strip is layered. */
function layersText({ sets, unit }: Design): string {
  const orders = new Map<string, string[]>();
  for (const { id, strip } of sets) {
    if (strip.layers.length < 2) continue;
    const order = strip.layers
      .map(({ timber, thickness_mm }) => `${thickness(thickness_mm, unit)} ${timberName(timber)}`)
      .join(' + ');
    orders.set(order, [...(orders.get(order) ?? []), id]);
  }
  if (orders.size === 0) return '';
  const each = [...orders].map(([order, ids]) => `${ids.join(', ')}: ${order}`);
  return ` Layers, the foot’s side of the slot first. ${each.join('; ')}.`;
}

/** Rows that differ in their first cell only, as one; `named` joins those cells. */
function alikeTogether(rows: readonly CellRow[], named: (first: string[]) => string): CellRow[] {
  const groups = new Map<string, { first: string[]; rest: readonly string[] }>();
  for (const { cells } of rows) {
    const [first, ...rest] = cells;
    const group = groups.get(rest.join('|'));
    if (group) group.first.push(first);
    else groups.set(rest.join('|'), { first: [first], rest });
  }
  return [...groups.values()].map(({ first, rest }) => ({ cells: [named(first), ...rest] }));
}

/** What the length of a strip runs along, where it is not the blade. */
const LONG_OTHERWISE: Readonly<Record<CutKind, string>> = {
  fence: '',
  table: ' (with the table tilted: along the feed)',
};

/** What was measured slot by slot, and what is to be made to fit it. */
function addMade(flow: Flow, { design, measures }: SheetSource): void {
  const known = measures.made.filter(
    ({ kerfFrom, webMeasured, stripMeasured }) => kerfFrom !== 'design' || webMeasured || stripMeasured,
  );
  if (known.length === 0) return;
  const { unit } = design;
  flow.heading('As made');
  flow.paragraph(
    'Where a slot or the test cut was measured, its strip is made for that; what was not measured is as designed.',
  );
  const columns = columnsOf(flow.width, [
    ['Slot', 50],
    ['Kerf', 20, 'right'],
    ['', 3],
    ['', 20],
    ['Web', 20, 'right'],
    ['Strip', 20, 'right'],
    ['', 4],
    ['', 50],
  ]);
  const rows = known.map((made): CellRow => ({
    cells: [
      made.slot,
      thickness(made.kerf_mm, unit),
      '',
      made.kerfFrom === 'slot' ? 'measured' : made.kerfFrom,
      thickness(made.web_mm, unit),
      thickness(made.strip_mm, unit),
      '',
      made.stripMeasured
        ? Math.abs(made.fit_mm) < 5e-4
          ? 'made, as thick as the kerf'
          : `made, ${thickness(Math.abs(made.fit_mm), unit)} ${made.fit_mm > 0 ? 'thicker' : 'thinner'} than the kerf`
        : 'to make',
    ],
  }));
  flow.table(
    columns,
    alikeTogether(rows, (slots) => slotRuns(slots).join(', ')),
  );
}

function addHoles(flow: Flow, { form, unit }: Design): void {
  const holes = form?.holes ?? [];
  if (holes.length === 0) return;
  flow.heading('Holes to drill');
  const columns = columnsOf(flow.width, [
    ['From', 22],
    ['Diameter', 24, 'right'],
    ['Depth', 28, 'right'],
    ['', 6],
    ['Where', 100],
  ]);
  flow.table(
    columns,
    holes.map((hole) => ({
      cells: [
        hole.from === 'side' ? 'the side' : `the ${hole.from}`,
        length(hole.diameter_mm, unit),
        hole.depth_mm === null ? 'right through' : length(hole.depth_mm, unit),
        '',
        placeOf(hole, unit),
      ],
    })),
  );
}

function placeOf({ from, offset_mm = 0, azimuth_deg = 0, z_mm = 0 }: Hole, unit: Design['unit']): string {
  if (from !== 'side')
    return offset_mm === 0
      ? 'on the axis'
      : `${length(offset_mm, unit)} off the axis, toward ${angle(azimuth_deg)}`;
  const past = offset_mm === 0 ? '' : `, passing the axis by ${length(offset_mm, unit)}`;
  return `${length(z_mm, unit)} above the foot line, from ${angle(azimuth_deg)}${past}`;
}

function addWood(flow: Flow, { design, measures }: SheetSource, choices: MakersChoices): void {
  flow.heading('Wood');
  const words = [
    weightWords(weightsOf(design, measures), design.unit),
    ...movementWords(design, choices.dry_pct, choices.damp_pct),
  ];
  for (const wording of words) flow.paragraph(worded(wording, design.unit, INCH));
}
