/** Messages about the cut itself: where the kerf leaves the blank, the web, the fence, the blade. */
import { blankSolid, reachesBlank } from '../blank/interference.ts';
import type { Slot } from '../blank/slots.ts';
import type { Blank, Design } from '../design/document.ts';
import { grainOf } from '../design/grain.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { Message } from './messages.ts';
import type { Measures } from './measures.ts';
import { thinnestWeb_mm, type End, type Setup } from './setups.ts';
import { degrees, mm } from './wording.ts';

/** A web thinner than this may break in the cut. */
export const THINNEST_SOUND_WEB_MM = 1.5;

/** The same where the fibre runs across the axis, so that the web bends across its grain: our own choice, twice that. */
export const THINNEST_CROSS_GRAIN_WEB_MM = 3;

/** Rounding of a computed place is no fault of the design. */
const ROUNDING_MM = 1e-9;

export function sawMessages(design: Design, { slots, setups }: Measures): Message[] {
  const blank = blankSolid(design.blank);
  const { length_mm } = design.blank;
  return slots.flatMap((slot, n) => {
    const says = (code: Message['code'], text: string): Message => ({
      level: 'warning',
      code,
      slot: slot.id,
      text,
    });
    const messages: Message[] = [];
    if (!reachesBlank(slot, blank))
      messages.push(says('slot-misses', `${slot.id} does not reach the blank: it takes no wood at all.`));
    else messages.push(...endMessages(slot, length_mm));
    messages.push(
      ...webMessages(slot),
      ...crossGrainMessages(slot, design.blank),
      ...setupMessages(slot, setups[n], design),
    );
    return messages;
  });
}

/** How far the kerf reaches past an end of the blank at a distance u from the axis; null: it does not. */
function pastEnd(slot: Slot, u_mm: number, length_mm: number): { end: End; by_mm: number } | null {
  const sine = sinDeg(slot.angle_deg);
  const middle_mm = slot.center_mm + (slot.slope * cosDeg(slot.angle_deg) * u_mm) / sine;
  const half_mm = slot.kerf_mm / 2 / sine;
  const foot_mm = half_mm - middle_mm;
  const head_mm = middle_mm + half_mm - length_mm;
  if (Math.max(foot_mm, head_mm) <= ROUNDING_MM) return null;
  return foot_mm > head_mm ? { end: 'foot', by_mm: foot_mm } : { end: 'head', by_mm: head_mm };
}

function endMessages(slot: Slot, length_mm: number): Message[] {
  const atWeb = pastEnd(slot, slot.fenceSupport_mm - slot.web_mm, length_mm);
  if (atWeb)
    return [
      {
        level: 'warning',
        code: 'web-lost',
        slot: slot.id,
        text:
          `The kerf of ${slot.id} is ${mm(atWeb.by_mm)} past the ${atWeb.end} end where its web should be: ` +
          'no web is left and the blank falls in two at the saw.',
      },
    ];
  const atEntry = pastEnd(slot, -slot.fenceSupport_mm, length_mm);
  if (atEntry)
    return [
      {
        level: 'warning',
        code: 'slot-through-end',
        slot: slot.id,
        text:
          `On the entry side ${slot.id} leaves through the ${atEntry.end} end, ${mm(atEntry.by_mm)} past it: ` +
          'the strip lies open there and has less to hold on to.',
      },
    ];
  return [];
}

function webMessages(slot: Slot): Message[] {
  const thinnest_mm = thinnestWeb_mm(slot);
  if (slot.web_mm > 0 && thinnest_mm >= THINNEST_SOUND_WEB_MM - ROUNDING_MM) return [];
  const text =
    slot.web_mm === 0
      ? `${slot.id} leaves no web: the blank falls in two at the saw.`
      : thinnest_mm <= 0
        ? `The web of ${slot.id} is ${mm(slot.web_mm)}, but the corner of its kerf breaks through the fence face.`
        : `The web of ${slot.id} is only ${mm(thinnest_mm)} at its thinnest; from ${mm(THINNEST_SOUND_WEB_MM)} it holds.`;
  return [{ level: 'warning', code: 'web-thin', slot: slot.id, text }];
}

/** A web that is sound along the grain but short-grained where the fibre runs across the axis. */
function crossGrainMessages(slot: Slot, blank: Blank): Message[] {
  if (grainOf(blank).along === 'axis') return [];
  const thinnest_mm = thinnestWeb_mm(slot);
  const thin = thinnest_mm < THINNEST_SOUND_WEB_MM - ROUNDING_MM;
  if (thin || thinnest_mm >= THINNEST_CROSS_GRAIN_WEB_MM - ROUNDING_MM) return [];
  return [
    {
      level: 'warning',
      code: 'web-cross-grain',
      slot: slot.id,
      text:
        `The fibre runs across the blank, so the web of ${slot.id}, ${mm(thinnest_mm)} at its thinnest, is short-grained ` +
        `and may snap; leave ${mm(THINNEST_CROSS_GRAIN_WEB_MM)} or more.`,
    },
  ];
}

function setupMessages(slot: Slot, setup: Setup, { blank, saw }: Design): Message[] {
  const messages: Message[] = [];
  const warn = (code: Message['code'], text: string) =>
    messages.push({ level: 'warning', code, slot: slot.id, text });
  if (slot.angle_deg < saw.fence_min_deg || slot.angle_deg > saw.fence_max_deg)
    warn(
      'angle-out-of-range',
      `${slot.id} asks for ${degrees(slot.angle_deg)} between blade and fence; ` +
        `the fence goes from ${degrees(saw.fence_min_deg)} to ${degrees(saw.fence_max_deg)}.`,
    );
  if (setup.face === null)
    warn(
      'face-not-flat',
      (blank.section.shape === 'round' ? 'A round blank has no flat' : 'The blank has no flat') +
        ` at azimuth ${degrees(slot.fenceAzimuth_deg)} for the fence: ` +
        `hold it in a cradle with an index mark to cut ${slot.id}.`,
    );
  if (setup.cut_height_mm > saw.max_cut_height_mm + ROUNDING_MM)
    warn(
      'blank-too-tall',
      `The blank stands ${mm(setup.cut_height_mm)} high for ${slot.id}; ` +
        `the saw clears ${mm(saw.max_cut_height_mm)}.`,
    );
  return messages;
}
