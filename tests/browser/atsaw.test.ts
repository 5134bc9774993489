/**
 * At the saw, in the browser at 1024 × 768: a clamp timer that lives through a reload and sounds at its end, ticks
 * that stay with the design and can be undone, the screen kept on, sizes for two metres and for gloves, axe.
 * The clock is the test's own (page.clock); the bell is heard by counting the notes that are started.
 */
import { AxeBuilder } from '@axe-core/playwright';
import type { Locator, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { makeLink } from '../../src/files/link.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';
import { testBrowser, type TestPageOptions } from './harness/browser.ts';

const browser = testBrowser();

/** Opens at the saw, with a screen lock and a bell that count what is asked of them. */
async function open(options: TestPageOptions = {}, screenLock = true): Promise<Page> {
  const prepare = (page: Page) =>
    page.addInitScript((granted) => {
      const counted = window as unknown as { locks: number; notes: number };
      counted.locks = 0;
      counted.notes = 0;
      window.OscillatorNode.prototype.start = new Proxy(
        Reflect.get<OscillatorNode, 'start'>(OscillatorNode.prototype, 'start'),
        {
          apply: (start, note, args) => {
            counted.notes += 1;
            Reflect.apply(start, note, args);
          },
        },
      );
      const wakeLock = {
        request: async () => {
          counted.locks += 1;
          const lock = Object.assign(new EventTarget(), { released: false, release: async () => undefined });
          Reflect.set(window, 'lastLock', lock);
          return lock;
        },
      };
      Object.defineProperty(Navigator.prototype, 'wakeLock', {
        configurable: true,
        get: () => wakeLock,
      });
      if (!granted) Reflect.deleteProperty(Navigator.prototype, 'wakeLock');
    }, screenLock);
  const page = await browser.openPage({ width: 1024, height: 768, url: '#/saw', prepare, ...options });
  await page.locator('.saw-step').waitFor();
  return page;
}

/** Opens a design of the test's own at the saw. */
async function openDesign(design: Design, options: TestPageOptions = {}): Promise<Page> {
  const link = makeLink({ variants: [{ name: design.name, design }], active: 0 });
  if (!link.ok) throw new Error(link.message);
  const page = await browser.openPage({ width: 1024, height: 768, url: `#${link.fragment}`, ...options });
  await expect.poll(() => page.locator('.saved').textContent()).toBe('Kept');
  await page.evaluate(() => {
    window.location.hash = '#/saw';
  });
  await page.locator('.saw-step').waitFor();
  return page;
}

const counted = (page: Page, what: 'locks' | 'notes') =>
  page.evaluate((name) => Reflect.get(window, name) as number, what);
const title = (page: Page) => page.locator('.saw-step h1').innerText();
const button = (page: Page, name: RegExp | string) =>
  page.locator('.saw-window').getByRole('button', { name, exact: typeof name === 'string' });

async function goTo(page: Page, step: string): Promise<void> {
  await button(page, 'Steps').click();
  await page.locator('.saw-jump').getByRole('button', { name: step }).first().click();
  await page.locator('.saw-jump').waitFor({ state: 'detached' });
}

test('a clamp timer lives through a reload in its middle, and sounds', async () => {
  const page = await open();
  expect(await counted(page, 'locks')).toBe(1);
  await page.getByText('The screen stays on').waitFor();
  // The focus is not on Leave: a key pressed by chance does not end the mode.
  await page.keyboard.press('Enter');
  expect(await page.locator('.saw-step').isVisible()).toBe(true);
  await page.clock.install();
  await page.reload();
  await page.locator('.saw-step').waitFor();

  // The steps before it are ticked off one by one, up to the clamps.
  for (let i = 0; i < 40 && (await title(page)) !== 'In the clamps'; i++) await button(page, 'Done').click();
  const place = await page.locator('.saw-place b').innerText();
  await button(page, /^Start 20 min/).click();
  await expect.poll(() => page.getByRole('timer').innerText()).toMatch(/^(20:00|19:5\d)$/);
  await page.clock.fastForward('08:00');
  await expect.poll(() => page.getByRole('timer').innerText()).toMatch(/^1[12]:\d\d$/);

  await page.clock.runFor(3_000);
  await page.reload();
  await page.locator('.saw-step').waitFor();
  expect(await title(page)).toBe('In the clamps');
  expect(await page.locator('.saw-place b').innerText()).toBe(place);
  await expect.poll(() => page.getByRole('timer').innerText()).toMatch(/^1[12]:\d\d$/);
  expect(await counted(page, 'locks')).toBe(1);
  await page.getByText('Touch the screen once to let it sound.').waitFor();

  // On another step it is in the bar, and leads back.
  await button(page, 'Back').click();
  const chip = page.locator('.saw-chip');
  expect(await chip.innerText()).toMatch(/1[12]:\d\d/);
  expect(await counted(page, 'notes')).toBe(0);
  await page.clock.fastForward('13:00');
  await expect.poll(() => chip.innerText()).toMatch(/Time is up/);
  await expect.poll(() => counted(page, 'notes')).toBeGreaterThanOrEqual(3);
  expect(await page.locator('.saw-window').getAttribute('data-ringing')).toBe('true');
  await chip.click();
  expect(await page.getByRole('timer').innerText()).toBe('Time is up');

  // Done silences it and ticks it off.
  await button(page, 'Done').click();
  expect(await title(page)).toBe('Trim flush');
  expect(await page.locator('.saw-window').getAttribute('data-ringing')).toBe('false');
  const notes = await counted(page, 'notes');
  await page.clock.runFor(6_000);
  expect(await counted(page, 'notes')).toBe(notes);
});

test('ticks and measures are kept with the design and can be undone', async () => {
  const page = await open();
  await button(page, 'Done').click();
  await button(page, 'Done').click();
  await goTo(page, 'Practice cut');
  await button(page, 'Kerf measured: more by 0.001').click();
  await button(page, 'Kerf measured: more by 0.001').click();
  const measured = () => page.locator('.saw-stepper output').innerText();
  expect(await measured()).toBe('0.082″');
  const progress = () => page.locator('.saw-place progress').getAttribute('value');
  expect(await progress()).toBe('2');
  // Kept means written to the browser's storage: the window outside says so.
  await button(page, 'Leave').click();
  await expect.poll(() => page.locator('.saved').textContent()).toBe('Kept');
  await page.getByRole('link', { name: /At the saw/ }).click();
  await page.locator('.saw-step').waitFor();
  expect(await faultsByAxe(page), 'over the window of the app').toEqual([]);
  await page.reload();
  await page.locator('.saw-step').waitFor();
  expect(page.url()).toMatch(/#\/saw$/);
  expect(await title(page)).toBe('Practice cut');
  expect(await measured()).toBe('0.082″');
  expect(await progress()).toBe('2');

  await page.keyboard.press('Control+z');
  await expect.poll(measured).toBe('0.080″');
  await page.keyboard.press('Control+z');
  await expect.poll(progress).toBe('1');
  await page.keyboard.press('Control+Shift+z');
  await expect.poll(progress).toBe('2');

  // The strip follows the kerf of its own slot.
  await goTo(page, 'Measure S1.1');
  await button(page, 'Kerf measured: more by 0.010').click();
  expect(await page.locator('.saw-numbers dd').first().innerText()).toBe('0.090″');
  await goTo(page, 'Fit the strip for S1.1');
  expect(await page.locator('.saw-numbers dd').first().innerText()).toBe('0.090″');
});

test('one clamp timer for each glue-up of three open slots, both kept across a reload', async () => {
  const sets = [40, 100, 160].map((center_mm, n) =>
    slotSet({ id: `S${n + 1}`, fence_azimuths_deg: [0, 180], angle_deg: 70, center_mm }),
  );
  const page = await openDesign(
    fourRings({
      sets,
      order: ['S1.1', 'S1.2', 'S2.1', 'S2.2', 'S3.1', 'S3.2'],
      saw: { max_open_slots: 3, clamp_minutes: 15 },
    }),
  );
  await page.clock.install();
  await button(page, 'Steps').click();
  const places = await page.locator('.saw-jump h3').allInnerTexts();
  const glueUps = places.filter((place) => place.startsWith('Glue-up'));
  expect(glueUps).toHaveLength(2);
  const [first, second] = glueUps.map((place) => page.locator('.saw-jump section', { hasText: place }));
  for (const section of [first, second]) {
    const rows = await section.locator('li').allInnerTexts();
    expect(rows.filter((row) => row.startsWith('Cut '))).toHaveLength(3);
    expect(rows.filter((row) => row === 'In the clamps')).toHaveLength(1);
    expect(rows.at(-3)).toBe('Glue 3 strips');
  }
  const clamps = async (section: Locator) => {
    await section.getByRole('button', { name: 'In the clamps' }).click();
    await page.locator('.saw-jump').waitFor({ state: 'detached' });
  };
  await clamps(first);
  await button(page, /^Start 15 min/).click();
  await page.clock.fastForward('05:00');
  await button(page, 'Steps').click();
  await clamps(second);
  await button(page, /^Start 15 min/).click();
  await expect.poll(() => page.getByRole('timer').innerText()).toMatch(/^1[45]:\d\d$/);
  // The one that ends first is in the bar, also after a reload.
  const chip = page.locator('.saw-chip');
  expect(await chip.innerText()).toMatch(/^\s*(10:00|9:5\d)/);
  await page.clock.runFor(2_000);
  await page.reload();
  await page.locator('.saw-step').waitFor();
  await expect.poll(() => page.getByRole('timer').innerText()).toMatch(/^14:\d\d$/);
  await expect.poll(() => chip.innerText()).toMatch(/9:5\d/);
  await chip.click();
  await expect.poll(() => page.getByRole('timer').innerText()).toMatch(/^9:5\d$/);
  expect(await page.locator('.saw-place').innerText()).toContain('Glue-up 1 of 2');
});

test('a kerf measured at the first slot goes into the strips of the others when the maker says so', async () => {
  const page = await openDesign(fourRings({ unit: 'mm' }));
  const strip = () => page.locator('.saw-numbers dd').first().innerText();
  await goTo(page, 'Fit the strip for S1.2');
  expect(await strip()).toBe('1.016 mm');
  await goTo(page, 'Measure S1.1');
  await button(page, 'Kerf measured: more by 0.10').click();
  expect(await strip()).toBe('1.11 mm');
  await goTo(page, 'Fit the strip for S1.2');
  expect(await strip()).toBe('1.016 mm');
  await goTo(page, 'Measure S1.1');
  await button(page, 'Use 1.11 mm for all cuts not measured').click();
  expect(await button(page, /for all cuts/).count()).toBe(0);
  await goTo(page, 'Fit the strip for S1.2');
  expect(await strip()).toBe('1.11 mm');
  await page.getByText('kerf of the test cut').waitFor();
  // (1.11 / 2) / sin 45° = 0.785 mm from the middle, which is at 139.7 mm.
  await goTo(page, 'Set the stop');
  expect(await page.locator('.saw-numbers dd:not(.saw-note)').allInnerTexts()).toEqual([
    '139.70 mm',
    '138.92 mm',
  ]);
  await goTo(page, 'Strips ready');
  await expect.poll(strip).toBe('1.11 mm');
});

test('the last step leads to what is still open, and out when nothing is', async () => {
  const page = await openDesign(fourRings({ set: { fence_azimuths_deg: [0] } }));
  const next = page.locator('.saw-foot .strong');
  await goTo(page, 'Dust');
  await next.click();
  expect(await title(page)).toMatch(/^Dust/);
  expect(await next.innerText()).toMatch(/What is open/);
  await next.click();
  expect(await title(page)).toBe('Before you start');

  for (let i = 0; i < 40 && !(await title(page)).startsWith('Dust'); i++) await button(page, 'Done').click();
  expect(await page.locator('.saw-place').innerText()).toMatch(/All done/);
  expect(await next.innerText()).toMatch(/All done: leave/);
  await next.click();
  await page.locator('.at-saw').waitFor({ state: 'detached' });
  expect(await page.evaluate(() => window.location.hash)).toBe('#/plan');
});

test('a screen lock that the browser took back is asked for again when the page is seen again', async () => {
  const page = await open();
  const words = () => page.locator('.saw-wake').innerText();
  await expect.poll(words).toBe('The screen stays on');
  await page.evaluate(() => {
    const lock = Reflect.get(window, 'lastLock') as EventTarget & { released: boolean };
    lock.released = true;
    lock.dispatchEvent(new Event('release'));
  });
  await expect.poll(words).toMatch(/^The screen may go dark/);
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
  await expect.poll(words).toBe('The screen stays on');
  expect(await counted(page, 'locks')).toBe(2);
});

test('without a screen lock it says so', async () => {
  const page = await open({}, false);
  await expect.poll(() => page.locator('.saw-wake').innerText()).toMatch(/^The screen may go dark/);
});

/** Least size of a target, of a number, of an instruction, CSS pixels. */
const TABLET = { target: 72, number: 48, words: 20 };
const PHONE = { target: 44, number: 44, words: 17 };

test.each([
  ['tablet', 1024, 768, TABLET],
  ['phone', 390, 844, PHONE],
] as const)(
  '%s: numbers are read from afar, buttons are hit with gloves, nothing needs a swipe',
  async (_name, wide, tall, least) => {
    const page = await open({ width: wide, height: tall });
    await button(page, 'Steps').click();
    const count = await page.locator('.saw-jump li').count();
    expect(count).toBeGreaterThan(30);
    await page.keyboard.press('Escape');
    const faults: string[] = [];
    for (let i = 0; i < count; i++) {
      faults.push(
        ...(await page.evaluate((sizes) => {
          const found: string[] = [];
          let measured = 0;
          const name = document.querySelector('.saw-step h1')?.textContent ?? '';
          for (const number of document.querySelectorAll('.saw-numbers dd:not(.saw-note)'))
            if (Number.parseFloat(getComputedStyle(number).fontSize) < sizes.number)
              found.push(`${name}: ${number.textContent} is small`);
          for (const words of document.querySelectorAll('.saw-lead, .saw-checks li'))
            if (Number.parseFloat(getComputedStyle(words).fontSize) < sizes.words)
              found.push(`${name}: ${words.textContent} is small`);
          for (const target of document.querySelectorAll('.saw-window button')) {
            // The closed list of steps may still be in the page, drawn nowhere.
            if (target.getClientRects().length === 0) continue;
            const { width, height } = target.getBoundingClientRect();
            measured++;
            if (width < sizes.target || height < sizes.target)
              found.push(`${name}: ${target.textContent} ${width}×${height}`);
          }
          if (measured < 2) found.push(`${name}: ${measured} buttons in sight`);
          const box = document.querySelector('.saw-step');
          const hidden = box ? box.scrollHeight - box.clientHeight : 0;
          if (hidden > 24 && !document.querySelector('.saw-more'))
            found.push(`${name}: ${hidden} px out of reach`);
          if (box && box.scrollWidth > box.clientWidth) found.push(`${name}: runs over the side`);
          return found;
        }, least)),
      );
      await page.keyboard.press('ArrowRight');
    }
    expect(faults).toEqual([]);
    expect(await page.locator('.saw-place b').innerText()).toBe(`Step ${count} of ${count}`);
  },
);

async function faultsByAxe(page: Page): Promise<string[]> {
  const result = await new AxeBuilder({ page })
    .setLegacyMode()
    .withTags(['wcag2a', 'wcag2aa', 'wcag2aaa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze();
  return result.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html.slice(0, 160)}`),
  );
}

test.each([
  ['tablet', 1024, 768, false],
  ['tablet', 1024, 768, true],
  ['phone', 390, 844, true],
] as const)('axe finds nothing on a %s %i × %i, dark: %s', async (_name, width, height, dark) => {
  const page = await open({ width, height, dark, reducedMotion: true });
  expect(await faultsByAxe(page), 'first step').toEqual([]);
  for (const step of ['Practice cut', 'Cut 1: saw S1.1', 'Measure S1.1', 'In the clamps']) {
    await goTo(page, step);
    expect(await faultsByAxe(page), step).toEqual([]);
  }
  await button(page, 'Done').click();
  await button(page, 'Back').click();
  expect(await faultsByAxe(page), 'ticked off').toEqual([]);
  await button(page, 'Steps').click();
  expect(await faultsByAxe(page), 'list').toEqual([]);
});

test('no number of a step stays behind at the next, also where two groups of strips are of one timber', async () => {
  const two = fourRings({
    name: 'Two kerfs',
    sets: [
      slotSet({ id: 'S1', center_mm: 60, kerf_mm: 1, fence_azimuths_deg: [0] }),
      slotSet({ id: 'S2', center_mm: 140, kerf_mm: 2, fence_azimuths_deg: [0] }),
    ],
  });
  const page = await openDesign(two);
  let groups = 0;
  for (let step = 1; step <= 8; step++) {
    const numbers = page.locator('.saw-numbers');
    const meant = (await numbers.count()) === 0 ? 0 : Number(await numbers.getAttribute('data-count'));
    expect(await numbers.locator(':scope > div').count(), `step ${step}`).toBe(meant);
    const names = await numbers.locator('dt').allTextContents();
    if (new Set(names).size < names.length) groups++;
    const before = await title(page);
    await button(page, 'Done').click();
    await expect.poll(() => title(page)).not.toBe(before);
  }
  expect(groups).toBe(1);
});

test('away from the saw the clamps are seen in the bar, first running, then over, and lead back', async () => {
  const page = await openDesign(fourRings({ name: 'In clamps', saw: { clamp_minutes: 10 } }), {
    withoutWebGL: true,
    prepare: (opened) => opened.clock.install(),
  });
  await goTo(page, 'Clamp');
  await button(page, /^Start/).click();
  await button(page, 'Leave').click();
  const clamps = page.locator('.clamps');
  expect(await clamps.innerText()).toMatch(/^Clamps (10:00|9:5\d)$/);
  await page.clock.fastForward('10:05');
  await expect.poll(() => clamps.innerText()).toBe('Clamps: time is up');
  await clamps.click();
  await page.locator('.saw-step').waitFor();
});
