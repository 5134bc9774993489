/**
 * What `npm run pictures` takes: one entry per screen, opened by its address in the built app and brought to
 * its state by the steps of a user. Add a line for every screen that people should look at before a release.
 */
import type { Page } from 'playwright-core';

export interface View {
  /** Part of the file's name. */
  readonly name: string;
  /** Address under the app. */
  readonly url: string;
  readonly steps?: (page: Page) => Promise<void>;
}

const press =
  (...keys: string[]) =>
  async (page: Page): Promise<void> => {
    for (const key of keys) await page.keyboard.press(key);
  };

function openStarter(name: string): (page: Page) => Promise<void> {
  return async (page) => {
    await page.getByRole('button', { name: 'Designs' }).click();
    await page.getByRole('button', { name }).click();
  };
}

export const VIEWS: readonly View[] = [
  { name: '1-blank', url: '#/blank' },
  { name: '2-rings', url: '#/rings' },
  { name: '3-form', url: '#/form' },
  { name: '4-plan', url: '#/plan' },
  { name: '5-show', url: '#/show' },
  { name: '6-section', url: '#/rings', steps: press('s') },
  { name: '7-keys', url: '#/rings', steps: press('?') },
  { name: '8-lattice', url: '#/rings', steps: openStarter('Lattice column') },
];

/** The picture in README.md; `npm run pictures -- --readme` makes it. */
export const README_PICTURE = { view: '8-lattice-desk-light', path: 'docs/kerfweave.png' } as const;

export const SIZES = [
  { name: 'desk', width: 1440, height: 900, touch: false },
  { name: 'tablet', width: 1024, height: 768, touch: true },
  { name: 'phone', width: 390, height: 844, touch: true },
] as const;

export const THEMES = ['light', 'dark'] as const;
