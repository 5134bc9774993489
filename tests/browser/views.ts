/**
 * What `npm run pictures` takes: one entry per screen, opened by its address in the built app and brought to
 * its state by the steps of a user. Add a line for every screen that people should look at before a release.
 */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { setOffer } from '../../src/design/offerEdits.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { makeClientLink } from '../../src/files/link.ts';

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

async function startEmpty(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Designs' }).click();
  await page.getByRole('button', { name: 'New, from an empty blank' }).click();
}

async function compareBowls(page: Page): Promise<void> {
  await openStarter('Tide bowl')(page);
  await page.getByRole('button', { name: '60° against 68°' }).click();
}

/** Two choices of the first starter, as a client sees them. */
function clientLink(): string {
  const read = parseDesign(readFileSync('assets/designs/01-lantern-candle-stick.json'));
  if (!read.ok) throw new Error('the first starter cannot be read');
  const { design } = read;
  const steeper = { ...design, sets: design.sets.map((set) => ({ ...set, angle_deg: 60 })) };
  const link = makeClientLink({
    variants: [
      { name: 'As it is', design: setOffer(design, { price: 240, currency: 'EUR', note: 'Quiet.' }) },
      { name: 'Livelier', design: setOffer(steeper, { price: 265, currency: 'EUR' }) },
    ],
    active: 0,
  });
  if (!link.ok) throw new Error(link.message);
  return `#${link.fragment}`;
}

const CLIENT_LINK = clientLink();

export const VIEWS: readonly View[] = [
  { name: '1-blank', url: '#/blank' },
  { name: '2-rings', url: '#/rings' },
  { name: '3-form', url: '#/form' },
  { name: '4-plan', url: '#/plan' },
  { name: '5-show', url: '#/show' },
  { name: '6-section', url: '#/rings', steps: press('s') },
  { name: '7-keys', url: '#/rings', steps: press('?') },
  { name: '5-client', url: CLIENT_LINK },
  { name: '1-empty', url: '#/blank', steps: startEmpty },
  {
    name: '2-empty',
    url: '#/blank',
    steps: async (page) => {
      await startEmpty(page);
      await press('2')(page);
    },
  },
  { name: '2-compare', url: '#/rings', steps: compareBowls },
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
