/** Where a drill, line by line, goes through the wood of a turned piece that is not drilled yet. Lathe frame, mm. */
import type { Blank } from '../design/document.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import { intersect, type Intervals } from '../geometry/intervals.ts';
import type { Profile } from '../geometry/outline.ts';
import { chordOf, heightsAt, radiiAt } from '../geometry/revolutionLine.ts';
import { cross, dot, type Vec3 } from '../geometry/vector.ts';
import type { HoleCylinder } from './holes.ts';
import { sectionGeometry } from './section.ts';

/** Lines on the drill's wall, besides that in its middle. */
const LINES = 24;
/** A hair inside the wall: a hole as wide as a bore that it follows does not cut its wall. */
const WALL = 1 - 1e-6;

export interface DrillLine {
  /** Point of the line where the depth is counted from. */
  readonly start_mm: Vec3;
  /** Depths between which there is wood. */
  readonly wood_mm: Intervals;
}

/** Lines along a drill: in its middle, then around its wall. */
export function drillLines(hole: HoleCylinder, profile: Profile, blank: Blank): DrillLine[] {
  const { origin_mm, inward, radius_mm } = hole;
  const a: Vec3 = Math.abs(inward[2]) > 0.5 ? [1, 0, 0] : [0, 0, 1];
  const b = cross(inward, a);
  return Array.from({ length: LINES + 1 }, (_, n) => {
    const reach = n === 0 ? 0 : radius_mm * WALL;
    const [c, s] = [reach * cosDeg((n * 360) / LINES), reach * sinDeg((n * 360) / LINES)];
    const start_mm: Vec3 = [
      origin_mm[0] + c * a[0] + s * b[0],
      origin_mm[1] + c * a[1] + s * b[1],
      origin_mm[2] + c * a[2] + s * b[2],
    ];
    return { start_mm, wood_mm: woodAlong(start_mm, inward, profile, blank) };
  });
}

/** Distances along a line, parallel or square to the axis, between which it is in the form and in the blank. */
function woodAlong(start: Vec3, direction: Vec3, profile: Profile, blank: Blank): Intervals {
  const axis = Math.hypot(start[0], start[1]);
  if (Math.abs(direction[2]) > 0.5) {
    const along = heightsAt(profile, axis).map((z) => (z - start[2]) * direction[2]);
    return intersect(direction[2] > 0 ? along : along.reverse(), blankAlong(start, direction, blank));
  }
  const middle = -dot([start[0], start[1], 0], direction);
  const miss = Math.sqrt(Math.max(0, axis * axis - middle * middle));
  const along = chordOf(radiiAt(profile, start[2]), miss).map((t) => middle + t);
  return intersect(along, blankAlong(start, direction, blank));
}

/** Distances between which the line is in the blank. */
function blankAlong(start: Vec3, direction: Vec3, { section, length_mm }: Blank): Intervals {
  const { round, inscribedRadius_mm, faceAzimuths_deg, faceDistances_mm } = sectionGeometry(section);
  const sides: (readonly [Vec3, number])[] = faceAzimuths_deg.map((azimuth, i) => [
    [cosDeg(azimuth), sinDeg(azimuth), 0],
    faceDistances_mm[i],
  ]);
  sides.push([[0, 0, 1], length_mm], [[0, 0, -1], 0]);
  let [from, to] = [-Infinity, Infinity];
  for (const [normal, distance] of sides) {
    const room = distance - dot(normal, start);
    const step = dot(normal, direction);
    if (Math.abs(step) < 1e-12) {
      if (room < 0) return [];
    } else if (step > 0) to = Math.min(to, room / step);
    else from = Math.max(from, room / step);
  }
  if (!(from < to)) return [];
  if (!round) return [from, to];
  const across = Math.hypot(direction[0], direction[1]);
  const middle = -dot([start[0], start[1], 0], direction);
  const square = inscribedRadius_mm ** 2 - (start[0] ** 2 + start[1] ** 2 - middle * middle);
  if (square <= 0) return [];
  if (across < 0.5) return [from, to];
  return intersect([from, to], [middle - Math.sqrt(square), middle + Math.sqrt(square)]);
}
