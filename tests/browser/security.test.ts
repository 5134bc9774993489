/**
 * The built app keeps to its content policy: no inline script, no code from text, nothing from another host;
 * text from files and links is shown as text. Every page of these tests is watched for remote requests.
 */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { serializeDesign } from '../../src/design/serialize.ts';
import { CONTENT_POLICY } from '../../src/offlineBuild.ts';
import { fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();

/** A page that writes down every breach of its policy; the console would tell of most of them as well. */
async function openWatching(url = '#/rings'): Promise<{ page: Page; breaches: () => Promise<string[]> }> {
  const page = await browser.openPage({ width: 1024, height: 700, url });
  await page.addInitScript(() => {
    const breaches: string[] = [];
    Reflect.set(window, 'breaches', breaches);
    document.addEventListener('securitypolicyviolation', (event) => {
      breaches.push(
        `${event.effectiveDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`,
      );
    });
  });
  await page.reload();
  await page.locator('.design-name').waitFor();
  return { page, breaches: () => page.evaluate(() => Reflect.get(window, 'breaches') as string[]) };
}

async function openNamed(page: Page, name: string, notes = ''): Promise<void> {
  const buffer = Buffer.from(serializeDesign(fourRings({ name, notes })));
  await page.locator('#open-file').setInputFiles({ name: 'a.json', mimeType: 'application/json', buffer });
  await expect.poll(() => page.locator('.design-name').inputValue()).toBe(name);
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

test('a walk through the app breaks the policy nowhere and asks no other host', async () => {
  const { page, breaches } = await openWatching();
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

test('markup in a design is shown as text', async () => {
  const { page, breaches } = await openWatching();
  const markup = '<img src=x onerror="window.injected=1"><script>window.injected=1</script>';
  await openNamed(page, markup, markup);
  for (const station of ['blank', 'rings', 'form', 'plan', 'show']) {
    await page.evaluate((name) => (window.location.hash = `#/${name}`), station);
    await page.locator(`.window[data-station=${station}]`).waitFor();
  }
  expect(await page.locator('h1').last().textContent()).toBe(markup);
  expect(await page.evaluate(() => Reflect.get(window, 'injected') as unknown)).toBeUndefined();
  expect(await page.locator('img[src="x"]').count()).toBe(0);
  expect(await breaches()).toEqual([]);
});
