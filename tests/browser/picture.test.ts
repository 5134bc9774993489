/**
 * Pictures of the stage: the whole piece at any size, the same in tiles as in one, cut out with clean edges, apart from
 * what goes on on the screen; stopped, or ended by a lost graphics context, with nothing left behind.
 */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { DEFAULT_VIEW } from '../../src/stage/props.ts';
import { testBrowser } from './harness/browser.ts';
import { block, bowl, sample, vase } from './fixtures/stageDesigns.ts';

const browser = testBrowser();

async function openStage(): Promise<Page> {
  const page = await browser.openPage({ site: 'fixtures', url: 'film.html', width: 150, height: 150 });
  await page.waitForFunction(() => document.body.dataset.settled === 'yes', undefined, { timeout: 60_000 });
  await page.evaluate(
    (design) => window.stagePage.show({ variants: [{ key: 'main', label: '', design }], position: 1e6 }),
    vase(),
  );
  return page;
}

test('a picture in tiles is the picture in one: no seam, and no more than a sample astray at an edge', async () => {
  const page = await openStage();
  const variants = [
    { key: 'a', label: 'With four rings', design: vase() },
    { key: 'b', label: 'Square', design: block() },
  ];
  const parallel = { ...DEFAULT_VIEW, dimensions: true, projection: 'orthographic' } as const;
  for (const change of [
    { variants: variants.slice(0, 1) },
    { variants, view: { ...DEFAULT_VIEW, dimensions: true } },
    { variants, view: parallel },
  ]) {
    const found = await page.evaluate(async (shown) => {
      const { stagePage, filmPage } = window;
      await stagePage.show({ ...shown, position: 1e6 });
      // Sides that no tile divides evenly, and that end in a row of one pixel.
      const size = { width_px: 419, height_px: 387 };
      const whole = await filmPage.take({ ...size, tile_px: 1024 });
      const results = [];
      for (const tile_px of [62, 386]) {
        const tiled = await filmPage.take({ ...size, tile_px });
        let smooth = 0;
        let roughened = 0;
        let mostAtEdges = 0;
        let astray = 0;
        for (let y = 1; y < size.height_px - 1; y++)
          for (let x = 1; x < size.width_px - 1; x++) {
            let by = 0;
            let contrast = 0;
            for (let c = 0; c < 4; c++) {
              const i = 4 * (y * size.width_px + x) + c;
              by = Math.max(by, Math.abs(whole.data[i] - tiled.data[i]));
              for (let dy = -1; dy <= 1; dy++)
                for (let dx = -1; dx <= 1; dx++) {
                  const other = whole.data[i + 4 * (dy * size.width_px + dx)];
                  contrast = Math.max(contrast, Math.abs(other - whole.data[i]));
                }
            }
            if (contrast < 4) {
              smooth++;
              if (by > 1) roughened++;
            } else mostAtEdges = Math.max(mostAtEdges, by);
            if (by > 1) astray++;
          }
        results.push({ smooth, roughened, mostAtEdges, astray });
      }
      return results;
    }, change);
    for (const { smooth, roughened, mostAtEdges, astray } of found) {
      console.log(
        `tiles: ${roughened} of ${smooth} smooth pixels differ by more than 1, ${astray} of all, most ${mostAtEdges}`,
      );
      expect(smooth).toBeGreaterThan(80_000);
      // At an outline between two woods as bright as each other a pixel may seem smooth and not be.
      expect(roughened).toBeLessThanOrEqual(3);
      // Where an outline falls between two samples of a pixel it may round to either; one sample is a quarter of it.
      expect(mostAtEdges).toBeLessThanOrEqual(64);
      expect(astray).toBeLessThan(0.001 * 419 * 387);
    }
  }
});

