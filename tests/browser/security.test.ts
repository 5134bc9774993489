/**
 * The built app keeps to its content policy: no inline script, no code from text, nothing from another host;
 * text from files and links is shown as text. Every page of these tests is watched for remote requests.
 */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { CONTENT_POLICY } from '../../src/offlineBuild.ts';
import { makeClientLink, makeLink } from '../../src/files/link.ts';
import { fourRings } from '../fixtures/designs.ts';
import { readPdf } from '../files/sheet/readPdf.ts';
import { testBrowser } from './harness/browser.ts';
import { openDesign } from './harness/designs.ts';

const browser = testBrowser();

/** A page that writes down every breach of its policy; the console would tell of most of them as well. */
async function openWatching(url = '#/rings'): Promise<{ page: Page; breaches: () => Promise<string[]> }> {
  const prepare = (page: Page) =>
    page.addInitScript(() => {
      const breaches: string[] = [];
      Reflect.set(window, 'breaches', breaches);
      document.addEventListener('securitypolicyviolation', (event) => {
        breaches.push(
          `${event.effectiveDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`,
        );
      });
    });
  const page = await browser.openPage({ width: 1024, height: 700, url, prepare });
  await page.locator('.design-name').waitFor();
  return { page, breaches: () => page.evaluate(() => Reflect.get(window, 'breaches') as string[]) };
}

async function openNamed(page: Page, name: string, notes = ''): Promise<void> {
  await openDesign(page, fourRings({ name, notes }));
}

test('the policy is strict, and stands in the page', async () => {
  expect(CONTENT_POLICY).toMatch(/default-src 'none'/);
  expect(CONTENT_POLICY).not.toMatch(/unsafe|\*|https?:/);
  const page = await browser.openPage({ width: 400, height: 300 });
  const meta = page.locator('meta[http-equiv="Content-Security-Policy"]');
  expect(await meta.getAttribute('content')).toBe(CONTENT_POLICY);
  const response = await page.request.get(page.url());
  expect(response.headers()['content-security-policy']).toBe("frame-ancestors 'none'");
  expect(await response.text()).not.toMatch(/<script(?![^>]*\bsrc=)|<style|\son\w+=|\sstyle=/);
});

test('a walk through the app breaks the policy nowhere, asks no other host and sends nothing', async () => {
  const { page, breaches } = await openWatching();
  const sent: string[] = [];
  page.context().on('request', (request) => {
    const { protocol, search } = new URL(request.url());
    // `blob:` and `data:` are what the page made itself.
    if (!protocol.startsWith('http')) return;
    if (request.method() !== 'GET' || request.postData() !== null || search !== '')
      sent.push(`${request.method()} ${request.url()}`);
  });
  await openNamed(page, 'Four rings');
  await page.locator('.stage canvas').first().waitFor();
  for (const station of ['blank', 'rings', 'form', 'plan', 'show']) {
    await page.evaluate((name) => (window.location.hash = `#/${name}`), station);
    await page.locator(`.window[data-station=${station}]`).waitFor();
  }
  await page.evaluate(() => (window.location.hash = '#/plan'));
  await expect.poll(() => page.locator('.setup').count(), { timeout: 60_000 }).toBe(4);
  const sheet = page.waitForEvent('download', { timeout: 60_000 });
  await page.getByRole('button', { name: 'Shop sheet, PDF' }).click();
  await sheet;
  await page.evaluate(() => (window.location.hash = '#/saw'));
  await page.locator('.saw-step').waitFor();
  await page.evaluate(() => (window.location.hash = '#/show'));
  await page.locator('.window[data-station=show]').waitFor();
  await page.getByRole('button', { name: 'Share', exact: true }).click();
  await page.getByRole('button', { name: 'The design itself' }).click();
  const save = async (name: string) => {
    const made = page.waitForEvent('download', { timeout: 60_000 });
    await page.getByRole('button', { name }).click();
    await made;
  };
  for (const name of ['Cut list, CSV', 'Report, JSON', 'Unrolled map, SVG']) await save(name);
  await page.keyboard.press('Escape');
  await page.getByRole('heading', { name: '3D files' }).click();
  await save('3MF, every part');
  const link = makeLink({ variants: [{ name: 'A', design: fourRings({ name: 'Sent' }) }], active: 0 });
  if (!link.ok) throw new Error(link.message);
  await page.evaluate((fragment) => (window.location.hash = fragment), link.fragment);
  await expect.poll(() => page.locator('.design-name').inputValue()).toBe('Sent');
  expect(sent).toEqual([]);
  expect(await breaches()).toEqual([]);
});

