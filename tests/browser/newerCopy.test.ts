/** A design of a newer Kerfweave: what a copy that can be changed would be without is said, path by path, before it is made. */
import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { serializeDesign } from '../../src/design/serialize.ts';
import { fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';
import { chooseFile, nameOf } from './harness/designs.ts';

const browser = testBrowser();

test('an editable copy of a newer design says what it would lose, and is a design of its own', async () => {
  const page = await browser.openPage({
    width: 390,
    height: 844,
    touch: true,
    url: '#/rings',
    withoutWebGL: true,
  });
  const { sets, ...rest } = JSON.parse(serializeDesign(fourRings({ name: 'Later' }))) as { sets: object[] };
  const later = {
    ...rest,
    version: 99,
    sets: sets.map((set) => ({ ...set, glue: 'hide' })),
    engraving: { text: 'For A.' },
  };
  const name = () => nameOf(page);
  await chooseFile(page, JSON.stringify(later));
  await expect.poll(name).toBe('Later');
  await page.getByRole('button', { name: 'Make an editable copy' }).click();
  const dialog = page.locator('dialog[open]');
  expect(await dialog.locator('li').allTextContents()).toEqual(['sets[0].glue', 'engraving']);
  const axe = await new AxeBuilder({ page }).setLegacyMode().include('dialog[open]').analyze();
  expect(axe.violations.map(({ id }) => id)).toEqual([]);
  await dialog.getByRole('button', { name: 'Make the copy' }).click();
  await expect.poll(name).toBe('Later, copy');
  await page.locator('.design-name').fill('Mine');
  await expect.poll(name).toBe('Mine');
  await expect.poll(() => page.locator('.saved').textContent()).toBe('Kept');
  await page.reload();
  await expect.poll(name).toBe('Mine');
  // The one that came is still there, as it came.
  await page.getByRole('button', { name: 'Designs', exact: true }).click();
  await page.getByRole('button', { name: 'Your designs' }).click();
  await page.getByRole('button', { name: /^Later/ }).click();
  await expect.poll(name).toBe('Later');
  await expect.poll(() => page.locator('.saved').textContent()).toBe('Read only');
});
