/** The text of a design file: valid JSON in a fixed order, laid out as the formatter of this repository would. */
import * as prettier from 'prettier';
import { describe, expect, it } from 'vitest';
import { serializeDesign } from '../../src/design/serialize.ts';
import { fourRings, randomDesign } from '../fixtures/designs.ts';
import { SEED } from '../soak/counts.ts';

describe('the text of a design file', () => {
  it('is JSON of exactly the design', () => {
    for (let n = 0; n < 50; n++) {
      const design = randomDesign(SEED + n);
      expect(JSON.parse(serializeDesign(design))).toEqual(design);
    }
  });

  it('has its keys in the order of the description, whatever order the design has them in', () => {
    const { format, version, ...rest } = fourRings({ notes: 'n', set: { notes: 'm' } });
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
      'saw',
      'notes',
    ]);
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
    for (const design of [fourRings(), randomDesign(SEED), randomDesign(SEED + 1), randomDesign(SEED + 2)]) {
      const text = serializeDesign(design);
      expect(await prettier.format(text, { parser: 'json', printWidth: 110 })).toBe(text);
    }
  });
});
