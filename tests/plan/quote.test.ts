/**
 * The maker's sum against examples worked by hand. Numbers of decimals: ISO 4217 (JPY has none, KWD three; from memory).
 * Signs: Unicode CLDR for English, from memory. A board foot is 144 cubic inches (common practice).
 */
import { describe, expect, it } from 'vitest';
import { BOARD_FEET_PER_M3, amountQuantity, HOURS, PERCENT } from '../../src/app/show/amounts.ts';
import type { Design, Quote } from '../../src/design/document.ts';
import { defaultCare } from '../../src/plan/care.ts';
import { decimalsOf, inSmallest, moneyText } from '../../src/plan/money.ts';
import { madeOf, sizeText, termsOf } from '../../src/plan/offerText.ts';
import { hoursOf, proposedHours, quoteSum, timberNeeds } from '../../src/plan/quote.ts';
import { cylinderForm, fourRings, hollowForm, slotSet } from '../fixtures/designs.ts';

/** A plain block of 100 × 100 × 200 mm: two litres of walnut, nothing cut. */
const BLOCK = fourRings({ section: { shape: 'square', width_mm: 100 }, length_mm: 200, sets: [], order: [] });
const HOURS_GIVEN = { prepare: 1, saw: 2, glue: 0.5, turn: 1.5, finish: 1, other: 0 };

function priced(quote: Quote, design: Design = BLOCK): Design {
  return { ...design, quote };
}

describe('the sum', () => {
  it('adds timber, hours and extras, then markup, then tax, then rounds up', () => {
    const sum = quoteSum(
      priced({
        currency: 'EUR',
        hour_rate: 38,
        hours: HOURS_GIVEN,
        timber_per_m3: { 'black-walnut': 3600 },
        extras: [{ text: 'Box', amount: 8 }],
        markup_percent: 12.5,
        tax_percent: 20,
        round_to: 5,
      }),
      0,
    );
    // 0.002 m³ × 3600 = 7.20; 6 h × 38 = 228; + 8 = 243.20; × 12.5 % = 30.40; 273.60 × 20 % = 54.72; 328.32 → 330.
    expect(sum.lines.map(({ text, amount }) => [text, amount])).toEqual([
      ['Black walnut', 7.2],
      ['Preparing stock', 38],
      ['Sawing', 76],
      ['Gluing', 19],
      ['Turning', 57],
      ['Finishing', 38],
      ['Box', 8],
      ['Markup, 12.5 %', 30.4],
      ['Tax, 20 %', 54.72],
      ['Rounded up', 1.68],
    ]);
    expect(sum.price).toBe(330);
    expect(sum.unpriced).toEqual([]);
  });

  it('rounds every line to the smallest part, half of one up, so that the lines add up', () => {
    // 0.35 h × 41.50 = 14.525, which a double holds as 14.52499…; 3 × 0.005 = 0.015 → 0.02.
    const sum = quoteSum(
      priced({
        currency: 'EUR',
        hour_rate: 41.5,
        hours: { ...HOURS_GIVEN, prepare: 0.35 },
        extras: [{ text: 'x', amount: 0.015 }],
      }),
      0,
    );
    expect(sum.lines.find(({ text }) => text === 'Preparing stock')?.amount).toBe(14.53);
    expect(sum.lines.find(({ text }) => text === 'x')?.amount).toBe(0.02);
    // 14.53 + 83 + 20.75 + 62.25 + 41.50 + 0.02
    expect(sum.price).toBe(222.05);
  });

  it('counts in whole yen and in thousandths of a dinar', () => {
    const yen = quoteSum(priced({ currency: 'JPY', hour_rate: 4001, hours: HOURS_GIVEN, round_to: 1000 }), 0);
    // 4001 + 8002 + 2000.5 → 2001 + 6001.5 → 6002 + 4001 = 24007 → 25000.
    expect(yen.lines.map(({ amount }) => amount)).toEqual([4001, 8002, 2001, 6002, 4001, 993]);
    expect(yen.price).toBe(25_000);
    const dinar = quoteSum(
      priced({ currency: 'KWD', hour_rate: 0.0015, hours: { ...HOURS_GIVEN, turn: 1 } }),
      0,
    );
    // 0.0015 → 0.002; 0.003; 0.00075 → 0.001; 0.0015 → 0.002; 0.002.
    expect(dinar.price).toBe(0.01);
  });

  it('says which timber has no price, and takes it as nothing', () => {
    const sum = quoteSum(
      { ...fourRings(), quote: { currency: 'USD', timber_per_m3: { 'hard-maple': 2400 } } },
      4,
    );
    expect(sum.unpriced).toEqual(['black-walnut']);
    expect(sum.lines.filter(({ kind }) => kind === 'timber').map(({ text }) => text)).toEqual([
      'Hard (sugar) maple',
    ]);
  });

  it('is exact however large: a price that is a multiple stays as it is', () => {
    const even = quoteSum(
      priced({ currency: 'EUR', hours: HOURS_GIVEN, extras: [{ text: 'x', amount: 330 }], round_to: 5 }),
      0,
    );
    expect([even.price, even.lines.some(({ kind }) => kind === 'rounding')]).toEqual([330, false]);
  });
});

