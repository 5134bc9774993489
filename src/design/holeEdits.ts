/**
 * Edits of the form's holes: pure functions from a document to the next, as in edits.ts. Lathe frame, mm,
 * degrees. A hole from the side has a height, any other has none; a hole in the middle does not say so.
 */
import type { Design, Hole } from './document.ts';
import { MAX_HOLES } from './limits.ts';

/** Drills a hole. Left as it is without a form, or when the form has as many holes as it may have. */
export function addHole(design: Design, hole: Hole): Design {
  const holes = design.form?.holes ?? [];
  return holes.length >= MAX_HOLES ? design : withHoles(design, [...holes, canonicalHole(design, hole)]);
}

/** Changes fields of a hole; `undefined` takes one away. */
export function updateHole(design: Design, index: number, change: Partial<Hole>): Design {
  const holes = design.form?.holes ?? [];
  const hole = holes[index];
  return hole ? withHoles(design, holes.with(index, canonicalHole(design, { ...hole, ...change }))) : design;
}

export function removeHole(design: Design, index: number): Design {
  const holes = design.form?.holes ?? [];
  return holes[index] ? withHoles(design, holes.toSpliced(index, 1)) : design;
}

/** A new hole from the side is in the middle of the blank until it gets a height. */
function canonicalHole({ blank }: Design, hole: Hole): Hole {
  const { from, diameter_mm, depth_mm, offset_mm, azimuth_deg, z_mm } = hole;
  return {
    from,
    diameter_mm,
    depth_mm,
    ...(offset_mm ? { offset_mm } : {}),
    ...(azimuth_deg ? { azimuth_deg } : {}),
    ...(from === 'side' ? { z_mm: z_mm ?? blank.length_mm / 2 } : {}),
  };
}

/** No holes at all are not listed. */
function withHoles(design: Design, holes: readonly Hole[]): Design {
  if (!design.form) return design;
  const { holes: _, ...form } = design.form;
  return { ...design, form: holes.length > 0 ? { ...form, holes } : form };
}