test('the piece is whole in a picture of any shape, and fills it', async () => {
  const page = await openStage();
  const cases: [Design, width_px: number, height_px: number][] = [
    [vase(), 300, 300],
    [vase(), 300, 64],
    [vase(), 160, 300],
    [bowl(), 160, 300],
    [bowl(), 400, 225],
    [block(), 400, 225],
  ];
  for (const [design, width_px, height_px] of cases) {
    const box = await page.evaluate(
      async ([shown, width, height]) => {
        const { stagePage, filmPage } = window;
        await stagePage.show({ variants: [{ key: 'main', label: '', design: shown }], position: 1e6 });
        // As far away as if somebody had zoomed into the wood.
        stagePage.handle.current?.orbit(37, 12);
        stagePage.handle.current?.zoom(5);
        const request = { width_px: width, height_px: height, background: 'transparent' } as const;
        const { data } = await filmPage.take(request);
        const at = { left: width, right: -1, top: height, bottom: -1 };
        for (let i = 0; i < width * height; i++) {
          if (data[4 * i + 3] === 0) continue;
          const [x, y] = [i % width, Math.floor(i / width)];
          at.left = Math.min(at.left, x);
          at.right = Math.max(at.right, x);
          at.top = Math.min(at.top, y);
          at.bottom = Math.max(at.bottom, y);
        }
        return at;
      },
      [design, width_px, height_px] as const,
    );
    const edges = [box.left, box.top, width_px - 1 - box.right, height_px - 1 - box.bottom];
    expect(Math.min(...edges), `${width_px} × ${height_px}: ${edges.join(' ')}`).toBeGreaterThan(0);
    const filled = Math.max((box.right - box.left + 1) / width_px, (box.bottom - box.top + 1) / height_px);
    expect(filled, `${width_px} × ${height_px}`).toBeGreaterThan(0.85);
  }
});

test('what stands beside the piece is in the picture, from wherever it is seen', async () => {
  const page = await openStage();
  const clear = await page.evaluate(async (view) => {
    const { stagePage, filmPage } = window;
    await stagePage.show({ view: { ...view, reference: 'hand' } });
    const found: { edge: number; right: number; left: number }[] = [];
    for (let turn = 0; turn < 3; turn++) {
      stagePage.handle.current?.orbit(100, 4);
      const [width, height] = [240, 160];
      const { data } = await filmPage.take({
        width_px: width,
        height_px: height,
        background: 'transparent',
      });
      const seen = { edge: 0, right: 0, left: width };
      for (let i = 0; i < width * height; i++) {
        if (data[4 * i + 3] === 0) continue;
        const [x, y] = [i % width, Math.floor(i / width)];
        if (x === 0 || y === 0 || x === width - 1 || y === height - 1) seen.edge++;
        seen.right = Math.max(seen.right, x);
        seen.left = Math.min(seen.left, x);
      }
      found.push(seen);
    }
    return found;
  }, DEFAULT_VIEW);
  for (const { edge, left, right } of clear) {
    expect(edge).toBe(0);
    // A vase of 70 mm and a hand beside it: wider than the vase alone, which is not half as wide as it is high.
    expect(right - left).toBeGreaterThan(120);
  }
});

test('the edge of a cut-out picture has the colour of the wood beside it', async () => {
  const page = await openStage();
  // A pale timber: an edge mixed with black would be half as bright.
  const edge = await page.evaluate(async (design) => {
    const { stagePage, filmPage } = window;
    await stagePage.show({ variants: [{ key: 'main', label: '', design }], position: 1e6 });
    const { data, width, height } = await filmPage.take({
      width_px: 260,
      height_px: 260,
      background: 'transparent',
    });
    const ratios: number[] = [];
    const alphas = new Set<number>();
    for (let y = 2; y < height - 2; y++)
      for (let x = 2; x < width - 2; x++) {
        const i = 4 * (y * width + x);
        const alpha = data[i + 3];
        alphas.add(alpha);
        if (alpha < 50 || alpha > 205) continue;
        let sum = 0;
        let count = 0;
        for (let dy = -2; dy <= 2; dy++)
          for (let dx = -2; dx <= 2; dx++) {
            const j = i + 4 * (dy * width + dx);
            if (data[j + 3] < 255) continue;
            sum += data[j] + data[j + 1] + data[j + 2];
            count++;
          }
        if (count > 3) ratios.push((data[i] + data[i + 1] + data[i + 2]) / (sum / count));
      }
    ratios.sort((a, b) => a - b);
    return {
      count: ratios.length,
      low: ratios[Math.floor(ratios.length * 0.03)],
      median: ratios[Math.floor(ratios.length / 2)],
      high: ratios[Math.floor(ratios.length * 0.97)],
      corner: Array.from(data.slice(0, 4)),
      alphas: alphas.size,
    };
  }, sample('hard-maple'));
  console.log(`edges against the wood beside them: ${JSON.stringify(edge)}`);
  expect(edge.corner).toEqual([0, 0, 0, 0]);
  expect(edge.count).toBeGreaterThan(100);
  // Nothing, all, and steps between.
  expect(edge.alphas).toBeGreaterThanOrEqual(5);
  expect(edge.median).toBeGreaterThan(0.93);
  expect(edge.median).toBeLessThan(1.07);
  expect(edge.low).toBeGreaterThan(0.8);
  expect(edge.high).toBeLessThan(1.2);
});

