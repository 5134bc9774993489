/**
 * Hollowing: an inside at an even wall from the outside of an outline. Frame (z, r), mm; see forms.ts.
 *
 * The inside is the boundary of the points that lie at least the wall away from the outside: at each height z
 * it reaches to r = min over the outside of (ρ − √(w² − (z − ζ)²)). Such an erosion never crosses itself and
 * is nowhere thinner than the wall; it ends where a neck leaves no room. It is drawn with as few smooth points
 * as keep within FIT of the wall.
 */
import { flattenOutline } from '../geometry/outline.ts';
import type { OutlinePoint } from './document.ts';

type Outline = readonly OutlinePoint[];
type Place = readonly [z: number, r: number];

/** Deviation of the drawn inside from the exact one, as a share of the wall. */
const FIT = 0.02;
const ROWS = 240;
const MOST_POINTS = 18;
/** Smallest radius of the inside, as a share of the wall. */
const NARROWEST = 0.25;

export const corner = (z_mm: number, r_mm: number): OutlinePoint => ({ z_mm, r_mm });
export const smooth = (z_mm: number, r_mm: number): OutlinePoint => ({ z_mm, r_mm, smooth: true });

/**
 * The outline hollowed to a wall of wall_mm, down to a floor of floor_mm above the foot or to where a neck
 * ends it. An inside that the outline has already is replaced.
 */
export function hollowed(outline: Outline, wall_mm: number, floor_mm: number): OutlinePoint[] {
  const outside = outsideOf(outline);
  const rim_mm = outside[outside.length - 1].z_mm;
  const foot_mm = Math.min(...outside.map((point) => point.z_mm));
  const floor = Math.min(foot_mm + floor_mm, rim_mm - 0.5 * wall_mm);
  const wall = erodedWall(outside, wall_mm, rim_mm, floor);
  if (wall.length < 3) return filled(outline);
  return [...outside, ...drawn(wall, FIT * wall_mm)];
}

/** The outline without its inside: closed straight across at the rim. */
export function filled(outline: Outline): OutlinePoint[] {
  const outside = outsideOf(outline);
  const rim = outside[outside.length - 1];
  return rim.r_mm === 0 ? outside : [...outside, corner(rim.z_mm, 0)];
}

/** Whether the outline has an inside: it goes down again after the rim. */
export function isHollow(outline: Outline): boolean {
  const rim = rimIndex(outline);
  return outline.slice(rim + 1).some((point) => point.z_mm < outline[rim].z_mm - 1e-9);
}

/** Points from the axis at the foot to the rim. */
export function outsideOf(outline: Outline): OutlinePoint[] {
  return outline.slice(0, rimIndex(outline) + 1);
}

/** Index of the rim: the first point at the highest z. */
export function rimIndex(outline: Outline): number {
  const highest = Math.max(...outline.map((point) => point.z_mm));
  return outline.findIndex((point) => point.z_mm === highest);
}

/** The inside from the rim down to the floor, row by row. */
function erodedWall(outside: Outline, wall_mm: number, rim_mm: number, floor: number): Place[] {
  const curve = densePoints(outside, wall_mm / 25);
  const wall: Place[] = [];
  for (let row = 0; row <= ROWS; row++) {
    const z = rim_mm + ((floor - rim_mm) * row) / ROWS;
    let r = Infinity;
    for (const [curveZ, curveR] of curve) {
      const room = wall_mm * wall_mm - (z - curveZ) * (z - curveZ);
      if (room > 0) r = Math.min(r, curveR - Math.sqrt(room));
    }
    if (r <= NARROWEST * wall_mm) break;
    wall.push([z, r]);
  }
  return wall;
}

/** Points of an outside at most step_mm apart. */
function densePoints(outside: Outline, step_mm: number): Place[] {
  const rim = outside[outside.length - 1];
  const { z_mm, r_mm, outsideEnd } = flattenOutline([...outside, corner(rim.z_mm, 0)], 5e-3);
  const points: Place[] = [[z_mm[0], r_mm[0]]];
  for (let i = 1; i <= outsideEnd; i++) {
    const pieces = Math.max(1, Math.ceil(Math.hypot(z_mm[i] - z_mm[i - 1], r_mm[i] - r_mm[i - 1]) / step_mm));
    for (let k = 1; k <= pieces; k++) {
      const t = k / pieces;
      points.push([z_mm[i - 1] + t * (z_mm[i] - z_mm[i - 1]), r_mm[i - 1] + t * (r_mm[i] - r_mm[i - 1])]);
    }
  }
  return points;
}

/** The rows as outline points from the rim to the axis at the floor: more of them until they fit. */
function drawn(wall: readonly Place[], fit_mm: number): OutlinePoint[] {
  const chosen = [0, wall.length - 1];
  for (;;) {
    const points = asOutline(wall, chosen);
    const worst = worstRow(wall, points);
    if (worst.deviation_mm <= fit_mm || chosen.length >= MOST_POINTS || chosen.includes(worst.row))
      return points;
    chosen.push(worst.row);
    chosen.sort((a, b) => a - b);
  }
}

function asOutline(wall: readonly Place[], chosen: readonly number[]): OutlinePoint[] {
  const points = chosen.map((row, i) => {
    const [z, r] = wall[row];
    return i === 0 || i === chosen.length - 1 ? corner(z, r) : smooth(z, r);
  });
  return [...points, corner(wall[wall.length - 1][0], 0)];
}

/** The row farthest from the drawn inside, across the axis. */
function worstRow(
  wall: readonly Place[],
  points: readonly OutlinePoint[],
): { row: number; deviation_mm: number } {
  const { z_mm, r_mm } = flattenOutline(points, 5e-3);
  let worst = { row: -1, deviation_mm: 0 };
  let at = 0;
  wall.forEach(([z, r], row) => {
    while (at + 2 < z_mm.length && z_mm[at + 1] > z) at++;
    const span = z_mm[at] - z_mm[at + 1];
    const t = span > 0 ? Math.min(Math.max((z_mm[at] - z) / span, 0), 1) : 0;
    const slope = Math.abs(r_mm[at + 1] - r_mm[at]) / (span || 1);
    const across = Math.abs(r_mm[at] + t * (r_mm[at + 1] - r_mm[at]) - r);
    const deviation_mm = across / Math.hypot(1, slope);
    if (deviation_mm > worst.deviation_mm) worst = { row, deviation_mm };
  });
  return worst;
}
