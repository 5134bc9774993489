/** The shop sheet made in a browser has the bytes that the command line writes, for the usual choices and for the maker's own. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { kerfweave } from '../cli/kerfweave.ts';
import { fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();

test('browser and command line print the same sheet', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'kerfweave-printed-'));
  try {
    const page = await browser.openPage({ site: 'fixtures', url: 'sheet.html', width: 320, height: 240 });
    await page.waitForSelector('body[data-sheet]', { state: 'attached', timeout: 60_000 });
    const file = join(folder, 'four.json');
    writeFileSync(file, JSON.stringify(fourRings()));
    // What the fixture asks for.
    const asked = ['--off-by', '1/32 in', '--dry', '25', '--damp', '70', '--board', '16x3x3/4in'];
    const printed: Buffer[] = [];
    for (const [kind, options] of [
      ['sheet', []],
      ['asked', asked],
    ] as const) {
      const out = join(folder, `${kind}.pdf`);
      expect(await kerfweave('sheet', file, '-o', out, ...options)).toEqual({ exit: 0, out: '', errors: [] });
      const inBrowser = await page.evaluate((name) => document.body.dataset[name] ?? '', kind);
      const bytes = Buffer.from(inBrowser, 'base64');
      const expected = readFileSync(out);
      expect(bytes.length, kind).toBe(expected.length);
      expect(bytes.equals(expected), kind).toBe(true);
      printed.push(bytes);
    }
    expect(printed[0].equals(printed[1])).toBe(false);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
