/**
 * The window on three sizes of screen: nothing runs over the edge, every control is reached by the keyboard,
 * and axe (WCAG 2.2 A and AA) finds nothing on any screen, light or dark. How large targets are: targets.test.ts.
 */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();

const SIZES = [
  ['desktop', 1440, 900],
  ['tablet', 1024, 768],
  ['phone', 390, 844],
] as const;
const STATIONS = ['blank', 'rings', 'form', 'plan', 'show'] as const;

/** Without WebGL, so that the page is drawn at once; the stage's own tests look at the canvas. */
async function open(width: number, height: number, dark = false): Promise<Page> {
  const page = await browser.openPage({
    width,
    height,
    dark,
    url: '#/blank',
    reducedMotion: true,
    withoutWebGL: true,
  });
  await page.locator('.window').waitFor();
  return page;
}

async function goTo(page: Page, station: string): Promise<void> {
  await page.evaluate((name) => {
    window.location.hash = `#/${name}`;
  }, station);
  await page.locator(`.window[data-station=${station}]`).waitFor();
  await page.waitForFunction(() => !document.querySelector('.messages[data-computing=true]'));
  await page.getByText('Loading …').waitFor({ state: 'detached' });
}

async function faultsByAxe(page: Page): Promise<string[]> {
  const result = await new AxeBuilder({ page })
    .setLegacyMode()
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze();
  return result.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html.slice(0, 160)}`),
  );
}

describe.each(SIZES)('%s', (_name, width, height) => {
  test('nothing runs over the edge of the window', async () => {
    const page = await open(width, height);
    for (const station of STATIONS) {
      await goTo(page, station);
      const over = await page.evaluate(() => {
        const wide = document.documentElement.clientWidth;
        const found: string[] = [];
        if (document.documentElement.scrollWidth > wide) found.push('the document scrolls sideways');
        for (const element of document.querySelectorAll('body *')) {
          if (element.closest('dialog:not([open]), [popover], .visually-hidden, .stage-tools')) continue;
          const { left, right, width: size } = element.getBoundingClientRect();
          if (size > 0 && (left < -0.5 || right > wide + 0.5) && !element.closest('svg'))
            found.push(`${element.tagName} ${element.className} ${left}–${right}`);
        }
        for (const column of document.querySelectorAll('.panel, .dock, .moments, .bar'))
          if (column.scrollWidth > column.clientWidth + 1)
            found.push(`${column.className}: ${column.scrollWidth} in ${column.clientWidth}`);
        return found;
      });
      expect(over, station).toEqual([]);
    }
  });

  test.each(['light', 'dark'] as const)('axe finds nothing, %s', async (theme) => {
    const page = await open(width, height, theme === 'dark');
    for (const station of STATIONS) {
      await goTo(page, station);
      expect(await faultsByAxe(page), station).toEqual([]);
    }
  });
});

test('axe finds nothing in dialogs, menus, messages and the comparison', async () => {
  const page = await open(1440, 900);
  await goTo(page, 'rings');
  await page.keyboard.press('?');
  await page.getByRole('heading', { name: 'Keys' }).waitFor();
  expect(await faultsByAxe(page), 'keys').toEqual([]);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Designs' }).click();
  expect(await faultsByAxe(page), 'designs').toEqual([]);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: /^Strip: / }).click();
  expect(await faultsByAxe(page), 'timbers').toEqual([]);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: '45° against 60°' }).click();
  await page.getByRole('spinbutton', { name: 'Web left' }).fill('nonsense');
  await page.locator('.messages summary').click();
  await page.getByRole('button', { name: 'Section', exact: true }).click();
  await page.getByRole('button', { name: 'Parts apart' }).click();
  expect(await faultsByAxe(page), 'comparison, fault, messages, section').toEqual([]);
});

/** Gives the page a function that names a control, for the list of all and for the walk alike. */
async function teachNames(page: Page): Promise<void> {
  await page.evaluate(() => {
    Reflect.set(window, 'nameOfControl', (element: HTMLInputElement) => {
      const own = (element.getAttribute('aria-label') ?? element.textContent).trim();
      const labelled = (element.labels?.[0]?.textContent ?? '').trim();
      return `${element.tagName} ${own || labelled || element.id}`.slice(0, 80);
    });
  });
}

test.each(STATIONS)(
  'every control of the station %s is reached by the keyboard, with the focus in view',
  async (station) => {
    const page = await open(1440, 900);
    await goTo(page, station);
    await teachNames(page);
    const expected = await page.evaluate(() => {
      const name = Reflect.get(window, 'nameOfControl') as (element: Element) => string;
      return [
        ...document.querySelectorAll('button, input, select, textarea, summary, a[href], [tabindex="0"]'),
      ]
        .filter(
          (element) =>
            !(element as HTMLButtonElement).disabled && element.checkVisibility({ visibilityProperty: true }),
        )
        .filter((element) => !element.closest('dialog:not([open])'))
        .map(name);
    });
    expect(expected.length).toBeGreaterThan(10);
    const reached = new Set<string>();
    const unseen: string[] = [];
    for (let i = 0; i < expected.length + 10; i++) {
      await page.keyboard.press('Tab');
      const at = await page.evaluate(() => {
        const name = Reflect.get(window, 'nameOfControl') as (element: Element) => string;
        const element = document.activeElement;
        if (!element || element === document.body) return null;
        const shown = [element, ...element.querySelectorAll('*')].some((part) => {
          const style = getComputedStyle(part);
          return style.outlineStyle !== 'none' || (part instanceof SVGElement && style.stroke !== 'none');
        });
        const { top, bottom, left, right } = element.getBoundingClientRect();
        const inView = bottom > 0 && right > 0 && top < innerHeight && left < innerWidth;
        return { name: name(element), shown: shown && inView };
      });
      if (!at) continue;
      reached.add(at.name);
      if (!at.shown) unseen.push(at.name);
    }
    expect(expected.filter((name) => !reached.has(name))).toEqual([]);
    expect(unseen).toEqual([]);
  },
);
