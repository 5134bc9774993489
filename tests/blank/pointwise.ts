/**
 * The rules of the work point by point and circle by circle, for what the engine measures as a whole to be held against:
 * which layer of a strip, which strip on a circle, what a hole takes away. Lathe frame, mm, radians.
 */
import { slotArcsAt, type Arc } from '../../src/blank/arcs.ts';
import type { HoleCylinder } from '../../src/blank/holes.ts';
import { BODY } from '../../src/blank/material.ts';
import { kerfDistance_mm, layerBounds_mm, type Slot } from '../../src/blank/slots.ts';
import { intersect, subtract, united, type Intervals } from '../../src/geometry/intervals.ts';
import { dot, type Vec3 } from '../../src/geometry/vector.ts';

const TURN = 2 * Math.PI;

/** Index of the layer of a strip at a point that its slot holds. */
export function layerAt(slot: Slot, p: Vec3): number {
  const f = kerfDistance_mm(slot, p);
  const bounds = layerBounds_mm(slot);
  for (let layer = 0; layer < slot.layers.length - 1; layer++) if (f < bounds[layer + 1]) return layer;
  return slot.layers.length - 1;
}

export interface MaterialArc extends Arc {
  /** Index of the slot whose strip shows, or BODY. */
  readonly material: number;
}

/** The whole circle (z, r) as arcs of one material each, counter-clockwise from azimuth 0, without gaps. */
export function materialArcsAt(slots: readonly Slot[], z_mm: number, r_mm: number): MaterialArc[] {
  const arcs: MaterialArc[] = [];
  const add = (set: Intervals, material: number) => {
    for (let k = 0; k < set.length; k += 2) arcs.push({ from_rad: set[k], to_rad: set[k + 1], material });
  };
  let free: Intervals = [0, TURN];
  for (let i = slots.length - 1; i >= 0 && free.length > 0; i--) {
    const held = slotArcsAt(slots[i], z_mm, r_mm).flatMap(({ from_rad, to_rad }) =>
      to_rad > TURN ? [from_rad, TURN, 0, to_rad - TURN] : [from_rad, to_rad],
    );
    const shows = intersect(free, united(held));
    add(shows, i);
    free = subtract(free, shows);
  }
  add(free, BODY);
  arcs.sort((a, b) => a.from_rad - b.from_rad);
  const merged: MaterialArc[] = [];
  for (const arc of arcs) {
    const last = merged[merged.length - 1];
    if (last?.material === arc.material) merged[merged.length - 1] = { ...last, to_rad: arc.to_rad };
    else merged.push(arc);
  }
  return merged;
}

/** Whether a hole takes the point away. */
export function holeHolds({ origin_mm, inward, depth_mm, radius_mm }: HoleCylinder, p: Vec3): boolean {
  const from = [p[0] - origin_mm[0], p[1] - origin_mm[1], p[2] - origin_mm[2]] as const;
  const t = dot(from, inward);
  if (t > depth_mm) return false;
  return Math.hypot(...from.map((value, axis) => value - t * inward[axis])) <= radius_mm;
}
