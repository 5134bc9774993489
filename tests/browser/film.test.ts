/**
 * Films of the stage: demuxed and decoded again, they have the pictures, the times and the size that were asked for,
 * close their loop, and can be stopped. What this browser encodes is asked of itself; at least one codec must be there.
 */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { testBrowser } from './harness/browser.ts';
import { vase } from './fixtures/stageDesigns.ts';

const browser = testBrowser();
const PLAN = { width_px: 176, height_px: 144, seconds: 1, fps: 24 };

async function openFilmPage(): Promise<Page> {
  const page = await browser.openPage({ site: 'fixtures', url: 'film.html', width: 120, height: 120 });
  await page.waitForFunction(() => document.body.dataset.settled === 'yes', undefined, { timeout: 60_000 });
  await page.evaluate(
    (design) => window.stagePage.show({ variants: [{ key: 'main', label: '', design }], position: 1e6 }),
    vase(),
  );
  return page;
}

/** Of the decoded pictures from the drawn ones, levels: lossy, at so small a size. */
const LOSS = 4;

test('films have their pictures at even times, as they were drawn, and the last leads to the first', async () => {
  const page = await openFilmPage();
  const formats = await page.evaluate(async (plan) => window.filmPage.filmFormats(plan), PLAN);
  console.log(`films here: ${formats.map(({ kind, codec }) => `${kind} ${codec ?? ''}`).join(', ')}`);
  expect(formats.length).toBeGreaterThan(1);
  for (const format of formats) {
    const film = await page.evaluate(([plan, chosen]) => window.filmPage.film(plan, chosen), [
      PLAN,
      format,
    ] as const);
    const named = `${format.kind} ${format.codec ?? ''}`;
    console.log(
      `${named}: from what was drawn at most ${Math.max(...film.fromDrawn).toFixed(2)} levels, ` +
        `steps ${film.fromNext.map((by) => by.toFixed(2)).join(' ')}`,
    );
    const type = { mp4: 'video/mp4', webm: 'video/webm', gif: 'image/gif' }[format.kind];
    // A GIF counts in hundredths of a second: 0.08 s a picture.
    const step_s = format.kind === 'gif' ? 0.08 : 1 / PLAN.fps;
    const count = Math.round(PLAN.seconds / step_s);
    expect(film.type, named).toBe(type);
    expect(film.size, named).toEqual([PLAN.width_px, PLAN.height_px]);
    expect(film.times.length, named).toBe(count);
    // A container counts in thousandths of a second.
    film.times.forEach((time_s, i) =>
      expect(Math.abs(time_s - i * step_s), `${named}, ${i}`).toBeLessThan(0.0011),
    );
    expect(Math.abs(film.duration_s - count * step_s), named).toBeLessThan(0.0021);
    expect(Math.max(...film.fromDrawn), named).toBeLessThan(LOSS);
    // Each picture differs from the next, and the step over the end of the loop is a step like the others.
    const steps = film.fromNext.slice(0, -1);
    expect(Math.min(...steps), named).toBeGreaterThan(0.05);
    expect(film.fromNext.at(-1), named).toBeLessThan(1.5 * Math.max(...steps));
  }
});

test('a whole turn is the first picture again, half a turn is the other side', async () => {
  const page = await openFilmPage();
  const [whole, half] = await page.evaluate(async () => {
    const { filmPage } = window;
    const turn = await filmPage.stage().openTurn({ width_px: 160, height_px: 160, frames: 10 });
    const pixels = [];
    for (const index of [0, 10, 5]) {
      const context = (await turn.draw(index)).getContext('2d');
      if (!context) throw new Error('no canvas');
      pixels.push(context.getImageData(0, 0, 160, 160));
    }
    turn.dispose();
    return [filmPage.difference(pixels[0], pixels[1]), filmPage.difference(pixels[0], pixels[2])];
  });
  expect(whole.most).toBeLessThanOrEqual(1);
  expect(half.most).toBeGreaterThan(40);
});

test('without an encoder for video the film is a GIF', async () => {
  const page = await openFilmPage();
  const format = await page.evaluate((plan) => {
    Reflect.deleteProperty(window, 'VideoEncoder');
    return window.filmPage.filmFormat(plan);
  }, PLAN);
  expect(format).toEqual({ kind: 'gif', codec: null });
});

test('a film that is stopped draws no more and leaves nothing on the card', async () => {
  const page = await openFilmPage();
  const seen = await page.evaluate(async (plan) => {
    const { filmPage } = window;
    const memory = () => filmPage.stage().inspect()?.memory();
    const format = await filmPage.filmFormat(plan);
    const shot = filmPage.filmShot(plan, format);
    const counts = { drawn: 0, atStop: 0 };
    let said = '';
    const before = memory();
    for (let round = 0; round < 3; round++) {
      const controller = new AbortController();
      const turn = await filmPage.stage().openTurn({ ...shot, signal: controller.signal });
      counts.drawn = counts.atStop = 0;
      try {
        await filmPage.makeFilm(
          shot,
          format,
          (index) => {
            counts.drawn++;
            return turn.draw(index);
          },
          {
            signal: controller.signal,
            onProgress: (done) => {
              if (done === 4) {
                counts.atStop = counts.drawn;
                controller.abort('enough');
              }
            },
          },
        );
      } catch (error) {
        said = String(error);
      }
      turn.dispose();
    }
    await new Promise((resolve) => setTimeout(resolve, 300));
    return { before, after: memory(), ...counts, said };
  }, PLAN);
  expect(seen.said).toBe('enough');
  expect(seen.atStop).toBe(4);
  expect(seen.drawn).toBe(4);
  expect(seen.after).toEqual(seen.before);
});
