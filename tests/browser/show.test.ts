/**
 * The client's page, the answer that comes back from it, and the maker's side of both, each driven as people do. The links
 * that the test reads back are read by the app's own reader, which tests/files/link.test.ts checks against zlib.
 */
import { readFile } from 'node:fs/promises';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { forClient } from '../../src/design/offerEdits.ts';
import { makeClientLink, makeLink, readLink } from '../../src/files/link.ts';
import { readPdf } from '../files/sheet/readPdf.ts';
import { fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';
import { openDesign } from './harness/designs.ts';

const browser = testBrowser();

const STEEP: Design = {
  ...fourRings({ name: 'Hall stick', notes: 'only for me' }),
  offer: {
    note: 'Quiet, <b>as we said</b>.',
    price: 240.5,
    currency: 'EUR',
    delivery: 'In May',
    valid_until: '2099-03-31',
  },
  quote: { hour_rate: 77.77 },
};
const FLAT: Design = {
  ...fourRings({ name: 'Hall stick', set: { angle_deg: 60 } }),
  offer: { note: 'Livelier', price: 265, currency: 'EUR' },
};
const OFFERED = {
  variants: [
    { name: 'Steep', design: STEEP },
    { name: 'Flat', design: FLAT },
  ],
  active: 0,
};

function fragmentOf(made: ReturnType<typeof makeLink>): string {
  if (!made.ok) throw new Error(made.message);
  return made.fragment;
}

const CLIENT = fragmentOf(makeClientLink(OFFERED));

interface Opening {
  readonly url: string;
  readonly width?: number;
  readonly height?: number;
  readonly dark?: boolean;
  readonly touch?: boolean;
  readonly context?: ReturnType<Page['context']>;
  readonly prepare?: (page: Page) => Promise<unknown>;
}

/** Without the 3D picture, so that the page is drawn at once. */
async function open({ width = 1280, height = 900, ...options }: Opening): Promise<Page> {
  return browser.openPage({ width, height, ...options, withoutWebGL: true });
}

const violations = async (page: Page) =>
  (await new AxeBuilder({ page }).setLegacyMode().analyze()).violations.map(
    ({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 200)}`,
  );

/** Opens every section of the station. */
async function unfoldAll(page: Page): Promise<void> {
  await page.locator('.show-section').first().waitFor();
  await page.locator('.show-section').evaluateAll((sections) => {
    for (const section of sections) (section as HTMLDetailsElement).open = true;
  });
}

/** Controls in sight that are smaller than a finger. */
const small = (page: Page) =>
  page.evaluate(() =>
    [
      ...(document.querySelector('dialog[open]') ?? document).querySelectorAll(
        'button, a[href], summary, input, select, textarea',
      ),
    ]
      .filter((element) => element.checkVisibility({ visibilityProperty: true }))
      .map((element) => ({ element, box: (element.closest('label') ?? element).getBoundingClientRect() }))
      .filter(({ box }) => box.width < 43.99 || box.height < 43.99)
      .map(({ element, box }) => `${element.outerHTML.slice(0, 80)} ${box.width}×${box.height}`),
  );

test.each([
  ['light', false],
  ['dark', true],
] as const)('a client’s link opens the pieces and nothing else, on a phone, %s', async (_, dark) => {
  const page = await open({ url: `#${CLIENT}`, width: 390, height: 844, touch: true, dark });
  await page.getByRole('heading', { name: 'Hall stick' }).waitFor();
  const cards = page.getByRole('list', { name: 'Choices' }).locator('.choice');
  expect(await cards.count()).toBe(2);
  const first = (await cards.first().textContent()) ?? '';
  for (const words of ['Steep', '€240.50', 'In May', '4 rings of hard maple', 'Offered until 31 March 2099'])
    expect(first).toContain(words);
  // What is written in a link is text, whatever it looks like.
  expect(first).toContain('Quiet, <b>as we said</b>.');
  expect(await page.locator('.choice-note b').count()).toBe(0);
  // No editing, no library, and the address as it came.
  for (const chrome of ['.design-name', '.rail', '.menu-button', '.moments', '.dock'])
    expect(await page.locator(chrome).count()).toBe(0);
  expect(new URL(page.url()).hash).toBe(`#${CLIENT}`);
  expect(await page.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name))).toEqual([]);
  expect(await page.content()).not.toMatch(/77\.77|only for me/);
  expect(await small(page)).toEqual([]);
  expect(await violations(page)).toEqual([]);
  // Nothing is wider than the phone.
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
});

