/** A set put elsewhere along the axis by hand, on the stage or the map. Lengths mm. */
import type { Design } from '../design/document.ts';

export function isLocked(design: Design, id: string): boolean {
  return design.sets.find((set) => set.id === id)?.locked === true;
}

/** The design with a set moved along the axis, to a tenth of a millimetre and within the blank. */
export function withSetAt(design: Design, id: string, center_mm: number): Design {
  const held = Math.min(Math.max(center_mm, 0), design.blank.length_mm);
  const placed = Math.round(held * 10) / 10;
  return {
    ...design,
    sets: design.sets.map((set) => (set.id === id ? { ...set, center_mm: placed } : set)),
  };
}
