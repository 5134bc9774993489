/**
 * The fence: a wedge at 1 : 1 for every angle of the design, and a scale of angles about the fence's pivot with
 * the distances that set them without a protractor (plan/fenceScale.ts).
 */
import { MM_PER_INCH } from '../../../design/units.ts';
import { sinDeg, cosDeg, DEG } from '../../../geometry/angle.ts';
import { EDGE, FAINT, INK, INK_SOFT, MARK, THIN, TINT } from '../../drawing/ink.ts';
import type { Pen, Point } from '../../drawing/pen.ts';
import { fenceScale, scaleMark } from '../../../plan/fenceScale.ts';
import type { SheetPages } from '../frame.ts';
import { angle, length } from '../numbers.ts';
import { cutsOf, type SheetSource } from '../source.ts';
import { columnsOf, drawTableHead, drawTableRow } from '../table.ts';

const WEDGE_MM = 150;
/** A design with more angles than this gets the scale, not a wedge for each. */
const MOST_WEDGES = 6;
const SCALE_RADIUS_MM = 130;

export function addFencePages(pages: SheetPages, source: SheetSource): void {
  const angles = fenceAngles(source);
  if (angles.length === 0) return;
  angles.sort((a, b) => b - a);
  for (const fence_deg of angles.filter((one) => one < 90).slice(0, MOST_WEDGES)) addWedge(pages, fence_deg);
  addScale(pages, source);
}

/** Angles of the cuts at the fence, each once. */
function fenceAngles(source: SheetSource): number[] {
  return [...new Set(cutsOf(source, 'fence').map(({ setup }) => setup.fence_angle_deg))];
}

/** Corners of a wedge: the angle at the origin, one side along x. */
export function wedgeCorners(angle_deg: number, side_mm: number): [Point, Point, Point] {
  return [
    [0, 0],
    [side_mm, 0],
    [side_mm * cosDeg(angle_deg), side_mm * sinDeg(angle_deg)],
  ];
}

function addWedge(pages: SheetPages, fence_deg: number): void {
  const pen = pages.add(`Wedge for the fence at ${angle(fence_deg)}, 1 : 1`, 'Wedges for the fence, 1 : 1');
  const { area, typeface } = pages;
  const use =
    'Glue to board and cut out. One side along the path of the blade (or the edge of the sled that runs with it), ' +
    'the other against the fence: the sharp corner is the angle between blade and fence.';
  typeface
    .wrap(use, area.right - area.left, 8.5)
    .forEach((line, i) =>
      pen.text([area.left, area.top - 3.4 - i * 4], line, { size_pt: 8.5, colour: INK_SOFT }),
    );
  const corners = wedgeCorners(fence_deg, WEDGE_MM);
  const tall = corners[2][1];
  const sheet = pen.within([
    (area.left + area.right - WEDGE_MM) / 2,
    area.bottom + Math.max(8, (area.top - area.bottom - 20 - tall) / 2),
  ]);
  sheet.polygon(corners, { fill: TINT, stroke: EDGE });
  sheet.arc([0, 0], 26, 0, fence_deg * DEG, { colour: MARK, width_mm: 0.25 });
  const middle = (fence_deg / 2) * DEG;
  const label: Point = [38 * Math.cos(middle), 38 * Math.sin(middle) - 2];
  sheet.text(label, angle(fence_deg), { size_pt: 15, weight: 'semibold', align: 'center', colour: MARK });
  sheet.text([WEDGE_MM / 2, -5], 'along the blade', { size_pt: 9, align: 'center', colour: INK });
  const along: Point = [corners[2][0] / 2 - 4 * sinDeg(fence_deg), corners[2][1] / 2 + 4 * cosDeg(fence_deg)];
  sheet.text(along, 'along the fence', {
    size_pt: 9,
    align: 'center',
    colour: INK,
    angle_deg: fence_deg,
  });
}

