/** The graphics context lost and given back many times in a row: each time the same picture on the screen, and no more on the card. */
import { expect, test } from 'vitest';
import { testBrowser } from './harness/browser.ts';
import { bowl } from './fixtures/stageDesigns.ts';
import { countFor } from '../soak/counts.ts';

const browser = testBrowser();

test('a context lost again and again comes back with the right picture each time', async () => {
  const losses = countFor('context-loss', 3, 50);
  const page = await browser.openPage({ site: 'fixtures', url: 'stage.html', width: 160, height: 160 });
  await page.waitForFunction(() => document.body.dataset.settled === 'yes', undefined, { timeout: 60_000 });
  const main = [{ key: 'main', label: '', design: bowl() }];
  // Resolves when the picture has been drawn in full.
  const show = () => page.evaluate((variants) => window.stagePage.show({ variants, position: 1e6 }), main);
  const memory = () => page.evaluate(() => window.stagePage.handle.current?.inspect()?.memory());
  const materials = () =>
    page.evaluate(() => [...(window.stagePage.handle.current?.inspect()?.materials(96, 96) ?? [])]);
  await show();
  const seen = { screen: await page.screenshot(), materials: await materials(), memory: await memory() };
  expect(new Set(seen.materials).size).toBeGreaterThanOrEqual(4);
  for (let round = 1; round <= losses; round++) {
    await page.evaluate(async () => {
      const canvas = document.querySelector('canvas');
      const loss = canvas?.getContext('webgl2')?.getExtension('WEBGL_lose_context');
      if (!canvas || !loss) throw new Error('no way to lose the context');
      const lost = new Promise((resolve) =>
        canvas.addEventListener('webglcontextlost', resolve, { once: true }),
      );
      loss.loseContext();
      await lost;
      const restored = new Promise((resolve) =>
        canvas.addEventListener('webglcontextrestored', resolve, { once: true }),
      );
      // Not from inside the event: the browser still waits to hear whether the loss was taken note of.
      await new Promise((resolve) => setTimeout(resolve, 20));
      loss.restoreContext();
      await restored;
    });
    await show();
    expect(await materials(), `loss ${round}`).toEqual(seen.materials);
    // To the last bit, shadow and all; the browser may take a moment to put a drawn frame on the screen.
    await expect
      .poll(async () => (await page.screenshot()).equals(seen.screen), {
        timeout: 10_000,
        message: `loss ${round}: the screen`,
      })
      .toBe(true);
    expect(await memory(), `loss ${round}`).toEqual(seen.memory);
  }
  // The picture is not an empty one: without the piece the screen is another.
  await page.evaluate(() => window.stagePage.show({ position: 0 }));
  expect((await page.screenshot()).equals(seen.screen)).toBe(false);
  // three says so itself, once each way and round; nothing else may be said.
  const said = browser.takeComplaints(page, /THREE\.WebGLRenderer: Context (Lost|Restored)/);
  expect(said.length).toBe(2 * losses);
});
