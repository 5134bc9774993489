/** Messages about cuts with the table tilted: the web, where the kerf leaves the blank, how the table tilts. */
import { faceLetterAt, sectionGeometry, support_mm } from '../blank/section.ts';
import type { Slot } from '../blank/slots.ts';
import type { Design } from '../design/document.ts';
import { cosDeg } from '../geometry/angle.ts';
import type { AsMade } from './made.ts';
import type { Message } from './messages.ts';
import { ROUNDING_MM, THINNEST_SOUND_WEB_MM } from './thresholds.ts';
import type { SetupOnTable } from './setups.ts';
import { traceAtEnd_mm } from './tableSetup.ts';
import { atLeast, degrees, mm, noFlat, said, type Wording } from './wording.ts';

/** Messages of a slot cut with the table tilted; `reaches`: it takes wood from the blank. */
export function tableMessages(
  slot: Slot,
  setup: SetupOnTable,
  made: AsMade,
  design: Design,
  reaches: boolean,
): Message[] {
  const { saw } = design;
  const messages: Message[] = [];
  const say = (level: Message['level'], code: Message['code'], words: Wording) =>
    messages.push({ level, code, slot: slot.id, words });
  if (reaches) {
    const web = webFault(made);
    if (web) say('warning', web.code, web.words);
    for (const { level, words } of sideFaults(slot, setup, design)) say(level, 'slot-through-side', words);
  }
  if (slot.angle_deg > saw.table_tilt_max_deg)
    say(
      'warning',
      'angle-out-of-range',
      said`${slot.id} asks for a tilt of ${degrees(slot.angle_deg, saw.table_tilt_max_deg)}; the table tilts to ${degrees(saw.table_tilt_max_deg)}.`,
    );
  if (setup.face === null)
    say(
      'warning',
      'face-not-flat',
      said`${noFlat(design.blank)} at azimuth ${degrees(slot.fenceAzimuth_deg)} for the ledge: turn it to an index mark and hold it between two blocks to cut ${slot.id}.`,
    );
  // Flat on the table it cannot be cut whichever way the table tilts.
  if (setup.table.tilts === 'left' && slot.angle_deg < 90)
    say(
      'note',
      'tilts-left',
      said`${slot.id} wants the left side of the table down, where most tables tilt little: with the web on the other side it is cut with the right side down.`,
    );
  return messages;
}

function webFault({
  slot,
  web_mm,
  thinnest_web_mm: left_mm,
}: AsMade): { code: Message['code']; words: Wording } | null {
  if (web_mm === 0)
    return { code: 'web-thin', words: said`${slot} leaves no web: the blank falls in two at the saw.` };
  if (left_mm <= ROUNDING_MM)
    return {
      code: 'web-lost',
      words: said`Where ${slot} should leave its web the blank has no wood beside the kerf: no web is left and the blank falls in two at the saw.`,
    };
  if (left_mm >= THINNEST_SOUND_WEB_MM - ROUNDING_MM) return null;
  return {
    code: 'web-thin',
    words: said`The web of ${slot} is only ${mm(left_mm, 2, { beside_mm: THINNEST_SOUND_WEB_MM })} where it is thickest; from ${atLeast(THINNEST_SOUND_WEB_MM)} it holds.`,
  };
}

/** The kerf leaves through a side before it comes to an end: at the ledge the blade would meet it. */
function sideFaults(
  slot: Slot,
  setup: SetupOnTable,
  { blank }: Design,
): { level: Message['level']; words: Wording }[] {
  const ends = [
    { end: 'foot', z: 0 },
    { end: 'head', z: blank.length_mm },
  ] as const;
  const half_mm = slot.kerf_mm / 2 / cosDeg(slot.angle_deg);
  const section = sectionGeometry(blank.section);
  const far_mm = support_mm(section, slot.fenceAzimuth_deg + 180);
  const farFace = faceLetterAt(section, slot.fenceAzimuth_deg + 180);
  return ends.flatMap(({ end, z }): { level: Message['level']; words: Wording }[] => {
    const trace_mm = traceAtEnd_mm(slot, z);
    const down = end === setup.table.end_down;
    const side = (letter: string | null, other: string) => (letter === null ? other : `face ${letter}`);
    if (trace_mm === null)
      return down
        ? [
            {
              level: 'warning',
              words: said`${slot.id} lies flat on the table: the blade cannot come to it.`,
            },
          ]
        : [];
    if (trace_mm + half_mm > slot.fenceSupport_mm + ROUNDING_MM)
      return [
        {
          level: 'warning',
          words: said`${slot.id} leaves through ${side(setup.face, 'the side at the ledge')} before it comes to the ${end}: the blade would meet the ledge; hold the blank by its far side.`,
        },
      ];
    if (trace_mm - half_mm < -far_mm - ROUNDING_MM)
      return [
        {
          level: 'note',
          words: said`${slot.id} leaves through ${side(farFace, 'the far side')} before it comes to the ${end}: its mark is not on that end.`,
        },
      ];
    return [];
  });
}
