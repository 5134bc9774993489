/** Slot ids `SET.n`, n from 1 as the set's azimuths are listed, and the order of cutting as a list of them. */
import type { SlotId, SlotSet } from './document.ts';

/** Ids of a set's slots, as its azimuths are listed. */
export function slotIdsOf(set: Pick<SlotSet, 'id' | 'fence_azimuths_deg'>): SlotId[] {
  return set.fence_azimuths_deg.map((_, n) => `${set.id}.${n + 1}`);
}

/** Default order of cutting: set after set, azimuths as listed. */
export function defaultOrder(sets: readonly Pick<SlotSet, 'id' | 'fence_azimuths_deg'>[]): SlotId[] {
  return sets.flatMap(slotIdsOf);
}

/** Id of the set that a slot belongs to. */
export function setIdOf(slot: SlotId): string {
  return slot.slice(0, slot.lastIndexOf('.'));
}

/** Which slot of its set it is, from 1. */
export function slotNumberOf(slot: SlotId): number {
  return Number(slot.slice(slot.lastIndexOf('.') + 1));
}
