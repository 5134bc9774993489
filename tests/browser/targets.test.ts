/**
 * Targets under a finger: on a phone and on a tablet with a touch screen every control that can be seen is at least
 * 44 × 44 CSS pixels (WCAG 2.2, success criterion 2.5.5 "Target Size (Enhanced)"), at every station, at the saw, in
 * menus and in dialogs. A control inside its label is as large as the label, for a tap there is a tap on it.
 */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { testBrowser } from './harness/browser.ts';
import { chooseFile } from './harness/designs.ts';

const browser = testBrowser();

const TARGET_PX = 44;

const SIZES = [
  ['a phone', 390, 844],
  ['a tablet', 1024, 768],
] as const;
const STATIONS = ['blank', 'rings', 'form', 'plan', 'show'] as const;

/** Without WebGL, so that the page is drawn at once; the stage has no controls of its own. */
async function open(width: number, height: number): Promise<Page> {
  const page = await browser.openPage({
    width,
    height,
    url: '#/blank',
    touch: true,
    reducedMotion: true,
    withoutWebGL: true,
  });
  await page.locator('.window').waitFor();
  expect(await page.evaluate(() => matchMedia('(any-pointer: coarse)').matches)).toBe(true);
  return page;
}

async function goTo(page: Page, place: string): Promise<void> {
  await page.evaluate((name) => {
    window.location.hash = `#/${name}`;
  }, place);
  await page.locator(place === 'saw' ? '.saw-step' : `.window[data-station=${place}]`).waitFor();
  await page.waitForFunction(() => !document.querySelector('.messages[data-computing=true]'));
  await page.getByText('Loading …').waitFor({ state: 'detached' });
}

/** The controls that are smaller than a target, and how many there were in all. */
async function measured(page: Page): Promise<{ count: number; small: string[] }> {
  return page.evaluate((target) => {
    const dialog = document.querySelector('dialog[open]') ?? document.querySelector('[popover]:popover-open');
    const controls = [
      ...(dialog ?? document).querySelectorAll(
        'button, a[href], summary, input, select, textarea, [role=button], [role=slider], [tabindex="0"]',
      ),
    ].filter((element) => element.checkVisibility({ visibilityProperty: true }));
    const small = controls.flatMap((element) => {
      const { width, height } = (element.closest('label') ?? element).getBoundingClientRect();
      // A half-pixel row of a table is no smaller target.
      if (width >= target - 0.01 && height >= target - 0.01) return [];
      const name = element.getAttribute('aria-label') ?? element.textContent;
      return [`${element.tagName} ${name} ${width.toFixed(1)}×${height.toFixed(1)}`];
    });
    return { count: controls.length, small };
  }, TARGET_PX);
}

async function expectTargets(page: Page, where: string, atLeast = 2): Promise<void> {
  // Some lists load when they are opened.
  await expect
    .poll(async () => (await measured(page)).count, { message: where, timeout: 20_000 })
    .toBeGreaterThanOrEqual(atLeast);
  const { small } = await measured(page);
  expect(small, where).toEqual([]);
}

describe.each(SIZES)('every control on %s is a target for a finger', (_name, width, height) => {
  test.each(STATIONS)('at the station %s', async (station) => {
    const page = await open(width, height);
    await goTo(page, station);
    await expectTargets(page, station, 10);
  });

  test('in the menu and the dialogs', async () => {
    const page = await open(width, height);
    await goTo(page, 'rings');
    const menu = page.getByRole('button', { name: 'Designs' });
    await menu.click();
    await expectTargets(page, 'menu', 15);
    await page.getByRole('button', { name: 'Your designs' }).click();
    await expectTargets(page, 'designs', 1);
    await page.keyboard.press('Escape');
    await menu.click();
    await page.getByRole('button', { name: 'Share …' }).click();
    await expectTargets(page, 'share');
    await page.keyboard.press('Escape');
    await page.keyboard.press('?');
    await page.getByRole('heading', { name: 'Keys' }).waitFor();
    await expectTargets(page, 'keys');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: /^Strip: / }).click();
    await expectTargets(page, 'timbers', 20);
    await page.keyboard.press('Escape');
    await chooseFile(page, '{"glue": 2}', 'shopping.json');
    await page.getByRole('heading', { name: 'Not opened' }).waitFor();
    await expectTargets(page, 'a file that is no design', 1);
  });

  test('with everything unfolded', async () => {
    const page = await open(width, height);
    await goTo(page, 'rings');
    await page.locator('.messages summary').click();
    await expectTargets(page, 'messages', 20);
    await page.locator('.messages summary').click();
    await page.getByRole('button', { name: 'Add a layer' }).click();
    await page.getByRole('button', { name: 'Free azimuths' }).click();
    await expectTargets(page, 'layers and free azimuths', 20);
    for (const kind of ['Plane', 'Wedge', 'Octant']) {
      if (kind === 'Plane') await page.getByRole('button', { name: 'Section', exact: true }).click();
      await page.getByRole('button', { name: kind, exact: true }).click();
      await expectTargets(page, kind, 20);
    }
    await page.getByRole('button', { name: 'Section', exact: true }).click();
    await page.getByRole('button', { name: '45° against 60°' }).click();
    await expectTargets(page, 'comparison', 20);
    // On a phone this takes the map off the controls.
    await page.getByRole('link', { name: 'Form', exact: true }).click();
    await page.getByRole('button', { name: 'Hole from the side' }).click();
    await expectTargets(page, 'a hole', 20);
    await goTo(page, 'show');
    await page.evaluate(() => {
      for (const part of document.querySelectorAll('.panel details')) part.setAttribute('open', '');
    });
    await expectTargets(page, 'show, all parts', 20);
  });

  test('at the saw, at every step', async () => {
    const page = await open(width, height);
    await goTo(page, 'saw');
    await expectTargets(page, 'saw');
    await page.getByRole('button', { name: 'Steps' }).click();
    const steps = page.locator('.saw-jump li').getByRole('button');
    await expectTargets(page, 'list of steps', 5);
    const count = await steps.count();
    for (let i = 0; i < count; i += 1) {
      if (i > 0) await page.getByRole('button', { name: 'Steps' }).click();
      await steps.nth(i).click();
      await page.locator('.saw-jump').waitFor({ state: 'detached' });
      await expectTargets(page, `step ${i}`);
    }
  });
});

test('on a phone on its side every station is in sight, every tool can be reached, and all are targets', async () => {
  const page = await open(844, 390);
  for (const station of STATIONS) {
    await goTo(page, station);
    await expectTargets(page, station, 10);
    const outside = await page.locator('.rail a').evaluateAll((links) =>
      links.flatMap((link) => {
        const { top, bottom } = link.getBoundingClientRect();
        return top >= 0 && bottom <= window.innerHeight ? [] : [link.textContent];
      }),
    );
    expect(outside, station).toEqual([]);
  }
  await goTo(page, 'rings');
  // By scrolling, as a finger does: what overflows and cannot be scrolled stays out of reach.
  const unreached = await page.locator('.stage-tools button').evaluateAll((tools) =>
    tools.flatMap((tool) => {
      tool.scrollIntoView({ block: 'nearest' });
      const { left, top, width, height } = tool.getBoundingClientRect();
      const hit = document.elementFromPoint(left + width / 2, top + height / 2);
      return tool.contains(hit) ? [] : [tool.getAttribute('aria-label')];
    }),
  );
  expect(unreached).toEqual([]);
});
