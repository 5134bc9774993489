/** Blanks with no flat at the fence: the cradle's drawings and the full-size marks, measured in the page's own coordinates. */
import { describe, expect, it } from 'vitest';
import { setupsOf } from '../../../src/plan/setups.ts';
import { fourRings, slotSet } from '../../fixtures/designs.ts';
import { BOWL, CANDLE_STICK, HANDLE, sheetOf } from './designs.ts';
import type { Point, ReadPage, ReadPdf } from './readPdf.ts';

const BLUE = '#17569b';
const INK = '#1a2321';
const distance = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(bx - ax, by - ay);
const direction_deg = ([ax, ay]: Point, [bx, by]: Point) => (Math.atan2(by - ay, bx - ax) * 180) / Math.PI;
const turnBetween = (a: number, b: number) => Math.abs(((((a - b + 180) % 360) + 360) % 360) - 180);
const middleOf = (points: readonly Point[]): Point => [
  (Math.min(...points.map(([x]) => x)) + Math.max(...points.map(([x]) => x))) / 2,
  (Math.min(...points.map(([, y]) => y)) + Math.max(...points.map(([, y]) => y))) / 2,
];

function pagesOf(pdf: ReadPdf, title: string): ReadPage[] {
  return pdf.pages.filter(({ words, height_mm }) =>
    words.some(({ text, at }) => text.startsWith(title) && Math.abs(at[1] - height_mm + 12) < 0.1),
  );
}

/** Blanks on a page as they are filled, in the order of drawing: the large one first. */
function blanksOn({ paths }: ReadPage) {
  return paths.filter(
    ({ fill, stroke, width_mm, points }) =>
      fill !== null &&
      fill !== '#d8cdb6' &&
      stroke === INK &&
      Math.abs(width_mm - 0.4) < 0.01 &&
      points.length >= 5,
  );
}

/** Where a direction of the blank's section points as seen: right toward the fence, out toward the eye, up = out × right. */
function seenDirection_deg(azimuth_deg: number, fence_deg: number, fromHead: boolean): number {
  const [c, s] = [Math.cos((fence_deg * Math.PI) / 180), Math.sin((fence_deg * Math.PI) / 180)];
  const out = fromHead ? 1 : -1;
  const up = [-out * s, out * c];
  const e = [Math.cos((azimuth_deg * Math.PI) / 180), Math.sin((azimuth_deg * Math.PI) / 180)];
  return (Math.atan2(e[0] * up[0] + e[1] * up[1], e[0] * c + e[1] * s) * 180) / Math.PI;
}

describe('the cradle', () => {
  it('is drawn only where a cut has no flat at the fence', async () => {
    const { pdf } = await sheetOf(CANDLE_STICK, 'letter');
    expect(pagesOf(pdf, 'Cradle')).toEqual([]);
    expect(pagesOf(pdf, 'Index')).toEqual([]);
  });

  it('turns the mark of each cut to the index line, the reference mark with it', async () => {
    const { pdf } = await sheetOf(BOWL, 'a4');
    const [page] = pagesOf(pdf, 'Cradle and index marks');
    const cuts = setupsOf(BOWL).filter(({ face }) => face === null);
    expect(cuts.map(({ fence_azimuth_deg }) => fence_azimuth_deg)).toEqual([22.5, 112.5, 202.5, 292.5]);
    const blanks = blanksOn(page);
    expect(blanks.length).toBe(1 + cuts.length);
    const heavy = page.paths.filter(
      ({ stroke, width_mm, points }) =>
        stroke === BLUE && Math.abs(width_mm - 0.5) < 0.01 && points.length === 2,
    );
    const references = page.paths.filter(
      ({ fill, stroke, points }) => fill === INK && stroke === null && points.length === 3,
    );
    expect([heavy.length, references.length]).toEqual([2 * blanks.length, blanks.length]);
    blanks.forEach(({ points }, i) => {
      const setup = cuts[Math.max(0, i - 1)];
      const axis = middleOf(points);
      const reach = Math.max(...points.map(([x]) => x)) - axis[0];
      // The mark of the cut, then the index line: both on the level of the axis, meeting where the blank touches the fence.
      const [mark, index] = [heavy[2 * i], heavy[2 * i + 1]];
      for (const [, y] of [...mark.points, ...index.points]) expect(Math.abs(y - axis[1])).toBeLessThan(0.02);
      expect(mark.points[1][0]).toBeCloseTo(axis[0] + reach, 1);
      expect(index.points[1][0]).toBeCloseTo(axis[0] + reach, 1);
      // Stop on the obtuse side, high side at the fence: head to the stop, so that the foot is seen.
      const fromHead = setup.stop_end === 'foot';
      const tip = references[i].points[0];
      expect(
        turnBetween(direction_deg(axis, tip), seenDirection_deg(0, setup.fence_azimuth_deg, fromHead)),
      ).toBeLessThan(0.05);
      // To scale: across flats 180 mm, so across corners 180 / cos 22.5°.
      const width = Math.max(...points.map(([x]) => x)) - Math.min(...points.map(([x]) => x));
      if (i === 0) {
        const scale = Number(
          /1 : ([\d.]+)/.exec(page.words.find(({ text }) => text.startsWith('1 : '))!.text)![1],
        );
        expect(Math.abs(width * scale - 180 / Math.cos(Math.PI / 8))).toBeLessThan(0.05 * scale);
      }
    });
  });

  it('keeps the blank on rails that touch it and stand on table and fence', async () => {
    const { pdf } = await sheetOf(HANDLE, 'a4');
    const [page] = pagesOf(pdf, 'Cradle and index marks');
    const [blank] = blanksOn(page);
    const axis = middleOf(blank.points);
    const radius =
      (Math.max(...blank.points.map(([x]) => x)) - Math.min(...blank.points.map(([x]) => x))) / 2;
    const rails = page.paths.filter(({ fill }) => fill === '#d8cdb6').slice(0, 2);
    for (const { points } of rails) {
      // One side of each is a tangent of the round blank at 45°.
      const sides = points.map((a, i) => [a, points[(i + 1) % points.length]] as const);
      const tangent = sides.find(([a, b]) => Math.abs(a[0] - b[0]) > 1 && Math.abs(a[1] - b[1]) > 1)!;
      const [a, b] = tangent;
      const off =
        Math.abs((b[0] - a[0]) * (axis[1] - a[1]) - (b[1] - a[1]) * (axis[0] - a[0])) / distance(a, b);
      expect(Math.abs(off - radius)).toBeLessThan(0.05);
      expect(Math.abs(Math.abs(b[0] - a[0]) - Math.abs(b[1] - a[1]))).toBeLessThan(0.01);
      expect(Math.abs(Math.min(...points.map(([, y]) => y)) - (axis[1] - radius))).toBeLessThan(0.01);
    }
  });
});

