/** Drawings at full size cut into pages: none without ink, as few as a search of its own finds, nothing lost between them. */
import { expect, it } from 'vitest';
import { readFontFiles } from '../../../src/cli/fonts.ts';
import { Pen, type Point } from '../../../src/files/drawing/pen.ts';
import { OVERLAP_MM, tilingOf, type Tiling } from '../../../src/files/sheet/templates/tiling.ts';
import { Typeface } from '../../../src/files/sheet/typeface.ts';
import { seededRandom } from '../../fixtures/random.ts';
import { starterDesigns } from '../../fixtures/starters.ts';
import { BOWL, CANDLE_STICK, sheetOf } from './designs.ts';
import type { ReadPage } from './readPdf.ts';

const typeface = new Typeface(readFontFiles());
const TILE: Point = [182, 237];

/** A closed outline of straight sides, and points every millimetre along it. */
function outlineOf(corners: readonly Point[]): { pen: Pen; ink: Point[] } {
  const pen = new Pen();
  pen.polygon(corners, { stroke: { colour: '#000000', width_mm: 0.2 } });
  const ink = corners.flatMap(([x, y], i) => {
    const [nx, ny] = corners[(i + 1) % corners.length];
    const steps = Math.ceil(Math.hypot(nx - x, ny - y));
    return Array.from({ length: steps + 1 }, (_, k): Point => [
      x + ((nx - x) * k) / steps,
      y + ((ny - y) * k) / steps,
    ]);
  });
  return { pen, ink };
}

/** An L, a U or a plain rectangle, up to three pages large. */
function randomOutline(seed: number): { corners: Point[]; size: Point } {
  const random = seededRandom(seed);
  const [w, h] = [random.between(60, 560), random.between(60, 640)];
  const [a, b] = [w * random.between(0.15, 0.85), h * random.between(0.15, 0.85)];
  const corners = random.pick<Point[]>([
    [
      [0, 0],
      [w, 0],
      [w, h],
      [0, h],
    ],
    [
      [0, 0],
      [w, 0],
      [w, b],
      [a, b],
      [a, h],
      [0, h],
    ],
    [
      [0, 0],
      [w, 0],
      [w, h],
      [w * 0.9, h],
      [w * 0.9, b],
      [w * 0.1, b],
      [w * 0.1, h],
      [0, h],
    ],
  ]);
  return { corners, size: [w, h] };
}

const within = ([x, y]: Point, [left, bottom]: Point) =>
  x >= left - 1e-6 && x <= left + TILE[0] + 1e-6 && y >= bottom - 1e-6 && y <= bottom + TILE[1] + 1e-6;

/** The fewest tiles of a grid that hang together and show all ink, every choice of tiles tried, over both turns and many shifts. */
function fewestBySearch(ink: readonly Point[], [w, h]: Point): number {
  let fewest = Infinity;
  for (const turned of [false, true]) {
    const [wide, high] = turned ? [h, w] : [w, h];
    const count = (whole: number, tile: number) =>
      whole <= tile ? 1 : Math.ceil((whole - OVERLAP_MM) / (tile - OVERLAP_MM));
    const [columns, rows] = [count(wide, TILE[0]), count(high, TILE[1])];
    if (columns * rows > 12) continue;
    const [stepX, stepY] = [TILE[0] - OVERLAP_MM, TILE[1] - OVERLAP_MM];
    const [spareX, spareY] = [columns * stepX + OVERLAP_MM - wide, rows * stepY + OVERLAP_MM - high];
    for (let i = 0; i <= 4; i++)
      for (let j = 0; j <= 4; j++) {
        const shown = new Set<number>();
        for (const [x, y] of ink) {
          const [px, py] = turned ? [h - y, x] : [x, y];
          let mask = 0;
          for (let tile = 0; tile < columns * rows; tile++) {
            const corner: Point = [
              (tile % columns) * stepX - (spareX * i) / 4,
              Math.floor(tile / columns) * stepY - (spareY * j) / 4,
            ];
            if (within([px, py], corner)) mask |= 1 << tile;
          }
          shown.add(mask);
        }
        for (let chosen = 1; chosen < 1 << (columns * rows); chosen++)
          if ([...shown].every((mask) => mask & chosen) && hangTogether(chosen, columns, rows))
            fewest = Math.min(fewest, chosen.toString(2).replaceAll('0', '').length);
      }
  }
  return fewest;
}

