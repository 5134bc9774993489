/** The work as a value: variants of the design, and which one is edited. Angles degrees. */
import type { Design } from '../design/document.ts';
import { faultLine } from '../design/faults.ts';
import { formatAngle } from '../design/lengthText.ts';
import { setChoice } from '../design/offerEdits.ts';
import { checkDesign } from '../design/parse.ts';
import { isSameSaw } from '../design/sawEdits.ts';
import type { Variant, Work } from '../panels/bench.ts';

export const MAX_VARIANTS = 4;

export function workOf(design: Design): Work {
  return { variants: [{ id: 'v1', name: 'Variant 1', design }], active: 0 };
}

/** The work and a copy of its active variant, which is then the active one; the same work when it is full. */
export function withAnotherVariant(work: Work): Work {
  const { variants, active } = work;
  if (variants.length >= MAX_VARIANTS) return work;
  const design = setChoice(variants[active].design, null);
  const copy = { id: freshId(variants), name: freshName(variants), design };
  return { variants: [...variants, copy], active: variants.length };
}

function freshId(variants: readonly Variant[]): string {
  for (let n = 1; ; n++) if (!variants.some(({ id }) => id === `v${n}`)) return `v${n}`;
}

function freshName(variants: readonly Variant[]): string {
  for (let n = variants.length + 1; ; n++)
    if (!variants.some(({ name }) => name === `Variant ${n}`)) return `Variant ${n}`;
}

/** The design as it is, and its sets of one angle at each of the others. */
export function angleVariants(design: Design, of_deg: number, at_deg: readonly number[]): Work {
  const at = (angle_deg: number): Design =>
    angle_deg === of_deg
      ? design
      : {
          ...design,
          sets: design.sets.map((set) => (set.angle_deg === of_deg ? { ...set, angle_deg } : set)),
        };
  const angles = at_deg.includes(of_deg) ? at_deg : [of_deg, ...at_deg];
  const variants = angles.map((angle_deg, i) => ({
    id: `v${i + 1}`,
    name: formatAngle(angle_deg),
    design: at(angle_deg),
  }));
  return { variants, active: angles.indexOf(of_deg) };
}

export function activeDesign(work: Work): Design {
  return work.variants[work.active].design;
}

/**
 * The work with another document in its active variant; the same work when the document is the same. The saw is the
 * maker's, not a variant's: where it changes, the variants that were for the same saw are for the new one.
 */
export function withDesign(work: Work, design: Design): Work {
  const active = work.variants[work.active];
  const { saw } = active.design;
  if (design === active.design) return work;
  const variants = work.variants.map((variant): Variant => {
    if (variant === active) return { ...variant, design };
    return !isSameSaw(design.saw, saw) && isSameSaw(variant.design.saw, saw)
      ? { ...variant, design: { ...variant.design, saw: design.saw } }
      : variant;
  });
  return { ...work, variants };
}

/** Why a changed variant is no valid design, or null. Variants that did not change are taken as they are. */
export function firstFault(before: Work, after: Work): string | null {
  for (const variant of after.variants) {
    if (before.variants.some((known) => known.design === variant.design)) continue;
    const result = checkDesign(variant.design);
    if (!result.ok) return result.faults.map(faultLine)[0] ?? 'this is no valid design';
  }
  return null;
}