describe('the wood that is bought', () => {
  it('is the blank and the billets of the strips', () => {
    const needs = timberNeeds(fourRings());
    expect(needs.map(({ timber }) => timber)).toEqual(['black-walnut', 'hard-maple']);
    expect(needs[0].volume_m3).toBeCloseTo(0.0762 ** 2 * 0.2032, 12);
    // The model's formulas: d = (2h − w)/sin θ; strip depth = d + (k/2) cot θ + overhang; length = 76.2 + 2 × overhang;
    // five slices (four and one spare) and four cuts between them, each 1.016.
    const depth = (76.2 - 2.54) * Math.SQRT2 + 1.016 / 2 + 3;
    expect(needs[1].volume_m3).toBeCloseTo(depth * (76.2 + 6) * (9 * 1.016) * 1e-9, 12);
  });

  it('is a cylinder for a round blank', () => {
    const [need] = timberNeeds(
      fourRings({ section: { shape: 'round', width_mm: 80 }, length_mm: 50, sets: [], order: [] }),
    );
    expect(need.volume_m3).toBeCloseTo(Math.PI * 0.04 ** 2 * 0.05, 12);
  });
});

describe('the hours proposed', () => {
  it('follow from cuts, set-ups, glue-ups and size, in quarters', () => {
    // Four cuts of one setting, four glue-ups; 1.18 litres of block; solid; oiled:
    // 20 + 4·4 = 36 → ¾ h; 10 + 4·5 = 30 → ½ h; 4·10 = 40 → ¾ h; 45 + 30·1.18 = 80.4 → 1½ h; 30 → ½ h.
    expect(proposedHours(fourRings(), 4)).toEqual({
      prepare: 0.75,
      saw: 0.5,
      glue: 0.75,
      turn: 1.5,
      finish: 0.5,
      other: 0,
    });
  });

  it('grow with a hollow and a finish that takes longer; a block that is left square is not turned', () => {
    const form = hollowForm(203.2, 30, 5, 8);
    expect(proposedHours(fourRings({ form: { ...form, finish: 'gloss' } }), 4)).toMatchObject({
      turn: 2,
      finish: 1.5,
    });
    expect(proposedHours(fourRings({ form: null }), 4)).toMatchObject({ turn: 0 });
  });

  it('give way to the maker’s own, one by one', () => {
    const own = { ...fourRings(), quote: { hours: { turn: 3.25 } } };
    expect(hoursOf(own, 4)).toEqual({ ...proposedHours(fourRings(), 4), turn: 3.25 });
  });
});

