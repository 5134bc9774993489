/**
 * Long sheets as a PDF reader sees them: heads and numbers of pages, heads of tables on every page that a table runs on
 * to, no row or line alone, nothing cut off; and what is said of accuracy, wood and stock, against the plan's figures
 * converted here.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { readFontFiles } from '../../../src/cli/fonts.ts';
import type { Design } from '../../../src/design/document.ts';
import { usualChoices } from '../../../src/plan/makersChoices.ts';
import { shopSheet } from '../../../src/files/sheet/sheet.ts';
import { cylinderForm, fourRings, slotSet } from '../../fixtures/designs.ts';
import { readPdf, type ReadPage } from './readPdf.ts';

/** Sets of four along a stick, of three angles, every fifth layered and wider. */
function long(slots: number, unit: Design['unit']): Design {
  const wide = {
    layers: [0.6, 1.8, 0.6].map((thickness_mm, i) => ({
      timber: i === 1 ? 'hard-maple' : 'wenge',
      thickness_mm,
    })),
  };
  const length_mm = 90 + (slots / 4) * 14;
  return fourRings({
    name: `Stick of ${slots}`,
    unit,
    length_mm,
    sets: Array.from({ length: slots / 4 }, (_, i) =>
      slotSet({
        id: `S${i + 1}`,
        center_mm: 45 + i * 14,
        angle_deg: [45, 60, 70][i % 3],
        ...(i % 5 === 1 ? { kerf_mm: 3, strip: wide } : {}),
      }),
    ),
    form: cylinderForm(length_mm, 30),
    saw: { max_open_slots: 3 },
  });
}

/** Words of a page by lines, from the top; page head and foot left out. */
function linesOf({ words, height_mm }: ReadPage): { y: number; text: string }[] {
  const lines = new Map<number, string[]>();
  for (const { text, at } of words) {
    if (at[1] > height_mm - 16 || at[1] < 18) continue;
    const y = Math.round(at[1] * 2) / 2;
    lines.set(y, [...(lines.get(y) ?? []), text]);
  }
  return [...lines].sort((a, b) => b[0] - a[0]).map(([y, text]) => ({ y, text: text.join(' ') }));
}

const HEADS = [
  /^Cut Slot /,
  /^Glue-up Slots /,
  /^Timber Thick /,
  /^Set Kerf /,
  /^Worst Usual /,
  /^Some crossing /,
];