/** How much of a control can be tapped as it is: what of it is in the window and under nothing else, 0 to 1. */
const tappable = (page: Page, selector: string) =>
  page.locator(selector).evaluate((element) => {
    const { left, top, width, height } = element.getBoundingClientRect();
    const steps = [0.1, 0.3, 0.5, 0.7, 0.9];
    const points = steps.flatMap((x) => steps.map((y) => [left + x * width, top + y * height] as const));
    return (
      points.filter(([x, y]) => element.contains(document.elementFromPoint(x, y))).length / points.length
    );
  });

test.each([
  ['a phone', 390, 844, 1],
  ['a phone on its side', 844, 390, 1],
  ['a small phone', 320, 568, 1],
  ['a tablet', 1024, 768, 1],
  // WCAG 1.4.4: text at 200 %, by the letters alone and by the whole page (half as many CSS pixels).
  ['a phone with letters twice as large', 390, 844, 2],
  ['a phone with everything twice as large', 195, 422, 1],
] as const)(
  'yes can be said without scrolling, and every choice reached, on %s',
  async (_, width, height, letters) => {
    const page = await open({
      url: `#${CLIENT}`,
      width,
      height,
      touch: true,
      prepare: (opened) =>
        opened.addInitScript((times) => {
          document.addEventListener('DOMContentLoaded', () => {
            document.documentElement.style.fontSize = `${times * 100}%`;
          });
        }, letters),
    });
    await page.locator('.choose').waitFor();
    expect(await tappable(page, '.choose')).toBe(1);
    await page.locator('.choice-head').nth(1).click();
    await expect.poll(() => page.locator('.client-yes p').textContent()).toBe('Flat€265.00');
    expect(await tappable(page, '.choose')).toBe(1);
    // Names and prices are whole.
    const cut = await page
      .locator('.choice-words, .client-yes p, .client-head h1')
      .evaluateAll((all) =>
        all.filter((one) => one.scrollWidth > one.clientWidth + 1).map((one) => one.textContent),
      );
    expect(cut).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    await page.locator('.choose').click();
    await page.getByRole('button', { name: 'Copy the answer' }).scrollIntoViewIfNeeded();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  },
);

test('one piece is shown without a choice to make, and a date that has passed is said', async () => {
  const offer = { ...STEEP.offer, valid_until: '2020-01-31' };
  const alone = { variants: [{ name: 'Steep', design: { ...STEEP, offer } }], active: 0 };
  const page = await open({
    url: `#${fragmentOf(makeClientLink(alone))}`,
    width: 390,
    height: 844,
    touch: true,
  });
  await page.getByRole('button', { name: 'Say yes' }).waitFor();
  expect(await page.locator('.choice, .offered').count()).toBe(0);
  const text = await page.locator('.client-panel').textContent();
  for (const words of ['4 rings of hard maple', 'Quiet, <b>as we said</b>.', '€240.50'])
    expect(text).toContain(words);
  expect(text).toContain(
    'Offered until 31 January 2020: that day has passed, ask whether the offer still holds',
  );
  await page.getByRole('button', { name: 'Say yes' }).click();
  await page.getByRole('heading', { name: 'Yes to “Hall stick”' }).waitFor();
  expect(await page.getByLabel('The answer').textContent()).toMatch(
    /^Yes, I would like “Hall stick”, €240\.50\./,
  );
  expect(await violations(page)).toEqual([]);
});

