/**
 * The app as a maker uses it, in a real browser: a design from nothing, undo, files good and bad, a reload,
 * the line of moments, two variants, and the window without WebGL.
 */
import type { Download, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';
import { chooseFile, openDesign } from './harness/designs.ts';

const browser = testBrowser();

/** The page as a browser without WebGL shows it; the stage's drawing would only take time here. */
async function openWithoutWebGL(
  options: { width?: number; height?: number; url?: string } = {},
): Promise<Page> {
  const page = await browser.openPage({ ...options, withoutWebGL: true });
  await page.getByText('No 3D picture here.').waitFor();
  return page;
}

const openFourRings = (page: Page) => openDesign(page, fourRings({ name: 'Four rings' }));

async function fill(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByRole('spinbutton', { name: label, exact: true });
  await field.fill(text);
  await field.press('Enter');
}

const bands = (page: Page) => page.locator('.map-bands > g').count();
const value = (page: Page, label: string) =>
  page.getByRole('spinbutton', { name: label, exact: true }).inputValue();

test('a maker designs a bowl from an empty blank, and a reload keeps it', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900 });
  await page.getByRole('button', { name: 'Designs' }).click();
  await page.getByRole('button', { name: 'New, from an empty blank' }).click();
  await page.getByLabel('Name of the design').fill('Salad bowl, eight rings');

  await expect.poll(() => page.getByRole('heading', { level: 1 }).textContent()).toBe('Blank');
  await page.getByRole('checkbox', { name: /scale with the blank/ }).uncheck();
  await fill(page, 'Width', '6 1/4 in');
  expect(await value(page, 'Width')).toBe('6.25 in');
  await fill(page, 'Length', '76.2 mm');
  expect(await value(page, 'Length')).toBe('3 in');
  await page.getByRole('button', { name: /^Timber: / }).click();
  await page.getByRole('button', { name: /^Black cherry/ }).click();

  await page.getByRole('link', { name: 'Next: add rings' }).click();
  await page.getByRole('button', { name: 'Add a set of 4 cuts' }).click();
  await fill(page, 'Angle to the axis', '60');
  await fill(page, 'Place from the foot', '1.6');
  await page.getByRole('button', { name: '8 around' }).click();
  await fill(page, 'Kerf', '60 thou');
  expect(await value(page, 'Strip thickness')).toBe('0.060 in');

  await page.getByRole('link', { name: 'Next: choose a form' }).click();
  await page.getByRole('button', { name: 'Bowl' }).click();
  await expect.poll(() => bands(page)).toBe(8);
  expect(await page.getByRole('link', { name: /^Next: / }).count()).toBe(0);

  await page.getByRole('link', { name: 'Saw plan' }).click();
  await expect.poll(() => page.locator('.setup').count()).toBe(8);
  await expect.poll(() => page.locator('.saved').textContent()).toBe('Kept');

  await page.reload();
  await expect.poll(() => page.getByLabel('Name of the design').inputValue()).toBe('Salad bowl, eight rings');
  await expect.poll(() => bands(page)).toBe(8);
  await expect.poll(() => page.locator('.setup').count()).toBe(8);
});

test('a number that cannot be stays in its field with the reason, and the design stays', async () => {
  const page = await openWithoutWebGL({ url: '#/rings' });
  await openFourRings(page);
  await fill(page, 'Angle to the axis', '95');
  await page.getByText('At most 90°').waitFor();
  await fill(page, 'Angle to the axis', 'steep');
  await page.getByText('"steep" is not a number').waitFor();
  await page.getByRole('spinbutton', { name: 'Angle to the axis' }).press('Escape');
  expect(await value(page, 'Angle to the axis')).toBe('45°');
});