describe('an amount', () => {
  it('is written as the currency is', () => {
    expect(moneyText(240.5, 'EUR')).toBe('€240.50');
    expect(moneyText(12_000, 'JPY')).toBe('¥12,000');
    expect(moneyText(95, 'CAD')).toBe('CA$95.00');
    expect(moneyText(1.5, 'KWD').replace(/\s/, ' ')).toBe('KWD 1.500');
    expect(moneyText(5, 'XQZ').replace(/\s/, ' ')).toBe('XQZ 5.00');
    expect([decimalsOf('EUR'), decimalsOf('JPY'), decimalsOf('KWD')]).toEqual([2, 0, 3]);
    expect([inSmallest(1.005, 'EUR'), inSmallest(0.5, 'JPY'), inSmallest(1e9, 'KWD')]).toEqual([
      101, 1, 1e12,
    ]);
  });

  it('is read with a point, a comma and its sign, and with nothing else', () => {
    const read = (text: string) => {
      const typed = amountQuantity('EUR').parse(text);
      return typed.ok ? typed.value : null;
    };
    expect(['240.5', '240,50', '€ 1,240.50', '1,240', '12 EUR', '.5'].map(read)).toEqual([
      240.5, 240.5, 1240.5, 1240, 12, 0.5,
    ]);
    expect(['', '-5', '1e3', 'ten', '1,2,3', '5 USD', 'NaN', 'Infinity'].map(read)).toEqual(
      Array(8).fill(null),
    );
    expect(HOURS.parse('1,5 h')).toEqual({ ok: true, value: 1.5 });
    expect(PERCENT.format(12.5)).toBe('12.5 %');
    expect(BOARD_FEET_PER_M3).toBeCloseTo(423.776, 3);
  });
});

describe('the words for a client', () => {
  it('say what it is made of, and how large and heavy it is', () => {
    const two = fourRings({
      sets: [slotSet(), slotSet({ id: 'S2', strip: { layers: [{ timber: 'wenge', thickness_mm: 1 }] } })],
    });
    expect(madeOf(two)).toBe('Black walnut, 8 rings of hard maple and wenge');
    expect(madeOf(BLOCK)).toBe('Black walnut');
    expect(sizeText(fourRings({ unit: 'mm', form: cylinderForm(203.2, 30) }))).toBe(
      '203 mm high, 60 mm wide',
    );
    expect(sizeText(fourRings({ form: cylinderForm(203.2, 30) }))).toBe('8 in high, 2.4 in wide');
    // A square of 3 in is 3 in wide, not its diagonal of 4.2 in.
    expect(sizeText(fourRings({ form: null }))).toBe('8 in high, 3 in wide');
  });

  it('give the terms that there are', () => {
    expect(termsOf({ tax: 'All taxes included', delivery: '', valid_until: '2027-03-31' })).toEqual([
      'All taxes included',
      'Offered until 31 March 2027',
    ]);
    expect(termsOf(undefined)).toEqual([]);
    // The last day counts.
    const until = { valid_until: '2027-03-31' };
    expect(termsOf(until, '2027-03-31')).toEqual(['Offered until 31 March 2027']);
    expect(termsOf(until, '2027-04-01')).toEqual([
      'Offered until 31 March 2027: that day has passed, ask whether the offer still holds',
    ]);
  });

  it('say how to look after it, by finish and timber', () => {
    expect(defaultCare(fourRings())).toMatch(/oil or wax once a year.*dishwasher\.$/);
    const gloss = fourRings({ form: { ...cylinderForm(203.2, 30), finish: 'gloss' } });
    expect(defaultCare(gloss)).toMatch(/^Dust it with a soft dry cloth/);
    const purple = fourRings({ set: { strip: { layers: [{ timber: 'purpleheart', thickness_mm: 1 }] } } });
    expect(defaultCare(purple)).toMatch(/Purpleheart browns with the years/);
  });
});
