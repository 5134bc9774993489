/**
 * The 3D files that the page makes, each read back outside of it: GLB by the Khronos validator and three's loader, USDZ by a zip
 * reader after APPNOTE and three's loader, 3MF by the tests' own reader. The wood on them is held against `materialAt`: at
 * random points of the surface the picture must have the colour of the timber that is there.
 */
import { readFile } from 'node:fs/promises';
import { AxeBuilder } from '@axe-core/playwright';
import { converter, type Color } from 'culori';
import { validateBytes } from 'gltf-validator';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { BODY, materialAt } from '../../src/blank/material.ts';
import { kerfDistance_mm, layerBounds_mm, slotsOf, type Slot } from '../../src/blank/slots.ts';
import type { Design } from '../../src/design/document.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { dot, type Vec3 } from '../../src/geometry/vector.ts';
import { read3mf } from '../files/read3mf.ts';
import { zipEntries } from '../files/zipEntries.ts';
import { fourRings } from '../fixtures/designs.ts';
import { seededRandom } from '../fixtures/random.ts';
import { starterDesigns } from '../fixtures/starters.ts';
import { SEED } from '../soak/counts.ts';
import { testBrowser } from './harness/browser.ts';
import { openDesign } from './harness/designs.ts';
import { readGlb, type ReadGlb } from './harness/glbFile.ts';
import { layerAt } from '../blank/pointwise.ts';

const browser = testBrowser();

const SMALL_PX = 1024;
const POINTS = 3000;
/** Points nearer to a strip's edge than this many pixels of the picture are left out. */
const EDGE_PX = 2;

const STARTERS = starterDesigns();

/** Timbers in hues of their own: pores and end grain darken a colour and warm it a little, and leave it its hue. */
const COLOURS = ['#30a050', '#c03030', '#3048b0'];

function coloured(design: Design): Design {
  const timbers = new Set([
    design.blank.timber,
    ...design.sets.flatMap((set) => set.strip.layers.map(({ timber }) => timber)),
  ]);
  return { ...design, colors: Object.fromEntries([...timbers].map((timber, i) => [timber, COLOURS[i]])) };
}

async function bangle(): Promise<Design> {
  const read = parseDesign(await readFile('tests/fixtures/designs/v2-bangle.design.json'));
  if (!read.ok) throw new Error('the fixture is no valid design');
  return read.design;
}

async function openFiles(design: Design, pixels: number): Promise<Page> {
  const page = await browser.openPage({ width: 800, height: 600, url: '#/blank' });
  await showFilesOf(page, design, pixels);
  return page;
}

/** Opens a design and the 3D files of it. */
async function showFilesOf(page: Page, design: Design, pixels: number): Promise<void> {
  await page.evaluate(() => (window.location.hash = '#/blank'));
  await openDesign(page, design);
  await page.evaluate(() => (window.location.hash = '#/show'));
  await page.locator('summary', { hasText: '3D files' }).click();
  await page
    .getByRole('button', { name: String(pixels), exact: true })
    .last()
    .click();
}

async function saved(page: Page, button: string | RegExp): Promise<{ name: string; bytes: Uint8Array }> {
  const [file] = await Promise.all([
    page.waitForEvent('download', { timeout: 110_000 }),
    page.getByRole('button', { name: button }).click(),
  ]);
  return { name: file.suggestedFilename(), bytes: Uint8Array.from(await readFile(await file.path())) };
}

async function openViewer(): Promise<Page> {
  const viewer = await browser.openPage({ site: 'fixtures', url: 'model.html', width: 620, height: 620 });
  await viewer.waitForFunction(() => window.modelPage !== undefined);
  return viewer;
}

const base64 = (bytes: Uint8Array) => Buffer.from(bytes).toString('base64');

interface SkinPoint {
  readonly p: Vec3;
  readonly place: readonly [number, number];
  readonly pixel_mm: number;
}

/** Random points of the surface, by area; lathe frame, mm. `floor_mm`: height in the blank of what stands on y = 0. */
function surfacePoints(
  { positions, places, indices }: ReadGlb,
  floor_mm: number,
  count: number,
): SkinPoint[] {
  const random = seededRandom(SEED);
  const corner = (v: number): Vec3 => [
    positions[3 * v] * 1000,
    -positions[3 * v + 2] * 1000,
    positions[3 * v + 1] * 1000 + floor_mm,
  ];
  const sums: number[] = [];
  const pixel_mm: number[] = [];
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => corner(indices[t + k]));
    const [ux, uy, uz] = b.map((value, k) => value - a[k]);
    const [vx, vy, vz] = c.map((value, k) => value - a[k]);
    const area_mm2 = Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
    const at = (k: number, axis: number) => places[2 * indices[t + k] + axis] * SMALL_PX;
    const area_px =
      Math.abs(
        (at(1, 0) - at(0, 0)) * (at(2, 1) - at(0, 1)) - (at(2, 0) - at(0, 0)) * (at(1, 1) - at(0, 1)),
      ) / 2;
    sums.push((sums.at(-1) ?? 0) + area_mm2);
    pixel_mm.push(Math.sqrt(area_mm2 / area_px));
  }
  return Array.from({ length: count }, () => {
    const wanted = random.between(0, sums.at(-1)!);
    const t = firstReaching(sums, wanted);
    let [u, v] = [random.next(), random.next()];
    if (u + v > 1) [u, v] = [1 - u, 1 - v];
    const [a, b, c] = [0, 1, 2].map((k) => indices[3 * t + k]);
    const mixed = (x: number, y: number, z: number) => x + u * (y - x) + v * (z - x);
    const [pa, pb, pc] = [a, b, c].map(corner);
    return {
      p: [0, 1, 2].map((k) => mixed(pa[k], pb[k], pc[k])) as unknown as Vec3,
      place: [0, 1].map((k) => mixed(places[2 * a + k], places[2 * b + k], places[2 * c + k])) as unknown as [
        number,
        number,
      ],
      pixel_mm: pixel_mm[t],
    };
  });
}

