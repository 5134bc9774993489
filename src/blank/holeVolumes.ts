/**
 * What drilled holes take from the parts of a turned form. A hole along the lathe's axis is a bore of the solid
 * of revolution. Any other is a cylinder along X of a frame: its volume within a part is integrated across it,
 * from plane sections along it. Where two such holes overlap, the earlier is a prism of the same area there.
 * Lathe frame, mm.
 */
import { boxSolid } from '../geometry/convexSolids.ts';
import { halfSpace, type HalfSpace } from '../geometry/halfspace.ts';
import type { Estimate } from '../geometry/quadrature.ts';
import type { Bore, Revolution } from '../geometry/revolution.ts';
import { cross, dot, type Vec3 } from '../geometry/vector.ts';
import { touchesOf, type Frame } from './frames.ts';
import type { HoleCylinder } from './holes.ts';
import { volumeWithinCylinder } from './revolvedVolume.ts';
import type { SlotSpaces } from './slotSpaces.ts';
import { visibleSolids, type Bounds } from './visibleSolids.ts';

/** Whether the hole runs along the lathe's axis. */
export function isBore({ origin_mm, inward }: HoleCylinder): boolean {
  return Math.hypot(inward[0], inward[1]) === 0 && Math.hypot(origin_mm[0], origin_mm[1]) < 1e-12;
}

export function boresOf(holes: readonly HoleCylinder[]): Bore[] {
  return holes.filter(isBore).map(({ origin_mm, inward, radius_mm, depth_mm }) => {
    const bottom = origin_mm[2] + inward[2] * depth_mm;
    return inward[2] > 0
      ? { zLow: -Infinity, zHigh: bottom, radius: radius_mm }
      : { zLow: bottom, zHigh: Infinity, radius: radius_mm };
  });
}

/** Volume of a hole, less the earlier ones, within a slot (null: anywhere) less the later slots. */
export function drilledVolume(
  hole: HoleCylinder,
  earlier: readonly HoleCylinder[],
  solid: Revolution,
  bounds: Bounds,
  circles: readonly (readonly [r: number, z: number])[],
  own: SlotSpaces | null,
  later: readonly SlotSpaces[],
  tolerance_mm2: number,
): Estimate {
  const frame = holeFrame(hole);
  const { origin_mm, inward, radius_mm, depth_mm } = hole;
  const y_mm = dot(origin_mm, frame.y);
  const w_mm = dot(origin_mm, frame.w);
  const far = 4 * (bounds.reach_mm + Math.abs(bounds.zLow_mm) + Math.abs(bounds.zHigh_mm)) + radius_mm;
  const box = boxSolid([-far, y_mm - radius_mm, w_mm - radius_mm], [far, y_mm + radius_mm, w_mm + radius_mm]);
  const keep: HalfSpace[] = own ? [...own] : [];
  if (Number.isFinite(depth_mm)) keep.push(halfSpace(inward, dot(inward, origin_mm) + depth_mm));
  const taken = [...earlier.map(prismOf), ...later];
  const solids = visibleSolids(frame, box, bounds, keep, taken);
  if (solids.length === 0) return { value: 0, error: 0 };
  const kinks = touchesOf(frame, circles);
  return volumeWithinCylinder(solid, solids, frame, { y_mm, w_mm, radius_mm }, kinks, tolerance_mm2);
}

/** X along the drill; Y horizontal; W up for a drill square to the axis, else across it. */
function holeFrame({ inward }: HoleCylinder): Frame {
  if (Math.hypot(inward[0], inward[1]) === 0)
    return { z0_mm: 0, x: [0, 0, 1], y: [0, 1, 0], w: [1, 0, 0], u: [1, 0, 0] };
  return { z0_mm: 0, x: inward, y: [-inward[1], inward[0], 0], w: [0, 0, 1], u: inward };
}

const SIDES = 32;

/** The hole as half-spaces: a prism with the circle's area, and its bottom. */
function prismOf({ origin_mm, inward, radius_mm, depth_mm }: HoleCylinder): HalfSpace[] {
  const a: Vec3 = Math.abs(inward[2]) > 0.5 ? [1, 0, 0] : [0, 0, 1];
  const b = cross(inward, a);
  // Area of the polygon about a circle of radius ρ: n ρ² tan(π / n).
  const apothem = radius_mm * Math.sqrt(Math.PI / SIDES / Math.tan(Math.PI / SIDES));
  const spaces = Array.from({ length: SIDES }, (_, i) => {
    const angle = (2 * Math.PI * (i + 0.5)) / SIDES;
    const [x, y, z] = [0, 1, 2].map((k) => Math.cos(angle) * a[k] + Math.sin(angle) * b[k]);
    const normal: Vec3 = [x, y, z];
    return halfSpace(normal, dot(normal, origin_mm) + apothem);
  });
  if (Number.isFinite(depth_mm)) spaces.push(halfSpace(inward, dot(inward, origin_mm) + depth_mm));
  return spaces;
}