test.each([
  ['a client in metres', ['fr-FR', 'fr'], '203 mm high', '190 mm'],
  ['a client in inches', ['en-US', 'en'], '8 in high', '7.5 in'],
] as const)(
  'sizes are in the unit of %s, and the answer is in that of the maker',
  async (_, languages, size, hand) => {
    // 8 in = 203.2 mm; 203.2 mm as one speaks of it: 203 mm; 190 mm = 7.48 in.
    const prepare = (opened: Page) =>
      opened.addInitScript((tags) => {
        Object.defineProperty(navigator, 'languages', { get: () => tags });
      }, languages);
    for (const unit of ['in', 'mm'] as const) {
      const offered = { variants: [{ name: 'Steep', design: { ...STEEP, unit } }], active: 0 };
      const page = await open({ url: `#${fragmentOf(makeClientLink(offered))}`, prepare });
      await expect.poll(() => page.locator('.choice-facts').textContent()).toContain(size);
      await page.getByRole('button', { name: 'Hand' }).click();
      await page.getByText(`The hand is ${hand} long`).waitFor();
      await page.getByRole('button', { name: 'Say yes' }).click();
      const read = readLink(new URL((await page.locator('.answer-address').textContent()) ?? '').hash);
      expect(read.ok && read.work.variants[0].design.unit).toBe(unit);
      await page.close();
    }
  },
);

test('where the page may not copy, the whole answer is selected and the dialog says so', async () => {
  const page = await open({
    url: `#${CLIENT}`,
    prepare: (opened) =>
      opened.addInitScript(() => Object.defineProperty(navigator, 'clipboard', { value: undefined })),
  });
  await page.getByRole('button', { name: 'Choose this one' }).click();
  await page.getByRole('button', { name: 'Copy the answer' }).click();
  // Within the dialog: what is outside it is out of reach of fingers and screen readers while it is open.
  await page.locator('dialog[open]').getByText('does not let the page copy').waitFor();
  const selected = await page.evaluate(() => window.getSelection()?.toString() ?? '');
  expect(selected).toContain((await page.locator('.answer-address').textContent()) ?? '?');
});

test('the client chooses, and the answer holds the choice and the piece', async () => {
  const page = await open({ url: `#${CLIENT}`, width: 390, height: 844, touch: true });
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.evaluate(() => {
    Object.defineProperty(navigator, 'share', {
      configurable: true,
      value: (data: unknown) => {
        Reflect.set(window, 'shared', data);
        return Promise.resolve();
      },
    });
  });
  await page.getByRole('button', { name: /^Flat/ }).click();
  await page.getByRole('button', { name: 'Gloss' }).click();
  await page.getByRole('button', { name: 'Choose this one' }).click();
  await page.getByRole('heading', { name: 'You choose “Flat” of “Hall stick”' }).waitFor();
  expect(await page.getByLabel('A word with it').inputValue()).toBe(
    'Please in gloss, as I have it on screen.',
  );
  await page.getByLabel('Your name').fill('M. K.');
  expect(await small(page)).toEqual([]);
  expect(await violations(page)).toEqual([]);
  await page.getByRole('button', { name: 'Send …' }).click();
  await page.getByRole('button', { name: 'Shared' }).waitFor();
  const shared = (await page.evaluate(() => Reflect.get(window, 'shared') as unknown)) as {
    text: string;
    url: string;
  };
  expect(shared.text).toBe(
    'Yes, I choose “Flat” of “Hall stick”, €265.00.\nPlease in gloss, as I have it on screen.\n– M. K.',
  );
  await page.getByRole('button', { name: 'Copy the answer' }).click();
  await page.getByRole('button', { name: 'Copied' }).waitFor();
  const copied = await page.evaluate(() => navigator.clipboard.readText());
  expect(copied).toBe(`${shared.text}\n\n${shared.url}`);
  const read = readLink(new URL(shared.url).hash);
  expect(read.ok && read.for).toBe('reply');
  const answer = read.ok ? read.work.variants[0].design : null;
  expect(answer).toEqual({
    ...forClient(FLAT),
    choice: {
      made_on: expect.stringMatching(/^\d{4}-\d\d-\d\d$/) as string,
      by: 'M. K.',
      note: 'Please in gloss, as I have it on screen.',
    },
  });
  await page.getByRole('button', { name: 'Close' }).click();
  await expect.poll(() => page.locator('.choice-made').textContent()).toContain('Chosen by M. K. on');
});

test('a client’s link opens with the network off, once the app has been there', async () => {
  const page = await open({ url: '#/show' });
  const installed = () => page.evaluate(() => navigator.serviceWorker.controller !== null);
  await expect.poll(installed, { timeout: 30_000 }).toBe(true);
  await page.context().setOffline(true);
  await page.evaluate((hash) => (window.location.hash = hash), CLIENT);
  await page.getByRole('heading', { name: 'Hall stick' }).waitFor();
  await page.getByRole('button', { name: 'Choose this one' }).click();
  expect(readLink(new URL((await page.locator('.answer-address').textContent()) ?? '').hash).ok).toBe(true);
});

