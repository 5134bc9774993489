/** The real command: a PDF of the right paper, the same bytes each time, one line and nothing written when wrong. */
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CANDLE_STICK } from '../files/sheet/designs.ts';
import { readPdf } from '../files/sheet/readPdf.ts';
import { kerfweave } from './kerfweave.ts';

let folder = '';
const at = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfweave-sheet-'));
  writeFileSync(at('inches.json'), JSON.stringify(CANDLE_STICK));
  writeFileSync(at('metric.json'), JSON.stringify({ ...CANDLE_STICK, unit: 'mm', form: null }));
  writeFileSync(at('wrong.json'), JSON.stringify({ ...CANDLE_STICK, unit: 'ell' }));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('sheet', () => {
  it('takes the paper that goes with the unit, or the one asked for', async () => {
    const good = { exit: 0, out: '', errors: [] };
    expect(
      await Promise.all([
        kerfweave('sheet', at('inches.json'), '-o', at('inches.pdf')),
        kerfweave('sheet', at('inches.json'), '-o', at('again.pdf'), '--paper', 'letter'),
        kerfweave('sheet', at('metric.json'), '-o', at('metric.pdf')),
      ]),
    ).toEqual([good, good, good]);
    const bytes = readFileSync(at('inches.pdf'));
    expect(readFileSync(at('again.pdf')).equals(bytes)).toBe(true);
    const letter = await readPdf(bytes);
    expect(letter.title).toBe(CANDLE_STICK.name);
    expect(letter.pages[0].width_mm).toBeCloseTo(215.9, 3);
    const a4 = await readPdf(readFileSync(at('metric.pdf')));
    expect(a4.pages[0].width_mm).toBeCloseTo(210, 3);
    // No form: no turning template, and lengths in millimetres.
    expect(a4.pages.some(({ text }) => text.includes('Turning template'))).toBe(false);
    expect(a4.pages[0].text).toContain('76.20 mm');
  });

  it('refuses a wrong call or design in one line and writes nothing', async () => {
    writeFileSync(at('kept.pdf'), 'kept');
    const before = readdirSync(folder).toSorted();
    const outcomes = await Promise.all([
      kerfweave('sheet', at('inches.json'), '-o', at('kept.txt')),
      kerfweave('sheet', at('inches.json'), '-o', at('kept.pdf'), '--paper', 'a3'),
      kerfweave('sheet', at('inches.json')),
      kerfweave('sheet', at('wrong.json'), '-o', at('kept.pdf')),
    ]);
    expect(outcomes.map(({ exit, out, errors }) => [exit, out, errors.length])).toEqual([
      [2, '', 1],
      [2, '', 1],
      [2, '', 1],
      [1, '', 1],
    ]);
    expect(outcomes.map(({ errors }) => errors[0])).toEqual([
      expect.stringMatching(/does not end in \.pdf$/),
      '--paper is a4 or letter, not a3',
      expect.stringMatching(/^sheet needs -o/),
      expect.stringMatching(/^unit: /),
    ]);
    expect(readFileSync(at('kept.pdf'), 'utf8')).toBe('kept');
    expect(readdirSync(folder).toSorted()).toEqual(before);
  });
});
