/**
 * Nothing is lost: pages killed in the middle of editing, two tabs on one design, storage that is full or
 * withheld, designs deleted by mistake, files of a later version, links.
 */
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, expect, inject, test } from 'vitest';
import { serializeDesign } from '../../src/design/serialize.ts';
import { makeLink } from '../../src/files/link.ts';
import { fourRings } from '../fixtures/designs.ts';
import { seededRandom } from '../fixtures/random.ts';
import { countFor, SEED } from '../soak/counts.ts';
import { testBrowser } from './harness/browser.ts';
import { chooseFile, nameOf, openDesign } from './harness/designs.ts';
import { launchProfile } from './harness/launch.ts';

const browser = testBrowser();

/** Profiles of browsers, which keep on the disk as a maker's does; gone after the tests. */
const folders: string[] = [];
afterAll(async () => {
  for (const folder of folders) await rm(folder, { recursive: true, force: true });
});

async function newFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'kerfweave-profile-'));
  folders.push(folder);
  return folder;
}

/** `before`: what all pages of the context are to find. */
async function openPlain(
  url = '#/rings',
  before?: (context: BrowserContext) => Promise<unknown>,
): Promise<Page> {
  const page = await browser.openPage({
    width: 1024,
    height: 700,
    url,
    withoutWebGL: true,
    prepare: (opened) => Promise.resolve(before?.(opened.context())),
  });
  await page.locator('.design-name').waitFor();
  return page;
}

/** Another page of the same browser. */
async function openBeside(page: Page, url = '#/rings'): Promise<Page> {
  const beside = await browser.openPage({ context: page.context(), url, withoutWebGL: true });
  await beside.locator('.design-name').waitFor();
  return beside;
}

const mark = (page: Page) => page.locator('.saved').textContent();

const openFour = (page: Page, name: string) => openDesign(page, fourRings({ name }));

async function showDesigns(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Designs', exact: true }).click();
  await page.getByRole('button', { name: /^Your designs/ }).click();
  await page.getByRole('heading', { name: 'Your designs' }).waitFor();
}

const listed = (page: Page) => page.locator('.kept-open b').allTextContents();

/** Renames the design again and again, `Edit n`, each a step of its own, until the page dies. */
function editOn(page: Page, from: number, pauses_ms: readonly number[]): void {
  void page
    .evaluate(
      async ([first, pauses]) => {
        const field = document.querySelector<HTMLInputElement>('.design-name')!;
        const value = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value');
        for (const [i, pause] of pauses.entries()) {
          field.focus();
          value?.set?.call(field, `Edit ${first + i}`);
          field.dispatchEvent(new Event('input', { bubbles: true }));
          field.blur();
          // A page that is being closed has lost the window's focus already, and blurs without a word; each edit is a
          // step of its own all the same.
          field.dispatchEvent(new FocusEvent('focusout', { bubbles: true }));
          await new Promise((resolve) => setTimeout(resolve, pause));
        }
      },
      [from, pauses_ms] as const,
    )
    .catch(() => undefined);
}

/** By the page itself (src/loadAgain.ts), where nobody asked for it. */
const wasLoadedAgain = (page: Page) =>
  page.evaluate(() =>
    performance
      .getEntriesByType('navigation')
      .some((entry) => (entry as PerformanceNavigationTiming).type === 'reload'),
  );

const numberIn = (name: string) => Number(/^Edit (\d+)$/.exec(name)?.[1] ?? -1);

