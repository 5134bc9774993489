/**
 * `npx tsx tests/browser/figure.ts`: src/panels/fields/figure.webp, the figure of every timber for the swatches, drawn by
 * the stage's own shader. The same picture every time on the same machine.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { FIGURE_COLUMNS } from '../../src/panels/fields/figure.ts';
import { TIMBERS } from '../../src/timber/timbers.ts';
import { serveFixtures } from './harness/app.ts';
import { findChromium } from './harness/chromium.ts';
import { launchChromium, openWatchedPage } from './harness/launch.ts';

const TARGET = join('src', 'panels', 'fields', 'figure.webp');
const MOST_BYTES = 100_000;

async function main(): Promise<void> {
  const site = await serveFixtures();
  const browser = await launchChromium(await findChromium());
  try {
    const { page, complaints } = await openWatchedPage(browser, site.baseUrl, { url: 'figure.html' });
    await page.waitForFunction(() => document.body.dataset.ready === 'yes');
    const tiles: number[][] = [];
    for (const { id } of TIMBERS)
      tiles.push(await page.evaluate((timber) => window.figurePage.coded(timber), id));
    const address = await page.evaluate(([drawn, columns]) => window.figurePage.sheet(drawn, columns), [
      tiles,
      FIGURE_COLUMNS,
    ] as const);
    const bytes = Buffer.from(address.slice(address.indexOf(',') + 1), 'base64');
    if (complaints.length > 0) throw new Error(complaints.join('\n'));
    if (bytes.length > MOST_BYTES)
      throw new Error(`the sheet takes ${bytes.length} bytes, more than ${MOST_BYTES}`);
    writeFileSync(TARGET, bytes);
    console.log(`${TARGET}: ${TIMBERS.length} timbers, ${(bytes.length / 1000).toFixed(1)} kB`);
  } finally {
    await browser.close();
    await site.close();
  }
}

await main();