describe.each([
  [24, 'mm'],
  [96, 'in'],
] as const)('the sheet of %i slots', (slots, unit) => {
  const design = long(slots, unit);
  let pages: readonly ReadPage[] = [];
  beforeAll(async () => {
    pages = (
      await readPdf(
        await shopSheet(design, { paper: unit === 'in' ? 'letter' : 'a4', fonts: readFontFiles() }),
      )
    ).pages;
  }, 240_000);

  it('numbers its pages and names what goes on', () => {
    pages.forEach(({ text }, i) => expect(text).toContain(`${i + 1} / ${pages.length}`));
    const heads = pages.map(
      ({ words, height_mm }) => words.find(({ at }) => at[1] > height_mm - 14)?.text ?? '',
    );
    expect(heads.every((head) => head !== '')).toBe(true);
    heads.forEach((head, i) => {
      const chapter = /^(.*), continued$/.exec(head)?.[1];
      if (chapter !== undefined) expect(heads[i - 1].startsWith(chapter), head).toBe(true);
    });
    // 96 rows of 5.6 mm do not stand on one page.
    if (slots === 96) expect(heads).toContain('Cuts and glue-ups, continued');
  });

  it('lists every cut once, with the head of the table on each page, and never one row alone', () => {
    const tables = pages.filter(({ text }) => /Cuts and glue-ups/.test(text) && /\d \/ \d/.test(text));
    const numbers: number[] = [];
    for (const page of tables.slice(1)) {
      const lines = linesOf(page);
      const rows = lines.flatMap(({ text }) => {
        const row = /^(\d+) (S\d+\.\d+) [A-D] [A-D] /.exec(text);
        return row ? [Number(row[1])] : [];
      });
      if (rows.length === 0) continue;
      expect(rows.length, lines[0].text).toBeGreaterThan(1);
      expect(lines.some(({ text }) => HEADS[0].test(text))).toBe(true);
      numbers.push(...rows);
    }
    expect(numbers).toEqual(Array.from({ length: slots }, (_, i) => i + 1));
  });

  it('begins no page with one row or line that belongs to the page before, and ends none with a head', () => {
    for (const page of pages) {
      if (!/, continued/.test(page.text)) continue;
      const lines = linesOf(page);
      const isHead = (text: string) => HEADS.some((head) => head.test(text));
      expect(isHead(lines[lines.length - 1].text), lines[lines.length - 1].text).toBe(false);
      if (!isHead(lines[0].text) || lines.length < 3) continue;
      // Under the head two rows stand as close as rows do: 5.6 mm, or 6.4 mm where there is room to write.
      expect(lines[1].y - lines[2].y, lines[1].text).toBeLessThan(7.5);
    }
  });

  it('cuts nothing off in its tables', () => {
    for (const page of pages) {
      if (
        !/^(Strips and fit|Cuts and glue-ups)/.test(
          page.words.find(({ at }) => at[1] > page.height_mm - 14)!.text,
        )
      )
        continue;
      const cut = page.words.filter(({ text }) => /[^….]…$/.test(text));
      expect(cut.map(({ text }) => text)).toEqual([]);
    }
  });

  it('tells chances, movement and stock in its unit', () => {
    const text = pages.map((page) => page.text).join(' ');
    expect(text).toMatch(/pieces tried by chance/);
    expect(text).toContain(unit === 'in' ? '0.020″' : '0.50 mm');
    expect(text).toMatch(/What matters most is (the angle of the fence|the stop): \d+ % of the error/);
    // 35 % and 65 % at 20 °C: 7.0 % and 12.0 % of moisture, the equation of FPL-RN-0268 (reference values in
    // tests/timber); 20 °C are 68 °F.
    expect(text).toContain(
      `From 35 % to 65 % humidity at ${unit === 'in' ? '68 °F' : '20 °C'} the wood goes from 7.0 % to 12.0 % moisture`,
    );
    expect(text).toMatch(/Of all strips that of S\d+\.\d moves most against the body/);
    expect(text).toMatch(/Grain of the strips: /);
    expect(text).toMatch(unit === 'in' ? /cubic inches go to dust/ : /cm³ go to dust/);
    expect(text).toMatch(/Or \d+ boards? of|is too small for them/);
  });
});

it('prints what the maker asks, and the same bytes for the same questions', async () => {
  const design = fourRings({ unit: 'mm' });
  const fonts = readFontFiles();
  const choices = {
    ...usualChoices('mm'),
    offBy_mm: 0.37,
    dry_pct: 50,
    damp_pct: 40,
    board: { length_mm: 300, width_mm: 90, thickness_mm: 9 },
  };
  const [asked, again, usual] = await Promise.all(
    [choices, choices, undefined].map((one) => shopSheet(design, { paper: 'a4', fonts, choices: one })),
  );
  expect(again).toEqual(asked);
  expect(usual).not.toEqual(asked);
  expect(usual).toEqual(await shopSheet(design, { paper: 'a4', fonts, choices: usualChoices('mm') }));
  const text = (await readPdf(asked)).pages.map((page) => page.text).join(' ');
  expect(text).toContain('0.37 mm');
  expect(text).toContain('From 50 % to 40 % humidity');
  // Toward dry the wood shrinks.
  expect(text).toContain('the blank shrinks by');
  expect(text).toContain('300.00 mm × 90.00 mm × 9.00 mm');
});
