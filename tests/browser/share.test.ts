/** Sharing from the page: the link that is copied, its code, and the files, each read back. */
import { readFile } from 'node:fs/promises';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { readLink } from '../../src/files/link.ts';
import { fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';
import { openDesign } from './harness/designs.ts';

const browser = testBrowser();

async function openSharing(): Promise<Page> {
  const page = await browser.openPage({ width: 1024, height: 800, url: '#/show', withoutWebGL: true });
  await openDesign(page, fourRings({ name: 'Four rings' }));
  await page.getByRole('button', { name: 'Share', exact: true }).click();
  await page.getByRole('heading', { name: 'Share' }).waitFor();
  // In Show what is shared first is the piece for a client, without what is the maker's own.
  const client = readLink(
    new URL(await page.locator('.share').getByLabel('Link for the client').inputValue()).hash,
  );
  expect(client.ok && client.for).toBe('client');
  await page.getByRole('button', { name: 'The design itself' }).click();
  return page;
}

async function saved(page: Page, button: string): Promise<{ name: string; text: string }> {
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button, exact: true }).click(),
  ]);
  return { name: file.suggestedFilename(), text: await readFile(await file.path(), 'utf8') };
}

test('the copied link holds the design, and has a code', async () => {
  const page = await openSharing();
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.getByRole('button', { name: 'Copy link' }).click();
  await page.getByRole('button', { name: 'Copied' }).waitFor();
  const address = await page.evaluate(() => navigator.clipboard.readText());
  expect(new URL(address).origin).toBe(new URL(page.url()).origin);
  const read = readLink(new URL(address).hash);
  expect(read.ok && read.work.variants[0].design).toEqual(fourRings({ name: 'Four rings' }));
  await page.getByRole('button', { name: 'QR code' }).click();
  await page.getByRole('img', { name: 'The link as a QR code' }).waitFor();
  const axe = await new AxeBuilder({ page }).setLegacyMode().include('dialog[open]').analyze();
  expect(axe.violations.map(({ id }) => id)).toEqual([]);
});

test('the files are saved under the name of the design', async () => {
  const page = await openSharing();
  await page.evaluate(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  const design = await saved(page, 'Design');
  expect(design.name).toBe('four-rings.kerfweave.json');
  expect(parseDesign(design.text)).toEqual({ ok: true, design: fourRings({ name: 'Four rings' }) });
  const cutList = await saved(page, 'Cut list, CSV');
  expect(cutList).toMatchObject({
    name: 'four-rings-cut-list.csv',
    text: expect.stringMatching(/^piece,timber/) as string,
  });
  const setups = await saved(page, 'Set-ups, CSV');
  expect(setups.text.trim().split('\r\n')).toHaveLength(5);
  const report = await saved(page, 'Report, JSON');
  expect(JSON.parse(report.text)).toMatchObject({ format: 'kerfweave-report', design: 'Four rings' });
  for (const [button, name] of [
    ['Unrolled map, SVG', 'four-rings-map.svg'],
    ['Outline, SVG', 'four-rings-outline.svg'],
  ] as const) {
    const drawing = await saved(page, button);
    expect(drawing.name).toBe(name);
    // The browser itself reads it, and finds its size: 96 px to the inch (CSS Values, absolute lengths).
    const wide_px = await page.evaluate(async (text) => {
      const image = new Image();
      image.src = `data:image/svg+xml,${encodeURIComponent(text)}`;
      await image.decode();
      return image.naturalWidth;
    }, drawing.text);
    const width_mm = Number(/width="([\d.]+)mm"/.exec(drawing.text)?.[1]);
    expect(Math.abs(wide_px - (width_mm / 25.4) * 96)).toBeLessThan(1);
  }
});