test('arrow keys step a field, and undo takes a run of them back at once', async () => {
  const page = await openWithoutWebGL({ url: '#/rings' });
  await openFourRings(page);
  const field = page.getByRole('spinbutton', { name: 'Angle to the axis' });
  await field.press('ArrowUp');
  await field.press('ArrowUp');
  await field.press('Shift+ArrowUp');
  expect(await field.inputValue()).toBe('51°');
  await page.locator('h1').click();
  await page.keyboard.press('Control+z');
  await expect.poll(() => field.inputValue()).toBe('45°');
  await page.keyboard.press('Control+Shift+z');
  await expect.poll(() => field.inputValue()).toBe('51°');
});

test('a name dragged sideways changes its number, as one step', async () => {
  const page = await openWithoutWebGL({ url: '#/rings' });
  await openFourRings(page);
  const name = page.locator('label', { hasText: 'Angle to the axis' });
  const box = await name.boundingBox();
  if (!box) throw new Error('the label is not on screen');
  await page.mouse.move(box.x + 20, box.y + 20);
  await page.mouse.down();
  for (let x = 0; x <= 40; x += 8) await page.mouse.move(box.x + 20 + x, box.y + 20);
  await page.mouse.up();
  await expect.poll(() => value(page, 'Angle to the axis')).toBe('50°');
  await page.keyboard.press('Control+z');
  await expect.poll(() => value(page, 'Angle to the axis')).toBe('45°');
});

test('a bad file is refused with its faults and paths, and what was open stays', async () => {
  const page = await openWithoutWebGL({ url: '#/rings' });
  const good = await page.evaluate(() => document.querySelector<HTMLInputElement>('.design-name')?.value);
  const wrong = JSON.stringify({
    format: 'kerfweave-design',
    version: 1,
    name: 'Wrong',
    unit: 'in',
    blank: { section: { shape: 'square', width_mm: 50 }, length_mm: 100, timber: 'black-walnut' },
    sets: [
      {
        id: 'S1',
        angle_deg: 95,
        center_mm: 50,
        fence_azimuths_deg: [0],
        kerf_mm: 1,
        web_mm: 2,
        strip: { layers: [{ timber: 'plywood', thickness_mm: 1 }] },
      },
    ],
  });
  await chooseFile(page, wrong, 'wrong.json');
  const faults = page.locator('.faults li');
  await expect.poll(() => faults.count()).toBe(2);
  expect(await faults.allTextContents()).toEqual([
    expect.stringMatching(/^Set 1, angle in degrees: 95 .*sets\[0\]\.angle_deg$/),
    expect.stringMatching(/^Set 1, strip, layer 1, timber: .*sets\[0\]\.strip\.layers\[0\]\.timber$/),
  ]);
  await page.getByRole('button', { name: 'Close' }).click();
  expect(await page.getByLabel('Name of the design').inputValue()).toBe(good);

  const right = wrong.replace('95', '55').replace('plywood', 'hard-maple').replace('Wrong', 'Right');
  await chooseFile(page, right, 'right.json');
  await expect.poll(() => page.getByLabel('Name of the design').inputValue()).toBe('Right');
});

test('starter designs are shown with a picture and a line, and open in the unit at hand', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/rings' });
  await page.getByRole('button', { name: 'mm', exact: true }).click();
  await page.getByRole('button', { name: 'Designs' }).click();
  const rows = page.locator('.starters button');
  await expect.poll(() => rows.locator('svg path').count()).toBeGreaterThan(10);
  await expect.poll(() => rows.nth(9).locator('svg').count()).toBe(1);
  expect(await rows.count()).toBe(10);
  const vase = rows.filter({ hasText: 'Harvest vase' });
  // 3 1/2 in and 8 in of the file, 88.9 mm and 203.2 mm.
  expect((await vase.textContent())?.replaceAll('\u00a0', ' ')).toContain('88.9 × 88.9 × 203.2 mm');
  await vase.click();
  await expect.poll(() => page.getByLabel('Name of the design').inputValue()).toBe('Harvest vase');
  await expect.poll(() => value(page, 'Place from the foot')).toMatch(/ mm$/);
});

