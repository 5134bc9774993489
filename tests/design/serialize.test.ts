/** The text of a design file: valid JSON in a fixed order, laid out as the formatter of this repository would. */
import * as prettier from 'prettier';
import { describe, expect, it } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { fourRings, randomDesign } from '../fixtures/designs.ts';
import { SEED } from '../soak/counts.ts';
import { decorated } from '../fixtures/decorated.ts';

describe('the text of a design file', () => {
  it('is JSON of exactly the design', () => {
    for (let n = 0; n < 50; n++) {
      const design = decorated(SEED + n, randomDesign(SEED + n));
      expect(JSON.parse(serializeDesign(design))).toEqual(design);
    }
  });

  it('has its keys in the order of the description, whatever order the design has them in', () => {
    const { format, version, ...rest } = fourRings({
      notes: 'n',
      colors: { teak: '#a08060' },
      set: { notes: 'm' },
      work: { done: ['S1.1:cut'] },
      made: { 'S1.2': { web_mm: 2 } },
      choice: { made_on: '2027-01-31' },
      quote: { hour_rate: 40 },
      offer: { delivery: 'in May' },
    });
    const text = serializeDesign({ ...rest, version, format });
    expect(Object.keys(JSON.parse(text) as object)).toEqual([
      'format',
      'version',
      'name',
      'unit',
      'blank',
      'sets',
      'order',
      'form',
      'colors',
      'saw',
      'made',
      'work',
      'offer',
      'quote',
      'choice',
      'notes',
    ]);
  });

  it('is the same in whatever order colours were chosen', () => {
    const first = serializeDesign(fourRings({ colors: { wenge: '#111111', teak: '#222222' } }));
    expect(serializeDesign(fourRings({ colors: { teak: '#222222', wenge: '#111111' } }))).toBe(first);
    expect(Object.keys((JSON.parse(first) as Design).colors ?? {})).toEqual(['teak', 'wenge']);
  });

  it('leaves corners without a word', () => {
    const outline = [
      { z_mm: 0, r_mm: 0 },
      { z_mm: 50, r_mm: 20, smooth: false },
      { z_mm: 100, r_mm: 0 },
    ];
    expect(serializeDesign(fourRings({ form: { outline } }))).not.toContain('smooth');
  });

  // An independent formatter finds nothing to change, so that files under version control stay calm.
  it('is laid out as prettier lays out JSON', async () => {
    const random = [0, 1, 2, 3].map((n) => decorated(SEED + n, randomDesign(SEED + n)));
    for (const design of [fourRings(), ...random]) {
      const text = serializeDesign(design);
      expect(await prettier.format(text, { parser: 'json', printWidth: 110 })).toBe(text);
    }
  });
});
