/**
 * The tilted table: for every tilt of the design a wedge at 1 : 1 between table and blade, and the triangle of a sine bar
 * with the distances that set the tilt without a protractor (plan/fenceScale.ts: the table turns from square as the fence
 * does). Millimetres, y up.
 */
import { MM_PER_INCH } from '../../../design/units.ts';
import { cosDeg, DEG, sinDeg } from '../../../geometry/angle.ts';
import { scaleMark } from '../../../plan/fenceScale.ts';
import { EDGE, FAINT, INK, INK_SOFT, MARK, TINT } from '../../drawing/ink.ts';
import type { Pen, Point } from '../../drawing/pen.ts';
import type { SheetPages } from '../frame.ts';
import { angle, length } from '../numbers.ts';
import { cutsOf, type SheetSource } from '../source.ts';
import { columnsOf, drawTableHead, drawTableRow } from '../table.ts';
import { wedgeCorners } from './wedges.ts';

const SIDE_MM = 150;
/** A design with more tilts than this gets the wedges of its steepest. */
const MOST_WEDGES = 6;

export function addTiltPages(pages: SheetPages, source: SheetSource): void {
  const tilts = new Set(cutsOf(source, 'table').map(({ setup }) => setup.table.tilt_deg));
  const shown = [...tilts].filter((tilt) => tilt < 90).sort((a, b) => b - a);
  for (const tilt_deg of shown.slice(0, MOST_WEDGES)) addWedge(pages, source, tilt_deg);
}

function addWedge(pages: SheetPages, source: SheetSource, tilt_deg: number): void {
  const pen = pages.add(`Wedge for the table at ${angle(tilt_deg)}, 1 : 1`, 'Wedges for the table, 1 : 1');
  const { area, typeface } = pages;
  const use =
    'Glue to board and cut out. The wedge stands on the high side of the tilted table, its other side along the blade, between the ' +
    'teeth. The triangle lies with its long side on the table: the tilt is right when the side named level is level; or set a ' +
    'sine bar of that length to the height.';
  const lines = typeface.wrap(use, area.right - area.left, 8.5);
  lines.forEach((line, i) =>
    pen.text([area.left, area.top - 3.4 - i * 4], line, { size_pt: 8.5, colour: INK_SOFT }),
  );
  const bars = barsOf(source);
  const low: Point = [area.left + 2, area.bottom + 10];
  drawSineBar(pen.within(low), tilt_deg, bars[0], source);
  drawDistances(pen, pages, source, tilt_deg, area.bottom + 12 + 5 + 4.8 * (bars.length + 1));
  const tall = SIDE_MM * cosDeg(tilt_deg);
  const from = low[1] + bars[0] * sinDeg(tilt_deg) + 10;
  const to = area.top - 4 - lines.length * 4;
  drawWedge(
    pen.within([(area.left + area.right - SIDE_MM) / 2, Math.max(from, (from + to - tall) / 2)]),
    tilt_deg,
  );
}

/** Lengths of sine bars: the first is drawn. */
function barsOf({ design }: SheetSource): number[] {
  return design.unit === 'in' ? [4, 5, 10].map((inches) => inches * MM_PER_INCH) : [100, 125, 250];
}

/** Between table and blade, 90 − tilt. */
function drawWedge(sheet: Pen, tilt_deg: number): void {
  const corner_deg = 90 - tilt_deg;
  const corners = wedgeCorners(corner_deg, SIDE_MM);
  sheet.polygon(corners, { fill: TINT, stroke: EDGE });
  sheet.arc([0, 0], 26, 0, corner_deg * DEG, { colour: MARK, width_mm: 0.25 });
  const middle = (corner_deg / 2) * DEG;
  const far = Math.max(38, 9 / Math.max(Math.sin(middle), 0.05));
  sheet.text([far * Math.cos(middle), far * Math.sin(middle) - 2], angle(corner_deg), {
    size_pt: 15,
    weight: 'semibold',
    align: 'center',
    colour: MARK,
  });
  sheet.text([SIDE_MM * 0.6, 3], `table tilted by ${angle(tilt_deg)}`, {
    size_pt: 9,
    align: 'center',
    colour: MARK,
  });
  sheet.text([SIDE_MM / 2, -5], 'on the table', { size_pt: 9, align: 'center', colour: INK });
  const along: Point = [
    corners[2][0] / 2 - 4 * sinDeg(corner_deg),
    corners[2][1] / 2 + 4 * cosDeg(corner_deg),
  ];
  sheet.text(along, 'along the blade', {
    size_pt: 9,
    align: 'center',
    colour: INK,
    angle_deg: corner_deg,
  });
}

/** The bar is the long side, the tilt at its lower end, the height below its upper end. */
function drawSineBar(sheet: Pen, tilt_deg: number, bar_mm: number, { design }: SheetSource): void {
  const [wide, tall] = [bar_mm * cosDeg(tilt_deg), bar_mm * sinDeg(tilt_deg)];
  const { unit } = design;
  sheet.polygon(
    [
      [0, 0],
      [wide, 0],
      [wide, tall],
    ],
    { fill: TINT, stroke: EDGE },
  );
  const square = Math.min(3, tall / 3);
  sheet.polyline(
    [
      [wide - square, 0],
      [wide - square, square],
      [wide, square],
    ],
    FAINT,
  );
  sheet.arc([0, 0], 30, 0, tilt_deg * DEG, { colour: MARK, width_mm: 0.25 });
  const middle = (tilt_deg / 2) * DEG;
  const far = Math.min(Math.max(42, 7 / Math.max(Math.sin(middle), 0.05)), wide - 12);
  sheet.text([far * Math.cos(middle), far * Math.sin(middle) - 1.6], angle(tilt_deg), {
    size_pt: 12,
    weight: 'semibold',
    align: 'center',
    colour: MARK,
  });
  sheet.text([wide / 2, -5], 'level', { size_pt: 9, align: 'center', colour: INK });
  sheet.text([wide + 2, tall / 2 - 1.2], length(tall, unit), {
    size_pt: 9,
    weight: 'semibold',
    colour: INK,
  });
  const along: Point = [wide / 2 - 3.5 * sinDeg(tilt_deg), tall / 2 + 3.5 * cosDeg(tilt_deg)];
  sheet.text(along, `on the table, ${length(bar_mm, unit)}`, {
    size_pt: 9,
    align: 'center',
    colour: INK,
    angle_deg: tilt_deg,
  });
}

/** Beside the triangle, down from `top`. */
function drawDistances(
  pen: Pen,
  { area, typeface }: SheetPages,
  source: SheetSource,
  tilt_deg: number,
  top: number,
): void {
  const { unit } = source.design;
  const width = 58;
  const columns = columnsOf(width, [
    ['Bar', 17],
    ['height', 16, 'right'],
    ['chord', 16, 'right'],
  ]);
  const left = area.right - width;
  let y = drawTableHead(pen, left, top, columns);
  for (const bar_mm of [1, ...barsOf(source)]) {
    const { offset_mm, chord_mm } = scaleMark(90 - tilt_deg, bar_mm);
    const shown = (value: number) => (bar_mm === 1 ? value.toFixed(5) : length(value, unit));
    y = drawTableRow(
      pen,
      typeface,
      left,
      y,
      columns,
      { cells: [bar_mm === 1 ? 'per unit' : length(bar_mm, unit), shown(offset_mm), shown(chord_mm)] },
      4.8,
    );
  }
}