test('a part that cannot be loaded says so, and the rest of the window stays', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/rings' });
  await page.route(/ShowStation/, (route) => route.abort());
  await page.getByRole('link', { name: 'Show' }).click();
  await page.getByRole('alert').filter({ hasText: 'could not be loaded' }).waitFor();
  await page.getByRole('link', { name: 'Rings' }).click();
  expect(await value(page, 'Angle to the axis')).toBe('50°');
  expect(browser.takeComplaints(page, /ShowStation|Failed to fetch|ERR_FAILED/).length).toBeGreaterThan(0);
});

test('the order of cutting is changed with the keyboard, and says which crossings turn over', async () => {
  const page = await openWithoutWebGL({ url: '#/rings' });
  await openFourRings(page);
  const names = () => page.locator('.order-name b').allTextContents();
  expect(await names()).toEqual(['S1.1', 'S1.2', 'S1.3', 'S1.4']);
  const grip = page.getByRole('button', { name: /^Move S1\.1, / });
  await grip.press('ArrowDown');
  await expect.poll(names).toEqual(['S1.2', 'S1.1', 'S1.3', 'S1.4']);
  await page.getByText(/2 crossings turn over: S1\.1 with S1\.2/).waitFor();
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-grip')))
    .toBe('S1.1');
});

test('a row of the order is dragged to its place, as one undo step', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 1500, url: '#/rings' });
  await openFourRings(page);
  const names = () => page.locator('.order-name b').allTextContents();
  const grip = page.getByRole('button', { name: /^Move S1\.4, / });
  await grip.scrollIntoViewIfNeeded();
  const box = await grip.boundingBox();
  if (!box) throw new Error('the grip is not on screen');
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 12; i++) await page.mouse.move(x, y - 11 * i);
  await page.mouse.up();
  await expect.poll(names).toEqual(['S1.4', 'S1.1', 'S1.2', 'S1.3']);
  await page.keyboard.press('Control+z');
  await expect.poll(names).toEqual(['S1.1', 'S1.2', 'S1.3', 'S1.4']);
});

test('a bangle is bored through and filled again, a hole is drilled and changed', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/form' });
  await openFourRings(page);
  await page.getByRole('button', { name: 'Bangle' }).click();
  const inside = (name: string) => page.getByRole('button', { name, exact: true });
  await expect.poll(() => inside('Bored through').getAttribute('aria-pressed')).toBe('true');
  await inside('Solid').click();
  await expect.poll(() => inside('Solid').getAttribute('aria-pressed')).toBe('true');
  await page.getByRole('button', { name: 'Candle stick' }).click();
  await page.getByRole('button', { name: 'Candle cup' }).click();
  expect(await value(page, 'Diameter, hole 1')).toBe('0.875 in');
  await fill(page, 'Depth, hole 1', '1 1/4');
  expect(await value(page, 'Depth, hole 1')).toBe('1.25 in');
  await page.getByRole('button', { name: 'Remove hole 1' }).click();
  expect(await page.getByRole('spinbutton', { name: 'Depth, hole 1' }).count()).toBe(0);
});

test('pointing at a band of the map gives the numbers of its ring', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/rings' });
  await openFourRings(page);
  await page.locator('.map-bands g[data-slot="S1.3"] path').dispatchEvent('pointerover', { bubbles: true });
  await page.getByRole('heading', { name: /^Ring S1\.3/ }).waitFor();
  // k / sin θ: a kerf of 0.040 in at 45° is a band of 0.0566 in along the axis (docs/geometry.md, "Rings").
  expect(await page.locator('.pointed dd').allTextContents()).toContain('0.0566 in');
});

