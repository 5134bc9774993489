/**
 * The stage in a real browser: what the graphics card draws agrees with the engine, nothing is drawn without cause,
 * nothing grows, and a lost context comes back.
 */
import type { Page } from 'playwright-core';
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { BODY, materialAt } from '../../src/blank/material.ts';
import { momentsOf, type MomentKind } from '../../src/blank/moments.ts';
import { kerfDistance_mm, slotHolds, slotsOf, type Slot } from '../../src/blank/slots.ts';
import type { Design } from '../../src/design/document.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { dot, type Vec3 } from '../../src/geometry/vector.ts';
import { shapeAt, type Shape } from '../../src/stage/shape.ts';
import { seededRandom, type Random } from '../fixtures/random.ts';
import { countFor } from '../soak/counts.ts';
import { testBrowser } from './harness/browser.ts';
import { block, bowl, candleStick, manyRings, vase } from './fixtures/stageDesigns.ts';

const browser = testBrowser();
const WIDTH = 420;
const HEIGHT = 420;
const POINTS = 500;
/** Side of the picture that is read back, pixels: fine enough that a strip is several pixels wide. */
const FINE = 1500;
/** Points nearer than this to a plane of a slot are left out, mm: a pixel or two. */
const EDGE_MM = 0.2;

async function openStage(): Promise<Page> {
  const page = await browser.openPage({ site: 'fixtures', url: 'stage.html', width: WIDTH, height: HEIGHT });
  await page.waitForFunction(() => document.body.dataset.settled === 'yes', undefined, { timeout: 60_000 });
  return page;
}

async function show(page: Page, design: Design, position: number): Promise<void> {
  await page.evaluate(
    async ([shown, at]) => {
      await window.stagePage.show({ variants: [{ key: 'main', label: '', design: shown }], position: at });
    },
    [design, position] as const,
  );
  await page.waitForFunction(() => window.stagePage.statuses.at(-1)?.busy !== true);
}

/** A random point of the surface of the workpiece; lathe frame, mm. */
function surfacePoint(shape: Shape, random: Random): Vec3 {
  const { profile, section, design } = shape;
  if (!profile) {
    const z = random.chance(0.1) ? design.blank.length_mm : random.between(0, design.blank.length_mm);
    const inward = z === design.blank.length_mm ? Math.sqrt(random.next()) : 1;
    if (section.round) {
      const phi = random.between(0, 2 * Math.PI);
      const r = section.inscribedRadius_mm * inward;
      return [r * Math.cos(phi), r * Math.sin(phi), z];
    }
    const face = random.whole(0, section.corners_mm.length - 1);
    const from = section.corners_mm[(face + section.corners_mm.length - 1) % section.corners_mm.length];
    const to = section.corners_mm[face];
    const t = random.next();
    return [inward * (from[0] + t * (to[0] - from[0])), inward * (from[1] + t * (to[1] - from[1])), z];
  }
  const { z_mm, r_mm } = profile;
  const along = z_mm.map((z, i) => (i === 0 ? 0 : Math.hypot(z - z_mm[i - 1], r_mm[i] - r_mm[i - 1])));
  let at = random.next() * along.reduce((sum, length) => sum + length, 0);
  let i = 1;
  while (i + 1 < along.length && at > along[i]) at -= along[i++];
  const t = Math.min(1, at / (along[i] || 1));
  const r = r_mm[i - 1] + t * (r_mm[i] - r_mm[i - 1]);
  const phi = random.between(0, 2 * Math.PI);
  return [r * Math.cos(phi), r * Math.sin(phi), z_mm[i - 1] + t * (z_mm[i] - z_mm[i - 1])];
}

function nearAnEdge(slots: readonly Slot[], p: Vec3): boolean {
  return slots.some((slot) => {
    const toFace = Math.abs(kerfDistance_mm(slot, p)) - slot.kerf_mm / 2;
    const toStop = dot(slot.stopNormal, p) - slot.stop_mm;
    return (
      (Math.abs(toFace) < EDGE_MM && toStop < EDGE_MM) || (Math.abs(toStop) < EDGE_MM && toFace < EDGE_MM)
    );
  });
}

const STARTERS = new URL('../../assets/designs/', import.meta.url);
const KINDS: readonly MomentKind[] = ['cut', 'glued', 'finished'];

function starter(file: string): Design {
  const result = parseDesign(readFileSync(new URL(file, STARTERS)));
  if (!result.ok) throw new Error(`${file}: ${JSON.stringify(result.faults)}`);
  return result.design;
}