function firstReaching(sums: readonly number[], wanted: number): number {
  let [low, high] = [0, sums.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sums[middle] >= wanted) high = middle;
    else low = middle + 1;
  }
  return low;
}

function nearAnEdge(slots: readonly Slot[], { p, pixel_mm }: SkinPoint): boolean {
  const near_mm = EDGE_PX * pixel_mm;
  return slots.some((slot) => {
    const f = kerfDistance_mm(slot, p);
    const beyond = dot(slot.stopNormal, p) - slot.stop_mm;
    if (Math.abs(f) > slot.kerf_mm / 2 + near_mm || beyond > near_mm) return false;
    return Math.abs(beyond) < near_mm || layerBounds_mm(slot).some((bound) => Math.abs(f - bound) < near_mm);
  });
}

function timberAt(design: Design, slots: readonly Slot[], p: Vec3): string {
  const slot = materialAt(slots, p);
  return slot === BODY ? design.blank.timber : slots[slot].layers[layerAt(slots[slot], p)].timber;
}

const toLch = converter('lch');

function nearestTimber(colours: Readonly<Record<string, string>>, [r, g, b]: readonly number[]): string {
  const hue = (colour: Color | string) => toLch(colour)?.h ?? Number.NaN;
  const seen = hue({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 });
  const away = (timber: string) => Math.abs(((hue(colours[timber]) - seen + 540) % 360) - 180);
  return Object.keys(colours).toSorted((one, other) => away(one) - away(other))[0];
}

/** A candle stick with its socket, a hollow bowl, a pen bored right through, a bangle, and a square block. */
async function pieces(): Promise<Design[]> {
  const [stick, bowl, , pen] = STARTERS;
  return [stick, bowl, pen, await bangle(), { ...stick, name: 'Block', form: null }];
}

test('GLB: sound, in true size, and its own timber at every point', async () => {
  const designs = (await pieces()).map(coloured);
  const page = await browser.openPage({ width: 800, height: 600, url: '#/blank' });
  const viewer = await openViewer();
  for (const design of designs) {
    await showFilesOf(page, design, SMALL_PX);
    const { name, bytes } = await saved(page, 'GLB, with wood');
    expect(name).toMatch(/\.glb$/);
    const { issues } = await validateBytes(bytes);
    expect(issues.messages.filter(({ severity }) => severity <= 1)).toEqual([]);
    await expectPiece(viewer, design, bytes);
  }
}, 400_000);

async function expectPiece(viewer: Page, design: Design, bytes: Uint8Array): Promise<void> {
  const glb = readGlb(bytes);
  expect(glb.json.images[0].mimeType).toBe('image/jpeg');
  const heights = design.form ? design.form.outline.map(({ z_mm }) => z_mm) : [0, design.blank.length_mm];
  const floor_mm = Math.max(0, Math.min(...heights));
  const found = await viewer.evaluate((file) => window.modelPage.show(file, 'glb'), base64(bytes));
  expect(found).toMatchObject({ meshes: 1, picture_px: [SMALL_PX, SMALL_PX], colorSpace: 'srgb' });
  expect(found.min[1]).toBe(0);
  expect(found.max[1]).toBeCloseTo((Math.max(...heights) - floor_mm) / 1000, 6);
  expect(found.seen_px).toBeGreaterThan(5000);

  const points = surfacePoints(glb, floor_mm, POINTS);
  const seen = await viewer.evaluate(([picture, places]) => window.modelPage.colours(picture, places), [
    base64(glb.picture),
    points.flatMap(({ place }) => place),
  ] as const);
  const slots = slotsOf(design);
  const counts = new Map<string, number>();
  const wrong: string[] = [];
  points.forEach((point, i) => {
    if (nearAnEdge(slots, point)) return;
    const timber = timberAt(design, slots, point.p);
    counts.set(timber, (counts.get(timber) ?? 0) + 1);
    const shown = nearestTimber(design.colors!, seen.slice(3 * i, 3 * i + 3));
    if (shown !== timber)
      wrong.push(`${shown} for ${timber} at ${point.p.map((x) => x.toFixed(2)).join(', ')}`);
  });
  console.log(
    `${design.name}: ${(bytes.length / 1e6).toFixed(2)} MB, ${found.triangles} triangles, points of ` +
      [...counts].map(([timber, count]) => `${timber} ${count}`).join(', '),
  );
  expect(wrong, design.name).toEqual([]);
  for (const timber of Object.keys(design.colors!)) expect(counts.get(timber), timber).toBeGreaterThan(20);
}

