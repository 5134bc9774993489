/**
 * The finished piece from the side, and its outside laid flat, in flat timber colours: what the sheet's cover
 * shows. Everything comes from the design through the engine's arcs. Drawing frame: mm of wood, z up; the
 * side view has the axis at x = 0, the map its left edge.
 */
import { DEG } from '../../geometry/angle.ts';
import {
  bandStrands,
  layersAsSlots,
  outlineOf,
  type BandStrand,
  type SurfacePoint,
  type Window,
} from '../../blank/bands.ts';
import type { Slot } from '../../blank/slots.ts';
import { outsideLine } from '../../blank/outsideLine.ts';
import type { SectionGeometry } from '../../blank/section.ts';
import type { Profile } from '../../geometry/outline.ts';
import { flatsOf, slotOnFlat } from './faces.ts';
import { FAINT, THIN } from './ink.ts';
import type { Colour, Pen, Point } from './pen.ts';

export interface PieceColours {
  readonly body: Colour;
  readonly timber: (id: string) => Colour;
}

const TURN = 2 * Math.PI;
/** How far a band's edge may lie from the true one, mm on the wood: between its rows, and by leaving out rows. */
const TRUE_MM = 0.02;
const THINNED_MM = 0.01;
/** Rows left out one after the other at most. */
const MOST_LEFT_OUT = 24;

/** A plain cylinder's profile, for a round blank that is left as it is. */
export function cylinderProfile(radius_mm: number, length_mm: number): Profile {
  return {
    z_mm: Float64Array.of(0, 0, length_mm, length_mm),
    r_mm: Float64Array.of(0, radius_mm, radius_mm, 0),
    corner: Uint8Array.of(1, 1, 1, 1),
    outsideStart: 1,
    outsideEnd: 2,
  };
}

/** Closed outlines of a slot's band inside the window, each once round. */
export function bandOutlines(slot: Slot, profile: Profile, window: Window): SurfacePoint[][] {
  return bandStrands(slot, outsideLine(profile), { true_mm: TRUE_MM, window }).map(thinned).map(outlineOf);
}

/** Without the rows that lie on the straight lines between those that stay, to THINNED_MM. */
function thinned(rows: BandStrand): BandStrand {
  const kept = [rows[0]];
  let from = 0;
  for (let to = 2; to <= rows.length; to++)
    if (to === rows.length || to - from > MOST_LEFT_OUT || !isOnLine(rows, from, to)) {
      from = to - 1;
      kept.push(rows[from]);
    }
  return kept;
}

/** Whether the rows between two lie on the lines between these, on the wood and in the profile. */
function isOnLine(rows: BandStrand, from: number, to: number): boolean {
  const [a, b] = [rows[from], rows[to]];
  const long_mm = b.along_mm - a.along_mm;
  for (let i = from + 1; i < to; i++) {
    const row = rows[i];
    const t = (row.along_mm - a.along_mm) / long_mm;
    const off = (key: 'from_rad' | 'to_rad' | 'r_mm' | 'z_mm') =>
      Math.abs(row[key] - a[key] - t * (b[key] - a[key]));
    if (Math.max(off('from_rad'), off('to_rad')) * row.r_mm > THINNED_MM) return false;
    if (Math.max(off('r_mm'), off('z_mm')) > THINNED_MM) return false;
  }
  return true;
}

/** Distance along the outside from its beginning to its end, mm. */
export function outsideLength_mm(profile: Profile): number {
  return outsideLine(profile).length_mm;
}

/** The turned piece seen square to the axis, azimuth `facing_rad` towards the eye. */
export function drawTurnedSide(
  pen: Pen,
  slots: readonly Slot[],
  profile: Profile,
  colours: PieceColours,
  facing_rad: number,
): void {
  const right: Point[] = [];
  for (let i = profile.outsideStart; i <= profile.outsideEnd; i++)
    right.push([profile.r_mm[i], profile.z_mm[i]]);
  const silhouette = [...right, ...right.map(([x, z]): Point => [-x, z]).reverse()];
  pen.polygon(silhouette, { fill: colours.body });
  const window = { from_rad: facing_rad - Math.PI / 2, to_rad: facing_rad + Math.PI / 2 };
  const project = (point: SurfacePoint): Point => [
    point.r_mm * Math.sin(point.azimuth_rad - facing_rad),
    point.z_mm,
  ];
  drawBands(pen, slots, profile, colours, window, project);
  pen.polygon(silhouette, { stroke: THIN });
  // Corners of the outline show as circles, which are level lines from the side.
  for (let i = profile.outsideStart + 1; i < profile.outsideEnd; i++)
    if (profile.corner[i])
      pen.line([-profile.r_mm[i], profile.z_mm[i]], [profile.r_mm[i], profile.z_mm[i]], FAINT);
}