test('a link for a client that is damaged says so', async () => {
  const page = await open({ url: `#${CLIENT.replace('d=1.', 'd=1.A')}` });
  await page.getByRole('heading', { name: 'This link cannot be opened' }).waitFor();
  expect(await page.locator('main').textContent()).toMatch(/damaged/);
  expect(await violations(page)).toEqual([]);
});

/** The answer that a client who opens the link sends: who chose which. */
async function answerOf(variant: string): Promise<string> {
  const page = await open({ url: `#${CLIENT}` });
  await page.getByRole('button', { name: new RegExp(`^${variant}`) }).click();
  await page.getByRole('button', { name: 'Choose this one' }).click();
  await page.getByLabel('Your name').fill('M. K.');
  const address = (await page.locator('.answer-address').textContent()) ?? '';
  await page.close();
  return new URL(address).hash;
}

test('the maker opens the answer: it is recorded at the variant of the kept design, and can be undone', async () => {
  const answer = await answerOf('Flat');
  // The maker's own design with both variants comes in by a plain link, is edited, and left for another.
  const page = await open({ url: `#${fragmentOf(makeLink(OFFERED))}` });
  await page.locator('.design-name').waitFor();
  await page.evaluate(() => (window.location.hash = '#/show'));
  await page.getByLabel('A word for the client').fill('Quieter still');
  await expect.poll(() => page.locator('.saved').textContent()).toBe('Kept');
  await openDesign(page, fourRings({ name: 'Another', length_mm: 150 }));
  await expect.poll(() => page.locator('.saved').textContent()).toBe('Kept');

  await page.evaluate((hash) => (window.location.hash = hash), answer);
  await expect.poll(() => page.locator('.design-name').inputValue()).toBe('Hall stick');
  await expect
    .poll(() => page.locator('.said').textContent())
    .toMatch(/^M\. K\. chose “Flat” of “Hall stick” on .* It is recorded here\.$/);
  const chosen = page.locator('.choice').filter({ hasText: 'Chosen by M. K.' });
  expect(await chosen.count()).toBe(1);
  expect(await chosen.locator('b').textContent()).toBe('Flat');
  expect(await page.getByLabel('By', { exact: true }).inputValue()).toBe('M. K.');
  // It outlives the page.
  await expect.poll(() => page.locator('.saved').textContent()).toBe('Kept');
  await page.reload();
  await page.locator('.choice-made').waitFor();
  await page.getByRole('button', { name: 'Undo: the client’s choice' }).click();
  await expect.poll(() => page.locator('.choice-made').count()).toBe(0);
});

/** Names of the designs that a browser keeps. */
const namesKept = (page: Page) =>
  page.evaluate(async () => {
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.addEventListener('success', () => resolve(request.result));
        request.addEventListener('error', () => reject(new Error(String(request.error))));
      });
    const database = await done(indexedDB.open('kerfweave-designs'));
    const store = database.transaction('designs').objectStore('designs');
    const headers = (await done(store.getAll())) as { name: string }[];
    database.close();
    return headers.map(({ name }) => name);
  });

test('an answer opened beside the tab that has the piece is recorded there, and both tabs say so', async () => {
  const answer = await answerOf('Flat');
  const here = await open({ url: `#${fragmentOf(makeLink(OFFERED))}` });
  await expect.poll(() => here.locator('.saved').textContent()).toBe('Kept');
  const there = await open({ url: answer, context: here.context() });
  await there.getByRole('heading', { name: 'The answer is recorded' }).waitFor();
  expect(await there.locator('main').textContent()).toMatch(
    /M\. K\. chose “Flat” of “Hall stick” on .* It is recorded in the tab that has the piece open\./,
  );
  expect(await violations(there)).toEqual([]);
  await here.locator('.choice-made').waitFor();
  expect(await here.locator('.said').textContent()).toMatch(/chose “Flat”.* It is recorded here\.$/);
  // By the tab that holds the design and by no other: there is no copy, and it is undone where it was done.
  await expect.poll(() => here.locator('.saved').textContent()).toBe('Kept');
  expect((await namesKept(here)).filter((name) => name.startsWith('Hall stick'))).toEqual(['Hall stick']);
  await here.reload();
  await here.locator('.choice-made').waitFor();
  await here.getByRole('button', { name: 'Undo: the client’s choice' }).click();
  await expect.poll(() => here.locator('.choice-made').count()).toBe(0);
});

