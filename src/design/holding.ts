/**
 * Wood at the ends of the blank that the form does not use: waste for a tenon or between centres. It belongs to the
 * blank's length, because the stop of the fence meets the end of the wood, not that of the piece.
 */
import { flattenOutline } from '../geometry/outline.ts';
import type { Blank, Design, Form } from './document.ts';

/** Of the outline's polyline; only its ends count. */
const TOLERANCE_MM = 1e-3;

/** Free length at each end, mm; below 0 where the form reaches beyond the blank. */
export interface Holding {
  readonly foot_mm: number;
  readonly head_mm: number;
}

/** Null: the design has no form that says how much is free. */
export function holdingOf({ blank, form }: Pick<Design, 'blank' | 'form'>): Holding | null {
  if (!form) return null;
  const { z_mm } = flattenOutline(form.outline, TOLERANCE_MM, form.loop);
  let low_mm = Infinity;
  let high_mm = -Infinity;
  for (const z of z_mm) {
    low_mm = Math.min(low_mm, z);
    high_mm = Math.max(high_mm, z);
  }
  return { foot_mm: low_mm, head_mm: blank.length_mm - high_mm };
}

/**
 * Makes the blank longer or shorter so that this much is free at its ends. Form and rings stay as they are to one
 * another. Without a form the design stays as it is. Lengths mm; whether the blank can be so long is for checkDesign to say.
 */
export function setHolding(design: Design, wanted: Holding): Design {
  const { blank, form, sets } = design;
  const free = holdingOf(design);
  if (!free || !form) return design;
  const foot_mm = wanted.foot_mm - free.foot_mm;
  const head_mm = wanted.head_mm - free.head_mm;
  return {
    ...design,
    blank: lengthened(blank, foot_mm, head_mm),
    sets: sets.map((set) => ({ ...set, center_mm: rounded(set.center_mm + foot_mm) })),
    form: raised(form, foot_mm),
  };
}

function lengthened(blank: Blank, foot_mm: number, head_mm: number): Blank {
  const longer = { ...blank, length_mm: rounded(blank.length_mm + foot_mm + head_mm) };
  const { grain } = blank;
  if (grain?.along !== 'across' || !grain.pith_mm) return longer;
  // The pith's height counts from the middle of the blank, which moves; the pith stays beside the rings.
  const [beside_mm, above_mm] = grain.pith_mm;
  const pith_mm = [beside_mm, rounded(above_mm + (foot_mm - head_mm) / 2)] as const;
  return { ...longer, grain: { ...grain, pith_mm } };
}

function raised(form: Form, by_mm: number): Form {
  return {
    ...form,
    outline: form.outline.map((point) => ({ ...point, z_mm: rounded(point.z_mm + by_mm) })),
    ...(form.holes
      ? {
          holes: form.holes.map((hole) =>
            hole.z_mm === undefined ? hole : { ...hole, z_mm: rounded(hole.z_mm + by_mm) },
          ),
        }
      : {}),
  };
}

/** To a millionth of a millimetre: sums leave no tail of digits in the file. */
function rounded(value_mm: number): number {
  return Math.round(value_mm * 1e6) / 1e6;
}
