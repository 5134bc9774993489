/**
 * Letters beyond Latin in the sheet, as Mozilla's reader finds them, which has a bidirectional algorithm of its own. The
 * orders expected follow the rules of Unicode Standard Annex #9 (W2, N1, L2; from memory), the forms NFC of Annex #15.
 */
import { expect, test } from 'vitest';
import { fourRings } from '../../fixtures/designs.ts';
import { sheetOf } from './designs.ts';

/** The lines of the cover's title, each as its pieces from left to right. */
async function titleOf(name: string): Promise<string[][]> {
  const { pdf } = await sheetOf(fourRings({ name }), 'a4');
  const words = pdf.pages[0].words.filter(({ size_pt }) => Math.round(size_pt) === 24);
  const heights = [...new Set(words.map(({ at }) => Math.round(at[1])))].sort((a, b) => b - a);
  return heights.map((height) =>
    words
      .filter(({ at }) => Math.round(at[1]) === height)
      .toSorted((a, b) => a.at[0] - b.at[0])
      .map(({ text }) => text.trim()),
  );
}

test.each(['שלום עולם טוב', 'مرحبا بالعالم'])('%s is one run, read from the right', async (name) => {
  expect(await titleOf(name)).toEqual([[name]]);
});

test('between Latin words it runs the other way, numbers beside it with it', async () => {
  expect(await titleOf('vase שלום עולם 24 cm')).toEqual([['vase 24', 'שלום עולם', 'cm']]);
});

test('a name that begins from the right goes on to the left, and its brackets open to the left', async () => {
  const [line] = await titleOf('(אב) vase');
  expect(line[0]).toBe('vase');
  // The reader tells the shapes that stand there: what opens to the left has the shape of `)`.
  expect(line.slice(1).join('')).toBe(')אב(');
});

test('marks that stand for themselves join their letters', async () => {
  expect(await titleOf('Cafe\u0301 vase, Bu\u0308chse')).toEqual([['Caf\u00e9 vase, B\u00fcchse']]);
});

test('a name too long for its two lines ends in an ellipsis, one that fits does not', async () => {
  for (const name of ['W'.repeat(200), 'A long and winding name '.repeat(9)]) {
    const lines = await titleOf(name);
    expect(lines.length).toBe(2);
    expect(lines[0].join(' ')).not.toMatch(/…$/);
    expect(lines[1].join(' ')).toMatch(/…$/);
  }
  const two = await titleOf('A vase for the hall with a good many rings in it, and a lid');
  expect(two.length).toBe(2);
  expect(two.flat().join(' ')).toBe('A vase for the hall with a good many rings in it, and a lid');
});
