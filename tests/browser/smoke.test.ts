/** The app opens in a real browser, and the watch over its pages sees what it must see. */
import { expect, test } from 'vitest';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();

test('the app opens without a complaint', async () => {
  const page = await browser.openPage({ width: 800, height: 600 });
  await expect.poll(async () => page.title()).toContain('Kerfweave');
  await page.waitForFunction(() => (document.querySelector('#app')?.childElementCount ?? 0) > 0);
});

test('console messages, uncaught errors and remote requests become complaints', async () => {
  const page = await browser.openPage({ site: 'fixtures', url: 'plain.html', width: 320, height: 240 });
  await page.evaluate(async () => {
    console.warn('planted warning');
    setTimeout(() => {
      throw new Error('planted error');
    });
    await fetch('https://kerfweave.invalid/planted').catch(() => undefined);
  });
  await expect.poll(() => browser.takeComplaints(page, /^console warning: planted warning/)).toHaveLength(1);
  await expect.poll(() => browser.takeComplaints(page, /^uncaught: .*planted error/)).toHaveLength(1);
  await expect
    .poll(() => browser.takeComplaints(page, /^asked another host: https:\/\/kerfweave\.invalid\//))
    .toHaveLength(1);
  // Chromium's own line about the request that failed.
  await expect
    .poll(() => browser.takeComplaints(page, /^console error: .*kerfweave\.invalid/))
    .toHaveLength(1);
});

test('WebGL2 draws, and what it drew can be read back', async () => {
  const page = await browser.openPage({ site: 'fixtures', url: 'plain.html', width: 320, height: 240 });
  await page.waitForSelector('[data-drawn=yes]');
  const pixel = await page.evaluate(() => {
    const gl = document.querySelector('canvas')?.getContext('webgl2');
    const bytes = new Uint8Array(4);
    gl?.readPixels(32, 32, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, bytes);
    return [...bytes];
  });
  expect(pixel).toEqual([51, 102, 153, 255]);
});