function addScale(pages: SheetPages, source: SheetSource): void {
  const pen = pages.add('Scale of fence angles, 1 : 1');
  const { area, typeface } = pages;
  const use =
    'Pin the cross over the pivot of the fence, the line at 90° square to the blade. Each number is the angle ' +
    'between blade and fence; the one in brackets what a protractor shows that reads 0 when square.';
  typeface
    .wrap(use, area.right - area.left, 8.5)
    .forEach((line, i) =>
      pen.text([area.left, area.top - 3.4 - i * 4], line, { size_pt: 8.5, colour: INK_SOFT }),
    );
  const pivot: Point = [area.left + 12, area.top - 20 - SCALE_RADIUS_MM * sinDeg(60) - 4];
  const sheet = pen.within(pivot);
  drawScale(sheet, source);
  drawDistances(pen, pages, source, pivot[1] - 9);
}

/** The fence square to the blade lies along x; turning it towards the blade raises it. */
function drawScale(pen: Pen, source: SheetSource): void {
  const R = SCALE_RADIUS_MM;
  pen.arc([0, 0], R, 0, 60 * DEG, EDGE);
  pen.line([-5, 0], [5, 0], THIN);
  pen.line([0, -5], [0, 5], THIN);
  pen.circle([0, 0], 2, { stroke: THIN });
  const used = fenceAngles(source);
  const at = (turn: number, radius: number): Point => [radius * cosDeg(turn), radius * sinDeg(turn)];
  for (let turn = 0; turn <= 60; turn++) {
    const five = turn % 5 === 0;
    pen.line(at(turn, R), at(turn, R - (five ? 8 : 4)), five ? THIN : FAINT);
    if (!five) continue;
    pen.line(at(turn, 14), at(turn, R - 8), FAINT);
    pen.text(at(turn, R + 2), `${90 - turn}° (${turn}°)`, { size_pt: 8, colour: INK, angle_deg: turn });
  }
  for (const fence_deg of used) {
    const turn = 90 - fence_deg;
    if (turn > 60) continue;
    const blue = { colour: MARK, width_mm: 0.35 };
    pen.line(at(turn, 14), at(turn, R), blue);
    pen.text(at(turn, R - 40), angle(fence_deg), {
      size_pt: 9,
      weight: 'semibold',
      colour: MARK,
      angle_deg: turn,
      halo: '#ffffff',
    });
  }
}

function drawDistances(pen: Pen, { area, typeface }: SheetPages, source: SheetSource, top: number): void {
  const { unit } = source.design;
  const bars = unit === 'in' ? [5, 10].map((inches) => inches * MM_PER_INCH) : [100, 250];
  const columns = columnsOf(area.right - area.left, [
    ['Fence', 12],
    ['per unit of bar, square', 24, 'right'],
    ['chord', 16, 'right'],
    ...bars.flatMap(
      (bar) =>
        [
          [`bar ${length(bar, unit)}: square`, 26, 'right'],
          ['chord', 18, 'right'],
        ] as const,
    ),
  ]);
  const listed = new Set(fenceScale(1).map(({ angle_deg }) => angle_deg));
  const own = fenceAngles(source);
  for (const one of own) listed.add(one);
  let y = drawTableHead(pen, area.left, top, columns);
  for (const fence_deg of [...listed].sort((a, b) => b - a)) {
    if (y - 4.8 < area.bottom) break;
    const marks = [1, ...bars].map((bar) => scaleMark(fence_deg, bar));
    y = drawTableRow(
      pen,
      typeface,
      area.left,
      y,
      columns,
      {
        cells: [
          angle(fence_deg),
          marks[0].offset_mm.toFixed(5),
          marks[0].chord_mm.toFixed(5),
          ...marks.slice(1).flatMap((mark) => [length(mark.offset_mm, unit), length(mark.chord_mm, unit)]),
        ],
        strong: own.includes(fence_deg),
      },
      4.8,
    );
  }
}
