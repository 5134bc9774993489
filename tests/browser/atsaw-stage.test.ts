/**
 * The saw's side of a cut on the stage, table tilted: the side where the blade enters is seen, the blade is upright in the
 * picture, the table leans by the tilt, and afterwards the camera looks from where it did. Expected places from the
 * contract's formulas for the slot's plane.
 */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { slotsOf, type Slot } from '../../src/blank/slots.ts';
import type { Design } from '../../src/design/document.ts';
import type { Vec3 } from '../../src/geometry/vector.ts';
import { DEFAULT_VIEW, type StageView } from '../../src/stage/props.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';

const browser = testBrowser();
const SIZE = 420;

const designs = [
  ['web ahead, head down', {}],
  ['web behind, foot down', { web_side: 'behind', high_side: 'entry' }],
  ['web behind, head down', { web_side: 'behind' }],
  ['web ahead, foot down', { high_side: 'entry' }],
] as const;

const bowlBlank = (set: (typeof designs)[number][1]): Design =>
  fourRings({
    section: { shape: 'square', width_mm: 150 },
    length_mm: 75,
    form: null,
    sets: [slotSet({ cut: 'table', angle_deg: 30, center_mm: 37, ...set })],
  });

async function show(page: Page, design: Design, position: number, view: Partial<StageView>): Promise<void> {
  await page.evaluate(
    async ([shown, at, seen]) => {
      await window.stagePage.show({
        variants: [{ key: 'main', label: '', design: shown }],
        position: at,
        view: seen,
      });
    },
    [design, position, { ...DEFAULT_VIEW, ...view }] as const,
  );
  await page.waitForFunction(() => window.stagePage.statuses.at(-1)?.busy !== true);
}

const look = (page: Page, what: 'see' | 'place', point: Vec3) =>
  page.evaluate(
    ([way, p, size]) => window.stagePage.handle.current?.inspect()?.[way](p, size, size) ?? null,
    [what, point, SIZE] as const,
  );

async function placed(page: Page, point: Vec3): Promise<readonly [number, number]> {
  const at = await look(page, 'place', point);
  if (!at) throw new Error('the stage is not ready');
  return at;
}

/** u toward the ledge, w toward the web, z along the axis. */
const pointOf = (slot: Slot, u: number, w: number, z: number): Vec3 => [
  u * slot.fenceDirection[0] + w * slot.stopNormal[0],
  u * slot.fenceDirection[1] + w * slot.stopNormal[1],
  z,
];

const onBlank = ([x, y]: Vec3): boolean => Math.abs(x) < 72 && Math.abs(y) < 72;

/** Median brightness, 0…255, of places of the piece as the screen shows them: a label over a few of them does not count. */
async function brightness(page: Page, points: readonly Vec3[]): Promise<number> {
  const places = await Promise.all(points.map((point) => placed(page, point)));
  const shot = (await page.screenshot()).toString('base64');
  const values = await page.evaluate(
    async ([base64, at]) => {
      const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
      const picture = await createImageBitmap(new Blob([bytes]));
      const context = new OffscreenCanvas(picture.width, picture.height).getContext('2d', {
        willReadFrequently: true,
      });
      if (!context) throw new Error('no canvas');
      context.drawImage(picture, 0, 0);
      return at.map(([x, y]) => {
        const [red, green, blue] = context.getImageData(Math.round(x), Math.round(y), 1, 1).data;
        return (red + green + blue) / 3;
      });
    },
    [shot, places] as const,
  );
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];
}

test.each(designs)('%s: the cut is seen as the sawyer sees it', async (_name, set) => {
  const page = await browser.openPage({ site: 'fixtures', url: 'stage.html', width: SIZE, height: SIZE });
  await page.waitForFunction(() => document.body.dataset.settled === 'yes', undefined, { timeout: 60_000 });
  const design = bowlBlank(set);
  await show(page, design, 1, {});
  const corners = [-75, 75].flatMap((x) => [0, 75].map((z): Vec3 => [x, 75, z]));
  const before = await Promise.all(corners.map((corner) => placed(page, corner)));

  // Moments: block, cut 1, strip 1, quarter-turn, cut 2.
  for (const [position, n] of [
    [1, 0],
    [4, 1],
  ] as const) {
    await show(page, design, position, { atTheSaw: true });
    const slot = slotsOf(design)[n];
    // The plane: u = σ (z − z₀) tan θ.
    const trace = (z: number) => slot.slope * (z - 37) * Math.tan(Math.PI / 6);
    // On the side where the blade enters, to the left and to the right of the kerf.
    for (const u of [-30, 30])
      expect(await look(page, 'see', pointOf(slot, trace(37) + u, -75, 37))).not.toBeNull();
    // Two points of the blade's line on that side, one above the other.
    const [low, high] = await Promise.all(
      (slot.slope === 1 ? [70, 5] : [5, 70]).map((z) => placed(page, pointOf(slot, trace(z), -75, z))),
    );
    expect(Math.abs(low[0] - high[0])).toBeLessThan(0.06 * Math.abs(low[1] - high[1]));
    expect(high[1]).toBeLessThan(low[1]);
    // The light is above, whichever end is up: that end is about as bright as the side that the sawyer faces.
    const upper = slot.slope === 1 ? 0 : 75;
    const grid = [-45, -25, 25, 45].flatMap((u) => [-50, -20, 20].map((w) => [u, w] as const));
    const ends = grid.map(([u, w]) => pointOf(slot, trace(upper) + u, w, upper)).filter(onBlank);
    const sides = grid.map(([u, w]) => pointOf(slot, trace(37) + u, -75, 37 + w / 2));
    expect(ends.length).toBeGreaterThan(5);
    expect(await brightness(page, ends)).toBeGreaterThan(0.75 * (await brightness(page, sides)));
    // The table goes down toward the ledge.
    const floor = slot.slope === 1 ? 75 : 0;
    const [away, ledge] = await Promise.all([-70, 70].map((u) => placed(page, pointOf(slot, u, -75, floor))));
    expect(ledge[1]).toBeGreaterThan(away[1]);
  }

  await show(page, design, 1, {});
  const after = await Promise.all(corners.map((corner) => placed(page, corner)));
  after.flat().forEach((value, i) => expect(value).toBeCloseTo(before.flat()[i], 0));
});
