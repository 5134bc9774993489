/**
 * `npm run pictures [-- WORDS]`: a picture of every screen (views.ts) in light and dark at three sizes, into
 * tests/out/pictures. With words, only the pictures whose file name holds each of them, such as
 * `npm run pictures -- rings dark`; with --readme only the one in README.md, into its place. Exit 1 when a
 * page complained of anything.
 */
import { copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { serveApp } from './harness/app.ts';
import { findChromium } from './harness/chromium.ts';
import { launchChromium, openWatchedPage } from './harness/launch.ts';
import { README_PICTURE, SIZES, THEMES, VIEWS } from './views.ts';

const FOLDER = join('tests', 'out', 'pictures');
const SETTLE_MS = 600;
const PATIENCE_MS = 30_000;

async function main(words: readonly string[]): Promise<number> {
  mkdirSync(FOLDER, { recursive: true });
  const app = await serveApp();
  const browser = await launchChromium(await findChromium());
  let faults = 0;
  try {
    for (const view of VIEWS)
      for (const size of SIZES)
        for (const theme of THEMES) {
          const name = `${view.name}-${size.name}-${theme}`;
          if (!words.every((word) => name.includes(word))) continue;
          const { page, complaints } = await openWatchedPage(browser, app.baseUrl, {
            ...size,
            url: view.url,
            dark: theme === 'dark',
          });
          await view.steps?.(page);
          const settled = await takeSettled(page, join(FOLDER, `${name}.png`));
          console.log(`${name}.png${settled ? '' : ' (still changing)'}`);
          for (const complaint of complaints) console.error(`${name}: ${complaint}`);
          faults += complaints.length;
          await page.context().close();
        }
  } finally {
    await browser.close();
    await app.close();
  }
  return faults === 0 ? 0 : 1;
}

/** Takes the picture when two in a row are the same, or when patience ends; says whether it came to rest. */
async function takeSettled(page: Page, path: string): Promise<boolean> {
  const end = Date.now() + PATIENCE_MS;
  let before = await page.screenshot({ path });
  while (Date.now() < end) {
    await page.waitForTimeout(SETTLE_MS);
    const now = await page.screenshot({ path });
    if (now.equals(before)) return true;
    before = now;
  }
  return false;
}

const words = process.argv.slice(2);
if (words.includes('--readme')) {
  process.exitCode = await main([README_PICTURE.view]);
  copyFileSync(join(FOLDER, `${README_PICTURE.view}.png`), README_PICTURE.path);
} else process.exitCode = await main(words);
