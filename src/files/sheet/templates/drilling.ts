/**
 * The holes of the piece at 1 : 1, seen from the head and, where one off the axis is drilled there, from the foot: where to
 * prick the centres of those along the axis, from which azimuth those from the side come and how deep they go.
 */
import { holeCylinder } from '../../../blank/holes.ts';
import type { DisplayUnit, Form, Hole } from '../../../design/document.ts';
import { cosDeg, sinDeg } from '../../../geometry/angle.ts';
import type { Profile } from '../../../geometry/outline.ts';
import { AXIS, EDGE, FAINT, HIDDEN, INK, INK_FAINT, INK_SOFT, MARK, THIN } from '../../drawing/ink.ts';
import { drawLedLabel, Room } from '../../drawing/labels.ts';
import { Pen, type Point } from '../../drawing/pen.ts';
import type { SheetPages } from '../frame.ts';
import { angle, length } from '../numbers.ts';
import type { SheetSource } from '../source.ts';
import { addFullSize } from './tiles.ts';

/** Room round the piece for degrees and names: no more than a page has beside it, where it fits on one. */
const ASIDE_MM = 26;
const LEAST_MM = 12;
const HALF_PAGE_MM = 90.5;
const ABOVE_MM = 16;
/** A line of the list below. */
const LINE_MM = 4.6;

function reachOf(radius_mm: number): Point {
  return [Math.max(radius_mm + LEAST_MM, Math.min(radius_mm + ASIDE_MM, HALF_PAGE_MM)), radius_mm + ABOVE_MM];
}

export function addDrillingTemplate(pages: SheetPages, source: SheetSource): void {
  const { form } = source.design;
  const profile = source.measures.form?.profile;
  if (!form?.holes || !profile) return;
  // What is drilled along the axis needs no direction: the turning template shows it.
  if (form.holes.every(({ from, offset_mm = 0 }) => from !== 'side' && offset_mm === 0)) return;
  const [wide, high] = reachOf(Math.max(...profile.r_mm));
  const list = (form.holes.length + 1) * LINE_MM;
  const { unit } = source.design;
  const ends = form.holes.some(({ from, offset_mm = 0 }) => from === 'foot' && offset_mm > 0)
    ? (['head', 'foot'] as const)
    : (['head'] as const);
  for (const end of ends)
    addFullSize(pages, {
      section: `Holes seen from the ${end}, 1 : 1`,
      use:
        `Lay it on the end, the cross on the axis and the ${
          source.section.round
            ? 'degrees on those marked on the blank'
            : 'letters where the faces of the blank were'
        }, and prick through. Holes from the ` +
        'side lie in the direction of their line; dashed lines are behind or inside. Depths count from the end or the outside.',
      width_mm: 2 * wide,
      height_mm: 2 * high + list,
      draw: (pen) => {
        drawEnd(pen.within([wide, high + list]), source, form, profile, end);
        form.holes?.forEach((hole, n) =>
          pen.text([4, list - (n + 1) * LINE_MM], `${holeText(hole, n, unit)}${whereText(hole, unit)}`, {
            size_pt: 8.5,
            colour: INK,
          }),
        );
      },
    });
}