function hangTogether(chosen: number, columns: number, rows: number): boolean {
  let reached = chosen & -chosen;
  for (let round = 0; round < columns * rows; round++)
    for (let tile = 0; tile < columns * rows; tile++) {
      if (!(reached & (1 << tile))) continue;
      const [column, row] = [tile % columns, Math.floor(tile / columns)];
      if (column > 0) reached |= chosen & (1 << (tile - 1));
      if (column + 1 < columns) reached |= chosen & (1 << (tile + 1));
      if (row > 0) reached |= chosen & (1 << (tile - columns));
      if (row + 1 < rows) reached |= chosen & (1 << (tile + columns));
    }
  return reached === chosen;
}

it('shows every line on a tile and needs no more of them than a search finds', () => {
  let dropped = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const { corners, size } = randomOutline(seed);
    const { pen, ink } = outlineOf(corners);
    const tiling: Tiling = tilingOf(pen.items, size, TILE, typeface);
    const placed = ink.map(([x, y]): Point => (tiling.turn_deg === 90 ? [size[1] - y, x] : [x, y]));
    for (const point of placed)
      expect(
        tiling.tiles.some(({ corner }) => within(point, corner)),
        `seed ${seed}`,
      ).toBe(true);
    for (const { corner } of tiling.tiles)
      expect(
        placed.some((point) => within(point, corner)),
        `seed ${seed}`,
      ).toBe(true);
    // Neighbours share a strip of that width, so that they can be put together.
    for (const a of tiling.tiles)
      for (const b of tiling.tiles)
        if (b.row === a.row && b.column === a.column + 1)
          expect(a.corner[0] + TILE[0] - b.corner[0]).toBeCloseTo(OVERLAP_MM, 6);
    expect(tiling.tiles.length, `seed ${seed}`).toBeLessThanOrEqual(fewestBySearch(ink, size));
    dropped += tiling.columns * tiling.rows - tiling.tiles.length;
  }
  expect(dropped).toBeGreaterThan(0);
});

/** The frame of a tile, and how much line of the drawing lies in it. */
function inkOnTile(page: ReadPage): number {
  const frame = page.paths.find(
    ({ stroke, width_mm, points }) =>
      stroke === '#cdd2ca' && Math.abs(width_mm - 0.15) < 0.01 && points.length === 4,
  )!;
  const [left, right] = [frame.points[0][0], frame.points[1][0]];
  const [bottom, top] = [frame.points[0][1], frame.points[2][1]];
  let length = 0;
  for (const { points, stroke, width_mm } of page.paths) {
    const wide = Math.max(...points.map(([x]) => x)) - Math.min(...points.map(([x]) => x));
    const high = Math.max(...points.map(([, y]) => y)) - Math.min(...points.map(([, y]) => y));
    // Crosses and their circles are not the drawing's.
    if (Math.max(wide, high) < 6.01 && (Math.abs(width_mm - 0.15) < 0.01 || stroke === null)) continue;
    if (points === frame.points) continue;
    points.slice(1).forEach(([bx, by], i) => {
      const [ax, ay] = points[i];
      const steps = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay)));
      for (let k = 0; k <= steps; k++) {
        const [x, y] = [ax + ((bx - ax) * k) / steps, ay + ((by - ay) * k) / steps];
        if (x > left && x < right && y > bottom && y < top) length++;
      }
    });
  }
  return length;
}

it('prints no tile without ink', async () => {
  for (const [design, paper] of [
    [CANDLE_STICK, 'letter'],
    [BOWL, 'a4'],
  ] as const) {
    const tiles = (await sheetOf(design, paper)).pdf.pages.filter(({ text }) => text.includes('· tile '));
    expect(tiles.length).toBeGreaterThan(1);
    for (const page of tiles) expect(inkOnTile(page)).toBeGreaterThan(40);
  }
});

it('takes two pages for the marks of a candle stick and one for its outline, on both papers', async () => {
  const [candleStick] = starterDesigns();
  // 9 in long and 4 × 3 in round: wider than a page either way, and as tall as one.
  expect(candleStick.blank.length_mm).toBeCloseTo(228.6, 6);
  for (const paper of ['a4', 'letter'] as const) {
    const { pages } = (await sheetOf(candleStick, paper)).pdf;
    const count = (title: string) =>
      pages.filter(({ words, height_mm }) =>
        words.some(({ text, at }) => text.startsWith(title) && Math.abs(at[1] - height_mm + 12) < 0.1),
      ).length;
    expect([count('Layout of the marks'), count('Turning template')]).toEqual([2, 1]);
  }
});