test('what the policy forbids is stopped, and the watch sees it', async () => {
  const { page, breaches } = await openWatching();
  await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'window.injected = true';
    document.head.append(script);
    const image = document.createElement('img');
    image.src = 'https://kerfweave.invalid/beacon.png';
    document.body.append(image);
  });
  await expect
    .poll(breaches)
    .toEqual([
      expect.stringMatching(/^script-src-elem inline/),
      expect.stringMatching(/^img-src https:\/\/kerfweave\.invalid/),
    ]);
  const made = await page.evaluate(() => Reflect.get(window, 'injected') as unknown);
  expect(made).toBeUndefined();
  expect(browser.takeComplaints(page, /Content Security Policy|kerfweave\.invalid/).length).toBeGreaterThan(
    1,
  );
});

/** Texts that a file or a link may bring; each is allowed by the format, up to its longest. */
const HOSTILE = {
  markup:
    '<img src=x onerror="window.injected=1"><script>window.injected=1</script> ) Tj ET Q /JS (x) \\051 %%EOF endobj',
  'one long word': 'W'.repeat(200),
  'right to left, marks upon marks, nothing to be seen':
    'קערה \u200f12 ﷽ \u{1f469}\u200d\u{1f527} Z\u0351\u036b\u0343\u036a\u0302\u036b \u200b\u00ad\ufeff\u2003\u3000.',
} as const;

async function walk(page: Page): Promise<void> {
  for (const station of ['blank', 'rings', 'form', 'plan', 'show']) {
    await page.evaluate((name) => (window.location.hash = `#/${name}`), station);
    await page.locator(`.window[data-station=${station}]`).waitFor();
    // A text that does not fit is broken or cut off; it does not push the window wider.
    const wider = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(wider, station).toBeLessThanOrEqual(0);
  }
}

test.each(Object.entries(HOSTILE))(
  '%s in a file and a link is shown as text on every screen',
  async (_, text) => {
    const { page, breaches } = await openWatching();
    await page.setViewportSize({ width: 390, height: 844 });
    await openNamed(page, text, text);
    await walk(page);
    // The list of designs, and at the saw.
    await page.getByRole('button', { name: 'Designs', exact: true }).click();
    await page.getByRole('button', { name: /^Your designs/ }).click();
    await expect.poll(() => page.locator('.kept-open b').first().textContent()).toBe(text);
    const dialog = await page.locator('dialog.kept').evaluate((box) => box.scrollWidth - box.clientWidth);
    expect(dialog).toBeLessThanOrEqual(0);
    await page.keyboard.press('Escape');
    await page.evaluate(() => (window.location.hash = '#/saw'));
    await page.locator('.saw-step').waitFor();
    await page.evaluate(() => (window.location.hash = '#/plan'));
    await expect.poll(() => page.locator('.setup').count(), { timeout: 60_000 }).toBe(4);
    const sheet = page.waitForEvent('download', { timeout: 60_000 });
    await page.getByRole('button', { name: 'Shop sheet, PDF' }).click();
    const { pages } = await readPdf(await readFile(await (await sheet).path()));
    expect(pages.length).toBeGreaterThan(5);

    // As a link of two variants with such names and notes: for a maker, and for a client.
    const design = fourRings({ name: text, notes: text });
    const work = { variants: [text, `${text.slice(0, 190)} 2`].map((name) => ({ name, design })), active: 0 };
    for (const [made, shown] of [
      [makeLink(work), '.window[data-station=show]'],
      [makeClientLink(work), '.client-panel'],
    ] as const) {
      if (!made.ok) throw new Error(made.message);
      const opened = await browser.openPage({ context: page.context(), url: `#${made.fragment}` });
      await opened.locator(shown).waitFor();
      const [wider, injected] = await opened.evaluate(() => [
        document.documentElement.scrollWidth - window.innerWidth,
        Reflect.get(window, 'injected') as unknown,
      ]);
      expect(wider, shown).toBeLessThanOrEqual(0);
      expect(injected).toBeUndefined();
      expect(await opened.locator('img[src="x"], script:not([src])').count()).toBe(0);
    }
    expect(await page.evaluate(() => Reflect.get(window, 'injected') as unknown)).toBeUndefined();
    expect(await page.locator('img[src="x"], script:not([src])').count()).toBe(0);
    expect(await breaches()).toEqual([]);
  },
);
