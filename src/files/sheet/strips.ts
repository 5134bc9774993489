/** The strips to prepare, from what stock, how they fit; and how far each ring may lie from its place. */
import type { Design, Hole } from '../../design/document.ts';
import { stripGroups } from '../../plan/strips.ts';
import { movementBetween, weightOf, type Weight } from '../../plan/wood.ts';
import { Flow } from './flow.ts';
import type { SheetPages } from './frame.ts';
import { angle, length, temperature, thickness } from './numbers.ts';
import type { SheetSource } from './source.ts';
import { columnsOf, type CellRow } from './table.ts';

export function addStrips(pages: SheetPages, source: SheetSource): void {
  const flow = new Flow(pages, 'Strips and fit');
  flow.heading('Strips to cut');
  addStripTables(flow, source);
  flow.heading('Fit');
  addFitTable(flow, source);
  addMade(flow, source);
  addTolerance(flow, source);
  addHoles(flow, source.design);
  addWood(flow, source);
}

function addStripTables(flow: Flow, { design, looks }: SheetSource): void {
  const { unit } = design;
  const sliceKerf_mm = design.sets.reduce((least, set) => Math.min(least, set.kerf_mm), Infinity);
  flow.paragraph(
    `Deep is down the slope of the slot, long is along the blade${anyTilted(design) ? ' (with the table tilted: along the feed)' : ''}. Both stand ` +
      `${length(design.saw.strip_overhang_mm, unit)} proud for trimming. One spare for every four. Stock is for slices with a kerf ` +
      `of ${thickness(sliceKerf_mm, unit)}.`,
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
  for (const group of stripGroups(design, { sliceKerf_mm })) {
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
    const { stock } = group;
    const lost_cm3 = stock.kerfLoss_mm3 / 1000;
    flow.paragraph(
      `${group.count} and ${group.spare} spare, from one billet ${length(stock.depth_mm, unit)} (deep) × ` +
        `${length(stock.length_mm, unit)} (long) × ${length(stock.thickness_mm, unit)}, or as many boards as give that; grain ${group.grain === 'depth' ? 'down the slope' : 'along the blade'}; ` +
        `${unit === 'in' ? `${(lost_cm3 / 16.387064).toFixed(2)} cubic inches` : `${lost_cm3.toFixed(1)} cm³`} go to dust.`,
      { size_pt: 8.5 },
    );
  }
}

/** `S1.1 ×2 S1.2`: a slot that takes several equal pieces is named once. */
function counted(slots: readonly string[]): string {
  const times = new Map<string, number>();
  for (const slot of slots) times.set(slot, (times.get(slot) ?? 0) + 1);
  return [...times].map(([slot, n]) => (n > 1 ? `${slot} ×${n}` : slot)).join('  ');
}

function addFitTable(flow: Flow, { design }: SheetSource): void {
  const { unit, saw } = design;
  const columns = columnsOf(flow.width, [
    ['Set', 20],
    ['Kerf', 24, 'right'],
    ['Strip, all layers', 30, 'right'],
    ['', 8],
    ['Fit', 110],
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
  flow.table(columns, rows);
}

function anyTilted({ sets }: Design): boolean {
  return sets.some(({ cut }) => cut === 'table');
}

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
    ['Slot', 20],
    ['Kerf', 24, 'right'],
    ['', 3],
    ['', 22],
    ['Web', 24, 'right'],
    ['Strip', 24, 'right'],
    ['', 6],
    ['', 60],
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
  flow.table(columns, rows);
}

function addTolerance(flow: Flow, { design, measures }: SheetSource): void {
  if (!measures.form) return;
  const { unit, saw } = design;
  flow.heading('How far a ring may lie from its place');
  flow.paragraph(
    `With the fence true to ± ${saw.angle_tolerance_deg}° and the stop to ± ${thickness(saw.stop_tolerance_mm, unit)}, along the axis ` +
      'at the largest radius. Worst: both errors at their limit the same way; usual: root of the sum of squares.',
  );
  const groups = new Map<string, { worst: string; usual: string; slots: string[] }>();
  for (const { slot, worst_mm, rss_mm } of measures.form.tolerance) {
    const worst = `± ${length(worst_mm, unit)}`;
    const usual = `± ${length(rss_mm, unit)}`;
    const group = groups.get(worst + usual) ?? { worst, usual, slots: [] };
    group.slots.push(slot);
    groups.set(worst + usual, group);
  }
  const columns = columnsOf(flow.width, [
    ['Worst', 26, 'right'],
    ['Usual', 26, 'right'],
    ['', 6],
    ['Rings', 120],
  ]);
  flow.table(
    columns,
    [...groups.values()].map(({ worst, usual, slots }) => ({ cells: [worst, usual, '', slots.join('  ')] })),
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

/** Wood of a heated room: what the weights and the movement are worked out for. */
const MOISTURE_PCT = 8;
const DRY = { temperature_C: 20, humidity_pct: 35 };
const DAMP = { temperature_C: 20, humidity_pct: 65 };

function addWood(flow: Flow, { design, measures }: SheetSource): void {
  const { unit } = design;
  const weights: [string, Weight][] = [
    ['The glued blank', weightOf(design, measures.slots, measures.block, MOISTURE_PCT)],
  ];
  if (measures.form)
    weights.push(['the turned piece', weightOf(design, measures.slots, measures.form.turned, MOISTURE_PCT)]);
  const move = movementBetween(design, DRY, DAMP);
  flow.heading('Wood');
  flow.paragraph(
    `${weights.map(([name, weight]) => `${name} weighs about ${massText(weight.mass_g, unit)}`).join(', ')} at ` +
      `${MOISTURE_PCT} % moisture; one board of a species differs from another by 10 to 20 %.`,
  );
  flow.paragraph(
    `From ${DRY.humidity_pct} % to ${DAMP.humidity_pct} % humidity at ${temperature(DRY.temperature_C, unit)} the wood goes from ${move.from_pct.toFixed(1)} % to ` +
      `${move.to_pct.toFixed(1)} % moisture and the blank grows by ${length(move.radial.value, unit)} (quarter-sawn) to ` +
      `${length(move.tangential.value, unit)} (flat-sawn) across. ` +
      (move.tangential.status === 'V' && move.radial.status === 'V'
        ? 'Coefficients from published tables.'
        : 'Coefficients in part from memory: an estimate.'),
  );
}

function massText(mass_g: number, unit: 'in' | 'mm'): string {
  if (unit === 'mm') return mass_g < 1000 ? `${mass_g.toFixed(0)} g` : `${(mass_g / 1000).toFixed(2)} kg`;
  const ounces = mass_g / 28.349523125;
  return ounces < 16 ? `${ounces.toFixed(1)} oz` : `${(ounces / 16).toFixed(2)} lb`;
}