test('no edit that was kept is lost when the page is killed at any moment', async () => {
  const rounds = countFor('kill-reload', 5, 1_000);
  let kept = -1;
  let waits_ms: number[] = [];
  const context = await launchProfile(inject('chromium'), await newFolder());
  await context.exposeBinding('reportKept', (_, n: number, wait_ms: number) => {
    kept = Math.max(kept, n);
    waits_ms.push(wait_ms);
  });
  await context.addInitScript(() => {
    let edited_ms = 0;
    const report = Reflect.get(window, 'reportKept') as (n: number, wait_ms: number) => void;
    addEventListener('input', () => (edited_ms ||= performance.now()), { capture: true });
    new MutationObserver(() => {
      const state = document.querySelector<HTMLElement>('.saved')?.dataset.state;
      const name = document.querySelector<HTMLInputElement>('.design-name')?.value ?? '';
      if (state !== 'kept' || edited_ms === 0 || !name.startsWith('Edit ')) return;
      report(Number(name.slice(5)), performance.now() - edited_ms);
      edited_ms = 0;
    }).observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
  });
  // A stage that is drawn without a graphics card takes the time in which the edits are made.
  const openAgain = () => browser.openPage({ context, url: '#/rings', withoutWebGL: true });
  let at = await openAgain();
  await at.locator('.design-name').waitFor();
  await openFour(at, 'Edit 0');
  await expect.poll(() => mark(at)).toBe('Kept');
  let next = 1;
  let lost = 0;
  let again = 0;
  for (let round = 0; round < rounds; round++) {
    const random = seededRandom(SEED + round);
    const before = kept;
    editOn(
      at,
      next,
      Array.from({ length: 400 }, () => random.between(0, 60)),
    );
    await new Promise((resolve) => setTimeout(resolve, random.between(20, 900)));
    const way = random.pick(['crash', 'close', 'reload', 'leave'] as const);
    if (way === 'crash') {
      const session = await context.newCDPSession(at);
      const crashed = at.waitForEvent('crash');
      void session.send('Page.crash').catch(() => undefined);
      await crashed;
      browser.takeComplaints(at, /the page crashed/);
    }
    if (way === 'leave') await at.goto('about:blank');
    if (way === 'reload') await at.reload();
    else {
      await at.close();
      at = await openAgain();
    }
    await at.locator('.design-name').waitFor();
    if (way !== 'reload' && (await wasLoadedAgain(at))) again++;
    const found = numberIn(await nameOf(at));
    const say = `round ${round} (${way}), seed ${SEED}: kept ${kept}, found ${found}`;
    if (found < kept) lost++;
    expect(found, say).toBeGreaterThanOrEqual(Math.max(kept, before));
    // The steps before it are there as well.
    if (found > 0) {
      await at.getByRole('button', { name: 'Undo: rename' }).click();
      expect(numberIn(await nameOf(at)), say).toBe(found - 1);
      await at.getByRole('button', { name: 'Redo: rename' }).click();
    }
    expect(await at.locator('.said').isHidden(), say).toBe(true);
    await expect.poll(() => mark(at)).toBe('Kept');
    next = found + 1;
    if (round % 50 === 49) console.log(`${round + 1} rounds, ${next - 1} edits, ${lost} kept edits lost`);
  }
  waits_ms = waits_ms.toSorted((a, b) => a - b);
  const part = (share: number) => waits_ms[Math.floor((waits_ms.length - 1) * share)]?.toFixed(0);
  console.log(
    `${rounds} rounds, ${next - 1} edits, ${lost} kept edits lost; edit to kept: median ${part(0.5)} ms, ` +
      `95 % ${part(0.95)} ms, longest ${part(1)} ms; ${again} pages did not come whole and loaded themselves again`,
  );
  expect(waits_ms.length).toBeGreaterThan(0);
});

test('what was kept is there after the whole browser has crashed', async () => {
  const folder = await newFolder();
  const start = () => launchProfile(inject('chromium'), folder);
  const { baseUrl, failure } = inject('app');
  if (baseUrl === null) throw new Error(failure);
  const first = await start();
  const page = await first.newPage();
  await page.goto(`${baseUrl}#/plan`);
  await page.locator('.design-name').fill('Before the crash');
  await expect.poll(() => mark(page)).toBe('Kept');
  const session = await first.newCDPSession(page);
  const gone = new Promise((resolve) => first.once('close', resolve));
  void session.send('Browser.crash').catch(() => undefined);
  await gone;
  const second = await start();
  const again = await second.newPage();
  await again.goto(`${baseUrl}#/plan`);
  await expect.poll(() => nameOf(again)).toBe('Before the crash');
  await second.close();
});