test('the screen goes on while a picture is drawn, and the picture does not follow it', async () => {
  const page = await openStage();
  const seen = await page.evaluate(
    async ([first, second]) => {
      const { stagePage, filmPage } = window;
      const show = (design: typeof first) =>
        stagePage.show({ variants: [{ key: 'main', label: '', design }], position: 1e6 });
      const request = { width_px: 600, height_px: 600, tile_px: 150 };
      await show(first);
      const alone = await filmPage.take(request);
      const inspection = filmPage.stage().inspect();
      if (!inspection) throw new Error('no inspection');
      const shares: number[] = [];
      let framesMeanwhile = 0;
      const framesBefore = inspection.frames();
      const disturbed = await filmPage.take({
        ...request,
        onProgress: (share) => {
          shares.push(share);
          if (shares.length === 2) void show(second);
          filmPage.stage().orbit(11, 0);
          framesMeanwhile = inspection.frames() - framesBefore;
        },
      });
      return { by: filmPage.difference(alone, disturbed).most, shares, framesMeanwhile };
    },
    [vase(), bowl()] as const,
  );
  expect(seen.by).toBeLessThanOrEqual(1);
  expect(seen.shares).toEqual(Array.from({ length: 16 }, (_, i) => (i + 1) / 16));
  expect(seen.framesMeanwhile).toBeGreaterThan(1);
});

test('a stopped picture says why, and leaves nothing on the card', async () => {
  const page = await openStage();
  const seen = await page.evaluate(async () => {
    const { filmPage } = window;
    const memory = () => filmPage.stage().inspect()?.memory();
    await filmPage.take({ width_px: 64, height_px: 64 });
    const before = memory();
    let tiles = 0;
    let said = '';
    for (let round = 0; round < 3; round++) {
      const controller = new AbortController();
      tiles = 0;
      try {
        await filmPage.take({
          width_px: 400,
          height_px: 400,
          tile_px: 100,
          signal: controller.signal,
          onProgress: () => {
            tiles++;
            if (tiles === 3) controller.abort('enough');
          },
        });
      } catch (error) {
        said = String(error);
      }
    }
    return { before, after: memory(), tiles, said };
  });
  expect(seen.said).toBe('enough');
  expect(seen.tiles).toBe(3);
  expect(seen.after).toEqual(seen.before);
});

