/**
 * The plan's station in a real browser: what the maker asks of accuracy and wood is answered at once and kept across a
 * reload, in the unit of the design; axe finds nothing. The 3D picture is left out: it would only take time here.
 */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';
import { openDesign } from './harness/designs.ts';

const browser = testBrowser();

async function openPlan(design: Design, size: { width?: number; height?: number } = {}): Promise<Page> {
  const page = await browser.openPage({ url: '#/plan', ...size, withoutWebGL: true });
  await page.getByText('No 3D picture here.').waitFor();
  await openDesign(page, design);
  await page.getByRole('region', { name: 'Accuracy' }).waitFor();
  return page;
}

async function fill(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByRole('spinbutton', { name: label });
  await field.fill(text);
  await field.press('Enter');
}

test('the chance follows the amount, the movement the humidities, and a reload keeps both', async () => {
  const page = await openPlan(fourRings({ name: 'Asked' }));
  const accuracy = page.getByRole('region', { name: 'Accuracy' });
  const wood = page.getByRole('region', { name: 'Wood' });
  const chance = accuracy.locator('dd').first();
  await fill(page, 'A crossing is off by more than', '0.001');
  expect(await chance.textContent()).toBe('over 99 %');
  await fill(page, 'A crossing is off by more than', '2');
  expect(await chance.textContent()).toBe('none of 2,000');
  await fill(page, 'Made at a humidity of', '60');
  await fill(page, 'Kept at a humidity of', '40 %');
  await wood.getByText('From 60 % to 40 % humidity at 68 °F').waitFor();
  expect(await wood.textContent()).toContain('the blank shrinks by');
  // No millimetre in a design in inches; the sheet's own bars are on paper only.
  expect(await page.locator('.station-panel, main').first().innerText()).not.toMatch(/\d mm\b/);

  await page.reload();
  await page.getByRole('region', { name: 'Wood' }).waitFor();
  expect(await page.getByRole('spinbutton', { name: 'Kept at a humidity of' }).inputValue()).toBe('40 %');
  expect(await page.getByRole('spinbutton', { name: 'A crossing is off by more than' }).inputValue()).toBe(
    '2.000 in',
  );
});

test('a design beyond the saw is shown with what would make it possible', async () => {
  const design = fourRings({ name: 'Beyond', unit: 'mm', set: { angle_deg: 25 }, saw: { throat_mm: 70 } });
  const page = await openPlan(design, { width: 1440, height: 900 });
  const limits = page.getByRole('region', { name: 'Beyond your saw' });
  await limits.getByText('Raise the angle of its set to 30°.').first().waitFor();
  expect(await limits.textContent()).toMatch(/Take \d+(\.\d+)? mm or more off the (foot|head) end/);
  const result = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag22aa']).analyze();
  expect(result.violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
  if (process.env.KERFWEAVE_PICTURES !== undefined)
    for (const name of ['Beyond your saw', 'Before the first cut', 'Strips', 'Accuracy', 'Wood'])
      await page
        .getByRole('region', { name, exact: true })
        .screenshot({ path: `${process.env.KERFWEAVE_PICTURES}/${name}.png` });
});
