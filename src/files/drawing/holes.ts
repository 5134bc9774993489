/**
 * Drilled holes on the drawings of the piece: where a hole opens the turned outside, exactly (the drill's cylinder meets the
 * surface of revolution), and its walls as hidden lines. Lathe frame, mm; side view as in piece.ts.
 */
import { outsideRadius_mm, type HoleCylinder } from '../../blank/holes.ts';
import { alongOf, outsideLine } from '../../blank/outsideLine.ts';
import type { Profile } from '../../geometry/outline.ts';
import { INK, PAPER } from './ink.ts';
import { rectangleSteps, type Pen, type Point, type Stroke } from './pen.ts';

const SIDES = 72;
const TURN = 2 * Math.PI;
/** Wood in shade. */
export const DARK = '#241d19';

export interface MouthPoint {
  readonly azimuth_rad: number;
  readonly z_mm: number;
  readonly r_mm: number;
}

/** The openings of a hole in the outside, as closed loops: where the drill goes in, and where it comes out again. None for a hole along the axis. */
export function mouthsOf(hole: HoleCylinder, profile: Profile): MouthPoint[][] {
  const { origin_mm, inward, radius_mm, depth_mm } = hole;
  if (Math.abs(inward[2]) > 0.5) return [];
  const outward = [-inward[0], -inward[1]] as const;
  const sideways = [-outward[1], outward[0]] as const;
  const start = origin_mm[0] * outward[0] + origin_mm[1] * outward[1];
  const offset = origin_mm[0] * sideways[0] + origin_mm[1] * sideways[1];
  const mouths = ([1, -1] as const).map((side) => {
    const loop: MouthPoint[] = [];
    for (let i = 0; i < SIDES; i++) {
      const turn = (i / SIDES) * TURN;
      const d = offset + radius_mm * Math.cos(turn);
      const z_mm = origin_mm[2] + radius_mm * Math.sin(turn);
      const r_mm = outsideRadius_mm(profile, z_mm);
      if (r_mm <= Math.abs(d)) continue;
      const along = side * Math.sqrt(r_mm * r_mm - d * d);
      if (start - along > depth_mm) continue;
      const x = along * outward[0] + d * sideways[0];
      const y = along * outward[1] + d * sideways[1];
      loop.push({ azimuth_rad: Math.atan2(y, x), z_mm, r_mm });
    }
    return loop;
  });
  return mouths.filter((loop) => loop.length > 2);
}

/** A dashed line that shows on any timber. */
function drawHidden(pen: Pen, points: readonly Point[]): void {
  pen.polyline(points, { colour: PAPER, width_mm: 0.45 });
  pen.polyline(points, HIDDEN_ON_WOOD);
}

const HIDDEN_ON_WOOD: Stroke = { colour: INK, width_mm: 0.2, dash_mm: [1.6, 0.8] };

/** On the turned piece seen square to the axis, azimuth `facing_rad` towards the eye. */
export function drawHolesOnSide(
  pen: Pen,
  holes: readonly HoleCylinder[],
  profile: Profile,
  facing_rad: number,
): void {
  for (const hole of holes) {
    for (const wall of wallsSeen(hole, profile, facing_rad)) drawHidden(pen, wall);
    for (const mouth of mouthsOf(hole, profile)) {
      const shown = mouth.filter(({ azimuth_rad }) => Math.cos(azimuth_rad - facing_rad) > 0);
      if (shown.length < 3) continue;
      pen.polygon(
        shown.map(({ azimuth_rad, z_mm, r_mm }): Point => [r_mm * Math.sin(azimuth_rad - facing_rad), z_mm]),
        { fill: DARK, stroke: { colour: INK, width_mm: 0.12 } },
      );
    }
  }
}

/** The drill's two walls and its bottom as they run inside the outline, seen from a side. */
function wallsSeen(hole: HoleCylinder, profile: Profile, facing_rad: number): Point[][] {
  const { origin_mm, inward, radius_mm } = hole;
  const across = (p: readonly number[]) => p[1] * Math.cos(facing_rad) - p[0] * Math.sin(facing_rad);
  const heights = profile.z_mm;
  const low = heights.reduce((a, b) => Math.min(a, b), Infinity);
  const high = heights.reduce((a, b) => Math.max(a, b), -Infinity);
  if (Math.abs(inward[2]) > 0.5) {
    const x = across(origin_mm);
    const z0 = origin_mm[2];
    const z1 = Math.min(high, Math.max(low, z0 + inward[2] * Math.min(hole.depth_mm, high - low)));
    return [
      [
        [x - radius_mm, z0],
        [x - radius_mm, z1],
        [x + radius_mm, z1],
        [x + radius_mm, z0],
      ],
    ];
  }
  // Square to the axis: the drill runs level; where it points at the eye nothing but its mouth is seen.
  const turn = across(inward);
  if (Math.abs(turn) < 0.05) return [];
  const start = origin_mm[0] * -inward[0] + origin_mm[1] * -inward[1];
  const depth = Math.min(hole.depth_mm, 2 * start);
  const from = across(origin_mm);
  const to = from + turn * depth;
  const [z0, z1] = [origin_mm[2] - radius_mm, origin_mm[2] + radius_mm];
  return [
    [
      [from, z0],
      [to, z0],
      [to, z1],
      [from, z1],
    ],
  ];
}

/** On the outside laid flat: azimuth from `left_rad` across (`width_mm` for a turn), length along it up. */
export function drawHolesUnrolled(
  pen: Pen,
  holes: readonly HoleCylinder[],
  profile: Profile,
  left_rad: number,
  width_mm: number,
): void {
  const line = outsideLine(profile);
  pen.clipped(rectangleSteps([0, 0], width_mm, line.length_mm), (inside) => {
    for (const hole of holes)
      for (const mouth of mouthsOf(hole, profile)) {
        const first = mouth[0].azimuth_rad;
        // Azimuths of one mouth lie together; it is repeated where it passes an edge.
        const points = mouth.map(({ azimuth_rad, z_mm, r_mm }): Point => {
          const near = azimuth_rad - TURN * Math.round((azimuth_rad - first) / TURN);
          return [((near - left_rad) / TURN) * width_mm, alongOf(line, z_mm, r_mm)];
        });
        const base = Math.floor(points[0][0] / width_mm) * width_mm;
        for (const shift of [-width_mm, 0, width_mm]) {
          const shown = points.map(([x, y]): Point => [x - base + shift, y]);
          if (shown.every(([x]) => x < 0) || shown.every(([x]) => x > width_mm)) continue;
          inside.polygon(shown, { fill: DARK, stroke: { colour: INK, width_mm: 0.12 } });
        }
      }
  });
}

/** The bore of a ring that is open along its axis, as hidden lines of the side view. */
export function drawBoreOnSide(pen: Pen, profile: Profile): void {
  for (const side of [-1, 1]) {
    const points: Point[] = [];
    for (let i = profile.outsideEnd; i < profile.z_mm.length; i++)
      points.push([side * profile.r_mm[i], profile.z_mm[i]]);
    drawHidden(pen, points);
  }
}
