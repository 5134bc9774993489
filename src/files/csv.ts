/**
 * The list of pieces to cut, and the saw's set-ups, as tables for a spreadsheet: comma-separated values of
 * RFC 4180, lengths in the design's unit, which the heads of the columns name. Everything comes from the plan.
 */
import { CUT_KINDS, type CutKind, type Design, type DisplayUnit } from '../design/document.ts';
import { sectionGeometry } from '../design/section.ts';
import { MM_PER_INCH } from '../design/units.ts';
import { setupsOf, type Setup } from '../plan/setups.ts';
import { sliceKerfOf_mm, stripGroups } from '../plan/strips.ts';
import type { EndMark, TableSetup } from '../plan/tableSetup.ts';
import { timberName } from '../timber/names.ts';

type Cell = string | number | null;

/** What is to be cut: the blank, and every size of strip with how many of it; spare strips in lines of their own. */
export function cutListCsv(design: Design): string {
  const { unit, blank } = design;
  const length = lengthIn(unit);
  const { section } = blank;
  const rows: Cell[][] = [
    ['piece', 'timber', 'count', `thickness_${unit}`, `width_${unit}`, `length_${unit}`, 'grain', 'for'],
    [
      `blank, ${section.shape}`,
      timberName(blank.timber),
      1,
      length(section.depth_mm ?? section.width_mm),
      length(section.width_mm),
      length(blank.length_mm),
      blank.grain?.along === 'across' ? 'across the length' : 'along the length',
      '',
    ],
  ];
  for (const group of stripGroups(design, { sliceKerf_mm: sliceKerfOf_mm(design) })) {
    const timber = timberName(group.timber);
    const thickness = length(group.thickness_mm);
    const grain = group.grain === 'depth' ? 'along the width' : 'along the length';
    for (const { depth_mm, length_mm, slots } of group.pieces)
      rows.push([
        'strip',
        timber,
        slots.length,
        thickness,
        length(depth_mm),
        length(length_mm),
        grain,
        slots.join(' '),
      ]);
    const { stock, spare } = group;
    if (spare > 0)
      rows.push([
        'spare strip',
        timber,
        spare,
        thickness,
        length(stock.depth_mm),
        length(stock.length_mm),
        grain,
        '',
      ]);
  }
  return table(rows);
}

/** How the saw is set for every cut, in cutting order: what both ways of cutting have, then the columns of each that is used. */
export function setupsCsv(design: Design): string {
  const { unit } = design;
  const setups = setupsOf(design);
  const used = CUT_KINDS.filter((kind) => setups.some(({ cut }) => cut === kind));
  const columns = [
    ...commonColumns(unit, sectionGeometry(design.blank.section).round),
    ...used.flatMap((kind) => COLUMNS_OF[kind](unit)),
    ...stripColumns(unit),
  ];
  return table([
    columns.map(([head]) => head),
    ...setups.map((setup, i) => columns.map(([, cellOf]) => cellOf(setup, i))),
  ]);
}

/** The columns of a kind of cut, empty for the others; what the saw is set with. */
const COLUMNS_OF: Readonly<Record<CutKind, (unit: DisplayUnit) => SetupColumn[]>> = {
  fence: fenceColumns,
  table: tableColumns,
};
const SET_WITH: Readonly<Record<CutKind, string>> = { fence: 'fence', table: 'tilted table' };

type SetupColumn = readonly [head: string, cellOf: (setup: Setup, i: number) => Cell];

function commonColumns(unit: DisplayUnit, round: boolean): SetupColumn[] {
  const length = lengthIn(unit);
  return [
    ['cut', (_, i) => i + 1],
    ['slot', ({ slot }) => slot],
    ['set_with', ({ cut }) => SET_WITH[cut]],
    [
      round ? 'fence_azimuth_deg' : 'face',
      ({ face, fence_azimuth_deg }) => (round ? fence_azimuth_deg : (face ?? fence_azimuth_deg)),
    ],
    [`kerf_${unit}`, ({ kerf_mm }) => length(kerf_mm)],
  ];
}

