/**
 * Offer, quote and choice: their edits leave a sound file, what they take away is gone, and a client's copy of a
 * design holds nothing of the maker's own. The expected sentences and documents are written out here.
 */
import { describe, expect, it } from 'vitest';
import { dateOf, dateText, isCalendarDate } from '../../src/design/dates.ts';
import type { Design } from '../../src/design/document.ts';
import { faultLine } from '../../src/design/faults.ts';
import {
  differsInOfferAlone,
  forClient,
  isSameOffer,
  isSamePiece,
  setChoice,
  setOffer,
  setQuote,
  setQuoteHours,
  setTimberPrice,
} from '../../src/design/offerEdits.ts';
import { checkDesign, parseDesign } from '../../src/design/parse.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { decorated } from '../fixtures/decorated.ts';
import { fourRings, randomDesign, slotSet } from '../fixtures/designs.ts';
import { SEED } from '../soak/counts.ts';

const plain = fourRings();

function faults(design: unknown): string[] {
  const result = checkDesign(design);
  return result.ok ? [] : result.faults.map(faultLine);
}

describe('an offer', () => {
  it('gains fields, and loses them to an empty text', () => {
    const noted = setOffer(plain, { note: 'Oak, as your table', price: 120, currency: 'EUR' });
    expect(noted.offer).toEqual({ note: 'Oak, as your table', price: 120, currency: 'EUR' });
    expect(setOffer(noted, { note: '' }).offer).toEqual({ price: 120, currency: 'EUR' });
    expect(setOffer(noted, { note: '', price: undefined, currency: undefined })).toEqual(plain);
    expect(setOffer(plain, { care: '' })).toBe(plain);
    expect(faults(noted)).toEqual([]);
  });
});

describe('a quote', () => {
  it('keeps hours and timber prices by name until they are taken away', () => {
    const hours = setQuoteHours(setQuoteHours(plain, 'turn', 2), 'glue', 0.5);
    expect(hours.quote).toEqual({ hours: { turn: 2, glue: 0.5 } });
    expect(setQuoteHours(setQuoteHours(hours, 'turn', null), 'glue', null)).toEqual(plain);
    const priced = setTimberPrice(setTimberPrice(plain, 'wenge', 9000), 'black-walnut', 3600);
    expect(priced.quote).toEqual({ timber_per_m3: { wenge: 9000, 'black-walnut': 3600 } });
    expect(setTimberPrice(priced, 'wenge', null).quote).toEqual({ timber_per_m3: { 'black-walnut': 3600 } });
    expect(setQuote(priced, { timber_per_m3: undefined, extras: [] })).toEqual(plain);
    expect(faults(setQuote(priced, { currency: 'USD', hour_rate: 40 }))).toEqual([]);
  });
});

describe('a choice', () => {
  it('is recorded and taken back', () => {
    const chosen = setChoice(plain, { made_on: '2027-03-01', by: 'M. K.', note: '' });
    expect(chosen.choice).toEqual({ made_on: '2027-03-01', by: 'M. K.' });
    expect(setChoice(chosen, null)).toEqual(plain);
    expect(setChoice(plain, null)).toBe(plain);
    expect(faults(chosen)).toEqual([]);
  });
});

describe('a file that is wrong in what version 4 added', () => {
  it.each<[string, object, string]>([
    ['a price alone', { offer: { price: 5 } }, 'offer.currency: is missing: a price has a currency'],
    ['a price below nothing', { offer: { price: -1, currency: 'EUR' } }, 'offer.price: -1 is below 0'],
    [
      'a sign for a currency',
      { quote: { currency: '€' } },
      'quote.currency: "€" is not a currency: three capital letters, such as EUR',
    ],
    [
      'a day that is not',
      { offer: { valid_until: '2027-02-29' } },
      'offer.valid_until: "2027-02-29" is not a date: year, month and day, such as 2027-03-31',
    ],
    ['a choice without a day', { choice: { by: 'M. K.' } }, 'choice.made_on: is missing'],
    [
      'two lines where one fits',
      { choice: { made_on: '2027-01-01', by: 'a\nb' } },
      'choice.by: holds a control character',
    ],
    [
      'hours of a kind that is not',
      { quote: { hours: { carve: 1 } } },
      'quote.hours.carve: is not a field of a design file',
    ],
    [
      'a timber that is not',
      { quote: { timber_per_m3: { plastic: 1 } } },
      'quote.timber_per_m3.plastic: "plastic" is not a known timber',
    ],
    ['a rate in the offer', { offer: { hour_rate: 1 } }, 'offer.hour_rate: is not a field of a design file'],
    [
      'too many extras',
      { quote: { extras: Array.from({ length: 21 }, () => ({ text: '', amount: 1 })) } },
      'quote.extras: has 21 entries; at most 20',
    ],
    [
      'an extra without an amount',
      { quote: { extras: [{ text: 'Box' }] } },
      'quote.extras[0].amount: is missing',
    ],
    ['a tax above all', { quote: { tax_percent: 101 } }, 'quote.tax_percent: 101 is above 100'],
  ])('%s', (_, change, line) => {
    expect(faults({ ...plain, ...change })).toEqual([line]);
  });
});

