/** Sheets of awkward random designs: they are made, hold no broken number, and keep level text on the paper. */
import { expect, it } from 'vitest';
import { readFontFiles } from '../../../src/cli/fonts.ts';
import { shopSheet } from '../../../src/files/sheet/sheet.ts';
import { randomDesign } from '../../fixtures/designs.ts';
import { countFor, SEED } from '../../soak/counts.ts';
import { readPdf } from './readPdf.ts';

const rounds = countFor('sheet-random', 3, 200);

it('prints any valid design', async () => {
  const fonts = readFontFiles();
  for (let seed = SEED; seed < SEED + rounds; seed++) {
    const paper = seed % 2 === 0 ? 'a4' : 'letter';
    const { pages } = await readPdf(await shopSheet(randomDesign(seed, {}), { paper, fonts }));
    expect(pages.length).toBeGreaterThan(4);
    pages.forEach(({ text, words, width_mm }, i) => {
      const where = `seed ${seed}, page ${i + 1}`;
      expect(text, where).not.toMatch(/NaN|undefined|Infinity|null|□/);
      if (text.includes('tile ')) return;
      const over = words.filter((word) => word.level && word.at[0] + word.width_mm > width_mm - 12.5);
      expect(
        over.map(({ text: word }) => word),
        where,
      ).toEqual([]);
    });
  }
});
