/** Carries form and rings along when the blank changes its size. Lengths mm. */
import type { Design } from '../../design/document.ts';
import { scaledForm } from '../../design/formEdits.ts';
import { sectionGeometry } from '../../design/section.ts';

/**
 * The design after a change of its blank, with the places along the axis scaled by the length and the radii of
 * the form by the section's largest circle. Kerfs, webs and strips keep their sizes.
 */
export function scaledToBlank(before: Design, after: Design): Design {
  const along = after.blank.length_mm / before.blank.length_mm;
  const across =
    sectionGeometry(after.blank.section).inscribedRadius_mm /
    sectionGeometry(before.blank.section).inscribedRadius_mm;
  if (along === 1 && across === 1) return after;
  const scaled = (value: number, by: number) => Math.round(value * by * 1e4) / 1e4;
  return {
    ...after,
    sets: after.sets.map((set) => ({ ...set, center_mm: scaled(set.center_mm, along) })),
    form: after.form && scaledForm(after.form, along, across),
  };
}
