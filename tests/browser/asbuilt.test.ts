/** One piece as it may be sawn, beside the ideal: what is said of it, how large its errors are drawn, and where that is said. */
import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { makeLink } from '../../src/files/link.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();

test('a try beside the ideal: how far each ring is off, and errors drawn larger are named on picture and map', async () => {
  const design = fourRings({
    unit: 'mm',
    form: cylinderForm(203.2, 25),
    saw: { angle_tolerance_deg: 0, stop_tolerance_mm: 0.5 },
  });
  const link = makeLink({ variants: [{ name: design.name, design }], active: 0 });
  if (!link.ok) throw new Error(link.message);
  const page = await browser.openPage({ width: 1440, height: 900, url: `#${link.fragment}` });
  await expect.poll(() => page.locator('.saved').textContent()).toBe('Kept');
  await page.keyboard.press('4');
  await page.getByRole('button', { name: 'Show one as it may come out' }).click();
  const rows = page.locator('.shifts tbody tr');
  expect(await rows.count()).toBe(4);
  // Only the stops are off: each ring is off by just that much.
  const cells = await rows.evaluateAll((all) =>
    all.map((row) => [...row.children].map((cell) => cell.textContent ?? '')),
  );
  expect(cells.map(([slot]) => slot)).toEqual(['S1.1', 'S1.2', 'S1.3', 'S1.4']);
  for (const [, off, angle, stop] of cells) {
    expect(angle).toMatch(/^[+−]0\.00°$/);
    expect(stop.slice(1)).toBe(off);
    expect(Number.parseFloat(off)).toBeLessThanOrEqual(0.5);
  }
  expect(await page.locator('.shifts tr[data-worst=true]').count()).toBe(1);

  // At most half a millimetre on a piece of 203: the way to see it is said, and what the line on the piece is.
  const tried = page.locator('.tried');
  await tried.getByText('Errors this small hardly show: draw them larger.').waitFor();
  const worst = cells.reduce((a, b) => (Number.parseFloat(b[1]) > Number.parseFloat(a[1]) ? b : a))[0];
  await tried.getByText(`The line on it is where ring ${worst} was meant to be.`).waitFor();

  const stage = page.locator('.stage-canvas');
  await stage.getByText('As sawn, try 1', { exact: true }).waitFor();
  await page.getByText('Dashed: as sawn, try 1, in true size.').waitFor();
  const dashed = () => page.locator('.map-sample path.over').first().getAttribute('d');
  const once = await dashed();
  await page.getByRole('button', { name: 'Errors drawn 5 times as large' }).click();
  await stage.getByText('As sawn, try 1, errors ×5').waitFor();
  expect(await tried.getByText('draw them larger').count()).toBe(0);
  await page.getByText('Dashed: as sawn, try 1, errors shown ×5.').waitFor();
  await expect.poll(dashed).not.toBe(once);
  // The numbers stay true.
  expect(await rows.first().locator('td').first().textContent()).toBe(cells[0][1]);
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode()
    .include('.station-panel, .panel, aside, main')
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 160)}`)).toEqual([]);

  await page.getByRole('button', { name: 'Show the next try' }).click();
  await stage.getByText('As sawn, try 2, errors ×5').waitFor();
});