test('a design that was damaged on the disk opens in its last good state, and what was found can be saved', async () => {
  const page = await openPlain();
  await openFour(page, 'Bowl');
  await page.locator('.design-name').fill('Bowl two');
  await expect.poll(() => mark(page)).toBe('Kept');
  await spoilStates(page, 'last');
  await page.reload();
  await page.getByText(/^Of Bowl two, the last state could not be read/).waitFor();
  expect(await nameOf(page)).toBe('Bowl');

  await openFour(page, 'Vase');
  await expect.poll(() => mark(page)).toBe('Kept');
  await spoilStates(page, 'every');
  await page.reload();
  await page.getByText(/^Vase could not be read back/).waitFor();
  await showDesigns(page);
  await page.getByRole('button', { name: /^Vase/ }).click();
  const [found] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save what was found' }).click(),
  ]);
  expect(found.suggestedFilename()).toBe('vase-as-found.json');
  expect(JSON.parse(await readFile(await found.path(), 'utf8'))).toMatchObject({ header: { name: 'Vase' } });
});

/** Writes nonsense over the states of all designs, as a failing disk does. */
async function spoilStates(page: Page, which: 'last' | 'every'): Promise<void> {
  await page.evaluate(async (part) => {
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.addEventListener('success', () => resolve(request.result));
        request.addEventListener('error', () => reject(request.error ?? new Error('no reason given')));
      });
    const database = await done(indexedDB.open('kerfweave-designs'));
    const store = database.transaction('states', 'readwrite').objectStore('states');
    const states = (await done(store.getAll())) as { id: string; seq: number; work: unknown }[];
    for (const state of states) {
      const last = !states.some((other) => other.id === state.id && other.seq > state.seq);
      if (part === 'every' || last) await done(store.put({ ...state, work: 'x' }));
    }
    database.close();
  }, which);
}

test('storage that is cleared under an open page is filled again with the next edit, history and all', async () => {
  const page = await openPlain();
  await openFour(page, 'Bowl');
  for (const name of ['Bowl two', 'Bowl three']) {
    await page.locator('.design-name').fill(name);
    await page.locator('.design-name').blur();
    await expect.poll(() => mark(page)).toBe('Kept');
  }
  const session = await page.context().newCDPSession(page);
  const { origin } = new URL(page.url());
  await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb' });
  // An undo writes where the present is and no state.
  await page.getByRole('button', { name: 'Undo: rename' }).click();
  await expect.poll(() => mark(page)).toBe('Kept');
  await page.reload();
  expect(await nameOf(page)).toBe('Bowl two');
  await page.getByRole('button', { name: 'Redo: rename' }).click();
  expect(await nameOf(page)).toBe('Bowl three');
  await page.getByRole('button', { name: 'Undo: rename' }).click();
  await page.getByRole('button', { name: 'Undo: rename' }).click();
  expect(await nameOf(page)).toBe('Bowl');
  expect(await page.locator('.said').isHidden()).toBe(true);
});

test('a design that was deleted in another tab does not come back by loading this one again', async () => {
  const here = await openPlain();
  await openFour(here, 'Bowl');
  await openFour(here, 'Vase');
  await expect.poll(() => mark(here)).toBe('Kept');
  await here.goto('about:blank');
  const there = await openBeside(here);
  await showDesigns(there);
  await there.getByRole('button', { name: 'Delete Vase', exact: true }).click();
  await there.getByText('Vase is deleted.').waitFor();
  await here.goBack();
  await here.locator('.design-name').waitFor();
  expect(await nameOf(here)).not.toMatch(/Vase/);
});

test('a page that the browser sets aside lets go of its design, and shows what was done meanwhile', async () => {
  // The browser that runs the tests sets no page aside, so the page is only told so.
  const tell = (page: Page, name: string) =>
    page.evaluate((event) => dispatchEvent(new PageTransitionEvent(event, { persisted: true })), name);
  const here = await openPlain();
  await openFour(here, 'Bowl');
  await here.locator('.design-name').fill('Bowl two');
  await tell(here, 'pagehide');
  const there = await openBeside(here);
  expect(await nameOf(there)).toBe('Bowl two');
  expect(await there.locator('.said').isHidden()).toBe(true);
  await there.locator('.design-name').fill('Theirs');
  await expect.poll(() => mark(there)).toBe('Kept');
  await tell(here, 'pageshow');
  await here.getByText(/^Theirs is open in another tab/).waitFor();
  expect(await nameOf(here)).toBe('Theirs, copy');
});

