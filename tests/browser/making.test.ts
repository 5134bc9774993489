/** The Show station hands out pictures and films: a PNG of the size asked for, a film that can be stopped, a word when it fails. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();

async function openShow(): Promise<Page> {
  const page = await browser.openPage({ url: '#/show', width: 700, height: 600 });
  await page.locator('canvas').first().waitFor();
  for (const name of ['Picture', 'Film'])
    await page
      .locator('summary')
      .filter({ hasText: new RegExp(`^${name}$`) })
      .click();
  return page;
}

async function ownSize(page: Page, width: string, height: string): Promise<void> {
  await page.getByRole('button', { name: 'Own width and height' }).click();
  for (const [name, value] of [
    ['Width, px', width],
    ['Height, px', height],
  ]) {
    const field = page.getByRole('spinbutton', { name });
    await field.fill(value);
    await field.press('Enter');
  }
}

test('a picture of a free size is saved as a PNG with an alpha channel', async () => {
  const page = await openShow();
  await ownSize(page, '240', '136');
  await page.getByRole('button', { name: 'Transparent' }).click();
  const [saved] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save the picture' }).click(),
  ]);
  expect(saved.suggestedFilename()).toMatch(/^[a-z-]+\.png$/);
  const bytes = await readFile(await saved.path());
  // PNG signature, then the header chunk: width, height, bits, colour type 6: with alpha (W3C PNG, sections 5.2, 11.2.1).
  expect(bytes.subarray(0, 8).toString('latin1')).toBe('\x89PNG\r\n\x1a\n');
  expect([bytes.readUInt32BE(16), bytes.readUInt32BE(20), bytes[24], bytes[25]]).toEqual([240, 136, 8, 6]);
  await page.getByText('The picture is saved: 240 × 136 pixels').waitFor();
});

test('a film says how far it is and stops when it is told to', async () => {
  const page = await openShow();
  await page.getByRole('button', { name: '6 s' }).click();
  await page.getByRole('button', { name: 'Save the film' }).click();
  await page.getByText(/^Picture \d+ of 144, about \d+ (s|min) left$/).waitFor();
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByRole('button', { name: 'Save the film' }).waitFor();
  expect(await page.getByRole('progressbar', { name: 'The film' }).count()).toBe(0);
});

test('work that the station was left in, and a lost graphics context, have their word', async () => {
  const page = await openShow();
  await page.getByRole('button', { name: 'Save the film' }).click();
  await page.getByText(/^Picture \d+ of/).waitFor();
  await page.evaluate(() => {
    location.hash = '#/rings';
  });
  await page.getByText('The film was not finished: the station was left.').waitFor();
  await page.evaluate(() => {
    location.hash = '#/show';
  });
  await page
    .locator('summary')
    .filter({ hasText: /^Picture$/ })
    .click();
  await page.evaluate(() => {
    document.querySelector('canvas')?.getContext('webgl2')?.getExtension('WEBGL_lose_context')?.loseContext();
  });
  await page.getByRole('button', { name: 'Save the picture' }).click();
  await page.getByText('The picture was not saved: the graphics card was reset').waitFor();
  expect(browser.takeComplaints(page, /THREE\.WebGLRenderer: Context Lost/).length).toBe(1);
});
