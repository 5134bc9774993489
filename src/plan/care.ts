/**
 * What a client is told about looking after a piece, by its finish and timbers, until the maker writes something else.
 * Common practice of the trade; no claim that a finish is fit for food is made, because that is the finish's own label's.
 */
import type { Design, Finish } from '../design/document.ts';
import { timberById } from '../timber/timbers.ts';

const BY_FINISH: Readonly<Record<Finish, string>> = {
  raw: 'The wood is bare: it marks and darkens with use. Dust it dry; oil or wax it if you want to.',
  oiled: 'Dust it with a dry cloth. A little furnishing oil or wax once a year keeps the surface fed.',
  gloss: 'Dust it with a soft dry cloth. No polish with silicone, no scouring.',
};

const ALWAYS = 'Keep it out of direct sun, away from radiators, and out of the dishwasher.';

/** Colours that change in light within months (common practice). */
const CHANGES_COLOUR: Readonly<Record<string, string>> = {
  purpleheart: 'Purpleheart browns',
  'african-padauk': 'Padauk browns',
  bloodwood: 'Bloodwood darkens',
  'black-cherry': 'Cherry reddens',
};

/** A few sentences on the care of the piece. */
export function defaultCare(design: Design): string {
  const finish = design.form?.finish ?? 'oiled';
  const timbers = new Set(
    [design.blank.timber, ...design.sets.flatMap((set) => set.strip.layers.map((layer) => layer.timber))].map(
      (name) => timberById(name)?.id ?? name,
    ),
  );
  const changes = [...timbers].flatMap((id) => (id in CHANGES_COLOUR ? [CHANGES_COLOUR[id]] : []));
  const colour =
    changes.length > 0 ? ` ${changes.join(', ')} with the years in daylight; that is the wood’s nature.` : '';
  return `${BY_FINISH[finish]} ${ALWAYS}${colour}`;
}

/** The care note of the design: the maker's own, or what its finish and timbers ask for. */
export function careOf(design: Design): string {
  return design.offer?.care ?? defaultCare(design);
}