/** The outside laid flat: azimuth from `left_rad` across (`width_mm` for a turn), length along it up. */
export function drawUnrolled(
  pen: Pen,
  slots: readonly Slot[],
  profile: Profile,
  colours: PieceColours,
  left_rad: number,
  width_mm: number,
): void {
  const height_mm = outsideLength_mm(profile);
  pen.rectangle([0, 0], width_mm, height_mm, { fill: colours.body });
  const window = { from_rad: left_rad, to_rad: left_rad + TURN };
  const project = (point: SurfacePoint): Point => [
    ((point.azimuth_rad - left_rad) / TURN) * width_mm,
    point.along_mm,
  ];
  drawBands(pen, slots, profile, colours, window, project);
  pen.rectangle([0, 0], width_mm, height_mm, { stroke: THIN });
}

function drawBands(
  pen: Pen,
  slots: readonly Slot[],
  profile: Profile,
  colours: PieceColours,
  window: Window,
  project: (point: SurfacePoint) => Point,
): void {
  for (const slot of slots)
    for (const layer of layersAsSlots(slot)) {
      const fill = colours.timber(layer.layers[0].timber);
      // A hair of the same colour closes the seams between the outlines of one band.
      const stroke = { colour: fill, width_mm: 0.03 };
      for (const outline of bandOutlines(layer, profile, window))
        pen.polygon(outline.map(project), { fill, stroke });
    }
}

/** A blank with flats that is left as it is, seen square to the axis, one flat or edge towards the eye. */
export function drawBlockSide(
  pen: Pen,
  slots: readonly Slot[],
  section: SectionGeometry,
  length_mm: number,
  colours: PieceColours,
  facing_deg: number,
): void {
  for (const flat of flatsOf(section)) {
    const turn = (flat.azimuth_deg - facing_deg) * DEG;
    if (Math.cos(turn) < 1e-9) continue;
    const project = ([t, z]: Point): Point => [flat.distance_mm * Math.sin(turn) + t * Math.cos(turn), z];
    const corners: Point[] = [
      [flat.from_mm, 0],
      [flat.to_mm, 0],
      [flat.to_mm, length_mm],
      [flat.from_mm, length_mm],
    ];
    pen.polygon(corners.map(project), { fill: colours.body });
    for (const slot of slots)
      for (const layer of layersAsSlots(slot)) {
        const shown = slotOnFlat(layer, flat, length_mm);
        if (shown.length > 0)
          pen.polygon(shown.map(project), { fill: colours.timber(layer.layers[0].timber) });
      }
    pen.polygon(corners.map(project), { stroke: THIN });
  }
}

/** The flats of a blank side by side from `first` on, each as wide as it is; returns their left edges. */
export function drawFlats(
  pen: Pen,
  slots: readonly Slot[],
  section: SectionGeometry,
  length_mm: number,
  colours: PieceColours,
): number[] {
  let left = 0;
  return flatsOf(section).map((flat) => {
    const start = left;
    const place = ([t, z]: Point): Point => [start + t - flat.from_mm, z];
    const width = flat.to_mm - flat.from_mm;
    pen.rectangle([start, 0], width, length_mm, { fill: colours.body });
    for (const slot of slots)
      for (const layer of layersAsSlots(slot)) {
        const shown = slotOnFlat(layer, flat, length_mm);
        if (shown.length > 0) pen.polygon(shown.map(place), { fill: colours.timber(layer.layers[0].timber) });
      }
    pen.rectangle([start, 0], width, length_mm, { stroke: THIN });
    left += width;
    return start;
  });
}
