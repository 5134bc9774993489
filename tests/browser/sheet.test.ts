/** The shop sheet made in a browser has the bytes that the command line writes. */
import { expect, test } from 'vitest';
import { readFontFiles } from '../../src/cli/fonts.ts';
import { shopSheet } from '../../src/files/sheet/sheet.ts';
import { fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();

test('browser and command line print the same sheet', async () => {
  const page = await browser.openPage({ site: 'fixtures', url: 'sheet.html', width: 320, height: 240 });
  await page.waitForSelector('body[data-sheet]', { state: 'attached', timeout: 60_000 });
  const printed = Buffer.from(await page.evaluate(() => document.body.dataset.sheet ?? ''), 'base64');
  const expected = await shopSheet(fourRings(), { paper: 'letter', fonts: readFontFiles() });
  expect(printed.length).toBe(expected.length);
  expect(printed.equals(expected)).toBe(true);
});