const CASES: [name: string, design: Design, kinds: readonly MomentKind[]][] = [
  ...readdirSync(STARTERS)
    .filter((file) => file.endsWith('.json'))
    .map((file): [string, Design, readonly MomentKind[]] => [file, starter(file), KINDS]),
  ['vase of four timbers', vase(), ['strip', 'turned']],
  ['hollow bowl with layered strips', bowl(), ['quarter-turn', 'hollowed']],
  ['96 rings', manyRings(96), ['finished']],
];

test.each(CASES)('%s: each pixel shows the material that the engine names', async (_name, design, kinds) => {
  const page = await openStage();
  const slots = slotsOf(design);
  const moments = momentsOf(design);
  for (const [n, kind] of kinds.entries()) {
    const position = moments.findLastIndex((moment) => moment.kind === kind);
    const shape = shapeAt(design, position);
    const random = seededRandom(7300 + n);
    const open = shape.open ? slots[shape.open.slot] : null;
    const points = Array.from({ length: POINTS }, () => surfacePoint(shape, random)).filter(
      (p) => !open || !slotHolds(open, p),
    );
    await show(page, design, position);
    const seen = await page.evaluate(
      ([asked, width, height]) => {
        const inspection = window.stagePage.handle.current?.inspect();
        if (!inspection) throw new Error('the stage is not ready');
        const materials = inspection.materials(width, height);
        return asked.map((point) => {
          const at = inspection.see(point, width, height);
          if (!at) return null;
          const [x, y] = [Math.floor(at[0]), Math.floor(at[1])];
          const around: number[] = [];
          for (let dy = -1; dy <= 1; dy++)
            for (let dx = -1; dx <= 1; dx++) around.push(materials[(y + dy) * width + x + dx]);
          return around;
        });
      },
      [points, FINE, FINE] as const,
    );
    let compared = 0;
    let strips = 0;
    points.forEach((point, i) => {
      const around = seen[i];
      // Hidden, or an edge runs through the pixels about it.
      if (!around || nearAnEdge(slots.slice(0, shape.filled), point)) return;
      if (around.some((material) => material !== around[4])) return;
      const material = materialAt(slots.slice(0, shape.filled), point);
      expect(around[4], `${kind}, seed ${7300 + n}, point ${point.map((v) => v.toFixed(4)).join(' ')}`).toBe(
        material,
      );
      compared++;
      if (material !== BODY) strips++;
    });
    expect(compared, `${kind}: points compared`).toBeGreaterThan(60);
    if (shape.filled === slots.length) expect(strips, `${kind}: points in strips`).toBeGreaterThan(2);
  }
});

test('nothing is drawn while nothing changes', async () => {
  const page = await openStage();
  const frames = () => page.evaluate(() => window.stagePage.handle.current?.inspect()?.frames() ?? -1);
  await page.waitForTimeout(400);
  const before = await frames();
  expect(before).toBeGreaterThan(0);
  await page.waitForTimeout(1200);
  expect(await frames()).toBe(before);
});

test('many changes in a row leave no more on the graphics card and in memory than there was', async () => {
  const changes = countFor('stage-changes', 90, 600);
  const page = await openStage();
  await page.setViewportSize({ width: 120, height: 120 });
  const devtools = await page.context().newCDPSession(page);
  const heap_MB = async (): Promise<number> => {
    await devtools.send('HeapProfiler.collectGarbage');
    return (await devtools.send('Runtime.getHeapUsage')).usedSize / 1e6;
  };
  const run = async (from: number, to: number) =>
    page.evaluate(
      async ([first, second, start, end]) => {
        const { stagePage } = window;
        for (let i = start; i < end; i++) {
          const design = i % 2 === 0 ? first : second;
          const sets = design.sets.map((set) => ({ ...set, center_mm: set.center_mm + (i % 7) }));
          void stagePage.show({
            variants: [{ key: 'main', label: '', design: { ...design, sets } }],
            position: i % 3 === 0 ? 1e6 : (i % 9) + 0.5,
          });
          await new Promise((resolve) => requestAnimationFrame(resolve));
        }
        await stagePage.show({ variants: [{ key: 'main', label: '', design: first }], position: 1e6 });
        const memory = stagePage.handle.current?.inspect()?.memory();
        if (!memory) throw new Error('the stage is not ready');
        return memory;
      },
      [candleStick(), vase(), from, to] as const,
    );
  const before = await run(0, 20);
  const heapBefore = await heap_MB();
  const after = await run(20, 20 + changes);
  const heapAfter = await heap_MB();
  console.log(`after ${changes} changes: heap ${heapBefore.toFixed(1)} → ${heapAfter.toFixed(1)} MB`);
  expect(after.geometries).toBeLessThanOrEqual(before.geometries + 1);
  expect(after.textures).toBeLessThanOrEqual(before.textures + 1);
  expect(after.programs).toBe(before.programs);
  expect(heapAfter - heapBefore).toBeLessThan(8);
});

