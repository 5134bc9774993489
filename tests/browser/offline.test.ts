/** The app with the network cut, and a new version that waits for the maker's word. */
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createServer, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join, normalize } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, expect, inject, test } from 'vitest';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();
let close: () => Promise<void> = () => Promise.resolve();
afterEach(() => close());

const MIME: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
};

interface Copy {
  readonly url: string;
  /** Every path that was asked for. */
  readonly asked: string[];
  /** Cuts every connection, and takes no more. */
  readonly stop: () => Promise<void>;
  readonly change: (file: string, edit: (text: string) => string) => Promise<void>;
  /** Breaks off in the middle of every answer with such a path, or of so many of them; null: no more. */
  readonly breakOff: (path: RegExp | null, times?: number) => void;
}

/** A server of the built app that can be stopped and whose files can change, which a cut network cannot imitate. */
async function serveCopy(): Promise<Copy> {
  const folder = await mkdtemp(join(tmpdir(), 'kerfweave-offline-'));
  const { folder: built } = inject('app');
  if (built === null) throw new Error(inject('app').failure);
  await cp(built, folder, { recursive: true });
  const asked: string[] = [];
  let broken: RegExp | null = null;
  let left = 0;
  const server: Server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://localhost');
    const path = normalize(pathname.endsWith('/') ? `${pathname}index.html` : pathname);
    asked.push(path);
    const type = MIME[extname(path)] ?? 'application/octet-stream';
    const breaksOff = broken?.test(path) === true && left-- > 0;
    void answer(response, join(folder, path), type, breaksOff);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const stop = async () => {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  };
  close = async () => {
    if (server.listening) await stop();
    await rm(folder, { recursive: true, force: true });
  };
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    asked,
    stop,
    breakOff: (path, times = Infinity) => {
      broken = path;
      left = times;
    },
    change: async (file, edit) => {
      const path = join(folder, file);
      await writeFile(path, edit(await readFile(path, 'utf8')));
    },
  };
}

async function answer(
  response: ServerResponse,
  file: string,
  type: string,
  breaksOff: boolean,
): Promise<void> {
  const body = await readFile(file).catch(() => null);
  if (body === null) {
    response.writeHead(404).end();
    return;
  }
  response.writeHead(200, {
    'content-type': type,
    'cache-control': 'no-cache',
    'content-length': body.length,
  });
  if (breaksOff) response.write(body.subarray(0, body.length >> 1), () => response.destroy());
  else response.end(body);
}

async function installed(page: Page): Promise<void> {
  const state = () =>
    page.evaluate(async () => {
      const registration = await navigator.serviceWorker.getRegistration();
      return `${registration?.active?.state} ${navigator.serviceWorker.controller !== null}`;
    });
  await expect.poll(state, { timeout: 30_000 }).toBe('activated true');
}

test('every file of the build is stored, and the app opens and works with the server gone', async () => {
  const copy = await serveCopy();
  const page = await browser.openPage({ width: 900, height: 640, url: copy.url });
  await installed(page);
  await copy.stop();
  await page.context().setOffline(true);
  await page.reload();
  await page.locator('.design-name').fill('Made without a network');
  await expect.poll(() => page.locator('.saved').textContent()).toBe('Kept');
  // The stage with its worker, a starter, the map, and the sheet with its fonts.
  await page.locator('.stage canvas').first().waitFor();
  await page.getByRole('button', { name: 'Designs', exact: true }).click();
  await page.getByRole('button', { name: 'Tide bowl' }).click();
  await expect.poll(() => page.locator('.design-name').inputValue()).toBe('Tide bowl');
  await page.evaluate(() => (window.location.hash = '#/plan'));
  await expect.poll(() => page.locator('.setup').count(), { timeout: 60_000 }).toBeGreaterThan(0);
  const sheet = page.waitForEvent('download', { timeout: 60_000 });
  await page.getByRole('button', { name: 'Shop sheet, PDF' }).click();
  const bytes = await readFile(await (await sheet).path());
  expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
  expect(await page.locator('.said').isHidden()).toBe(true);
});

test('a page of which a part does not arrive is loaded again, and says so where that does not help', async () => {
  const copy = await serveCopy();
  const entry = /assets\/index-[\w-]+\.js$/;
  const count = () => copy.asked.filter((path) => entry.test(path)).length;
  copy.breakOff(entry, 1);
  const page = await browser.openPage({ width: 640, height: 480, url: `${copy.url}#/plan` });
  await page.locator('.design-name').waitFor();
  expect(count()).toBe(2);
  expect(new URL(page.url()).hash).toBe('#/plan');
  expect(await page.evaluate(() => window.history.state as unknown)).toBeNull();

  copy.breakOff(entry);
  const beside = await browser.openPage({ width: 640, height: 480, url: `${copy.url}#/plan` });
  await beside.getByText('Kerfweave did not load whole').waitFor();
  expect(count()).toBe(5);
  copy.breakOff(null);
  await beside.getByRole('button', { name: 'Load the page again' }).click();
  await beside.locator('.design-name').waitFor();
  for (const one of [page, beside]) browser.takeComplaints(one, /^console error: Failed to load resource/);
});

