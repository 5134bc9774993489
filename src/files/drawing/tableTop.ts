/**
 * A cut with the table tilted, seen square down on the table: the kerf as it opens the upper end, the side where the blade
 * enters at the top, the web at the bottom. Local frame, mm of wood: e along the table from the blade, y the way the
 * blank is fed, 0 at the teeth when the cut is done.
 */
import { support_mm } from '../../blank/section.ts';
import { cosDeg, sinDeg } from '../../geometry/angle.ts';
import { dot } from '../../geometry/vector.ts';
import { traceAtEnd_mm, webSide } from '../../plan/tableSetup.ts';
import { clipWhereNotPositive } from './faces.ts';
import { BLADE, EDGE, INK, INK_SOFT, paler, PAPER } from './ink.ts';
import type { Pen, Point } from './pen.ts';
import { eOf, LEDGE_MM, type Laid } from './tableLaid.ts';

const ARROW_MM = 9;

/** y of a distance toward the web: what is fed first lies at the top. */
function yOf({ slot }: Laid, out: number): number {
  return slot.stop_mm - out;
}

export function topCorners(laid: Laid, n: number): Point[] {
  const { top, bottom } = sideReach(laid);
  const [left, right] = [Math.min(laid.ledge, laid.far), Math.max(laid.ledge, laid.far)];
  const beside = LEDGE_MM * n;
  return [
    [(left - (laid.right < 0 ? beside : n)) / n, (bottom - 7 * n) / n],
    [(right + (laid.right > 0 ? beside : n)) / n, (top + (ARROW_MM + 5) * n) / n],
  ];
}

function sideReach(laid: Laid): { top: number; bottom: number } {
  const { section, slot } = laid;
  const side = webSide(slot);
  return {
    top: yOf(laid, -support_mm(section, slot.fenceAzimuth_deg - 90 * side)),
    bottom: yOf(laid, support_mm(section, slot.fenceAzimuth_deg + 90 * side)),
  };
}

export function drawTop(paper: Pen, laid: Laid, mm: number): void {
  const pen = paper.within([0, 0], 1 / mm);
  const { section, slot, colours, ledge, right, table } = laid;
  const { top, bottom } = sideReach(laid);
  const fill = paler(colours.body, 0.55);
  if (section.round) {
    const middle: Point = [eOf(laid, 0), yOf(laid, 0)];
    pen.circle(middle, section.inscribedRadius_mm, { fill, stroke: EDGE });
  } else {
    const corner = ([x, y]: readonly [number, number]): Point => [
      eOf(laid, dot(slot.fenceDirection, [x, y, 0])),
      yOf(laid, dot(slot.stopNormal, [x, y, 0])),
    ];
    pen.polygon(section.corners_mm.map(corner), { fill, stroke: EDGE });
  }
  pen.rectangle(
    [right > 0 ? ledge : ledge - LEDGE_MM * mm, bottom - 3 * mm],
    LEDGE_MM * mm,
    top - bottom + 6 * mm,
    { fill: INK_SOFT, stroke: EDGE },
  );
  drawOpening(pen, laid, mm, top);

  const center = (ledge + laid.far) / 2;
  pen.line([center, top + 2 * mm], [center, top + ARROW_MM * mm], { colour: INK, width_mm: 0.4 });
  const tip = top + (ARROW_MM + 1) * mm;
  pen.polygon(
    [
      [center, tip],
      [center - 1.2 * mm, tip - 3 * mm],
      [center + 1.2 * mm, tip - 3 * mm],
    ],
    { fill: INK },
  );
  pen.text([center + 2 * mm, top + 5 * mm], 'feed', { size_pt: 8, colour: INK_SOFT });
  const letter = { size_pt: 9, weight: 'semibold', align: 'center', colour: INK, halo: fill } as const;
  const aside =
    center + (Math.abs(ledge) > Math.abs(laid.far) ? 0.3 : -0.3) * Math.abs(ledge - laid.far) * right;
  if (table.entry_face) pen.text([aside, top - 4.2 * mm], table.entry_face, letter);
  if (table.web_face) pen.text([aside, bottom + 1.6 * mm], table.web_face, letter);
}

/** The kerf as it opens the upper end of the blank, from the side of entry to the stop, and the web beyond. */
function drawOpening(pen: Pen, laid: Laid, mm: number, top: number): void {
  const { slot, table, design, section, ledge, far } = laid;
  const upper = table.end_down === 'foot' ? design.blank.length_mm : 0;
  const trace = traceAtEnd_mm(slot, upper);
  if (trace === null) return;
  const e = eOf(laid, trace);
  const half = Math.max(slot.kerf_mm / 2 / cosDeg(table.tilt_deg), 0.25 * mm);
  const band: Point[] = [
    [e - half, 0],
    [e + half, 0],
    [e + half, top],
    [e - half, top],
  ];
  const [low, high] = [Math.min(ledge, far), Math.max(ledge, far)];
  const sides = section.round
    ? [(p: Point) => low - p[0], (p: Point) => p[0] - high]
    : section.faceAzimuths_deg.map((azimuth, face) => {
        const normal = [cosDeg(azimuth), sinDeg(azimuth), 0] as const;
        const [u, out] = [dot(normal, slot.fenceDirection), dot(normal, slot.stopNormal)];
        return (p: Point) =>
          u * (laid.right * (p[0] - ledge) + slot.fenceSupport_mm) +
          out * (slot.stop_mm - p[1]) -
          section.faceDistances_mm[face];
      });
  const inside = sides.reduce(clipWhereNotPositive, band);
  if (inside.length > 0) pen.polygon(inside, { fill: PAPER, stroke: BLADE });
}

/** The middle of the web at the upper end, mm of wood; beside the blank's edge where the kerf leaves through a side first. */
export function webPlace(laid: Laid): Point | null {
  const { slot, table, design, ledge, far } = laid;
  const trace = traceAtEnd_mm(slot, table.end_down === 'foot' ? design.blank.length_mm : 0);
  if (trace === null) return null;
  const [low, high] = [Math.min(ledge, far), Math.max(ledge, far)];
  return [Math.min(high, Math.max(low, eOf(laid, trace))), -slot.web_mm / 2];
}