test('a second tab is told, and works on a copy', async () => {
  const here = await openPlain();
  await openFour(here, 'Bowl');
  await expect.poll(() => mark(here)).toBe('Kept');
  const there = await openBeside(here);
  await there.getByText(/^Bowl is open in another tab\. This is a copy of it/).waitFor();
  expect(await nameOf(there)).toBe('Bowl, copy');
  await there.locator('.design-name').fill('Theirs');
  await expect.poll(() => mark(there)).toBe('Kept');
  await here.locator('.design-name').fill('Mine');
  await expect.poll(() => mark(here)).toBe('Kept');
  await here.reload();
  await there.reload();
  await expect.poll(() => nameOf(here)).toBe('Mine');
  await expect.poll(() => nameOf(there)).toBe('Theirs');
  await showDesigns(here);
  await expect.poll(() => listed(here)).toEqual(['Mine', 'Theirs']);
  await here.getByText(/open in another tab/).waitFor();
  expect(await here.getByRole('button', { name: 'Delete Theirs' }).isDisabled()).toBe(true);
});

test('without locks of the browser a second tab still does not overwrite the first', async () => {
  const here = await openPlain('#/rings', (context) =>
    context.addInitScript(() => {
      Object.defineProperty(Navigator.prototype, 'locks', { get: () => undefined });
    }),
  );
  await openFour(here, 'Bowl');
  await expect.poll(() => mark(here)).toBe('Kept');
  const there = await openBeside(here);
  expect(await nameOf(there)).toBe('Bowl');
  await there.locator('.design-name').fill('Theirs');
  await expect.poll(() => mark(there)).toBe('Kept');
  await here.locator('.design-name').fill('Mine');
  await here.getByText('This design was changed in another tab.').waitFor();
  await expect.poll(() => nameOf(here)).toBe('Mine, copy');
  await expect.poll(() => mark(here)).toBe('Kept');
  await there.reload();
  await expect.poll(() => nameOf(there)).toBe('Theirs');
});

test('a full storage is said, offers the file, and is got over when there is room again', async () => {
  // Chromium does not hold IndexedDB to the quota that its tools can set, so the page itself is told of a full one.
  const page = await openPlain('#/rings', (context) =>
    context.addInitScript(() => {
      const put = Reflect.get(IDBObjectStore.prototype, 'put');
      IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...rest: unknown[]) {
        if (Reflect.get(window, 'full') === true) throw new DOMException('no room', 'QuotaExceededError');
        return Reflect.apply(put, this, rest) as IDBRequest<IDBValidKey>;
      };
    }),
  );
  const setFull = (full: boolean) => page.evaluate((value) => Reflect.set(window, 'full', value), full);
  await openFour(page, 'Bowl');
  await expect.poll(() => mark(page)).toBe('Kept');
  await setFull(true);
  await page.locator('.design-name').fill('Too much');
  await expect.poll(() => mark(page)).toBe('Cannot keep: the storage of this browser is full');
  const saved = page.waitForEvent('download');
  await page.evaluate(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  await page.getByRole('button', { name: 'Save to a file', exact: true }).click();
  expect((await saved).suggestedFilename()).toBe('too-much.kerfweave.json');
  const beside = await openBeside(page);
  expect(await nameOf(beside)).toBe('Bowl, copy');
  // The page does not go with it unasked.
  const asked = page.waitForEvent('dialog');
  await page.close({ runBeforeUnload: true });
  const question = await asked;
  expect(question.type()).toBe('beforeunload');
  await question.dismiss();
  await setFull(false);
  await expect.poll(() => mark(page), { timeout: 20_000 }).toBe('Kept');
  await page.reload();
  await expect.poll(() => nameOf(page)).toBe('Too much');
});

test('storage that the browser withholds is said from the start, and the app works', async () => {
  const page = await openPlain('#/rings', (context) =>
    context.addInitScript(() => {
      const refuse = () => {
        throw new DOMException('The operation is insecure.', 'SecurityError');
      };
      Object.defineProperty(window, 'indexedDB', { get: refuse });
      Object.defineProperty(window, 'sessionStorage', { get: refuse });
      // Its locks are there, and refuse as well.
      LockManager.prototype.request = () => Promise.reject(new DOMException('Denied.', 'SecurityError'));
      LockManager.prototype.query = () => Promise.reject(new DOMException('Denied.', 'SecurityError'));
    }),
  );
  expect(await mark(page)).toMatch(/^Cannot keep: this browser does not let the page store anything/);
  await openFour(page, 'Bowl');
  await page.locator('.design-name').fill('Better bowl');
  await openFour(page, 'Vase');
  // What cannot be written stays in this tab.
  await showDesigns(page);
  await expect.poll(() => listed(page)).toContain('Better bowl');
  await page.getByRole('button', { name: /^Better bowl/ }).click();
  await expect.poll(() => nameOf(page)).toBe('Better bowl');
});

