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
import { atLeast, degrees, mm, noFlat, said, type Wording } from './wording.ts';

export { THINNEST_SOUND_WEB_MM };

export function sawMessages(design: Design, { slots, setups, made }: Measures): Message[] {
  const blank = blankSolid(design.blank);
  const { length_mm } = design.blank;
  return slots.flatMap((slot, n) => {
    const says = (code: Message['code'], words: Wording): Message => ({
      level: 'warning',
      code,
      slot: slot.id,
      words,
    });
    const messages: Message[] = [];
    const setup = setups[n];
    const reaches = reachesBlank(slot, blank);
    if (!reaches)
      messages.push(says('slot-misses', said`${slot.id} does not reach the blank: it takes no wood at all.`));
    else if (setup.table === null) messages.push(...endMessages(slot, length_mm));
    messages.push(
      ...(setup.table === null
        ? [...webMessages(made[n]), ...fenceMessages(slot, setup, design)]
        : tableMessages(slot, setup, setup.table, made[n], design, reaches)),
      ...crossGrainMessages(slot, made[n], design.blank),
      ...setupMessages(slot, setup, design),
    );
    // Where there is no cut, or no web, nothing can be said of how the web stands.
    return reaches && !messages.some(({ code }) => code === 'web-lost')
      ? messages
      : messages.filter(({ code }) => code !== 'web-thin' && code !== 'web-cross-grain');
  });
}

/** Whether a slot that reaches the blank saws it in two: past an end where the web should be (table tilted: beside it). */
export function isWebLost(slot: Slot, made: AsMade, blank: Blank): boolean {
  if (!reachesBlank(slot, blankSolid(blank))) return false;
  return slot.cut === 'table'
    ? made.web_mm > 0 && made.thinnest_web_mm <= ROUNDING_MM
    : pastEnd(slot, slot.fenceSupport_mm - slot.web_mm, blank.length_mm) !== null;
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

/**
 * A web that is sound along the grain but short-grained across it. At the fence: where the fibre runs across the axis.
 * Table tilted: where it runs more along the kerf than across, over 60° from the kerf's normal.
 */
function crossGrainMessages(
  slot: Slot,
  { web_mm, webMeasured, thinnest_web_mm: thinnest_mm }: AsMade,
  blank: Blank,
): Message[] {
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
      words: said`${why}, ${mm(thinnest_mm, 2, { beside_mm: THINNEST_CROSS_GRAIN_WEB_MM })} at its thinnest, is short-grained and may snap; leave ${atLeast(THINNEST_CROSS_GRAIN_WEB_MM)} or more${webMeasured ? '' : said`, which takes a web of ${atLeast(web_mm + THINNEST_CROSS_GRAIN_WEB_MM - thinnest_mm)}`}.`,
    },
  ];
}

function fenceMessages(slot: Slot, setup: Setup, { blank, saw }: Design): Message[] {
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

/** What limits every way of cutting: the height under the guide, the throat. */
function setupMessages(slot: Slot, setup: Setup, { saw }: Design): Message[] {
  const messages: Message[] = [];
  const say = (level: Message['level'], code: Message['code'], words: Wording) =>
    messages.push({ level, code, slot: slot.id, words });
  const height = mm(setup.cut_height_mm, 2, { beside_mm: saw.max_cut_height_mm });
  if (setup.cut_height_mm > saw.max_cut_height_mm + ROUNDING_MM)
    say(
      'warning',
      'blank-too-tall',
      setup.table === null
        ? said`The blank stands ${height} high for ${slot.id}; the saw clears ${mm(saw.max_cut_height_mm)}.`
        : said`Along the blade ${slot.id} is ${height} of wood; the saw clears ${mm(saw.max_cut_height_mm)}.`,
    );
  const throat = throatFault(setup, saw);
  if (throat) say(throat.level, 'throat-too-small', throat.words);
  return messages;
}