test('a new version waits for the word, then serves every tab, and nothing is lost', async () => {
  const copy = await serveCopy();
  const page = await browser.openPage({ width: 640, height: 480, url: copy.url });
  await installed(page);
  const beside = await browser.openPage({ context: page.context(), url: copy.url });
  const title = (where: Page) => where.title();
  await copy.change('index.html', (html) => html.replace('<title>Kerfweave', '<title>Kerfweave 2'));
  // The list of files names the new page, as a new build does.
  await copy.change('service-worker.js', (script) =>
    script.replace(/(url:`index\.html`,revision:`)[0-9a-f]{4}/, '$1beef'),
  );
  await page.reload();
  await page.locator('.design-name').fill('Before the new version');
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
  await page.getByText('A new version of Kerfweave is ready.').waitFor();
  // However often it is loaded again, it stays the old one.
  await page.reload();
  expect(await title(page)).toBe('Kerfweave');
  await page.getByRole('button', { name: 'Use it now' }).click();
  await expect.poll(() => title(page), { timeout: 30_000 }).toBe('Kerfweave 2');
  await expect.poll(() => title(beside), { timeout: 30_000 }).toBe('Kerfweave 2');
  await expect.poll(() => page.locator('.design-name').inputValue()).toBe('Before the new version');
});

test('an update that breaks off leaves the old version whole, and is made up for later', async () => {
  const copy = await serveCopy();
  const page = await browser.openPage({ width: 640, height: 480, url: copy.url });
  await installed(page);
  await copy.change('index.html', (html) => html.replace('<title>Kerfweave', '<title>Kerfweave 2'));
  await copy.change('service-worker.js', (script) =>
    script.replace(/(url:`index\.html`,revision:`)[0-9a-f]{4}/, '$1beef'),
  );
  copy.breakOff(/index\.html$/);
  const update = () =>
    page.evaluate(async () => {
      const registration = await navigator.serviceWorker.getRegistration();
      const fresh = new Promise<ServiceWorker | null>((resolve) => {
        registration?.addEventListener('updatefound', () => resolve(registration.installing), { once: true });
      });
      await registration?.update().catch(() => undefined);
      const worker = await fresh;
      await new Promise<void>((resolve) => {
        worker?.addEventListener('statechange', () => resolve(), { once: true });
      });
      return worker?.state;
    });
  expect(await update()).toBe('redundant');
  browser.takeComplaints(page, /bad-precaching|ERR_CONTENT_LENGTH_MISMATCH|Failed to load|update|fetch/i);
  await page.reload();
  await page.locator('.design-name').waitFor();
  expect(await page.title()).toBe('Kerfweave');
  expect(await page.locator('.update').count()).toBe(0);
  copy.breakOff(null);
  expect(await update()).toBe('installed');
  await page.getByRole('button', { name: 'Use it now' }).click();
  await expect.poll(() => page.title(), { timeout: 30_000 }).toBe('Kerfweave 2');
});

test('files that the browser has cleared are stored again when the app is opened, and no others', async () => {
  const copy = await serveCopy();
  const page = await browser.openPage({ width: 640, height: 480, url: copy.url });
  await installed(page);
  const stored = () =>
    page.evaluate(async () => {
      const names = await caches.keys();
      const lists = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
      return lists
        .flat()
        .map(({ url }) => new URL(url).pathname)
        .sort();
    });
  const all = await stored();
  expect(all.length).toBeGreaterThan(20);
  // The start page is another one by now: it must not stand in the store under the old one's mark.
  await copy.change('index.html', (html) => html.replace('<title>Kerfweave', '<title>Kerfweave 2'));
  await page.evaluate(async () => {
    for (const name of await caches.keys()) {
      const store = await caches.open(name);
      for (const request of await store.keys())
        if (!request.url.includes('index.html')) await store.delete(request);
    }
  });
  expect(await stored()).toEqual(['/index.html']);
  await page.reload();
  await expect.poll(stored, { timeout: 30_000 }).toEqual(all);
  expect(await page.title()).toBe('Kerfweave');
  await page.evaluate(async () => {
    for (const name of await caches.keys()) await caches.delete(name);
  });
  await page.evaluate(async () => (await navigator.serviceWorker.ready).active?.postMessage('opened'));
  await expect.poll(stored, { timeout: 30_000 }).toEqual(all.filter((path) => path !== '/index.html'));
  await copy.stop();
});

test('a new version that another tab takes does not take what cannot be kept', async () => {
  const copy = await serveCopy();
  const page = await browser.openPage({ width: 640, height: 480, url: copy.url });
  await installed(page);
  const beside = await browser.openPage({ context: page.context(), url: copy.url });
  await page.evaluate(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
  });
  await page.locator('.design-name').fill('Cannot be kept');
  await expect.poll(() => page.locator('.saved').textContent()).toMatch(/storage of this browser is full/);
  await copy.change('service-worker.js', (script) =>
    script.replace(/(url:`index\.html`,revision:`)[0-9a-f]{4}/, '$1beef'),
  );
  await beside.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
  await beside.getByRole('button', { name: 'Use it now' }).click();
  await page
    .getByText(/A new version of Kerfweave is in use, but what you did last cannot be kept/)
    .waitFor();
  expect(await page.locator('.design-name').inputValue()).toBe('Cannot be kept');
});

test('it can be installed: a manifest with a name, a start and icons of the sizes that are asked for', async () => {
  const page = await browser.openPage({ width: 400, height: 300 });
  const session = await page.context().newCDPSession(page);
  const { errors, data } = await session.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  const manifest = JSON.parse(data ?? '{}') as { icons: { src: string; sizes: string; type: string }[] };
  for (const { src, sizes, type } of manifest.icons.filter((icon) => icon.type === 'image/png')) {
    const response = await page.request.get(new URL(src, page.url()).href);
    expect(response.headers()['content-type']).toBe(type);
    const png = await response.body();
    expect(`${png.readUInt32BE(16)}x${png.readUInt32BE(20)}`).toBe(sizes);
  }
  expect(manifest.icons.some((icon) => icon.sizes === '512x512')).toBe(true);
});
