/** Messages about strips: their fit, wood too thin between two slots, strips that later cuts take away. */
import { blankSolid, reachesBlank } from '../blank/interference.ts';
import type { Slot } from '../blank/slots.ts';
import type { Design } from '../design/document.ts';
import { sameAzimuth, sinDeg } from '../geometry/angle.ts';
import type { Message } from './messages.ts';
import type { Measures } from './measures.ts';
import type { AsMade } from './made.ts';
import type { Setup } from './setups.ts';
import { ROUNDING_MM } from './thresholds.ts';
import { atLeast, mm, names, said } from './wording.ts';

/** Less wood than this between two slots breaks out when the second is cut. */
export const LEAST_WOOD_BETWEEN_MM = 1;

/** A part smaller than this share of the whole is nothing. */
const NOTHING = 1e-9;

export function stripMessages(design: Design, measures: Measures): Message[] {
  const blank = blankSolid(design.blank);
  const reaches = measures.slots.map((slot) => reachesBlank(slot, blank));
  return measures.slots.flatMap((slot, n) => [
    ...kerfMessages(measures.setups[n], measures.made[n], design.saw.strip_tolerance_mm),
    ...fitMessages(measures.made[n].fit_mm, slot, design.saw.strip_tolerance_mm),
    ...(reaches[n] ? [...spacingMessages(measures.slots, n, reaches), ...remainsMessages(measures, n)] : []),
  ]);
}

/** The slot came out, or will come out, of another width than designed: its strip is made for that. */
function kerfMessages({ kerf_mm }: Setup, made: AsMade, tolerance_mm: number): Message[] {
  const off_mm = made.kerf_mm - kerf_mm;
  if (Math.abs(off_mm) <= tolerance_mm + ROUNDING_MM) return [];
  const way = off_mm > 0 ? 'wider' : 'narrower';
  const kerf =
    made.kerfFrom === 'slot'
      ? said`The kerf of ${made.slot} measures ${mm(made.kerf_mm, 3)}`
      : said`The saw cuts ${made.slot} ${mm(made.kerf_mm, 3)} wide`;
  return [
    {
      level: 'note',
      code: 'kerf-differs',
      slot: made.slot,
      words: said`${kerf}, ${mm(Math.abs(off_mm), 3)} ${way} than designed, and so comes its ring${
        made.stripMeasured ? '.' : said`: make the strip ${mm(made.strip_mm, 3)} thick.`
      }`,
    },
  ];
}

function fitMessages(fit_mm: number, slot: Slot, tolerance_mm: number): Message[] {
  if (Math.abs(fit_mm) <= tolerance_mm + ROUNDING_MM) return [];
  const loose = fit_mm < 0;
  return [
    {
      level: 'warning',
      code: loose ? 'strip-loose' : 'strip-tight',
      slot: slot.id,
      words: said`The strip of ${slot.id} is ${mm(Math.abs(fit_mm), 3, { beside_mm: tolerance_mm })} ${loose ? 'thinner' : 'thicker'} than its kerf, more than the ${mm(tolerance_mm, 3)} that strips are held to: ${
        loose ? 'it shows a gap or a thick glue line.' : 'it will not go in, or it will wedge the web open.'
      }`,
    },
  ];
}

/** Wood between two slots of one face, angle and slope (at 90° of any slope), mm; null: they are not parallel. */
export function woodBetween_mm(a: Slot, b: Slot): number | null {
  if (!sameAzimuth(a.fenceAzimuth_deg, b.fenceAzimuth_deg)) return null;
  if (Math.abs(a.angle_deg - b.angle_deg) > 1e-9) return null;
  if (a.slope !== b.slope && a.angle_deg !== 90) return null;
  const apart_mm = sinDeg(a.angle_deg) * Math.abs(a.center_mm - b.center_mm);
  return apart_mm - (a.kerf_mm + b.kerf_mm) / 2;
}

/** Told once for the later of two slots; between slots that take no wood nothing is left or lost. */
function spacingMessages(slots: readonly Slot[], n: number, reaches: readonly boolean[]): Message[] {
  const close = slots.slice(0, n).flatMap((earlier, i) => {
    if (!reaches[i]) return [];
    const wood_mm = woodBetween_mm(earlier, slots[n]);
    return wood_mm !== null && wood_mm < LEAST_WOOD_BETWEEN_MM - ROUNDING_MM
      ? [{ id: earlier.id, wood_mm }]
      : [];
  });
  if (close.length === 0) return [];
  const least_mm = Math.min(...close.map(({ wood_mm }) => wood_mm));
  const others = names(close.map(({ id }) => id));
  const words =
    least_mm > ROUNDING_MM
      ? said`Between ${slots[n].id} and ${others} only ${mm(least_mm, 2, { beside_mm: LEAST_WOOD_BETWEEN_MM })} of wood is left; less than ${atLeast(LEAST_WOOD_BETWEEN_MM)} breaks out.`
      : said`${slots[n].id} leaves no wood between itself and ${others}: ${least_mm < -ROUNDING_MM ? said`they overlap by ${mm(-least_mm)}.` : 'they touch.'}`;
  return [{ level: 'warning', code: 'slots-too-close', slot: slots[n].id, words }];
}

/** For slots that take wood: one that never reaches the blank has a message of its own (sawMessages.ts). */
function remainsMessages({ slots, block, form }: Measures, n: number): Message[] {
  const { id } = slots[n];
  if (block.strips_mm3[n] <= Math.max(NOTHING * block.volume_mm3, block.error_mm3))
    return [
      {
        level: 'warning',
        code: 'strip-lost',
        slot: id,
        words: said`Nothing of the strip of ${id} is left: later cuts take all of it away.`,
      },
    ];
  if (!form || form.rings[n].zLow_mm === null) return [];
  if (form.coverage.strips_mm2[n] > NOTHING * form.coverage.outside_mm2) return [];
  return [
    {
      level: 'note',
      code: 'strip-unseen',
      slot: id,
      words: said`The strip of ${id} does not show on the outside: it is cut away or covered there.`,
    },
  ];
}