test('USDZ is laid out as its specification asks, and another reader shows the same piece', async () => {
  const page = await openFiles(STARTERS[3], SMALL_PX);
  const glb = await saved(page, 'GLB, with wood');
  const { name, bytes } = await saved(page, 'USDZ, for AR');
  expect(name).toMatch(/\.usdz$/);
  const entries = zipEntries(bytes);
  expect(entries.map((entry) => entry.name)).toEqual(['piece.usda', 'textures/wood.jpg']);
  for (const { method, encrypted, start } of entries)
    expect({ method, encrypted, over: start % 64 }).toEqual({ method: 0, encrypted: false, over: 0 });
  expect([...entries[1].bytes.subarray(0, 3)]).toEqual([0xff, 0xd8, 0xff]);
  const viewer = await openViewer();
  const asGlb = await viewer.evaluate((file) => window.modelPage.show(file, 'glb'), base64(glb.bytes));
  const asUsdz = await viewer.evaluate((file) => window.modelPage.show(file, 'usdz'), base64(bytes));
  expect(asUsdz).toMatchObject({
    meshes: 1,
    triangles: asGlb.triangles,
    picture_px: [SMALL_PX, SMALL_PX],
    colorSpace: 'srgb',
  });
  for (const k of [0, 1, 2]) {
    // Micrometres are written.
    expect(Math.abs(asUsdz.min[k] - asGlb.min[k])).toBeLessThan(1e-6);
    expect(Math.abs(asUsdz.max[k] - asGlb.max[k])).toBeLessThan(1e-6);
  }
  expect(Math.abs(asUsdz.seen_px / asGlb.seen_px - 1)).toBeLessThan(0.01);
  expect(asUsdz.colours).toBeGreaterThan(0.7 * asGlb.colours);
});

test('at the usual size a file stays small; the exact solids are saved beside it', async () => {
  const page = await openFiles(STARTERS[1], 2048);
  const { bytes } = await saved(page, 'GLB, with wood');
  console.log(`${STARTERS[1].name} at 2048: ${(bytes.length / 1e6).toFixed(2)} MB`);
  expect(bytes.length).toBeLessThan(6e6);
  const parts = await saved(page, '3MF, every part');
  expect(read3mf(parts.bytes).unit).toBe('millimeter');
  const whole = await saved(page, 'STL, whole');
  expect(whole.name).toBe('tide-bowl.stl');
  await page.getByLabel('STL of').selectOption('S1.2');
  const strip = await saved(page, 'STL, S1.2');
  expect(strip.name).toBe('tide-bowl-S1.2.stl');
  const triangles = (stl: Uint8Array) => new DataView(stl.slice().buffer).getUint32(80, true);
  expect(whole.bytes).toHaveLength(84 + 50 * triangles(whole.bytes));
  expect(strip.bytes).toHaveLength(84 + 50 * triangles(strip.bytes));
  const axe = await new AxeBuilder({ page }).setLegacyMode().include('.show-making').analyze();
  expect(axe.violations.map(({ id }) => id)).toEqual([]);
});

test('a file is given up in the middle, and made after the stage has lost its context', async () => {
  const page = await openFiles(fourRings({ name: 'Four rings' }), 4096);
  const files: string[] = [];
  page.on('download', (file) => files.push(file.suggestedFilename()));
  await page.getByRole('button', { name: 'GLB, with wood' }).click();
  await page.getByText('Drawing the wood …').waitFor({ timeout: 60_000 });
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByRole('button', { name: 'GLB, with wood' }).waitFor();
  expect(files).toEqual([]);
  await page
    .getByRole('button', { name: String(SMALL_PX), exact: true })
    .last()
    .click();
  await page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('.stage canvas');
    canvas?.getContext('webgl2')?.getExtension('WEBGL_lose_context')?.loseContext();
  });
  const { bytes } = await saved(page, 'GLB, with wood');
  expect((await validateBytes(bytes)).issues.numErrors).toBe(0);
  browser.takeComplaints(page, /Context Lost/);
});

test('without WebGL it is said why there is no wood to save', async () => {
  const page = await browser.openPage({ width: 900, height: 700, url: '#/show', withoutWebGL: true });
  await page.locator('summary', { hasText: '3D files' }).click();
  await page.getByRole('button', { name: 'GLB, with wood' }).click();
  const said = page.getByText('The GLB file was not saved: this browser offers no WebGL 2');
  await said.waitFor({ timeout: 60_000 });
  expect(await said.isVisible()).toBe(true);
});
