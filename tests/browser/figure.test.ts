/**
 * The sheet of figure for the swatches against the stage's own shader, drawn anew: it is what the stage shows, not an
 * older or another wood. What WebP loses is small beside what tells two timbers apart.
 */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { FIGURE_COLUMNS, FIGURE_PX, FIGURE_ROWS } from '../../src/panels/fields/figure.ts';
import { TIMBERS } from '../../src/timber/timbers.ts';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();

/** Fine dark rings, ribbons, and hardly anything. */
const LOOKED_AT = ['wenge', 'sapele', 'american-holly'];

async function open(): Promise<Page> {
  const page = await browser.openPage({ site: 'fixtures', url: 'figure.html' });
  await page.waitForFunction(() => document.body.dataset.ready === 'yes');
  return page;
}

/** Mean difference of two pictures of the same size, in steps of 255. */
function difference(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + Math.abs(value - b[i]), 0) / a.length;
}

test('the sheet of figure is what the shader draws', async () => {
  const page = await open();
  const base64 = readFileSync('src/panels/fields/figure.webp').toString('base64');
  const sheet = await page.evaluate(
    (address) => window.figurePage.pixels(address),
    `data:image/webp;base64,${base64}`,
  );
  expect([sheet.width, sheet.height]).toEqual([FIGURE_COLUMNS * FIGURE_PX, FIGURE_ROWS * FIGURE_PX]);
  const tileOf = (timber: string) => {
    const index = TIMBERS.findIndex(({ id }) => id === timber);
    expect(index, timber).toBeGreaterThanOrEqual(0);
    const left = (index % FIGURE_COLUMNS) * FIGURE_PX;
    const top = Math.floor(index / FIGURE_COLUMNS) * FIGURE_PX;
    return Array.from({ length: FIGURE_PX }, (_, row) =>
      sheet.data.slice(
        4 * ((top + row) * sheet.width + left),
        4 * ((top + row) * sheet.width + left + FIGURE_PX),
      ),
    ).flat();
  };
  for (const timber of LOOKED_AT) {
    const drawn = await page.evaluate((id) => window.figurePage.coded(id), timber);
    const own = difference(drawn, tileOf(timber));
    const others = LOOKED_AT.filter((other) => other !== timber).map((other) =>
      difference(drawn, tileOf(other)),
    );
    console.log(
      `${timber}: off by ${own.toFixed(2)}, from the nearest other by ${Math.min(...others).toFixed(2)}`,
    );
    expect(own, timber).toBeLessThan(3);
    expect(own, timber).toBeLessThan(Math.min(...others) / 2);
  }
});
