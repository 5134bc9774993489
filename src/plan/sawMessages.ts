/** Messages about the cut itself: what its kind may want (fenceMessages.ts, tableMessages.ts), the grain of its web, the blade. */
import { blankSolid, reachesBlank } from '../blank/interference.ts';
import type { Slot } from '../blank/slots.ts';
import type { Blank, CutKind, Design, SlotId } from '../design/document.ts';
import { grainOf } from '../design/grain.ts';
import { dot } from '../geometry/vector.ts';
import type { Message } from './messages.ts';
import type { Measures } from './measures.ts';
import type { Setup } from './setups.ts';
import type { AsMade } from './made.ts';
import { fenceMessages, webPastEnd } from './fenceMessages.ts';
import { tableMessages } from './tableMessages.ts';
import { ROUNDING_MM, THINNEST_CROSS_GRAIN_WEB_MM, THINNEST_SOUND_WEB_MM } from './thresholds.ts';
import { throatFault } from './throat.ts';
import { atLeast, mm, said, type Length, type Wording } from './wording.ts';

export { THINNEST_SOUND_WEB_MM };

export function sawMessages(design: Design, { slots, setups, made }: Measures): Message[] {
  const blank = blankSolid(design.blank);
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
    messages.push(
      ...kindMessages(slot, setup, made[n], design, reaches),
      ...crossGrainMessages(slot, made[n], design.blank),
      ...setupMessages(slot, setup, design),
    );
    // Where there is no cut, or no web, nothing can be said of how the web stands.
    return reaches && !messages.some(({ code }) => code === 'web-lost')
      ? messages
      : messages.filter(({ code }) => code !== 'web-thin' && code !== 'web-cross-grain');
  });
}

function kindMessages(slot: Slot, setup: Setup, made: AsMade, design: Design, reaches: boolean): Message[] {
  switch (setup.cut) {
    case 'fence':
      return fenceMessages(slot, setup, made, design, reaches);
    case 'table':
      return tableMessages(slot, setup, made, design, reaches);
  }
}

/** Whether a slot that reaches the blank saws it in two: past an end where the web should be (table tilted: beside it). */
export function isWebLost(slot: Slot, made: AsMade, blank: Blank): boolean {
  if (!reachesBlank(slot, blankSolid(blank))) return false;
  switch (slot.cut) {
    case 'fence':
      return webPastEnd(slot, blank.length_mm);
    case 'table':
      return made.web_mm > 0 && made.thinnest_web_mm <= ROUNDING_MM;
  }
}

/** A web that is sound along the grain but short-grained across it. */
function crossGrainMessages(
  slot: Slot,
  { web_mm, webMeasured, thinnest_web_mm: thinnest_mm }: AsMade,
  blank: Blank,
): Message[] {
  const why = whyShortGrained(slot, blank);
  const thin = thinnest_mm < THINNEST_SOUND_WEB_MM - ROUNDING_MM;
  if (why === null || thin || thinnest_mm >= THINNEST_CROSS_GRAIN_WEB_MM - ROUNDING_MM) return [];
  return [
    {
      level: 'warning',
      code: 'web-cross-grain',
      slot: slot.id,
      words: said`${why}, ${mm(thinnest_mm, 2, { beside_mm: THINNEST_CROSS_GRAIN_WEB_MM })} at its thinnest, is short-grained and may snap; leave ${atLeast(THINNEST_CROSS_GRAIN_WEB_MM)} or more${webMeasured ? '' : said`, which takes a web of ${atLeast(web_mm + THINNEST_CROSS_GRAIN_WEB_MM - thinnest_mm)}`}.`,
    },
  ];
}

/**
 * At the fence: where the fibre runs across the axis. Table tilted: where it runs more along the kerf than across, over
 * 60° from the kerf's normal. null: the fibre bridges the kerf.
 */
function whyShortGrained(slot: Slot, blank: Blank): string | null {
  const grain = grainOf(blank);
  switch (slot.cut) {
    case 'fence':
      return grain.along === 'axis' ? null : `The fibre runs across the blank, so the web of ${slot.id}`;
    case 'table':
      return Math.abs(dot(grain.fibre, slot.normal)) >= 0.5 - 1e-9
        ? null
        : `The fibre runs along the kerf of ${slot.id}, so its web`;
  }
}

/** What limits every way of cutting: the height under the guide, the throat. */
function setupMessages(slot: Slot, setup: Setup, { saw }: Design): Message[] {
  const messages: Message[] = [];
  const say = (level: Message['level'], code: Message['code'], words: Wording) =>
    messages.push({ level, code, slot: slot.id, words });
  const height = mm(setup.cut_height_mm, 2, { beside_mm: saw.max_cut_height_mm });
  if (setup.cut_height_mm > saw.max_cut_height_mm + ROUNDING_MM)
    say('warning', 'blank-too-tall', TOO_TALL[setup.cut](slot.id, height, mm(saw.max_cut_height_mm)));
  const throat = throatFault(setup, saw);
  if (throat) say(throat.level, 'throat-too-small', throat.words);
  return messages;
}

const TOO_TALL: Readonly<Record<CutKind, (slot: SlotId, height: Length, clears: Length) => Wording>> = {
  fence: (slot, height, clears) =>
    said`The blank stands ${height} high for ${slot}; the saw clears ${clears}.`,
  table: (slot, height, clears) =>
    said`Along the blade ${slot} is ${height} of wood; the saw clears ${clears}.`,
};
