/**
 * Where the slab of a slot ends and what holds it in its place at the saw, by the kind of cut. Lathe frame, mm.
 * (docs/geometry.md, "Slot".)
 */
import type { CutKind, SlotSet } from '../design/document.ts';
import { cosDeg, cotDeg, sinDeg } from '../geometry/angle.ts';
import { scale } from '../geometry/vector.ts';
import { support_mm, type SectionGeometry } from './section.ts';
import type { Slot } from './slots.ts';

/** What of a slot does not hang on its kind. */
export type Slab = Pick<
  Slot,
  | 'angle_deg'
  | 'fenceAzimuth_deg'
  | 'slope'
  | 'center_mm'
  | 'web_mm'
  | 'fenceDirection'
  | 'bladeDirection'
  | 'fenceSupport_mm'
>;

export type SlotEnd = Pick<Slot, 'cut' | 'stopNormal' | 'stop_mm' | 'heldAt_mm' | 'stopMoves'>;

export interface SlabPlace {
  readonly set: Pick<SlotSet, 'web_side'>;
  readonly section: SectionGeometry;
  readonly length_mm: number;
}

export const SLOT_ENDS: Readonly<Record<CutKind, (slab: Slab, place: SlabPlace) => SlotEnd>> = {
  fence: atFence,
  table: onTable,
};

/** It ends before the fence face, on which the stop holds its mark. */
function atFence(slab: Slab): SlotEnd {
  const { fenceSupport_mm, slope, angle_deg } = slab;
  return {
    cut: 'fence',
    stopNormal: slab.fenceDirection,
    stop_mm: fenceSupport_mm - slab.web_mm,
    heldAt_mm: [fenceSupport_mm, slab.center_mm + slope * fenceSupport_mm * cotDeg(angle_deg)],
    stopMoves: [0, 1],
  };
}

/**
 * It ends before a side across the fence azimuth. The ledge holds its mark on the end that lies on the tilted table,
 * which is the one that the slot is nearer to at the ledge (the axis where the plane meets no end).
 */
function onTable(slab: Slab, { set, section, length_mm }: SlabPlace): SlotEnd {
  const { slope, center_mm, angle_deg } = slab;
  const side = set.web_side === 'behind' ? -1 : 1;
  const cosine = cosDeg(angle_deg);
  const end_mm = slope === 1 ? length_mm : 0;
  return {
    cut: 'table',
    stopNormal: scale(slab.bladeDirection, side),
    stop_mm: support_mm(section, slab.fenceAzimuth_deg + 90 * side) - slab.web_mm,
    heldAt_mm:
      cosine === 0 ? [0, center_mm] : [(slope * (end_mm - center_mm) * sinDeg(angle_deg)) / cosine, end_mm],
    stopMoves: [1, 0],
  };
}