describe('what is for a client', () => {
  const SECRETS = ['only for me', 'the cheap stock', '77.77', 'squared', '0.777'];
  const full: Design = {
    ...fourRings({
      sets: [slotSet({ notes: 'the cheap stock', locked: true })],
      saw: { stop_side: 'obtuse', throat_mm: 77.77 },
      notes: 'only for me',
    }),
    offer: { note: 'For your hall', price: 100, currency: 'EUR' },
    quote: { hour_rate: 77.77, extras: [{ text: 'only for me', amount: 1 }] },
    choice: { made_on: '2027-01-01', by: 'only for me' },
    made: { 'S1.1': { kerf_mm: 0.777 } },
    work: { done: ['squared'] },
  };

  it('is the piece and the offer, and nothing else', () => {
    const text = serializeDesign(forClient(full));
    for (const secret of SECRETS) {
      expect(serializeDesign(full)).toContain(secret);
      expect(text).not.toContain(secret);
    }
    expect(forClient(full)).toEqual({ ...plain, offer: full.offer });
  });

  it('is a sound design, of any design', () => {
    for (let n = 0; n < 60; n++) {
      const design = decorated(SEED + n, randomDesign(SEED + n));
      const shown = forClient(design);
      expect(parseDesign(serializeDesign(shown))).toEqual({ ok: true, design: shown });
      const fields = Object.keys(shown).filter((field) =>
        ['quote', 'choice', 'made', 'work', 'notes'].includes(field),
      );
      expect(fields).toEqual([]);
      expect(isSamePiece(shown, design)).toBe(true);
      expect(isSameOffer(shown, design)).toBe(true);
    }
  });

  it('tells edits of offer, quote and choice from every other', () => {
    const said = setChoice(setQuote(setOffer(plain, { note: 'n' }), { hour_rate: 4 }), {
      made_on: '2027-01-01',
    });
    expect([differsInOfferAlone(plain, said), differsInOfferAlone(said, plain)]).toEqual([true, true]);
    for (const other of [
      { ...said, name: 'x' },
      { ...said, unit: 'mm' as const },
      { ...said, notes: 'n' },
      { ...said, work: { done: ['cure'] } },
      { ...said, saw: { ...said.saw } },
    ])
      expect([differsInOfferAlone(plain, other), differsInOfferAlone(other, plain)]).toEqual([false, false]);
  });

  it('tells the same piece from another, and the same offer from another', () => {
    const dearer = setOffer(full, { price: 101 });
    expect([isSamePiece(full, dearer), isSameOffer(full, dearer)]).toEqual([true, false]);
    const other = fourRings({ set: { angle_deg: 44 } });
    expect([isSamePiece(plain, other), isSameOffer(plain, other)]).toEqual([false, false]);
    const named = { ...plain, name: 'Another' };
    expect([isSamePiece(plain, named), isSameOffer(plain, named)]).toEqual([true, false]);
    const colored = { ...plain, colors: { 'hard-maple': '#ffeecc' } };
    expect(isSamePiece(plain, colored)).toBe(false);
  });
});

describe('a date', () => {
  // The Gregorian calendar: leap years divide by 4, but not by 100 unless by 400 (ISO 8601).
  it.each([
    ['2028-02-29', true],
    ['2027-02-29', false],
    ['2000-02-29', true],
    ['2100-02-29', false],
    ['2027-04-31', false],
    ['2027-13-01', false],
    ['2027-00-10', false],
    ['1899-12-31', false],
    ['2027-1-1', false],
    ['2027-01-01T00:00', false],
    ['', false],
  ])('%j: %s', (text, there) => {
    expect(isCalendarDate(text)).toBe(there);
  });

  it('is that of the device, and is read in words', () => {
    expect(dateOf(new Date(2027, 0, 5, 23, 59))).toBe('2027-01-05');
    expect(dateText('2027-03-05')).toBe('5 March 2027');
    expect(dateText('soon')).toBe('soon');
  });
});