test('wall and floor are those of the inside that is there, and stay what was asked for', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/rings' });
  await page.getByRole('button', { name: 'Designs' }).click();
  await page.getByRole('button', { name: 'New, from an empty blank' }).click();
  await page.getByRole('link', { name: 'Choose a form' }).click();
  await page.getByRole('button', { name: 'Vase' }).click();
  // The vase's floor is 8 % of its length: of 8 in.
  await expect.poll(() => value(page, 'Floor')).toBe('0.64 in');
  await fill(page, 'Wall', '5/16 in');
  await expect.poll(() => value(page, 'Wall')).toBe('0.313 in');
  expect(await value(page, 'Floor')).toBe('0.64 in');
  await fill(page, 'Floor', '1 in');
  expect([await value(page, 'Wall'), await value(page, 'Floor')]).toEqual(['0.313 in', '1 in']);
  await page.keyboard.press('Control+z');
  await expect.poll(() => value(page, 'Floor')).toBe('0.64 in');
});

test('the outline is edited by keyboard: a point moved, turned smooth, added and removed', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/form' });
  await openFourRings(page);
  const points = page.locator('.outline-point');
  expect(await points.count()).toBe(5);
  await points.nth(1).focus();
  await page.keyboard.press('Shift+ArrowLeft');
  await expect.poll(() => value(page, 'Diameter')).not.toBe('2.362 in');
  await page.keyboard.press('Enter');
  await expect.poll(() => points.nth(1).getAttribute('aria-label')).toMatch(/^Point 2, smooth/);
  await page.getByRole('button', { name: 'Add a point after this one' }).click();
  await expect.poll(() => points.count()).toBe(6);
  await page.getByRole('button', { name: 'Remove this point' }).click();
  await expect.poll(() => points.count()).toBe(5);
});

test('a strip that was given its thickness first takes the kerf with it in one press', async () => {
  const page = await openWithoutWebGL({ width: 1280, height: 900 });
  await openFourRings(page);
  await fill(page, 'Strip thickness', '0.1 in');
  await page.getByText('thicker than the kerf').first().waitFor();
  await page.getByRole('button', { name: 'Make the kerf 0.100 in' }).click();
  await page.getByText('Fills the kerf').waitFor();
  expect(await value(page, 'Kerf')).toMatch(/^0\.100?( in)?$/);
  await page.keyboard.press('Control+z');
  await page.getByRole('button', { name: 'Make the kerf 0.100 in' }).waitFor();
});

test('waste for holding makes the blank longer, and rings and form go up with it', async () => {
  const page = await openWithoutWebGL({ width: 1280, height: 900 });
  await openFourRings(page);
  await page.evaluate(() => (window.location.hash = '#/form'));
  await fill(page, 'Waste at the foot', '1 in');
  expect(await value(page, 'Waste at the foot')).toMatch(/^1( in)?$/);
  await page.evaluate(() => (window.location.hash = '#/blank'));
  await expect.poll(() => value(page, 'Length')).toMatch(/^9( in)?$/);
  await page.evaluate(() => (window.location.hash = '#/rings'));
  await expect.poll(() => value(page, 'Place from the foot')).toMatch(/^5( in)?$/);
  await page.keyboard.press('Control+z');
  await expect.poll(() => value(page, 'Place from the foot')).toMatch(/^4( in)?$/);
});

test('notes on the design and on a set are kept in its file, and undone as one step each', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/blank' });
  await openFourRings(page);
  const notes = page.getByRole('textbox', { name: 'Notes', exact: true });
  await notes.fill('From the plank by the door.\nFoot at the knot.');
  await page.getByRole('link', { name: 'Rings', exact: true }).click();
  const note = page.getByRole('textbox', { name: 'Note on this set' });
  await note.pressSequentially('Strips from one board');
  await note.blur();

  await page.evaluate(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  const file = page.waitForEvent('download');
  await page.keyboard.press('Control+s');
  const parsed = parseDesign(await bytesOf(await file));
  if (!parsed.ok) throw new Error('the saved design cannot be read');
  expect(parsed.design.notes).toBe('From the plank by the door.\nFoot at the knot.');
  expect(parsed.design.sets[0].notes).toBe('Strips from one board');

  await page.getByRole('button', { name: 'Undo: note of S1' }).click();
  expect(await note.inputValue()).toBe('');
  await page.getByRole('button', { name: 'Undo: notes' }).click();
  await page.getByRole('link', { name: 'Blank' }).click();
  expect(await notes.inputValue()).toBe('');
});

