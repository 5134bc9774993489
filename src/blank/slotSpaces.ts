/** The three half-spaces whose intersection is a slot: below its upper face, above its lower face, short of its stop. */
import { SAME_MM, type Frustum } from '../geometry/frustum.ts';
import { halfSpace, type HalfSpace } from '../geometry/halfspace.ts';
import { scale } from '../geometry/vector.ts';
import type { Slot } from './slots.ts';

export type SlotSpaces = readonly [upper: HalfSpace, lower: HalfSpace, stop: HalfSpace];

export function slotSpaces(slot: Slot): SlotSpaces {
  return [
    halfSpace(slot.normal, slot.offset_mm + slot.kerf_mm / 2),
    halfSpace(scale(slot.normal, -1), slot.kerf_mm / 2 - slot.offset_mm),
    halfSpace(slot.stopNormal, slot.stop_mm),
  ];
}

/** The plane f = 0; the half-space below it. */
export function midSpace(slot: Slot): HalfSpace {
  return halfSpace(slot.normal, slot.offset_mm);
}

/** Indices, in cutting order, of the slots that may hold a point of the frustum (none that does is left out). */
export function presentOn(frustum: Frustum, spaces: readonly SlotSpaces[]): number[] {
  const present: number[] = [];
  spaces.forEach((slot, i) => {
    if (slot.every((space) => reaches(frustum, space))) present.push(i);
  });
  return present;
}

function reaches(frustum: Frustum, space: HalfSpace): boolean {
  const start = space.nz * frustum.za_mm - space.horizontal * frustum.ra_mm - space.c_mm;
  const step = space.nz * frustum.dz_mm - space.horizontal * frustum.dr_mm;
  return Math.min(start, start + step) <= SAME_MM;
}
