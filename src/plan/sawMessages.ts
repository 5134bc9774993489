/** Messages about the cut itself: where the kerf leaves the blank, the web, fence or table, the blade. */
import { blankSolid, reachesBlank } from '../blank/interference.ts';
import type { Slot } from '../blank/slots.ts';
import type { Blank, Design } from '../design/document.ts';
import { grainOf } from '../design/grain.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import { dot } from '../geometry/vector.ts';
import type { Message } from './messages.ts';
import type { Measures } from './measures.ts';
import type { End, Setup } from './setups.ts';
import type { AsMade } from './made.ts';
import { tableMessages } from './tableMessages.ts';
import { ROUNDING_MM, THINNEST_CROSS_GRAIN_WEB_MM, THINNEST_SOUND_WEB_MM } from './thresholds.ts';
import { throatFault } from './throat.ts';
import { degrees, mm, noFlat } from './wording.ts';

export { THINNEST_SOUND_WEB_MM };

export function sawMessages(design: Design, { slots, setups, made }: Measures): Message[] {
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
    const setup = setups[n];
    const reaches = reachesBlank(slot, blank);
    if (!reaches)
      messages.push(says('slot-misses', `${slot.id} does not reach the blank: it takes no wood at all.`));
    else if (setup.table === null) messages.push(...endMessages(slot, length_mm));
    messages.push(
      ...(setup.table === null
        ? [...webMessages(made[n]), ...fenceMessages(slot, setup, design)]
        : tableMessages(slot, setup, setup.table, made[n], design, reaches)),
      ...crossGrainMessages(slot, made[n], design.blank),
      ...setupMessages(slot, setup, design),
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

function webMessages({ slot, web_mm, thinnest_web_mm: thinnest_mm }: AsMade): Message[] {
  if (web_mm > 0 && thinnest_mm >= THINNEST_SOUND_WEB_MM - ROUNDING_MM) return [];
  const text =
    web_mm === 0
      ? `${slot} leaves no web: the blank falls in two at the saw.`
      : thinnest_mm <= 0
        ? `The web of ${slot} is ${mm(web_mm)}, but the corner of its kerf breaks through the fence face.`
        : `The web of ${slot} is only ${mm(thinnest_mm)} at its thinnest; from ${mm(THINNEST_SOUND_WEB_MM)} it holds.`;
  return [{ level: 'warning', code: 'web-thin', slot, text }];
}

/**
 * A web that is sound along the grain but short-grained across it. At the fence: where the fibre runs across the axis.
 * Table tilted: where it runs more along the kerf than across, over 60° from the kerf's normal.
 */
function crossGrainMessages(slot: Slot, { thinnest_web_mm: thinnest_mm }: AsMade, blank: Blank): Message[] {
  const grain = grainOf(blank);
  const tilted = slot.cut === 'table';
  const bridged = tilted ? Math.abs(dot(grain.fibre, slot.normal)) >= 0.5 - 1e-9 : grain.along === 'axis';
  const thin = thinnest_mm < THINNEST_SOUND_WEB_MM - ROUNDING_MM;
  if (bridged || thin || thinnest_mm >= THINNEST_CROSS_GRAIN_WEB_MM - ROUNDING_MM) return [];
  const why = tilted
    ? `The fibre runs along the kerf of ${slot.id}, so its web`
    : `The fibre runs across the blank, so the web of ${slot.id}`;
  return [
    {
      level: 'warning',
      code: 'web-cross-grain',
      slot: slot.id,
      text:
        `${why}, ${mm(thinnest_mm)} at its thinnest, is short-grained ` +
        `and may snap; leave ${mm(THINNEST_CROSS_GRAIN_WEB_MM)} or more.`,
    },
  ];
}

function fenceMessages(slot: Slot, setup: Setup, { blank, saw }: Design): Message[] {
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
      `${noFlat(blank)} at azimuth ${degrees(slot.fenceAzimuth_deg)} for the fence: ` +
        `hold it in a cradle with an index mark to cut ${slot.id}.`,
    );
  return messages;
}

/** What limits every way of cutting: the height under the guide, the throat. */
function setupMessages(slot: Slot, setup: Setup, { saw }: Design): Message[] {
  const messages: Message[] = [];
  const say = (level: Message['level'], code: Message['code'], text: string) =>
    messages.push({ level, code, slot: slot.id, text });
  if (setup.cut_height_mm > saw.max_cut_height_mm + ROUNDING_MM)
    say(
      'warning',
      'blank-too-tall',
      setup.table === null
        ? `The blank stands ${mm(setup.cut_height_mm)} high for ${slot.id}; ` +
            `the saw clears ${mm(saw.max_cut_height_mm)}.`
        : `Along the blade ${slot.id} is ${mm(setup.cut_height_mm)} of wood; the saw clears ${mm(saw.max_cut_height_mm)}.`,
    );
  const throat = throatFault(setup, saw);
  if (throat) say(throat.level, 'throat-too-small', throat.text);
  return messages;
}