test('an answer is handed over from a tab with another design, which stays as it is', async () => {
  const answer = await answerOf('Steep');
  const here = await open({ url: `#${fragmentOf(makeLink(OFFERED))}` });
  await expect.poll(() => here.locator('.saved').textContent()).toBe('Kept');
  const another = { variants: [{ name: 'A', design: fourRings({ name: 'Another' }) }], active: 0 };
  const there = await open({ url: `#${fragmentOf(makeLink(another))}`, context: here.context() });
  await expect.poll(() => there.locator('.design-name').inputValue()).toBe('Another');
  await there.evaluate((hash) => (window.location.hash = hash), answer);
  await expect
    .poll(() => there.locator('.said').textContent())
    .toMatch(/chose “Steep” .* recorded in the tab that has the piece open\.$/);
  expect(await there.locator('.design-name').inputValue()).toBe('Another');
  await here.locator('.choice-made').waitFor();
});

test('an answer beside a tab that does not answer goes into a copy, and says where to open it as well', async () => {
  const answer = await answerOf('Flat');
  const here = await open({
    url: `#${fragmentOf(makeLink(OFFERED))}`,
    // As a tab that sleeps, or is of a version that takes no answers.
    prepare: (opened) =>
      opened.addInitScript(() => Object.defineProperty(window, 'BroadcastChannel', { value: undefined })),
  });
  await expect.poll(() => here.locator('.saved').textContent()).toBe('Kept');
  const there = await open({ url: answer, context: here.context() });
  await expect
    .poll(() => there.locator('.said').textContent(), { timeout: 30_000 })
    .toMatch(
      /another tab.* is a copy.* It is recorded here\. To have it there too, open the answer in that tab\.$/,
    );
  expect(await here.locator('.choice-made').count()).toBe(0);
  await here.evaluate((hash) => (window.location.hash = hash), answer);
  await here.locator('.choice-made').waitFor();
  expect(await here.locator('.design-name').inputValue()).toBe('Hall stick');
});

test('a client sees the first choice first, whichever the maker wrote at last', async () => {
  const fragment = fragmentOf(makeClientLink({ ...OFFERED, active: 1 }));
  const page = await open({ url: `#${fragment}` });
  await page.locator('.choice').first().waitFor();
  expect(await page.locator('.choice-head[aria-pressed="true"] b').allTextContents()).toEqual(['Steep']);
});

test('an answer to a piece that is not kept here opens as a design of its own, with the choice in it', async () => {
  const answer = await answerOf('Steep');
  const page = await open({ url: '#/show' });
  await page.locator('.show-section').first().waitFor();
  await page.evaluate((hash) => (window.location.hash = hash), answer);
  await expect.poll(() => page.locator('.design-name').inputValue()).toBe('Hall stick');
  await expect
    .poll(() => page.locator('.said').textContent())
    .toMatch(/client’s answer.*a design of its own/);
  expect(await page.locator('.choice-made').textContent()).toMatch(/Chosen by M\. K\./);
});

