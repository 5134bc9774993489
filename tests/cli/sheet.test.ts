/** The real command: a PDF of the right paper, the same bytes each time, one line and nothing written when wrong. */
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readFontFiles } from '../../src/cli/fonts.ts';
import { shopSheet } from '../../src/files/sheet/sheet.ts';
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

  it('bears the fingerprint that check prints, on every page', async () => {
    const [checked] = await Promise.all([
      kerfweave('check', at('inches.json')),
      kerfweave('sheet', at('inches.json'), '-o', at('marked.pdf')),
    ]);
    const fingerprint = /^fingerprint ([0-9A-F]{4}-[0-9A-F]{4})$/m.exec(checked.out)?.[1];
    expect(fingerprint).toBeDefined();
    const { pages } = await readPdf(readFileSync(at('marked.pdf')));
    for (const { words } of pages)
      expect(words.some(({ text, at: [, y] }) => text === fingerprint && y < 10)).toBe(true);
  });

  it('prints for what the maker asks, in the unit of the design or the one named', async () => {
    const asked = ['--off-by', '1/64', '--dry', '30%', '--damp', '55.5', '--board', '18 x 3 1/2 x 7/8'];
    const metric = ['--off-by', '0.396875mm', '--dry', '30', '--damp', '55.5'];
    const outcomes = await Promise.all([
      kerfweave('sheet', at('inches.json'), '-o', at('asked.pdf'), ...asked),
      kerfweave(
        'sheet',
        at('inches.json'),
        '-o',
        at('same.pdf'),
        ...metric,
        '--board',
        '457.2x88.9x22.225 mm',
      ),
    ]);
    expect(outcomes.map(({ exit, errors }) => [exit, errors])).toEqual([
      [0, []],
      [0, []],
    ]);
    const bytes = readFileSync(at('asked.pdf'));
    const expected = await shopSheet(CANDLE_STICK, {
      paper: 'letter',
      fonts: readFontFiles(),
      // 1/64 in, 18 in, 3 1/2 in and 7/8 in.
      choices: {
        offBy_mm: 0.396875,
        dry_pct: 30,
        damp_pct: 55.5,
        board: { length_mm: 457.2, width_mm: 88.9, thickness_mm: 22.225 },
      },
    });
    expect(bytes.equals(expected)).toBe(true);
    expect(readFileSync(at('same.pdf')).equals(bytes)).toBe(true);
    const text = (await readPdf(bytes)).pages.map((page) => page.text).join(' ');
    expect(text).toContain('From 30 % to 55.5 % humidity');
    expect(text).toContain('18.000″ × 3.500″ × 0.875″');
    expect(text).toContain('0.0156″');
  });

  it.each([
    ['--off-by', '1 ell', /^--off-by: "ell" is no unit of length/],
    ['--off-by', '0', /^--off-by is from 0\.001 mm to 100 mm, not 0$/],
    ['--dry', '0', /^--dry is a humidity from 1 to 99 percent, not 0$/],
    ['--damp', 'wet', /^--damp is a humidity/],
    ['--board', '24x4', /^--board is length x width x thickness, not 24x4$/],
    ['--board', '24x4x0', /^--board \(thickness\) is from /],
  ])('refuses %s %s in one line', async (option, value, line) => {
    const { exit, out, errors } = await kerfweave(
      'sheet',
      at('inches.json'),
      '-o',
      at('refused.pdf'),
      option,
      value,
    );
    expect([exit, out, errors.length]).toEqual([2, '', 1]);
    expect(errors[0]).toMatch(line);
    expect(readdirSync(folder)).not.toContain('refused.pdf');
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
