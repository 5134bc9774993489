/**
 * Where a slot lies on the turned surface: exact azimuth intervals on the circle of radius r at height z. Lathe frame,
 * mm, radians, azimuth counter-clockwise seen from the head.
 *
 * On the circle each of a slot's half-spaces reads a cos φ + b sin φ + c ≤ 0: an arc with closed-form ends.
 */
import { TURN } from '../geometry/angle.ts';
import { intersect, united, whereSinusoidNotPositive, type Intervals } from '../geometry/intervals.ts';
import { slotSpaces, type SlotSpaces } from './slotSpaces.ts';
import type { Slot } from './slots.ts';

/** Azimuths from `from_rad` (in [0, 2π)) counter-clockwise to `to_rad` (≤ from + 2π, may pass 2π). */
export interface Arc {
  readonly from_rad: number;
  readonly to_rad: number;
}

/** Arcs of the circle (z, r) that the slot holds, ascending; a full circle is one arc of 2π from 0. */
export function slotArcsAt(slot: Slot, z_mm: number, r_mm: number): Arc[] {
  return joinedAtZero(heldOnCircle(slotSpaces(slot), z_mm, r_mm));
}

/** What the slot holds on the circle (z, r). */
function heldOnCircle(slot: SlotSpaces, z_mm: number, r_mm: number): Intervals {
  let held: Intervals = [0, TURN];
  for (const space of slot) {
    const c = space.nz * z_mm - space.c_mm;
    if (c >= space.horizontal * r_mm && !(c === 0 && space.horizontal * r_mm === 0)) return [];
    held = intersect(held, whereSinusoidNotPositive(space.nx * r_mm, space.ny * r_mm, c, 0, TURN));
    if (held.length === 0) return held;
  }
  return held;
}

function joinedAtZero(set: Intervals): Arc[] {
  const joined = united(set);
  const last = joined.length - 1;
  const arcs: Arc[] = [];
  for (let k = 0; k < joined.length; k += 2) arcs.push({ from_rad: joined[k], to_rad: joined[k + 1] });
  if (arcs.length > 1 && joined[0] === 0 && joined[last] === TURN) {
    const tail = arcs.pop() as Arc;
    arcs.push({ from_rad: tail.from_rad, to_rad: TURN + arcs[0].to_rad });
    arcs.shift();
  }
  return arcs;
}