function drawEnd(pen: Pen, source: SheetSource, form: Form, profile: Profile, end: 'head' | 'foot'): void {
  const { section } = source;
  const sense = end === 'head' ? 1 : -1;
  const radius = Math.max(...profile.r_mm);
  const at = (azimuth: number, r: number): Point => [r * cosDeg(azimuth), sense * r * sinDeg(azimuth)];
  pen.circle([0, 0], radius, { stroke: EDGE });
  const rim = profile.r_mm[end === 'head' ? profile.outsideEnd : profile.outsideStart];
  if (rim < radius - 0.05) pen.circle([0, 0], rim, { stroke: THIN });
  if (form.loop) pen.circle([0, 0], Math.min(...profile.r_mm), { stroke: EDGE });
  pen.line([-radius - 3, 0], [radius + 3, 0], AXIS);
  pen.line([0, -radius - 3], [0, radius + 3], AXIS);
  for (let azimuth = 0; azimuth < 360; azimuth += 15) {
    const long = azimuth % 90 === 0 ? 3 : 1.5;
    pen.line(at(azimuth, radius), at(azimuth, radius + long), FAINT);
  }
  const faces = section.faceAzimuths_deg.length > 0 ? section.faceAzimuths_deg : [0, 90, 180, 270];
  faces.forEach((azimuth, i) => {
    const [x, y] = at(azimuth, radius + 7);
    const name = section.round ? angle(azimuth) : 'ABCDEFGH'[i];
    pen.text([x, y - 1.3], name, { size_pt: 9, weight: 'semibold', align: 'center', colour: INK_FAINT });
  });
  const named = (form.holes ?? []).map((hole) => drawHole(pen, hole, form, profile, { at, end, sense }));
  const [wide, tall] = reachOf(radius);
  const [low, high] = [pen.place([-wide, -tall]), pen.place([wide, tall])];
  const bounds = { left: low[0], bottom: low[1], right: high[0], top: high[1] };
  const page = new Pen(pen.items);
  named.forEach((place, n) => {
    const room = new Room(pen.items, bounds);
    drawLedLabel(page, room, pen.place(place), `hole ${n + 1}`, { size_pt: 8, colour: INK });
  });
}

interface Seen {
  readonly at: (azimuth: number, r: number) => Point;
  readonly end: 'head' | 'foot';
  readonly sense: 1 | -1;
}

/** Draws a hole; returns the point that its name leads to. */
function drawHole(pen: Pen, hole: Hole, form: Form, profile: Profile, { at, end, sense }: Seen): Point {
  const { origin_mm, inward, radius_mm, depth_mm } = holeCylinder(hole, form, profile);
  const seen = ([x, y]: readonly number[]): Point => [x, sense * y];
  const center = seen(origin_mm);
  if (hole.from !== 'side') {
    const { offset_mm = 0, azimuth_deg = 0 } = hole;
    if (offset_mm > 0)
      pen.line([0, 0], at(azimuth_deg, offset_mm + radius_mm + 2), { ...FAINT, colour: MARK });
    pen.circle(center, radius_mm, { stroke: hole.from === end || hole.depth_mm === null ? EDGE : HIDDEN });
    const arm = Math.min(2, radius_mm * 0.6);
    pen.line([center[0] - arm, center[1]], [center[0] + arm, center[1]], THIN);
    pen.line([center[0], center[1] - arm], [center[0], center[1] + arm], THIN);
    return [center[0] + radius_mm * Math.SQRT1_2, center[1] + radius_mm * Math.SQRT1_2];
  }
  const [ix, iy] = seen(inward);
  const start = Math.hypot(origin_mm[0] * inward[0] + origin_mm[1] * inward[1]);
  const deep = Math.min(depth_mm, 2 * start);
  const along = (t: number, aside: number): Point => [
    center[0] + t * ix - aside * iy,
    center[1] + t * iy + aside * ix,
  ];
  pen.polyline(
    [along(0, radius_mm), along(deep, radius_mm), along(deep, -radius_mm), along(0, -radius_mm)],
    HIDDEN,
  );
  pen.line(along(-9, 0), along(deep + 1, 0), { ...AXIS, colour: INK_SOFT });
  return along(-9, 0);
}

/** `hole 2  Ø 12.00 × 25.00 mm`. */
export function holeText(hole: Hole, n: number, unit: DisplayUnit): string {
  const deep = hole.depth_mm === null ? ', through' : ` × ${length(hole.depth_mm, unit)}`;
  return `hole ${n + 1}  Ø ${length(hole.diameter_mm, unit)}${deep}`;
}

/** `, from the head, 30.00 mm from the axis at 60°`. */
function whereText({ from, offset_mm = 0, azimuth_deg = 0, z_mm = 0 }: Hole, unit: DisplayUnit): string {
  if (from !== 'side')
    return `, from the ${from}, ${offset_mm === 0 ? 'on the axis' : `${length(offset_mm, unit)} from the axis at ${angle(azimuth_deg)}`}`;
  const past = offset_mm === 0 ? '' : `, passing the axis by ${length(offset_mm, unit)}`;
  return `, from the side at ${angle(azimuth_deg)}, ${length(z_mm, unit)} above the foot line${past}`;
}
