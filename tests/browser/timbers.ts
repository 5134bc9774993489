/**
 * `npx tsx tests/browser/timbers.ts`: docs/timbers.png, all timbers side by side as the stage draws them, oiled. The
 * same picture every time on the same machine.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { TIMBERS } from '../../src/timber/timbers.ts';
import { sample } from './fixtures/stageDesigns.ts';
import { serveFixtures } from './harness/app.ts';
import { findChromium } from './harness/chromium.ts';
import { launchChromium, openWatchedPage } from './harness/launch.ts';

const TARGET = join('docs', 'timbers.png');
const MOST_BYTES = 650_000;
const COLUMNS = 8;
const TILE = { width: 160, height: 168, label: 22 };
const PAPER = '#f3efe8';
const INK = '#33302c';

async function main(): Promise<void> {
  const site = await serveFixtures();
  const browser = await launchChromium(await findChromium());
  try {
    const { page, complaints } = await openWatchedPage(browser, site.baseUrl, {
      url: 'stage.html',
      width: 200,
      height: 200,
    });
    await page.waitForFunction(() => document.body.dataset.settled === 'yes', undefined, { timeout: 60_000 });
    const names = TIMBERS.map((timber) => timber.name);
    const designs = TIMBERS.map((timber) => sample(timber.id));
    const address = await page.evaluate(drawSheet, {
      names,
      designs,
      columns: COLUMNS,
      tile: TILE,
      paper: PAPER,
      ink: INK,
    });
    const bytes = Buffer.from(address.slice(address.indexOf(',') + 1), 'base64');
    if (complaints.length > 0) throw new Error(complaints.join('\n'));
    if (bytes.length > MOST_BYTES)
      throw new Error(`the sheet takes ${bytes.length} bytes, more than ${MOST_BYTES}`);
    writeFileSync(TARGET, bytes);
    console.log(`${TARGET}: ${TIMBERS.length} timbers, ${Math.round(bytes.length / 1000)} kB`);
  } finally {
    await browser.close();
    await site.close();
  }
}

interface Sheet {
  readonly names: readonly string[];
  readonly designs: readonly ReturnType<typeof sample>[];
  readonly columns: number;
  readonly tile: typeof TILE;
  readonly paper: string;
  readonly ink: string;
}

/** Runs in the page: the sheet as a data address. */
async function drawSheet({ names, designs, columns, tile, paper, ink }: Sheet): Promise<string> {
  const rows = Math.ceil(names.length / columns);
  const canvas = document.createElement('canvas');
  canvas.width = columns * tile.width;
  canvas.height = rows * (tile.height + tile.label);
  const context = canvas.getContext('2d');
  const stage = window.stagePage.handle.current;
  if (!context || !stage) throw new Error('the page is not ready');
  context.fillStyle = paper;
  context.fillRect(0, 0, canvas.width, canvas.height);
  for (let i = 0; i < names.length; i++) {
    await window.stagePage.show({
      variants: [{ key: 'main', label: '', design: designs[i] }],
      finish: 'oiled',
    });
    if (i === 0) {
      const turned = window.stagePage.show({});
      stage.orbit(0, 11);
      await turned;
    }
    const picture = await stage.capture({
      width_px: tile.width * 2,
      height_px: tile.height * 2,
      background: 'transparent',
    });
    const x = (i % columns) * tile.width;
    const y = Math.floor(i / columns) * (tile.height + tile.label);
    context.imageSmoothingQuality = 'high';
    context.drawImage(await createImageBitmap(picture), x, y, tile.width, tile.height);
    context.font = '500 12px sans-serif';
    context.textAlign = 'center';
    context.fillStyle = ink;
    context.fillText(names[i], x + tile.width / 2, y + tile.height + 8);
  }
  return canvas.toDataURL('image/png');
}

await main();