test('a set is given another name, and keeps its own where the new one cannot be', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/rings' });
  await openFourRings(page);
  await page.getByRole('button', { name: 'Add a set' }).click();
  const cuts = () => page.locator('.order-name b').allTextContents();
  const field = page.getByRole('textbox', { name: /^Name of set / });
  for (const [text, reason] of [
    ['S1', 'Another set has this name'],
    ['2nd', 'A letter first'],
    ['body', 'the name of the blank itself'],
  ]) {
    await field.fill(text);
    await field.press('Enter');
    await page.getByRole('alert').filter({ hasText: reason }).waitFor();
    await field.press('Escape');
    expect(await field.inputValue()).toBe('S2');
  }
  await field.fill('rim');
  await field.press('Enter');
  await page.getByRole('heading', { name: 'Set', exact: true }).waitFor();
  await page.getByRole('region', { name: 'Set rim', exact: true }).waitFor();
  expect((await cuts()).slice(3)).toEqual(['S1.4', 'rim.1', 'rim.2', 'rim.3', 'rim.4']);
  await page.getByRole('button', { name: 'Undo: rename S2' }).click();
  expect((await cuts()).slice(4)).toEqual(['S2.1', 'S2.2', 'S2.3', 'S2.4']);
});

test('single cuts are added and removed, and the others keep their places in the order', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/rings' });
  await openFourRings(page);
  const order = () => page.locator('.order-name').allTextContents();
  await page.getByRole('button', { name: /^Move S1\.4, / }).press('ArrowUp');
  await page.getByRole('button', { name: 'Free azimuths' }).click();
  await page.getByRole('button', { name: 'Remove cut S1.2' }).click();
  // Face C's cut moves down a number, to S1.2, and stays behind that of face D.
  expect(await order()).toEqual(['S1.1 face A', 'S1.3 face D', 'S1.2 face C']);
  await page.getByRole('button', { name: 'Add a cut' }).click();
  expect(await order()).toEqual(['S1.1 face A', 'S1.3 face D', 'S1.2 face C', 'S1.4 face B']);
  await page.getByRole('button', { name: /^Undo: one more cut/ }).click();
  await page.getByRole('button', { name: /^Undo: remove cut 2/ }).click();
  expect(await order()).toEqual(['S1.1 face A', 'S1.2 face B', 'S1.4 face D', 'S1.3 face C']);
});

test('the fibre of a strip is turned, which is a step of its own', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/rings' });
  await openFourRings(page);
  const down = page.getByRole('button', { name: 'Down the slope' });
  await down.click();
  expect(await down.getAttribute('aria-pressed')).toBe('true');
  await page.getByRole('button', { name: 'Undo: strip fibre of S1' }).click();
  expect(await down.getAttribute('aria-pressed')).toBe('false');
});

test('what need not be known of the saw is said in words, and counts carry their names', async () => {
  const page = await openWithoutWebGL({ width: 1440, height: 900, url: '#/plan' });
  await openFourRings(page);
  const saw = page.getByRole('region', { name: 'Your saw' });
  await saw.waitFor();
  expect(await value(page, 'Throat, blade to frame')).toBe('not known');
  await fill(page, 'Throat, blade to frame', '14');
  expect(await value(page, 'Throat, blade to frame')).toBe('14 in');
  await fill(page, 'Throat, blade to frame', '');
  expect(await value(page, 'Throat, blade to frame')).toBe('not known');
  await fill(page, 'In the clamps', '45 min');
  expect(await value(page, 'In the clamps')).toBe('45 min');
  await fill(page, 'Open at once, at most', '1');
  expect(await value(page, 'Open at once, at most')).toBe('1 slot');
  // One action of the station is marked above the others.
  expect(await page.locator('.panel .button.primary').allInnerTexts()).toEqual(['At the saw, step by step']);
});

