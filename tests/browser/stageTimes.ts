/**
 * `npx tsx tests/browser/stageTimes.ts`: how long a frame of the stage takes, as ratios within one run: the full picture
 * against the same mesh in one colour in the same light, 96 slots against 4, a frame while something moves against the
 * full one. Least of several rounds in turn, each drawn to the end, 800 × 600. Milliseconds hold for this machine only.
 */
import { bowl, manyRings } from './fixtures/stageDesigns.ts';
import { serveFixtures } from './harness/app.ts';
import { findChromium } from './harness/chromium.ts';
import { launchChromium, openWatchedPage } from './harness/launch.ts';

const ROUNDS = 9;
const WIDTH = 800;
const HEIGHT = 600;
/** As frameLoop.ts draws while things move. */
const MOVING_RATIO = 0.42;

const DESIGNS = {
  'no slots': { ...manyRings(4), sets: [], order: [] },
  '4 slots': manyRings(4),
  '24 slots': manyRings(24),
  '96 slots': manyRings(96),
  'hollow bowl, 8 layered': bowl(),
};

async function main(): Promise<void> {
  const site = await serveFixtures();
  const browser = await launchChromium(await findChromium());
  try {
    const { page } = await openWatchedPage(browser, site.baseUrl, {
      url: 'stage.html',
      width: 200,
      height: 150,
    });
    await page.waitForFunction(() => document.body.dataset.settled === 'yes', undefined, { timeout: 60_000 });
    const times = await page.evaluate(
      async ([designs, width, height, moving, rounds]) => {
        const rows = designs.map(() => ({ flat: Infinity, picture: Infinity, moving: Infinity }));
        for (let round = 0; round <= rounds; round++) {
          for (const [i, design] of designs.entries()) {
            await window.stagePage.show({ variants: [{ key: 'main', label: '', design }], position: 1e6 });
            // No named function in here: the compiler's names are not known in the page.
            const inspection = window.stagePage.handle.current?.inspect();
            if (!inspection) throw new Error('the stage is not ready');
            const flat = inspection.time('flat', width, height);
            const picture = inspection.time('picture', width, height);
            const small = inspection.time('moving', Math.round(width * moving), Math.round(height * moving));
            // The first round compiles.
            if (round === 0) continue;
            const row = rows[i];
            row.flat = Math.min(row.flat, flat);
            row.picture = Math.min(row.picture, picture);
            row.moving = Math.min(row.moving, small);
          }
        }
        return rows;
      },
      [Object.values(DESIGNS), WIDTH, HEIGHT, MOVING_RATIO, ROUNDS] as const,
    );
    const few = times[1].picture;
    console.log(
      '                         flat  picture  moving   picture/flat  picture/4 slots  moving/picture',
    );
    Object.keys(DESIGNS).forEach((name, i) => {
      const { flat, picture, moving } = times[i];
      const ms = [flat, picture, moving].map((value) => `${value.toFixed(0).padStart(5)} ms`).join('');
      const ratios = [picture / flat, picture / few, moving / picture].map((ratio) =>
        ratio.toFixed(2).padStart(14),
      );
      console.log(`${name.padEnd(23)}${ms} ${ratios.join('')}`);
    });
  } finally {
    await browser.close();
    await site.close();
  }
}

await main();
