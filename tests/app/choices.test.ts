/** What of a work is offered, and where an answer belongs; what the browser remembers of the maker. */
import { describe, expect, it } from 'vitest';
import { asBuiltVariants } from '../../src/app/asBuiltVariants.ts';
import { choicesOf, chosenIn, offeredWork, withChoice } from '../../src/app/choices.ts';
import { makerFrom, ratesOf } from '../../src/app/show/maker.ts';
import { currencyOf, inCurrency } from '../../src/app/show/useCurrency.ts';
import { withAnotherVariant, workOf } from '../../src/app/work.ts';
import { forClient, setChoice, setOffer, setQuote } from '../../src/design/offerEdits.ts';
import type { Work } from '../../src/panels/bench.ts';
import { fourRings } from '../fixtures/designs.ts';

const STEEP = setOffer(fourRings(), { price: 100, currency: 'EUR' });
const FLAT = fourRings({ set: { angle_deg: 60 } });
const WORK: Work = {
  variants: [
    { id: 'v1', name: 'Steep', design: STEEP },
    { id: 'v2', name: 'Flat', design: FLAT },
  ],
  active: 1,
};
const CHOICE = { made_on: '2027-03-01', by: 'M. K.' };

describe('the choices', () => {
  it('are the variants, without the samples of how a piece may come out', () => {
    expect(choicesOf(WORK)).toEqual(WORK.variants);
    expect(offeredWork(WORK).active).toBe(1);
    const sampled = asBuiltVariants(WORK);
    expect(sampled.variants.length).toBeGreaterThan(choicesOf(sampled).length);
    expect(choicesOf(sampled).map(({ name }) => name)).not.toContainEqual(expect.stringMatching(/^As sawn/));
    const onSample = {
      ...sampled,
      active: sampled.variants.findIndex(({ name }) => name.startsWith('As sawn')),
    };
    expect(onSample.active).toBeGreaterThanOrEqual(0);
    expect(offeredWork(onSample).active).toBe(0);
  });
});

describe('an answer', () => {
  const answer = setChoice(forClient(FLAT), CHOICE);

  it('belongs to the variant that is the same in wood and words, else in wood', () => {
    expect(chosenIn(WORK, answer, 'offer')).toBe(1);
    const reworded = {
      ...WORK,
      variants: WORK.variants.map((v) => ({ ...v, design: setOffer(v.design, { note: 'New' }) })),
    };
    expect(chosenIn(reworded, answer, 'offer')).toBe(-1);
    expect(chosenIn(reworded, answer, 'piece')).toBe(1);
  });

  it('belongs nowhere once the piece has changed', () => {
    const changed = workOf(fourRings({ set: { angle_deg: 61 } }));
    expect([chosenIn(changed, answer, 'offer'), chosenIn(changed, answer, 'piece')]).toEqual([-1, -1]);
  });

  it('is the work’s one choice', () => {
    const first = withChoice(WORK, 0, CHOICE);
    expect(first.variants.map(({ design }) => design.choice)).toEqual([CHOICE, undefined]);
    expect(first.active).toBe(0);
    const second = withChoice(first, 1, { made_on: '2027-04-01' });
    expect(second.variants.map(({ design }) => design.choice)).toEqual([
      undefined,
      { made_on: '2027-04-01' },
    ]);
    expect(withChoice(second, 1, null).variants).toEqual(WORK.variants);
  });

  it('is not copied with its variant', () => {
    const copied = withAnotherVariant(withChoice(WORK, 0, CHOICE));
    expect(copied.variants.map(({ design }) => design.choice)).toEqual([CHOICE, undefined, undefined]);
  });
});

describe('what is remembered of the maker', () => {
  it('is the name and the rates, without what belongs to one piece', () => {
    const quote = {
      hour_rate: 40,
      hours: { turn: 2 },
      extras: [{ text: 'Box', amount: 3 }],
      currency: 'USD',
    };
    expect(ratesOf(quote)).toEqual({ hour_rate: 40, currency: 'USD' });
    expect(makerFrom({ name: 'A. Turner', quote })).toEqual({
      name: 'A. Turner',
      quote: { hour_rate: 40, currency: 'USD' },
    });
  });

  it('is nothing where what was stored is not what a design may say', () => {
    const nobody = { name: '', quote: {} };
    for (const stored of [
      null,
      5,
      'x',
      [],
      {},
      { name: 7, quote: 'x' },
      { quote: { hour_rate: -1 } },
      { quote: { currency: '€' } },
    ])
      expect(makerFrom(stored)).toEqual(nobody);
  });
});

describe('another currency', () => {
  it('is that of the rates and of every price, the figures as they are', () => {
    const { variants } = inCurrency(WORK, 'USD', { hour_rate: 40, currency: 'EUR' });
    expect(variants[0].design.offer).toEqual({ price: 100, currency: 'USD' });
    expect(variants[0].design.quote).toBeUndefined();
    // The edited one begins with the rates at hand; it has no price, so it gets no currency of one.
    expect(variants[1].design.quote).toEqual({ hour_rate: 40, currency: 'USD' });
    expect(variants[1].design.offer).toBeUndefined();
    expect(variants.map(({ design }) => currencyOf(design))).toEqual(['USD', 'USD']);
  });

  it('is not taken from the browser by rates that name none', () => {
    expect(currencyOf(setQuote(fourRings(), { hour_rate: 40 }))).toBe('EUR');
    expect(currencyOf({ quote: { currency: 'SEK' } })).toBe('SEK');
  });

  it('keeps the rates that a design has', () => {
    const rated = setQuote(STEEP, { hour_rate: 55, currency: 'EUR' });
    const work = { variants: [{ id: 'v1', name: 'Steep', design: rated }], active: 0 };
    const [{ design }] = inCurrency(work, 'GBP', { hour_rate: 40 }).variants;
    expect(design.quote).toEqual({ hour_rate: 55, currency: 'GBP' });
    expect(design.offer).toEqual({ price: 100, currency: 'GBP' });
  });
});
