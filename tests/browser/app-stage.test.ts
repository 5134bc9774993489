/** The window and its stage together: what is pointed at or dragged on the picture is what the panels say. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';
import { openDesign } from './harness/designs.ts';

const browser = testBrowser();

/** One ring square across a plain cylinder, wide enough to be met by a pointer. */
const ONE_RING = fourRings({
  name: 'One ring',
  form: cylinderForm(203.2, 30),
  set: { angle_deg: 90, kerf_mm: 12, fence_azimuths_deg: [0], center_mm: 120 },
});

async function openOneRing(): Promise<Page> {
  const page = await browser.openPage({ width: 1240, height: 560, url: '#/rings', reducedMotion: true });
  await openDesign(page, ONE_RING);
  await page.locator('.stage canvas').first().waitFor();
  await page.waitForFunction(() => !document.querySelector('.stage .computing'));
  return page;
}

/** Moves the pointer up the middle of the stage until a ring is under it; its place on the page. */
async function findRing(page: Page): Promise<{ x: number; y: number }> {
  const box = await page.locator('.stage-canvas').boundingBox();
  if (!box) throw new Error('the stage is not on screen');
  const x = box.x + box.width / 2;
  for (let y = box.y + box.height * 0.8; y > box.y + box.height * 0.1; y -= 6) {
    await page.mouse.move(x, y);
    await page.waitForTimeout(60);
    if ((await page.getByRole('heading', { name: /^Ring S1\.1/ }).count()) > 0) return { x, y: y - 4 };
  }
  throw new Error('no ring was met on the stage');
}

test('a ring pointed at on the stage shows its numbers, and dragged it moves its set by one undo step', async () => {
  const page = await openOneRing();
  const place = page.getByRole('spinbutton', { name: 'Place from the foot' });
  const before = await place.inputValue();
  const ring = await findRing(page);
  await page.mouse.move(ring.x, ring.y);
  await page.mouse.down();
  for (let i = 1; i <= 6; i++) await page.mouse.move(ring.x, ring.y - 6 * i);
  await page.mouse.up();
  await expect.poll(() => place.inputValue()).not.toBe(before);
  expect(Number.parseFloat(await place.inputValue())).toBeGreaterThan(Number.parseFloat(before));
  await page.keyboard.press('Control+z');
  await expect.poll(() => place.inputValue()).toBe(before);
});

test('a band dragged on the map moves its set by what the map says, by one undo step', async () => {
  const page = await openOneRing();
  await page.getByRole('button', { name: 'mm' }).click();
  const place = page.getByRole('spinbutton', { name: 'Place from the foot' });
  expect(await place.inputValue()).toBe('120 mm');
  const map = page.locator('.map-frame');
  const frame = await map.boundingBox();
  if (!frame) throw new Error('the map is not on screen');
  const x = frame.x + frame.width / 3;
  const y = frame.y + frame.height * (1 - 120 / 203.2);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y + 10);
  await page.mouse.move(x, y + 20);
  await page.mouse.up();
  // 20 px down on a map of this height are 20 / height of the 203.2 mm of outside.
  const expected = 120 - (20 / frame.height) * 203.2;
  await expect
    .poll(async () => Math.abs(Number.parseFloat(await place.inputValue()) - expected))
    .toBeLessThan(0.11);
  await page.keyboard.press('Control+z');
  await expect.poll(() => place.inputValue()).toBe('120 mm');
});

test('the picture is other at every step of the work', async () => {
  const page = await openOneRing();
  const line = page.getByRole('slider', { name: 'Moment of the work' });
  await line.focus();
  await page.keyboard.press('Home');
  const seen = new Set<string>();
  for (let i = 0; i < 4; i++) {
    await page.waitForTimeout(900);
    await page.waitForFunction(() => !document.querySelector('.stage .computing'));
    seen.add((await page.locator('.stage-canvas').screenshot()).toString('base64'));
    await page.keyboard.press('ArrowRight');
  }
  expect(seen.size).toBeGreaterThanOrEqual(3);
});

test('of variants side by side one is chosen by its name on the stage, the map closed', async () => {
  const page = await browser.openPage({ width: 1240, height: 560, url: '#/rings', reducedMotion: true });
  await openDesign(page, ONE_RING);
  await page.getByRole('button', { name: 'Try a variant beside this one' }).click();
  await page.getByRole('button', { name: 'Unrolled map', exact: true }).click();
  await page.locator('.dock').waitFor({ state: 'hidden' });
  const first = page.getByRole('button', { name: 'Variant 1', exact: true });
  expect(await first.getAttribute('aria-pressed')).toBe('false');
  const target = await first.boundingBox();
  expect(Math.min(target?.width ?? 0, target?.height ?? 0)).toBeGreaterThanOrEqual(44);
  await first.click();
  expect(await first.getAttribute('aria-pressed')).toBe('true');
  const angle = page.getByRole('spinbutton', { name: 'Angle to the axis', exact: true });
  await angle.fill('70');
  await angle.press('Enter');
  await page.getByRole('button', { name: 'Variant 2', exact: true }).click();
  expect(await angle.inputValue()).not.toMatch(/^70/);
});