test('designs are listed, renamed, duplicated, deleted and put back', async () => {
  const page = await openPlain();
  await openFour(page, 'Bowl');
  await openFour(page, 'Vase');
  await showDesigns(page);
  await expect.poll(() => listed(page)).toEqual(['Vase', 'Bowl']);
  // Each with a picture that is drawn.
  await expect.poll(() => page.locator('.kept-list .portrait path').count()).toBeGreaterThan(10);
  const axe = await new AxeBuilder({ page }).setLegacyMode().include('dialog[open]').analyze();
  expect(axe.violations.map(({ id }) => id)).toEqual([]);
  await page.getByRole('button', { name: 'Rename Bowl' }).click();
  await page.getByLabel('New name of Bowl').fill('<b>Platter</b>');
  await page.keyboard.press('Enter');
  await expect.poll(() => listed(page)).toContain('<b>Platter</b>');
  await page.getByRole('button', { name: 'Duplicate Vase' }).click();
  await expect.poll(() => listed(page)).toContain('Vase, copy');
  await page.getByRole('button', { name: 'Delete <b>Platter</b>' }).click();
  await page.getByText('<b>Platter</b> is deleted.').waitFor();
  expect(await listed(page)).not.toContain('<b>Platter</b>');
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(() => listed(page)).toContain('<b>Platter</b>');
  await page.getByRole('button', { name: 'Delete Vase', exact: true }).click();
  await expect.poll(() => nameOf(page)).not.toBe('Vase');
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await page.getByRole('button', { name: /^Vase(?!, copy)/ }).click();
  await expect.poll(() => nameOf(page)).toBe('Vase');
});

test('a file of a later version is open for reading only, and is saved with all that it holds', async () => {
  const page = await openPlain();
  const later = {
    ...(JSON.parse(serializeDesign(fourRings({ name: 'Later' }))) as object),
    version: 99,
    hue: { a: [1] },
  };
  await chooseFile(page, JSON.stringify(later));
  await page.getByText(/made with a newer Kerfweave.*reading only/).waitFor();
  await expect.poll(() => mark(page)).toBe('Read only');
  await page.locator('.design-name').fill('Mine');
  await expect.poll(() => nameOf(page)).toBe('Later');
  await page.reload();
  await expect.poll(() => nameOf(page)).toBe('Later');
  await page.evaluate(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  const saved = page.waitForEvent('download');
  await page.keyboard.press('Control+s');
  expect(JSON.parse(await readFile(await (await saved).path(), 'utf8'))).toEqual(later);
});

test('a link opens as a new design, once, and what was open stays among the designs', async () => {
  const page = await openPlain();
  await openFour(page, 'Bowl');
  await expect.poll(() => mark(page)).toBe('Kept');
  const made = makeLink({
    variants: [{ name: 'Variant 1', design: fourRings({ name: 'Sent' }) }],
    active: 0,
  });
  if (!made.ok) throw new Error(made.message);
  await page.evaluate((fragment) => (window.location.hash = fragment), made.fragment);
  await expect.poll(() => nameOf(page)).toBe('Sent');
  expect(new URL(page.url()).hash).toBe('#/show');
  await expect.poll(() => mark(page)).toBe('Kept');
  await page.reload();
  await expect.poll(() => nameOf(page)).toBe('Sent');
  await page.evaluate((fragment) => (window.location.hash = fragment), made.fragment);
  await page.locator('.window[data-station=show]').waitFor();
  await showDesigns(page);
  await expect.poll(() => listed(page)).toEqual(['Sent', 'Bowl']);
  await page.keyboard.press('Escape');
  await page.evaluate((fragment) => (window.location.hash = fragment.slice(0, -4)), made.fragment);
  await page.getByText('the link is damaged').waitFor();
  await page.getByRole('button', { name: 'Close' }).click();
  expect(await nameOf(page)).toBe('Sent');
});
