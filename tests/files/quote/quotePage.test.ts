/** The quote as an independent reader sees it: one page, what is told is on it, what is the maker's own is not. */
import { describe, expect, it } from 'vitest';
import { readFontFiles } from '../../../src/cli/fonts.ts';
import type { Design } from '../../../src/design/document.ts';
import { quotePage, type QuoteOptions } from '../../../src/files/quote/quotePage.ts';
import { decorated } from '../../fixtures/decorated.ts';
import { fourRings, randomDesign, slotSet } from '../../fixtures/designs.ts';
import { SEED } from '../../soak/counts.ts';
import { BOWL, HANDLE } from '../sheet/designs.ts';
import { readPdf } from '../sheet/readPdf.ts';

const fonts = readFontFiles();
const OPTIONS: QuoteOptions = {
  paper: 'a4',
  maker: 'M. Turner, Mill Lane 4',
  made_on: '2027-03-01',
  variant: null,
};

async function read(design: Design, options: Partial<QuoteOptions> = {}) {
  const pdf = await readPdf(await quotePage(design, { ...OPTIONS, ...options }, fonts));
  expect(pdf.pages).toHaveLength(1);
  return { ...pdf.pages[0], title: pdf.title, squeezed: pdf.pages[0].text.replace(/\s+/g, ' ') };
}

const OFFERED: Design = {
  ...fourRings({ unit: 'mm', sets: [slotSet({ notes: 'the cheap stock' })], notes: 'only for me' }),
  offer: {
    note: 'For your hall, as we said.',
    price: 1240.5,
    currency: 'EUR',
    tax: 'All taxes included',
    delivery: 'Three weeks after the order',
    valid_until: '2027-03-31',
    care: 'Wipe it dry.',
  },
  quote: {
    hour_rate: 77.77,
    currency: 'EUR',
    markup_percent: 33,
    extras: [{ text: 'only for me', amount: 66.66 }],
  },
  choice: { made_on: '2027-03-05', by: 'M. K.' },
};

describe('the quote', () => {
  it('says what it is, what it costs, how long that holds and how to look after it', async () => {
    const { squeezed, title, width_mm, height_mm } = await read(OFFERED, { variant: 'Steep' });
    expect(title).toBe('Four rings on a candle stick');
    expect([width_mm, height_mm].map(Math.round)).toEqual([210, 297]);
    for (const words of [
      'M. Turner, Mill Lane 4',
      '1 March 2027',
      'Four rings on a candle stick',
      'Steep',
      'Black walnut',
      '4, of hard (sugar) maple',
      '203 mm high, 60 mm wide',
      'oiled',
      '€1,240.50',
      'All taxes included',
      'Three weeks after the order',
      'Offered until 31 March 2027',
      'For your hall, as we said.',
      'Wipe it dry.',
      'on 5 March 2027 by M. K.',
    ])
      expect(squeezed).toContain(words);
  });

  it('weighs it: the outline’s solid of walnut', async () => {
    // A cylinder of 30 mm radius, 203.2 long, all but the strips of walnut: 574.5 cm³. Black walnut has a gravity of 0.55 at
    // 12 % (Wood Handbook, table 5-3b), so about 580 kg/m³ at 8 %: 340 g.
    const outline = [
      { z_mm: 0, r_mm: 0 },
      { z_mm: 0, r_mm: 30 },
      { z_mm: 203.2, r_mm: 30 },
      { z_mm: 203.2, r_mm: 0 },
    ];
    const { squeezed } = await read(fourRings({ unit: 'mm', form: { outline } }));
    expect(Number(/about (\d+) g/.exec(squeezed)?.[1])).toBeGreaterThan(320);
    expect(Number(/about (\d+) g/.exec(squeezed)?.[1])).toBeLessThan(360);
  });

  it('shows nothing of what is the maker’s own', async () => {
    const { squeezed } = await read(OFFERED);
    for (const secret of ['77.77', '66.66', '33 %', 'only for me', 'cheap'])
      expect(squeezed).not.toContain(secret);
  });

  it('has the piece on it from the side and laid flat, within the page, in the timbers’ colours', async () => {
    const { paths, squeezed } = await read(OFFERED, { paper: 'letter' });
    expect(squeezed).toMatch(/From the side.*Its outside laid flat/);
    const filled = paths.filter(({ fill }) => fill !== null);
    expect(new Set(filled.map(({ fill }) => fill)).size).toBeGreaterThanOrEqual(2);
    for (const { points } of filled)
      for (const [x, y] of points) {
        expect(x).toBeGreaterThan(10);
        expect(x).toBeLessThan(215.9 - 10);
        expect(y).toBeGreaterThan(10);
        expect(y).toBeLessThan(279.4 - 10);
      }
    // The body of both pictures: as tall as each other is long, at one scale.
    const boxes = filled
      .map(({ points }) => points.map(([, y]) => y))
      .map((ys) => Math.max(...ys) - Math.min(...ys))
      .toSorted((a, b) => b - a);
    // The outside is longer than the piece is high: its outline slopes.
    expect(boxes[0] / boxes[1]).toBeGreaterThan(1);
    expect(boxes[0] / boxes[1]).toBeLessThan(1.1);
  });

  it('stays one page with every word on it, however much there is to say', async () => {
    const long = 'A long story of the tree and of how it fell. '.repeat(44);
    const lines = Array.from({ length: 600 }, (_, n) => `${n}`)
      .join('\n')
      .slice(0, 2000);
    const talkative = {
      ...OFFERED,
      name: 'A name that goes on and on '.repeat(7),
      offer: { ...OFFERED.offer, note: long, care: lines, tax: 'tax '.repeat(50) },
    };
    for (const paper of ['a4', 'letter'] as const) {
      const { words, width_mm } = await read(talkative, { paper, maker: 'maker '.repeat(33) });
      for (const word of words) {
        expect(word.at[0], word.text).toBeGreaterThan(10);
        expect(word.at[0] + word.width_mm, word.text).toBeLessThan(width_mm - 10);
        expect(word.at[1], word.text).toBeGreaterThan(10);
      }
      const places = words.map(({ at }) => `${at[0].toFixed(1)} ${at[1].toFixed(1)}`);
      expect(new Set(places).size).toBe(places.length);
    }
  });

  it('can be made of every kind of design, and the same twice', async () => {
    const designs = [BOWL, HANDLE, fourRings({ form: null }), fourRings({ sets: [], order: [], name: ' ' })];
    for (let n = 0; n < 5; n++) designs.push(decorated(SEED + n, randomDesign(SEED + n)));
    for (const design of designs) await read(design);
    const [once, again] = [
      await quotePage(OFFERED, OPTIONS, fonts),
      await quotePage(OFFERED, OPTIONS, fonts),
    ];
    expect(Buffer.from(once).equals(Buffer.from(again))).toBe(true);
  });
});
