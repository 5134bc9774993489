/**
 * What a first visit loads before the stage is there: at most 450 kB of JavaScript, compressed with gzip, and
 * at most 80 kB for each worker (common practice for a page that should open on a shop tablet).
 */
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();

async function compressed_kB(url: string): Promise<number> {
  const response = await fetch(url);
  expect(response.ok, url).toBe(true);
  return gzipSync(Buffer.from(await response.arrayBuffer())).byteLength / 1000;
}

test('the first visit stays light', async () => {
  const page = await browser.openPage({ width: 640, height: 480, url: '#/rings' });
  await page.locator('canvas').first().waitFor();
  await page.waitForLoadState('networkidle');
  const loaded = await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name));
  const workers = [...new Set(page.workers().map((worker) => worker.url()))];
  const scripts = [...new Set(loaded)].filter((url) => /\.js(\?|$)/.test(url) && !workers.includes(url));
  const sizes = await Promise.all(scripts.map(compressed_kB));
  const workerSizes = await Promise.all(workers.map(compressed_kB));
  const total = sizes.reduce((sum, size) => sum + size, 0);
  console.log(
    `first visit: ${total.toFixed(0)} kB in ${scripts.length} scripts, ` +
      `workers ${workerSizes.map((size) => size.toFixed(0)).join(', ')} kB (gzip)`,
  );
  expect(scripts.length).toBeGreaterThan(0);
  expect(total).toBeGreaterThan(100);
  expect(total).toBeLessThanOrEqual(450);
  for (const [i, size] of workerSizes.entries()) expect(size, workers[i]).toBeLessThanOrEqual(80);
});