test('the maker offers, links, records by hand, and prints the quote', async () => {
  // A browser of the euro's: what is typed is in the currency of its region.
  const page = await open({
    url: '#/show',
    prepare: (opened) =>
      opened.addInitScript(() =>
        Object.defineProperty(navigator, 'languages', { get: () => ['de-AT', 'de', 'en'] }),
      ),
  });
  await openDesign(page, fourRings({ name: 'Hall stick', unit: 'mm' }));
  await unfoldAll(page);
  await page.getByLabel('A word for the client').fill('For your hall');
  const type = async (label: string, text: string) => {
    const field = page.getByLabel(label, { exact: true });
    await field.fill(text);
    await field.press('Enter');
  };
  await type('An hour of your work', '40');
  for (const kind of ['Preparing stock', 'Sawing', 'Gluing', 'Turning', 'Finishing']) await type(kind, '1');
  await type('Black walnut, a cubic metre', '3600');
  await type('Markup', '10');
  await type('Rounded up to', '10');
  // 5 h × 40 = 200.00; 0.0762² × 0.2032 m³ × 3600 = 4.2475 → 4.25; 204.25 × 10 % = 20.425 → 20.43; 224.68 → 230.
  await page.getByRole('button', { name: 'Offer it for €230.00' }).click();
  await expect.poll(() => page.locator('.choice-price').textContent()).toBe('€230.00');
  const link = readLink(new URL(await page.getByLabel('Link for the client').inputValue()).hash);
  expect(link.ok && link.for).toBe('client');
  expect(link.ok && link.work.variants[0].design).toEqual(
    forClient({
      ...fourRings({ name: 'Hall stick', unit: 'mm' }),
      offer: { note: 'For your hall', price: 230, currency: 'EUR' },
    }),
  );
  await page.getByRole('button', { name: 'The client chose this one' }).click();
  await page.getByLabel('By', { exact: true }).fill('M. K.');
  await expect.poll(() => page.locator('.choice-made').textContent()).toMatch(/^Chosen by M\. K\. on/);
  await page.getByLabel('Your name and how to reach you').fill('A. Turner');
  const [file] = await Promise.all([
    page.waitForEvent('download', { timeout: 60_000 }),
    page.getByRole('button', { name: 'Quote, PDF' }).click(),
  ]);
  expect(file.suggestedFilename()).toBe('hall-stick-quote.pdf');
  const pdf = await readPdf(await readFile(await file.path()));
  expect(pdf.pages).toHaveLength(1);
  for (const words of ['A. Turner', 'Hall stick', '€230.00', 'For your hall', 'by M. K.'])
    expect(pdf.pages[0].text).toContain(words);
  expect(pdf.pages[0].text).not.toMatch(/3,?600|40\.00/);
  expect(await violations(page)).toEqual([]);

  // Rates and name are there for the next design; hours and offer are not.
  await openDesign(page, fourRings({ name: 'Next', unit: 'mm' }));
  await page.reload();
  await page.getByText('Quote', { exact: true }).click();
  expect(await page.getByLabel('An hour of your work').inputValue()).toBe('€40.00');
  expect(await page.getByLabel('Black walnut, a cubic metre').inputValue()).toBe('€3,600.00');
  expect(await page.getByLabel('Sawing', { exact: true }).inputValue()).toBe('0.5 h');
  expect(await page.getByLabel('Your name and how to reach you').inputValue()).toBe('A. Turner');
});

test.each([
  ['a phone', 390, 844, false],
  ['a tablet in the dark', 1024, 768, true],
] as const)('every section of Show is for fingers and for all on %s', async (_, width, height, dark) => {
  const page = await open({ url: `#${fragmentOf(makeLink(OFFERED))}`, width, height, dark, touch: true });
  await page.locator('.design-name').waitFor();
  await page.evaluate(() => (window.location.hash = '#/show'));
  await unfoldAll(page);
  expect(await page.locator('.show-section:not([open])').count()).toBe(0);
  await page.getByText('Loading …').waitFor({ state: 'detached' });
  expect(await small(page)).toEqual([]);
  expect(await violations(page)).toEqual([]);
});

test('the piece is seen alone by one button or key, and the controls come back', async () => {
  const page = await open({ url: '#/show' });
  await page.locator('.show-section').first().waitFor();
  const inSight = () =>
    page
      .locator('.bar, .rail, .panel')
      .evaluateAll((all) => all.filter((one) => one.checkVisibility()).length);
  expect(await inSight()).toBe(3);
  await page.getByRole('button', { name: 'The piece alone' }).click();
  expect(await inSight()).toBe(0);
  const stage = await page.locator('.stage').boundingBox();
  expect([stage?.width, stage?.height]).toEqual([1280, 900]);
  await page.keyboard.press('Escape');
  expect(await inSight()).toBe(3);
  await page.keyboard.press('c');
  expect(await inSight()).toBe(0);
  await page.getByRole('button', { name: 'Controls' }).click();
  expect(await inSight()).toBe(3);
});
