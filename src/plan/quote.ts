/**
 * What a piece costs by the maker's own rates: timber, hours, extras, markup and tax, each line rounded to the smallest
 * part of the currency, so that what is printed adds up. A price is the maker's decision; nothing here is advice on
 * taxes. Volumes m³, hours in hours, amounts in whole units of the currency.
 */
import type { Design, HourKind, Quote } from '../design/document.ts';
import { HOUR_KINDS } from '../design/document.ts';
import { sectionGeometry } from '../design/section.ts';
import { fromSmallest, inSmallest } from './money.ts';
import { sliceKerfOf_mm, stripGroups } from './strips.ts';
import { setupsOf } from './setups.ts';
import { timberName } from '../timber/names.ts';

export const DEFAULT_CURRENCY = 'EUR';

export interface TimberNeed {
  /** The name that the design uses. */
  readonly timber: string;
  /** Sawn wood before anything is cut: the blank, and the billets that the strips are sliced from. */
  readonly volume_m3: number;
}

export interface QuoteLine {
  readonly kind: 'timber' | 'hours' | 'extra' | 'markup' | 'tax' | 'rounding';
  readonly text: string;
  readonly amount: number;
}

export interface QuoteSum {
  readonly currency: string;
  readonly lines: readonly QuoteLine[];
  readonly price: number;
  /** Timbers that no price is given for: they are in the sum as nothing. */
  readonly unpriced: readonly string[];
}

const MM3_PER_M3 = 1e9;

/** Wood to buy, by timber, the blank's first. */
export function timberNeeds(design: Design): TimberNeed[] {
  const { section, length_mm, timber } = design.blank;
  const needs = new Map([[timber, sectionGeometry(section).area_mm2 * length_mm]]);
  for (const group of stripGroups(design, { sliceKerf_mm: sliceKerfOf_mm(design) })) {
    const { depth_mm, length_mm: along_mm, thickness_mm } = group.stock;
    needs.set(group.timber, (needs.get(group.timber) ?? 0) + depth_mm * along_mm * thickness_mm);
  }
  return Array.from(needs, ([name, volume_mm3]) => ({ timber: name, volume_m3: volume_mm3 / MM3_PER_M3 }));
}

/**
 * Where the estimate of hours starts, until the maker knows better: minutes of hands at work, without the time in the
 * clamps. Our own starting values, from no source.
 */
const MINUTES = {
  prepareBlank: 20,
  prepareStrip: 4,
  setUp: 10,
  cut: 5,
  glueUp: 10,
  turn: 45,
  turnPerLitre: 30,
  hollow: 30,
  finish: { raw: 10, oiled: 30, gloss: 90 },
} as const;
const QUARTER = 15;
const MM3_PER_LITRE = 1e6;

/** Hours of each part of the work as the plan proposes them, in quarters of an hour. `glueUps`: sessions of the plan. */
export function proposedHours(design: Design, glueUps: number): Record<HourKind, number> {
  const cuts = setupsOf(design);
  const settings = new Set(cuts.map((cut) => `${cut.fence_angle_deg} ${cut.stop_to_kerf_center_mm}`));
  const litres = (timberNeeds({ ...design, sets: [], order: [] })[0].volume_m3 * MM3_PER_M3) / MM3_PER_LITRE;
  const { form } = design;
  const minutes: Record<HourKind, number> = {
    prepare: MINUTES.prepareBlank + MINUTES.prepareStrip * cuts.length,
    saw: MINUTES.setUp * settings.size + MINUTES.cut * cuts.length,
    glue: MINUTES.glueUp * glueUps,
    turn: form ? MINUTES.turn + MINUTES.turnPerLitre * litres + (isHollow(design) ? MINUTES.hollow : 0) : 0,
    finish: MINUTES.finish[form?.finish ?? 'oiled'],
    other: 0,
  };
  const quarters = ([kind, value]: [string, number]) => [
    kind,
    Math.max(0, Math.ceil(value / QUARTER - 1e-9)) / 4,
  ];
  return Object.fromEntries(Object.entries(minutes).map(quarters)) as Record<HourKind, number>;
}

/** An inside: the outline comes back from the rim, or goes round off the axis. */
function isHollow({ form }: Design): boolean {
  if (!form) return false;
  const highest = Math.max(...form.outline.map(({ z_mm }) => z_mm));
  return form.loop === true || form.outline[form.outline.length - 1].z_mm < highest;
}

/** The hours that count: the maker's own where there are any. */
export function hoursOf(design: Design, glueUps: number): Record<HourKind, number> {
  return { ...proposedHours(design, glueUps), ...design.quote?.hours };
}

export const HOUR_NAMES: Readonly<Record<HourKind, string>> = {
  prepare: 'Preparing stock',
  saw: 'Sawing',
  glue: 'Gluing',
  turn: 'Turning',
  finish: 'Finishing',
  other: 'Other work',
};

/** The price of the design by its own quote. `glueUps`: sessions of the plan. */
export function quoteSum(design: Design, glueUps: number): QuoteSum {
  const quote: Quote = design.quote ?? {};
  const currency = quote.currency ?? design.offer?.currency ?? DEFAULT_CURRENCY;
  const lines: QuoteLine[] = [];
  let sum = 0;
  const add = (kind: QuoteLine['kind'], text: string, smallest: number): void => {
    sum += smallest;
    lines.push({ kind, text, amount: fromSmallest(smallest, currency) });
  };
  const prices = quote.timber_per_m3 ?? {};
  const unpriced: string[] = [];
  for (const { timber, volume_m3 } of timberNeeds(design)) {
    if (prices[timber] === undefined) unpriced.push(timber);
    else add('timber', timberName(timber), inSmallest(volume_m3 * prices[timber], currency));
  }
  const hours = hoursOf(design, glueUps);
  for (const kind of HOUR_KINDS)
    if (hours[kind] > 0)
      add('hours', HOUR_NAMES[kind], inSmallest(hours[kind] * (quote.hour_rate ?? 0), currency));
  for (const { text, amount } of quote.extras ?? []) add('extra', text, inSmallest(amount, currency));
  for (const [kind, percent] of [
    ['markup', quote.markup_percent ?? 0],
    ['tax', quote.tax_percent ?? 0],
  ] as const) {
    const share = Math.round(Number(((sum * percent) / 100).toPrecision(12)));
    if (percent > 0) add(kind, `${kind === 'tax' ? 'Tax' : 'Markup'}, ${percent} %`, share);
  }
  const step = inSmallest(quote.round_to ?? 0, currency);
  const rounded = step > 0 ? Math.ceil(sum / step) * step : sum;
  if (rounded !== sum) add('rounding', 'Rounded up', rounded - sum);
  return { currency, lines, price: fromSmallest(sum, currency), unpriced };
}
