/**
 * The list of pieces to cut, and the saw's set-ups, as tables for a spreadsheet: comma-separated values of
 * RFC 4180, lengths in the design's unit, which the heads of the columns name. Everything comes from the plan.
 */
import type { Design } from '../design/document.ts';
import { sectionGeometry } from '../design/section.ts';
import { setupsOf } from '../plan/setups.ts';
import { stripGroups } from '../plan/strips.ts';
import { timberById } from '../timber/timbers.ts';

type Cell = string | number | null;

const MM_PER_INCH = 25.4;

/** What is to be cut: the blank, and every size of strip with how many of it; spare strips in lines of their own. */
export function cutListCsv(design: Design, sliceKerf_mm: number): string {
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
  for (const group of stripGroups(design, { sliceKerf_mm })) {
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

/** How the saw is set for every cut, in cutting order. */
export function setupsCsv(design: Design): string {
  const { unit } = design;
  const length = lengthIn(unit);
  const faces: string = sectionGeometry(design.blank.section).round ? 'fence_azimuth_deg' : 'face';
  const head: string[] = [
    'cut',
    'slot',
    'set_with',
    faces,
    'fence_angle_deg',
    'stop_end',
    ...['stop_to_kerf_center', 'mark_fence', 'mark_entry', 'blade_stop', 'slot_depth'].map(
      (n) => `${n}_${unit}`,
    ),
    ...['strip_thickness', 'strip_depth', 'strip_length'].map((n) => `${n}_${unit}`),
  ];
  const rows = setupsOf(design).map((setup, i): Cell[] => [
    i + 1,
    setup.slot,
    setup.cut === 'table' ? 'tilted table' : 'fence',
    setup.face ?? setup.fence_azimuth_deg,
    setup.fence_angle_deg,
    setup.stop_end,
    length(setup.stop_to_kerf_center_mm),
    length(setup.mark_fence_mm),
    length(setup.mark_entry_mm),
    length(setup.blade_stop_mm),
    length(setup.slot_depth_mm),
    length(setup.strip_thickness_mm),
    length(setup.strip_depth_mm),
    length(setup.strip_length_mm),
  ]);
  return table([head, ...rows]);
}

function timberName(id: string): string {
  return timberById(id)?.name ?? id;
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
