/**
 * The numbers on the layout of the marks where levels crowd: every number can be read whole, and a line leads from its tick,
 * which is where the report puts the mark, to it. Measured in the page's own coordinates.
 */
import { describe, expect, it } from 'vitest';
import type { Design } from '../../../src/design/document.ts';
import { reportOf } from '../../../src/plan/report.ts';
import { BOWL, CROWDED, HANDLE, ROUND, sheetOf } from './designs.ts';
import { boxOf, printedOver, type ReadPage } from './readPdf.ts';

const DESIGNS: readonly (readonly [Design, 'letter' | 'a4'])[] = [
  [CROWDED, 'letter'],
  [CROWDED, 'a4'],
  [ROUND, 'a4'],
  [BOWL, 'a4'],
  [HANDLE, 'a4'],
];

/** Pages of the layout, with the words that lie wholly in what such a page shows: the rest is clipped away. */
async function layoutOf(design: Design, paper: 'letter' | 'a4'): Promise<ReadPage[]> {
  const { pdf } = await sheetOf(design, paper);
  return pdf.pages
    .filter(({ words, height_mm }) =>
      words.some(({ text, at }) => text.startsWith('Layout of the marks') && at[1] > height_mm - 13),
    )
    .map((page) => ({
      ...page,
      words: page.words.filter((word) =>
        boxOf(word).every(
          ([x, y]) => x > 14 && x < page.width_mm - 14 && y > 16.5 && y < page.height_mm - 25,
        ),
      ),
    }));
}

describe.each(DESIGNS.map(([design, paper]) => [design.name, paper, design] as const))(
  'the layout of %s on %s',
  (_, paper, design) => {
    it('prints no number over another', async () => {
      const pages = await layoutOf(design, paper);
      expect(pages.length).toBeGreaterThan(0);
      for (const page of pages) expect(printedOver(page)).toEqual([]);
    });
  },
);

describe('numbers that stand apart from their ticks', () => {
  it('are led to from the height of their mark, in the order of the marks', async () => {
    const [page] = await layoutOf(CROWDED, 'a4');
    const setups = reportOf(CROWDED).setups.filter(({ face }) => face === 'B');
    // Upright on A4: the outline's long vertical side is the foot-to-head edge of face A.
    const outline = page.paths.find(
      ({ points, fill }) =>
        fill === null && points.length === 4 && Math.abs(points[0][0] - points[1][0]) > 200,
    )!;
    const [left, foot] = outline.points[0];
    const edge = left + 76.2;
    for (const { slot, mark_fence_mm } of setups) {
      const word = page.words.find(({ text }) => text.endsWith(`${slot} fence`))!;
      const tick = page.paths.find(
        ({ points: [from, to] }) =>
          Math.abs(from[0] - edge) < 0.01 &&
          Math.abs(to[0] - edge - 3) < 0.01 &&
          Math.abs(from[1] - foot - mark_fence_mm) < 0.01,
      );
      expect(tick, slot).toBeDefined();
      const leader = page.paths.find(
        ({ points: [from, to], stroke }) =>
          stroke !== null &&
          Math.hypot(from[0] - edge - 3, from[1] - foot - mark_fence_mm) < 0.01 &&
          to[0] > from[0] + 1,
      )!;
      const [, [x, y]] = leader.points;
      const [x0, y0] = word.at;
      expect(x, slot).toBeLessThan(x0);
      expect(x, slot).toBeGreaterThan(x0 - 1.5);
      expect(y, slot).toBeGreaterThan(y0);
      expect(y, slot).toBeLessThan(y0 + 2.5);
    }
  });
});
