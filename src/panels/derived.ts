/**
 * What panels show follows from the design; each fact is worked out once per document and remembered by the
 * parts of it that it depends on. Lathe frame, mm.
 */
import { coverageOf, type Coverage } from '../blank/coverage.ts';
import { crossingsOf, type Crossing } from '../blank/crossings.ts';
import { momentsOf, type Moment } from '../blank/moments.ts';
import { ringPaths, ringsOf, type Ring, type RingPath } from '../blank/rings.ts';
import { slotsOf, type Slot } from '../blank/slots.ts';
import type { Design, Form } from '../design/document.ts';
import { flattenOutline, type Profile } from '../geometry/outline.ts';
import { outsideLine, type OutsideLine } from '../blank/outsideLine.ts';

/** A function of a design that remembers its result for each document. */
function perDesign<T>(of: (design: Design) => T): (design: Design) => T {
  const known = new WeakMap<Design, { readonly value: T }>();
  return (design) => {
    const found = known.get(design);
    if (found) return found.value;
    const value = of(design);
    known.set(design, { value });
    return value;
  };
}

function perForm<T>(of: (form: Form) => T): (form: Form) => T {
  const known = new WeakMap<Form, { readonly value: T }>();
  return (form) => {
    const found = known.get(form);
    if (found) return found.value;
    const value = of(form);
    known.set(form, { value });
    return value;
  };
}

export const slotsFor: (design: Design) => readonly Slot[] = perDesign(slotsOf);
export const momentsFor: (design: Design) => readonly Moment[] = perDesign(momentsOf);
export const profileFor: (form: Form) => Profile = perForm((form) =>
  flattenOutline(form.outline, undefined, form.loop),
);
export const lineFor: (form: Form) => OutsideLine = perForm((form) => outsideLine(profileFor(form)));

/** Rings of a design; null when it is left square. */
export const ringsFor: (design: Design) => readonly Ring[] | null = perDesign((design) =>
  design.form ? ringsOf(slotsFor(design), profileFor(design.form)) : null,
);

export const crossingsFor: (design: Design) => readonly Crossing[] | null = perDesign((design) =>
  design.form ? crossingsOf(slotsFor(design), profileFor(design.form)) : null,
);

export const coverageFor: (design: Design) => Coverage | null = perDesign((design) =>
  design.form ? coverageOf(slotsFor(design), profileFor(design.form)) : null,
);

/** Centrelines of all rings, for drawing; null when the design is left square. */
export const pathsFor: (design: Design) => readonly (readonly RingPath[])[] | null = perDesign((design) => {
  const { form } = design;
  if (!form) return null;
  const slots = slotsFor(design);
  return slots.map((_, i) => ringPaths(slots, profileFor(form), i));
});