test('a picture whose graphics context is lost says so; the next one is whole', async () => {
  const page = await openStage();
  const seen = await page.evaluate(async () => {
    const { filmPage } = window;
    const request = { width_px: 300, height_px: 300, tile_px: 100 };
    const before = await filmPage.take(request);
    const loss = document.querySelector('canvas')?.getContext('webgl2')?.getExtension('WEBGL_lose_context');
    if (!loss) throw new Error('no way to lose the context');
    let said = '';
    let tiles = 0;
    try {
      await filmPage.take({
        ...request,
        onProgress: () => {
          if (++tiles === 4) loss.loseContext();
        },
      });
    } catch (error) {
      said = error instanceof Error ? error.message : String(error);
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
    let saidWhileLost = '';
    try {
      await filmPage.take(request);
    } catch (error) {
      saidWhileLost = error instanceof Error ? error.message : String(error);
    }
    const restored = new Promise((resolve) =>
      document.querySelector('canvas')?.addEventListener('webglcontextrestored', resolve, { once: true }),
    );
    loss.restoreContext();
    await restored;
    const after = await filmPage.take(request);
    return { said, saidWhileLost, tiles, by: filmPage.difference(before, after).most };
  });
  expect(seen.said).toMatch(/graphics card was reset/);
  expect(seen.saidWhileLost).toMatch(/graphics card was reset/);
  expect(seen.tiles).toBe(4);
  expect(seen.by).toBeLessThanOrEqual(1);
  // three says so itself; nothing else may be said.
  expect(
    browser.takeComplaints(page, /THREE\.WebGLRenderer: Context (Lost|Restored)/).length,
  ).toBeGreaterThan(0);
});

test('variants that are compared stand in one picture under their names', async () => {
  const page = await openStage();
  const rows = await page.evaluate(
    async ([first, second]) => {
      const { stagePage, filmPage } = window;
      const take = async (labels: readonly string[]) => {
        const designs = [first, second];
        const variants = labels.map((label, i) => ({ key: `v${i}`, label, design: designs[i] }));
        await stagePage.show({ variants, position: 1e6 });
        return filmPage.take({ width_px: 640, height_px: 400 });
      };
      const bare = await take(['', '']);
      const named = await take(['As drawn', 'At 60°']);
      const changed: [number, number][] = [];
      for (let i = 0; i < bare.data.length; i += 4)
        if (Math.abs(bare.data[i] - named.data[i]) > 60)
          changed.push([(i / 4) % 640, Math.floor(i / 4 / 640)]);
      return changed;
    },
    [vase(), vase()] as const,
  );
  const left = rows.filter(([x]) => x < 320);
  const right = rows.filter(([x]) => x >= 320);
  expect(left.length).toBeGreaterThan(20);
  expect(right.length).toBeGreaterThan(20);
  expect(Math.max(...rows.map(([, y]) => y))).toBeLessThan(40);
  const middle = (part: [number, number][]) =>
    (Math.min(...part.map(([x]) => x)) + Math.max(...part.map(([x]) => x))) / 2;
  expect(Math.abs(middle(left) - 160)).toBeLessThan(4);
  expect(Math.abs(middle(right) - 480)).toBeLessThan(4);
});

test('each light and theme gives a picture of its own; a size that cannot be is refused with its number', async () => {
  const page = await openStage();
  const { apart, warmth } = await page.evaluate(async (view) => {
    const { stagePage, filmPage } = window;
    const least: number[] = [];
    const red: number[] = [];
    for (const theme of ['light', 'dark'] as const) {
      const pictures: Awaited<ReturnType<typeof filmPage.take>>[] = [];
      for (const light of ['studio', 'window', 'overcast', 'evening'] as const) {
        await stagePage.show({ view: { ...view, light }, theme });
        pictures.push(await filmPage.take({ width_px: 100, height_px: 100 }));
      }
      pictures.forEach((a, i) =>
        pictures.slice(i + 1).forEach((b) => least.push(filmPage.difference(a, b).mean)),
      );
      for (const { data } of pictures) {
        let [sumRed, sumBlue] = [0, 0];
        for (let i = 0; i < data.length; i += 4) {
          sumRed += data[i];
          sumBlue += data[i + 2];
        }
        red.push(sumRed / sumBlue);
      }
    }
    return { apart: least, warmth: red };
  }, DEFAULT_VIEW);
  expect(Math.min(...apart)).toBeGreaterThan(1);
  // More red against blue than in the studio at evening, less beside a window.
  for (const first of [0, 4]) {
    expect(warmth[first + 3]).toBeGreaterThan(1.04 * warmth[first]);
    expect(warmth[first + 1]).toBeLessThan(0.97 * warmth[first]);
  }
  for (const size of [0, 4097, 99.5])
    await expect(
      page.evaluate((side) => window.filmPage.take({ width_px: side, height_px: 100 }), size),
    ).rejects.toThrow(String(size));
});