test('the line of moments is walked by keyboard from the sawn block to the finished piece', async () => {
  const page = await openWithoutWebGL({ url: '#/rings' });
  await openFourRings(page);
  const title = page.locator('.moment-title');
  const line = page.getByRole('slider', { name: 'Moment of the work' });
  await line.focus();
  await page.keyboard.press('Home');
  const walked = [await title.textContent()];
  for (let i = 0; i < 15; i++) {
    await page.keyboard.press('ArrowRight');
    walked.push(await title.textContent());
  }
  expect(walked).toEqual([
    'Sawn block',
    'Cut 1',
    'Strip 1',
    'Turn face B to the fence',
    'Cut 2',
    'Strip 2',
    'Turn face C to the fence',
    'Cut 3',
    'Strip 3',
    'Turn face D to the fence',
    'Cut 4',
    'Strip 4',
    'Glued block',
    'Turned outside',
    'Hollowed',
    'Finished',
  ]);
});

test('45° against 60° is one click: two pieces on the stage, and the table of what differs', async () => {
  const page = await browser.openPage({ width: 1280, height: 700, url: '#/rings' });
  await openFourRings(page);
  await page.locator('.stage canvas').first().waitFor();
  await page.getByRole('button', { name: '45° against 60°' }).click();
  const table = page.getByRole('table', { name: 'What differs between the variants' });
  await table.waitFor();
  expect(await table.getByRole('row', { name: /^Angles/ }).allTextContents()).toEqual(['Angles45°60°']);
  await page.getByRole('button', { name: 'Keep only 60°' }).click();
  await expect.poll(() => value(page, 'Angle to the axis')).toBe('60°');
  expect(await table.count()).toBe(0);
});

test.each([
  ['a desk', 1440, 900],
  ['a tablet', 1024, 768],
])(
  'the table of variants stays within its panel on %s, with two to four variants',
  async (_name, width, height) => {
    const page = await openWithoutWebGL({ width, height, url: '#/rings' });
    // Its two sets are at different angles, so that most of its numbers are ranges.
    await page.getByRole('button', { name: 'Designs' }).click();
    await page.getByRole('button', { name: 'Tide bowl' }).click();
    await expect.poll(() => page.getByLabel('Name of the design').inputValue()).toBe('Tide bowl');
    await page.getByRole('button', { name: '60° against 68°' }).click();
    const table = page.getByRole('table', { name: 'What differs between the variants' });
    const beyond_px = () => page.locator('.dock').evaluate((dock) => dock.scrollWidth - dock.clientWidth);
    for (const variants of [2, 3, 4]) {
      if (variants > 2) await page.getByRole('button', { name: /^Another variant of / }).click();
      // One heading stands over the names of the rows.
      await expect.poll(() => table.getByRole('columnheader').count()).toBe(variants + 1);
      await page.waitForFunction(() => !document.querySelector('.differences')?.textContent.includes('…'));
      expect(await beyond_px(), `${variants} variants`).toBeLessThanOrEqual(0);
    }
  },
);

test('the shop sheet and the design file are saved under the name of the design', async () => {
  const page = await openWithoutWebGL({ url: '#/plan' });
  await openFourRings(page);
  const sheet = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Shop sheet, PDF' }).click();
  const pdf = await sheet;
  expect(pdf.suggestedFilename()).toBe('four-rings.pdf');
  expect((await bytesOf(pdf)).subarray(0, 5).toString()).toBe('%PDF-');

  // Without a save picker the file is a download; the picker itself cannot be driven from a test.
  await page.evaluate(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  const file = page.waitForEvent('download');
  await page.keyboard.press('Control+s');
  const saved = await file;
  expect(saved.suggestedFilename()).toBe('four-rings.kerfweave.json');
  const parsed = parseDesign(await bytesOf(saved));
  expect(parsed.ok && parsed.design).toEqual(fourRings({ name: 'Four rings' }));
});

async function bytesOf(download: Download): Promise<Buffer> {
  const stream = await download.createReadStream();
  const chunks: Buffer[] = [];
  for await (const chunk of stream) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}
