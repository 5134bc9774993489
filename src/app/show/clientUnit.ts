/**
 * Lengths for a client are in the unit of the client's region, whatever the maker works in. Only what is shown: the piece in
 * the link, and in the answer, stays as it came.
 */
import type { Design } from '../../design/document.ts';
import { unitOfLanguages } from '../regions.ts';

/** The same for the same design, so that what was made for it stays good. */
const shown = new WeakMap<Design, Design>();

export function inClientsUnit(design: Design, languages = navigator.languages): Design {
  const unit = unitOfLanguages(languages);
  if (unit === design.unit) return design;
  const known = shown.get(design);
  if (known?.unit === unit) return known;
  const made = { ...design, unit };
  shown.set(design, made);
  return made;
}