function fenceColumns(unit: DisplayUnit): SetupColumn[] {
  const length = lengthIn(unit);
  const column = (head: string, cellOf: (setup: Setup) => Cell): SetupColumn => [
    head,
    (setup) => (setup.cut === 'fence' ? cellOf(setup) : null),
  ];
  return [
    column('fence_angle_deg', ({ fence_angle_deg }) => fence_angle_deg),
    column('stop_end', ({ stop_end }) => stop_end),
    column(`stop_to_kerf_center_${unit}`, (setup) => length(setup.stop_to_kerf_center_mm)),
    column(`mark_fence_${unit}`, ({ mark_fence_mm }) => length(mark_fence_mm)),
    column(`mark_entry_${unit}`, ({ mark_entry_mm }) => length(mark_entry_mm)),
    column(`blade_stop_${unit}`, ({ blade_stop_mm }) => length(blade_stop_mm)),
    column(`slot_depth_${unit}`, ({ slot_depth_mm }) => length(slot_depth_mm)),
  ];
}

function tableColumns(unit: DisplayUnit): SetupColumn[] {
  const length = lengthIn(unit);
  const column = (head: string, cellOf: (tilted: TableSetup, setup: Setup) => Cell): SetupColumn => [
    head,
    (setup) => (setup.cut === 'table' ? cellOf(setup.table, setup) : null),
  ];
  return [
    column('table_tilt_deg', ({ tilt_deg }) => tilt_deg),
    column('side_down', ({ tilts }) => tilts),
    column('end_on_table', ({ end_down }) => end_down),
    column('entry_face', ({ entry_face }) => entry_face),
    column('web_face', ({ web_face }) => web_face),
    column(`ledge_to_kerf_center_${unit}`, (tilted) => length(tilted.ledge_to_kerf_center_mm)),
    column(`ledge_to_kerf_near_${unit}`, (tilted) => length(tilted.ledge_to_kerf_near_mm)),
    ...(['foot', 'head'] as const).flatMap((end) => {
      const markOf = (tilted: TableSetup) => (end === 'foot' ? tilted.mark_foot : tilted.mark_head);
      return [
        column(`mark_${end}_from`, (tilted) => markSide(markOf(tilted))),
        column(`mark_${end}_${unit}`, (tilted) => length(markOf(tilted)?.from_side_mm ?? null)),
      ];
    }),
    column(`feed_${unit}`, ({ feed_mm }) => length(feed_mm)),
    column(`web_${unit}`, (_, { blade_stop_mm }) => length(blade_stop_mm)),
    column(`wood_along_blade_${unit}`, (_, { cut_height_mm }) => length(cut_height_mm)),
  ];
}

/** The side of the blank that a mark on its end is measured from: the letter of a flat, or which of the two. */
function markSide(mark: EndMark | null): string | null {
  return mark === null ? null : (mark.face ?? mark.nearer);
}

function stripColumns(unit: DisplayUnit): SetupColumn[] {
  const length = lengthIn(unit);
  return [
    [`strip_thickness_${unit}`, ({ strip_thickness_mm }) => length(strip_thickness_mm)],
    [`strip_depth_${unit}`, ({ strip_depth_mm }) => length(strip_depth_mm)],
    [`strip_length_${unit}`, ({ strip_length_mm }) => length(strip_length_mm)],
  ];
}

/** To a thousandth of a millimetre, or a ten-thousandth of an inch. */
function lengthIn(unit: Design['unit']): (mm: number | null) => string | null {
  return (mm) => (mm === null ? null : unit === 'in' ? (mm / MM_PER_INCH).toFixed(4) : mm.toFixed(3));
}

/** Lines of RFC 4180: CR LF after each, quotes where a cell holds a comma, a quote or a line break. */
export function table(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(quoted).join(',')}\r\n`).join('');
}

function quoted(cell: Cell): string {
  const text = cell === null ? '' : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
