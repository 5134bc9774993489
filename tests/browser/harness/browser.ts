/**
 * One browser per test file. Call once at the top of the file:
 *
 *     const browser = testBrowser();
 *     test('…', async () => {
 *       const page = await browser.openPage({ width: 640, height: 480, url: '#/rings' });
 *     });
 *
 * After each test its pages are closed, and the test fails on anything they complained of: console messages,
 * uncaught errors, remote requests. A failed test leaves a picture of each page in tests/out/failed.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, inject } from 'vitest';
import { launchChromium, openWatchedPage, type PageOptions, type WatchedPage } from './launch.ts';

export interface TestPageOptions extends PageOptions {
  readonly site?: 'app' | 'fixtures';
}

export interface TestBrowser {
  /** Opens a watched page of the built app, or of tests/browser/fixtures with `site: 'fixtures'`. */
  readonly openPage: (options?: TestPageOptions) => Promise<Page>;
  /** Removes and returns the complaints so far that match, for a test that provokes them on purpose. */
  readonly takeComplaints: (page: Page, pattern: RegExp) => string[];
}

export function testBrowser(): TestBrowser {
  let browser: Browser | undefined;
  let opened: WatchedPage[] = [];

  beforeAll(async () => {
    browser = await launchChromium(inject('chromium'));
  });

  afterEach(async ({ task }) => {
    const watched = opened;
    opened = [];
    if (task.result?.state === 'fail') await takePictures(watched, task.name);
    for (const { page } of watched) await page.context().close();
    expect(
      watched.flatMap(({ complaints }) => complaints),
      'what the page complained of',
    ).toEqual([]);
  });

  afterAll(async () => {
    await browser?.close();
  });

  return {
    openPage: async (options) => {
      if (!browser) throw new Error('openPage is for use inside a test');
      const site = options?.site ?? 'app';
      const { baseUrl, failure } = inject(site);
      if (baseUrl === null) throw new Error(`the ${site} could not be built: ${failure}`);
      const watched = await openWatchedPage(browser, baseUrl, options);
      opened.push(watched);
      return watched.page;
    },
    takeComplaints: (page, pattern) => {
      const watched = opened.find((candidate) => candidate.page === page);
      if (!watched) throw new Error('not a page of this test');
      const taken = watched.complaints.filter((complaint) => pattern.test(complaint));
      const kept = watched.complaints.filter((complaint) => !pattern.test(complaint));
      watched.complaints.splice(0, Infinity, ...kept);
      return taken;
    },
  };
}

async function takePictures(watched: readonly WatchedPage[], name: string): Promise<void> {
  const folder = join('tests', 'out', 'failed');
  mkdirSync(folder, { recursive: true });
  const stem = name.replace(/[^a-z0-9]+/gi, '-').slice(0, 80);
  for (const [i, { page }] of watched.entries()) {
    if (page.isClosed()) continue;
    await page
      .screenshot({ path: join(folder, `${stem}-${i + 1}.png`), timeout: 20_000 })
      .catch((error: unknown) => {
        console.log(`no picture of the failed page: ${String(error)}`);
      });
  }
}