test('a lost graphics context comes back with the picture', async () => {
  const page = await openStage();
  await show(page, vase(), 1e6);
  const before = await page.evaluate(readMaterials);
  await page.evaluate(async () => {
    const canvas = document.querySelector('canvas');
    const gl = canvas?.getContext('webgl2');
    const loss = gl?.getExtension('WEBGL_lose_context');
    if (!canvas || !loss) throw new Error('no way to lose the context');
    const lost = new Promise((resolve) =>
      canvas.addEventListener('webglcontextlost', resolve, { once: true }),
    );
    loss.loseContext();
    await lost;
    const restored = new Promise((resolve) =>
      canvas.addEventListener('webglcontextrestored', resolve, { once: true }),
    );
    // Not from inside the event: the browser still waits to hear whether the loss was taken note of.
    await new Promise((resolve) => setTimeout(resolve, 50));
    loss.restoreContext();
    await restored;
    await new Promise((resolve) => setTimeout(resolve, 1500));
  });
  const after = await page.evaluate(readMaterials);
  expect(after).toEqual(before);
  expect(new Set(before).size).toBeGreaterThanOrEqual(4);
  // three says so itself; nothing else may be said.
  expect(
    browser.takeComplaints(page, /THREE\.WebGLRenderer: Context (Lost|Restored)/).length,
  ).toBeGreaterThan(0);
});

function readMaterials(): number[] {
  const inspection = window.stagePage.handle.current?.inspect();
  if (!inspection) throw new Error('the stage is not ready');
  return [...inspection.materials(120, 120)];
}

test('the strip under the pointer is told, and dragging it moves its ring along the axis', async () => {
  const page = await openStage();
  const design = vase();
  await show(page, design, 1e6);
  const slots = slotsOf(design);
  const random = seededRandom(9);
  const shape = shapeAt(design, 1e6);
  const points = Array.from({ length: 900 }, () => surfacePoint(shape, random)).filter(
    (p) => materialAt(slots, p) !== BODY && Math.hypot(p[0], p[1]) > 22,
  );
  const places = await page.evaluate(
    ([asked, width, height]) =>
      asked.map((p) => window.stagePage.handle.current?.inspect()?.see(p, width, height)),
    [points, WIDTH, HEIGHT] as const,
  );
  const found = points.findIndex((_, i) => places[i]);
  const at = places[found];
  if (!at) throw new Error('no strip in sight');
  const slot = slots[materialAt(slots, points[found])];
  await page.mouse.move(at[0], at[1]);
  await page.waitForFunction(() => window.stagePage.hovers.some((hover) => hover !== null));
  const hover = await page.evaluate(() => window.stagePage.hovers.findLast((one) => one !== null));
  expect(hover?.slot).toBe(slot.id);
  expect(hover?.z_mm).toBeCloseTo(points[found][2], 0);

  const higher = await page.evaluate(
    ([p, width, height]) => {
      const up: [number, number, number] = [p[0], p[1], p[2] + 15];
      return [window.stagePage.handle.current?.inspect()?.place(up, width, height)];
    },
    [points[found], WIDTH, HEIGHT] as const,
  );
  const to = higher[0];
  if (!to) throw new Error('nowhere to drag to');
  await page.mouse.down();
  await page.mouse.move((at[0] + to[0]) / 2, (at[1] + to[1]) / 2);
  await page.mouse.move(to[0], to[1]);
  await page.mouse.up();
  const drags = await page.evaluate(() => window.stagePage.drags);
  expect(drags[0].phase).toBe('start');
  expect(drags.at(-1)).toMatchObject({ phase: 'end', slot: slot.id, variant: 'main' });
  expect(Math.abs((drags.at(-1)?.center_mm ?? 0) - (slot.center_mm + 15))).toBeLessThan(0.6);
});

test('a picture is a PNG of the size asked for', async () => {
  const page = await openStage();
  await show(page, block(), 1e6);
  const size = await page.evaluate(async () => {
    const blob = await window.stagePage.handle.current?.capture({ width_px: 333, height_px: 222 });
    if (!blob) throw new Error('no picture');
    const bitmap = await createImageBitmap(blob);
    return [blob.type, bitmap.width, bitmap.height];
  });
  expect(size).toEqual(['image/png', 333, 222]);
});

test('the arrow keys turn the piece', async () => {
  const page = await openStage();
  await show(page, vase(), 1e6);
  const before = await page.evaluate(readMaterials);
  await page.focus('canvas');
  for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
  await page.waitForTimeout(500);
  expect(await page.evaluate(readMaterials)).not.toEqual(before);
});
