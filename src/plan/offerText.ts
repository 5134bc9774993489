/** A piece in the words of an offer: what it is made of, how large it is, what it costs. */
import type { Design, DisplayUnit, Offer } from '../design/document.ts';
import { dateText } from '../design/dates.ts';
import { MM_PER_INCH } from '../design/units.ts';
import { flattenOutline } from '../geometry/outline.ts';
import { moneyText } from './money.ts';
import { inSentence, shortTimberName } from '../timber/names.ts';

/** `Black walnut, 8 rings of hard maple and wenge`. */
export function madeOf(design: Design): string {
  const strips = new Set(
    design.sets.flatMap((set) => set.strip.layers.map(({ timber }) => inSentence(shortTimberName(timber)))),
  );
  const body = shortTimberName(design.blank.timber);
  const rings = design.order.length;
  if (strips.size === 0) return body;
  return `${body}, ${rings} ring${rings === 1 ? '' : 's'} of ${listed([...strips])}`;
}

function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

/** Height and greatest width of the finished piece, mm. */
export function sizeOf({ form, blank }: Design): { readonly height_mm: number; readonly width_mm: number } {
  if (!form) {
    // Across the faces, as a blank is measured: nobody speaks of its diagonal.
    const { width_mm, depth_mm = width_mm } = blank.section;
    return { height_mm: blank.length_mm, width_mm: Math.max(width_mm, depth_mm) };
  }
  const { z_mm, r_mm } = flattenOutline(form.outline, undefined, form.loop);
  return { height_mm: Math.max(...z_mm) - Math.min(...z_mm), width_mm: 2 * Math.max(...r_mm) };
}

/** `203 mm high, 62 mm wide` or `8 in high, 2.4 in wide`: to the millimetre or the tenth of an inch, as one speaks of it. */
export function sizeText(design: Design): string {
  const { height_mm, width_mm } = sizeOf(design);
  return `${spokenLength(height_mm, design.unit)} high, ${spokenLength(width_mm, design.unit)} wide`;
}

/** `203 mm`, `12.5 mm`, `7.5 in`: to the millimetre (tenths under 20) or the tenth of an inch. */
export function spokenLength(length_mm: number, unit: DisplayUnit): string {
  return unit === 'mm'
    ? `${Number(length_mm.toFixed(length_mm < 20 ? 1 : 0))} mm`
    : `${Number((length_mm / MM_PER_INCH).toFixed(1))} in`;
}

/** `€240.50`; null where no price is given. */
export function priceText(offer: Offer | undefined): string | null {
  if (offer?.price === undefined || offer.currency === undefined) return null;
  return moneyText(offer.price, offer.currency);
}

/** What stands under a price: taxes, delivery, how long it holds; `today` (as in a design): whether it still does. */
export function termsOf(offer: Offer | undefined, today?: string): string[] {
  const terms = [offer?.tax, offer?.delivery];
  if (offer?.valid_until !== undefined) {
    const until = `Offered until ${dateText(offer.valid_until)}`;
    const over = today !== undefined && offer.valid_until < today;
    terms.push(over ? `${until}: that day has passed, ask whether the offer still holds` : until);
  }
  return terms.filter((term) => term !== undefined && term !== '') as string[];
}