describe('the index marks at full size', () => {
  const ROUND = fourRings({
    name: 'Round blank, odd azimuths',
    unit: 'in',
    section: { shape: 'round', width_mm: 50.8 },
    length_mm: 150,
    sets: [
      slotSet({ fence_azimuths_deg: [0, 51.3, 200] }),
      slotSet({ id: 'S2', cut: 'table', angle_deg: 20, fence_azimuths_deg: [310.5, 51.3] }),
    ],
    form: null,
  });

  it('stand along the strip as far as the arc of their azimuth, named for their cuts', async () => {
    for (const paper of ['a4', 'letter'] as const) {
      const [page] = pagesOf((await sheetOf(ROUND, paper)).pdf, 'Index strip');
      const outline = page.paths.find(
        ({ stroke, width_mm, points, fill }) =>
          fill === null && stroke === INK && Math.abs(width_mm - 0.4) < 0.01 && points.length === 4,
      )!.points;
      const [start, end] = [outline[0], outline[1]];
      // π · 2 in.
      expect(Math.abs(distance(start, end) - Math.PI * 50.8)).toBeLessThan(0.05);
      const marks = page.paths.filter(
        ({ stroke, points, width_mm }) =>
          stroke === BLUE && points.length === 2 && Math.abs(width_mm - 0.3) < 0.01,
      );
      const along = marks.map(({ points: [low] }) => distance(start, low));
      const expected = [0, 51.3, 200, 310.5].map((azimuth) => (azimuth / 360) * Math.PI * 50.8);
      expect(along.length).toBe(expected.length);
      along.forEach((at, i) => expect(Math.abs(at - expected[i])).toBeLessThan(0.05));
      // 51.3° serves cut 2 at the fence and cut 5 at the ledge.
      expect(page.text).toMatch(/51\.3° +cuts 2, 5/);
      expect(page.text).toMatch(/310\.5° +cut 4/);
    }
  });

  it('stand on the shape of the end that is seen, mirrored at the foot', async () => {
    const [page] = pagesOf((await sheetOf(BOWL, 'a4')).pdf, 'Index marks of the foot');
    const outline = page.paths.find(({ points, stroke }) => stroke === INK && points.length === 8)!.points;
    const center = middleOf(outline);
    const width = Math.max(...outline.map(([x]) => x)) - Math.min(...outline.map(([x]) => x));
    expect(Math.abs(width - 180)).toBeLessThan(0.05);
    const marks = page.paths.filter(
      ({ stroke, points, width_mm }) =>
        stroke === BLUE && points.length === 2 && Math.abs(width_mm - 0.3) < 0.01,
    );
    const turns = marks.map(({ points: [, outer] }) => direction_deg(center, outer));
    // Seen from the foot azimuths run clockwise.
    [22.5, 112.5, 202.5, 292.5].forEach((azimuth, i) =>
      expect(turnBetween(turns[i], -azimuth)).toBeLessThan(0.02),
    );
    for (const {
      points: [, outer],
    } of marks)
      expect(Math.abs(distance(center, outer) - 90 / Math.cos(Math.PI / 8))).toBeLessThan(0.05);
  });
});
