/**
 * Convex regions that are taken out of the workpiece: the open kerf, a cutaway. Lathe frame, mm.
 * A region is a list of half-spaces n · p ≤ c; what lies in all of them is taken away.
 */
import type { SectionGeometry } from '../blank/section.ts';
import type { Slot } from '../blank/slots.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { Plane } from '../geometry/plane.ts';
import { dot, scale, type Vec3 } from '../geometry/vector.ts';
import { clipAll, convexBox, type ConvexSolid } from './convex.ts';

export interface Cutaway {
  readonly kind: 'wedge' | 'box' | 'octant';
  readonly at_mm: Vec3;
  readonly azimuth_deg: number;
  readonly tilt_deg: number;
  readonly opening_deg?: number;
  readonly size_mm?: Vec3;
}

/**
 * A cutter's planes are moved by this much off the round numbers that people choose, so that no plane of it runs
 * through a row of the workpiece's vertices or along one of its faces; far below anything that can be seen.
 */
const OFF_ROUND_MM = 3.1e-4;

/** Half-spaces of a slot whose blade has come `depth` (0…1) of its way from the entry side. */
export function slotPlanes(slot: Slot, section: SectionGeometry, depth = 1): Plane[] {
  const entry_mm = -entrySupport_mm(slot, section);
  const stop_mm = entry_mm + (slot.stop_mm - entry_mm) * depth;
  const planes: Plane[] = [
    { normal: slot.normal, offset_mm: slot.offset_mm + slot.kerf_mm / 2 },
    { normal: scale(slot.normal, -1), offset_mm: slot.kerf_mm / 2 - slot.offset_mm },
  ];
  // Without a web the saw leaves through the fence face: there is no end of the slot inside the wood.
  const leavesThrough =
    slot.fenceSupport_mm - stop_mm < 1e-6 && dot(slot.stopNormal, slot.fenceDirection) > 0.999;
  if (!leavesThrough) planes.push({ normal: slot.stopNormal, offset_mm: stop_mm });
  return planes;
}

/** How far the blank reaches away from a slot's stop, mm. */
export function entrySupport_mm(slot: Slot, section: SectionGeometry): number {
  if (section.round) return section.circumscribedRadius_mm;
  return Math.max(...section.corners_mm.map(([x, y]) => -(slot.stopNormal[0] * x + slot.stopNormal[1] * y)));
}

/** Half-spaces of a cutaway; `reach_mm` bounds the ones that are open on their far side only for the mesh, not here. */
export function cutawayPlanes(cutaway: Cutaway, blankWidth_mm: number): Plane[] {
  const { kind, at_mm, azimuth_deg, tilt_deg } = cutaway;
  const c = cosDeg(azimuth_deg);
  const s = sinDeg(azimuth_deg);
  const ct = cosDeg(tilt_deg);
  const st = sinDeg(tilt_deg);
  // The cutter's own axes: toward its azimuth, across it, and along the lathe axis, leaned about the one across.
  const out: Vec3 = [c * ct, s * ct, st];
  const side: Vec3 = [-s, c, 0];
  const up: Vec3 = [-c * st, -s * st, ct];
  const at: Vec3 = [at_mm[0] + OFF_ROUND_MM, at_mm[1] + OFF_ROUND_MM * 0.7, at_mm[2] + OFF_ROUND_MM * 0.4];
  const beyond = (normal: Vec3): Plane => ({ normal: scale(normal, -1), offset_mm: -dot(normal, at) });
  if (kind === 'octant') return [beyond(out), beyond(side), beyond(up)];
  if (kind === 'wedge') {
    const half = Math.min(Math.max(cutaway.opening_deg ?? 90, 0.1), 179.9) / 2;
    const left = combine(out, sinDeg(half), side, cosDeg(half));
    const right = combine(out, sinDeg(half), side, -cosDeg(half));
    return [beyond(left), beyond(right)];
  }
  const size = cutaway.size_mm ?? [blankWidth_mm / 2, blankWidth_mm / 2, blankWidth_mm / 2];
  return [out, side, up].flatMap((axis, i) => [
    { normal: axis, offset_mm: dot(axis, at) + size[i] / 2 },
    { normal: scale(axis, -1), offset_mm: -dot(axis, at) + size[i] / 2 },
  ]);
}

function combine(a: Vec3, ka: number, b: Vec3, kb: number): Vec3 {
  return [a[0] * ka + b[0] * kb, a[1] * ka + b[1] * kb, a[2] * ka + b[2] * kb];
}

/** A region as a closed solid that reaches past the workpiece on every open side; null when it misses it. */
export function regionSolid(
  planes: readonly Plane[],
  radius_mm: number,
  length_mm: number,
): ConvexSolid | null {
  const reach = 1.37 * radius_mm + 0.11 * length_mm;
  const around = convexBox(
    [0.013, 0.017, length_mm / 2 + 0.011],
    [reach, reach * 1.01, length_mm / 2 + reach],
  );
  return clipAll(around, planes);
}
