/** Messages about cuts at the fence: where the kerf leaves the blank, the web, the angle and the face at the fence. */
import type { Slot } from '../blank/slots.ts';
import type { Design } from '../design/document.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { AsMade } from './made.ts';
import type { Message } from './messages.ts';
import type { End, Setup } from './setups.ts';
import { ROUNDING_MM, THINNEST_SOUND_WEB_MM } from './thresholds.ts';
import { atLeast, degrees, mm, noFlat, said, type Wording } from './wording.ts';

/** Messages of a slot cut at the fence; `reaches`: it takes wood from the blank. */
export function fenceMessages(
  slot: Slot,
  setup: Setup,
  made: AsMade,
  design: Design,
  reaches: boolean,
): Message[] {
  return [
    ...(reaches ? endMessages(slot, design.blank.length_mm) : []),
    ...webMessages(made),
    ...jigMessages(slot, setup, design),
  ];
}

/** Whether the kerf reaches past an end of the blank where the web should be. */
export function webPastEnd(slot: Slot, length_mm: number): boolean {
  return pastEnd(slot, slot.fenceSupport_mm - slot.web_mm, length_mm) !== null;
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
        words: said`The kerf of ${slot.id} is ${mm(atWeb.by_mm)} past the ${atWeb.end} end where its web should be: no web is left and the blank falls in two at the saw.${webRemedy(slot, atWeb, length_mm)}`,
      },
    ];
  const atEntry = pastEnd(slot, -slot.fenceSupport_mm, length_mm);
  if (atEntry)
    return [
      {
        level: 'warning',
        code: 'slot-through-end',
        slot: slot.id,
        words: said`On the entry side ${slot.id} leaves through the ${atEntry.end} end, ${mm(atEntry.by_mm)} past it: the strip lies open there and has less to hold on to.`,
      },
    ];
  return [];
}

/** The least shift of the set, and the least wood at the end, that leave the web. */
function webRemedy(slot: Slot, { end, by_mm }: { end: End; by_mm: number }, length_mm: number): Wording {
  const toward = end === 'foot' ? 'head' : 'foot';
  const moved = { ...slot, center_mm: slot.center_mm + (end === 'foot' ? by_mm : -by_mm) };
  const more = said`leave ${atLeast(by_mm)} more wood at the ${end} end`;
  return pastEnd(moved, slot.fenceSupport_mm - slot.web_mm, length_mm) === null
    ? said` Move its set ${atLeast(by_mm)} toward the ${toward}, or ${more}.`
    : said` For a web ${more}.`;
}

function webMessages({ slot, web_mm, webMeasured, thinnest_web_mm: thinnest_mm }: AsMade): Message[] {
  if (web_mm > 0 && thinnest_mm >= THINNEST_SOUND_WEB_MM - ROUNDING_MM) return [];
  const words =
    web_mm === 0
      ? said`${slot} leaves no web: the blank falls in two at the saw.`
      : thinnest_mm <= 0
        ? said`The web of ${slot} is ${mm(web_mm)}, but the corner of its kerf breaks through the fence face.`
        : said`The web of ${slot} is only ${mm(thinnest_mm, 2, { beside_mm: THINNEST_SOUND_WEB_MM })} at its thinnest; from ${atLeast(THINNEST_SOUND_WEB_MM)} it holds${webMeasured ? '' : said`, which takes a web of ${atLeast(web_mm + THINNEST_SOUND_WEB_MM - thinnest_mm)}`}.`;
  return [{ level: 'warning', code: 'web-thin', slot, words }];
}

function jigMessages(slot: Slot, setup: Setup, { blank, saw }: Design): Message[] {
  const messages: Message[] = [];
  const warn = (code: Message['code'], words: Wording) =>
    messages.push({ level: 'warning', code, slot: slot.id, words });
  if (slot.angle_deg < saw.fence_min_deg || slot.angle_deg > saw.fence_max_deg)
    warn(
      'angle-out-of-range',
      said`${slot.id} asks for ${degrees(slot.angle_deg, slot.angle_deg < saw.fence_min_deg ? saw.fence_min_deg : saw.fence_max_deg)} between blade and fence; the fence goes from ${degrees(saw.fence_min_deg)} to ${degrees(saw.fence_max_deg)}.`,
    );
  if (setup.face === null)
    warn(
      'face-not-flat',
      said`${noFlat(blank)} at azimuth ${degrees(slot.fenceAzimuth_deg)} for the fence: hold it in a cradle with an index mark to cut ${slot.id}.`,
    );
  return messages;
}
