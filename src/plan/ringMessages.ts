/** Messages about what the turned piece will show: rings that miss, break or run off, a form too large. */
import type { Ring } from '../blank/rings.ts';
import { sectionGeometry } from '../blank/section.ts';
import type { Design } from '../design/document.ts';
import type { Message } from './messages.ts';
import type { Measures } from './measures.ts';
import { ROUNDING_MM } from './thresholds.ts';
import { listed, listedWordings, mm, said, type Wording } from './wording.ts';

export function formMessages(design: Design, { form }: Measures): Message[] {
  if (!form) return [];
  const { blank } = design;
  const { r_mm, z_mm } = form.profile;
  const section = sectionGeometry(blank.section);
  const radius_mm = r_mm.reduce((most, r) => Math.max(most, r), 0);
  const low_mm = z_mm.reduce((least, z) => Math.min(least, z), Infinity);
  const high_mm = z_mm.reduce((most, z) => Math.max(most, z), -Infinity);
  const past: Wording[] = [];
  if (radius_mm > section.inscribedRadius_mm + ROUNDING_MM)
    past.push(
      said`${mm(radius_mm - section.inscribedRadius_mm)} past the nearest ${section.round ? 'side' : 'flat'} (radius ${mm(radius_mm, 2, { beside_mm: section.inscribedRadius_mm })}, blank ${mm(section.inscribedRadius_mm)} from the axis)`,
    );
  if (low_mm < -ROUNDING_MM) past.push(said`${mm(-low_mm)} past the foot end`);
  if (high_mm > blank.length_mm + ROUNDING_MM)
    past.push(said`${mm(high_mm - blank.length_mm)} past the head end`);
  if (past.length === 0) return [];
  return [
    {
      level: 'warning',
      code: 'form-outside-blank',
      slot: null,
      words: said`The form reaches ${listedWordings(past)}: there the blank's own surface remains.`,
    },
  ];
}

export function ringMessages({ form }: Measures): Message[] {
  return form ? form.rings.flatMap(messagesOfRing) : [];
}

function messagesOfRing(ring: Ring): Message[] {
  const says = (code: Message['code'], words: Wording): Message => ({
    level: 'warning',
    code,
    slot: ring.slot,
    words,
  });
  if (ring.zLow_mm === null)
    return [
      says('ring-misses', said`${ring.slot} does not reach the outside of the form: it shows no ring there.`),
    ];
  const messages: Message[] = [];
  if (!ring.whole) {
    const reasons: Wording[] = [];
    if (ring.missing_mm > 0)
      reasons.push(
        said`${mm(ring.missing_mm)} of its ${mm(ring.length_mm, 2, { beside_mm: ring.missing_mm })} lie in the web and show the blank's timber`,
      );
    if (!ring.closed) reasons.push(['it does not close on itself']);
    const notWhole = (why: readonly Wording[]) =>
      said`The ring of ${ring.slot} is not whole: ${listedWordings(why)}.`;
    // That a ring which runs off does not close is said by where it runs off.
    const inWeb = reasons.slice(0, ring.missing_mm > 0 ? 1 : 0);
    const beside = { 'ring-runs-off': inWeb.length > 0 ? notWhole(inWeb) : null };
    messages.push({ ...says('ring-not-whole', notWhole(reasons)), beside });
  }
  if (ring.runsOff.length > 0)
    messages.push(
      says(
        'ring-runs-off',
        said`The ring of ${ring.slot} runs off the outside at the ${listed(ring.runsOff)} ${ring.runsOff.length > 1 ? 'ends' : 'end'}.`,
      ),
    );
  return messages;
}
