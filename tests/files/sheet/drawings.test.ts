/** The printed drawings measured in the page's own coordinates, as Mozilla's PDF reader gives them. */
import { describe, expect, it } from 'vitest';
import type { Design } from '../../../src/design/document.ts';
import { faceUp } from '../../../src/files/drawing/setup.ts';
import { setupsOf, type Setup } from '../../../src/plan/setups.ts';
import { fourRings } from '../../fixtures/designs.ts';
import { BOWL, CANDLE_STICK, HANDLE, sheetOf } from './designs.ts';
import type { Point, ReadPage, ReadPath, ReadPdf } from './readPdf.ts';

const BLUE = '#17569b';
/** What the issue asks of a full-size drawing, mm. */
const TRUE_MM = 0.05;

const distance = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(bx - ax, by - ay);
const direction_deg = ([ax, ay]: Point, [bx, by]: Point) => (Math.atan2(by - ay, bx - ax) * 180) / Math.PI;
/** Angle between two lines, 0 to 90°. */
function between_deg(a: number, b: number): number {
  const turn = (((a - b) % 180) + 180) % 180;
  return Math.min(turn, 180 - turn);
}
/** Signed distance of p from the line through a and b. */
function fromLine(p: Point, a: Point, b: Point): number {
  return ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / distance(a, b);
}
const expectNear = (value: number, expected: number, within = TRUE_MM) =>
  expect(Math.abs(value - expected)).toBeLessThan(within);

describe('paper', () => {
  it('is A4 or US Letter', async () => {
    // ISO 216: 210 × 297 mm; ANSI A: 8.5 × 11 in (sources, "Paper").
    for (const { width_mm, height_mm } of (await sheetOf(BOWL, 'a4')).pdf.pages) {
      expectNear(width_mm, 210, 0.001);
      expectNear(height_mm, 297, 0.001);
    }
    for (const { width_mm, height_mm } of (await sheetOf(CANDLE_STICK, 'letter')).pdf.pages) {
      expectNear(width_mm, 8.5 * 25.4, 0.001);
      expectNear(height_mm, 11 * 25.4, 0.001);
    }
  });

  it('has a bar of 100 mm and one of 4 in on every page', async () => {
    for (const paper of ['a4', 'letter'] as const)
      for (const page of (await sheetOf(CANDLE_STICK, paper)).pdf.pages)
        for (const [label, length] of [
          ['100 mm', 100],
          ['4 in', 101.6],
        ] as const) {
          const word = page.words.findLast(({ text }) => text === label)!;
          const bar = page.paths.find(
            ({ points, stroke }) =>
              stroke !== null &&
              points.length === 2 &&
              Math.abs(points[0][1] - word.at[1]) < 0.01 &&
              Math.abs(points[1][1] - word.at[1]) < 0.01,
          )!;
          expectNear(distance(bar.points[0], bar.points[1]), length, 0.002);
        }
  });

  it('keeps everything that is drawn or written on the paper', async () => {
    for (const [design, paper] of [
      [CANDLE_STICK, 'letter'],
      [BOWL, 'a4'],
      [HANDLE, 'a4'],
    ] as const)
      for (const page of (await sheetOf(design, paper)).pdf.pages) {
        // Tiles of a larger drawing are clipped to their page.
        const tiled = page.text.includes('tile ');
        for (const { points } of tiled ? [] : page.paths)
          for (const [x, y] of points)
            expect(x > 4 && x < page.width_mm - 4 && y > 4 && y < page.height_mm - 4).toBe(true);
        for (const { at } of tiled ? [] : page.words)
          expect(at[0] > 4 && at[0] < page.width_mm - 4 && at[1] > 4).toBe(true);
      }
  });
});

interface Found {
  readonly setup: Setup;
  readonly scale: number;
  readonly slot: ReadPath;
  readonly fence: ReadPath;
  readonly stop: ReadPath;
  readonly blank: ReadPath;
}

/** The drawings of the cuts, top to bottom, page by page, with what belongs to each. */
function setupDrawings(design: Design, pdf: ReadPdf): Found[] {
  const setups = setupsOf(design);
  const found: Found[] = [];
  for (const page of pdf.pages.filter(({ text }) => text.includes('Seen from above'))) {
    const scales = [...page.text.matchAll(/Seen from above, 1 : ([\d.]+)\./g)].map((match) =>
      Number(match[1]),
    );
    const names = [...page.text.matchAll(/ (S\d+\.\d+) (?:trimmed|cut)/g)].map((match) => match[1]);
    const fences = page.paths.filter(({ fill, stroke }) => fill === '#e3e7e1' && stroke === null);
    const slots = page.paths.filter(
      ({ fill, stroke, points }) => fill === '#ffffff' && stroke === BLUE && points.length >= 3,
    );
    const stops = page.paths.filter(({ fill, stroke }) => fill === '#46514d' && stroke === '#1a2321');
    const blanks = page.paths.filter(
      ({ fill, stroke, width_mm, points }) =>
        fill === null && stroke === '#1a2321' && points.length === 4 && Math.abs(width_mm - 0.4) < 0.01,
    );
    expect([names.length, fences.length, slots.length, stops.length]).toEqual(
      Array.from({ length: 4 }, () => scales.length),
    );
    scales.forEach((scale, i) =>
      found.push({
        setup: setups.find(({ slot }) => slot === names[i])!,
        scale,
        slot: slots[i],
        fence: fences[i],
        stop: stops[i],
        // Fence and blank are both outlined so: the fence first.
        blank: blanks[2 * i + 1],
      }),
    );
  }
  return found;
}

describe.each([
  [CANDLE_STICK.name, CANDLE_STICK, 'letter'],
  [BOWL.name, BOWL, 'a4'],
  [HANDLE.name, HANDLE, 'a4'],
] as const)('the cuts of %s', (_, design, paper) => {
  it('are drawn at their angle, with stop, web and blank to scale', async () => {
    const drawings = setupDrawings(design, (await sheetOf(design, paper)).pdf);
    expect(drawings.length).toBe(design.order.length);
    for (const { setup, scale, slot, fence, stop, blank } of drawings) {
      const [fenceLeft, fenceRight] = fence.points;
      const [entryA, entryB, endB, endA] = slot.points;
      const blade = direction_deg(entryA, endA);
      expectNear(between_deg(blade, 90), 0, 0.02);
      expectNear(between_deg(direction_deg(fenceLeft, fenceRight), blade), setup.fence_angle_deg, 0.02);
      expectNear(fenceLeft[0] < fenceRight[0] ? 1 : 0, 1);
      // The stop is drawn on the left: seen from the kerf the fence runs back to it at the angle of its side.
      const toStop: Point = [fenceLeft[0] - fenceRight[0], fenceLeft[1] - fenceRight[1]];
      const intoBlank: Point = [entryA[0] - endA[0], entryA[1] - endA[1]];
      const cosine =
        (toStop[0] * intoBlank[0] + toStop[1] * intoBlank[1]) /
        (Math.hypot(...toStop) * Math.hypot(...intoBlank));
      const acute = design.saw.stop_side === 'acute' ? setup.fence_angle_deg : 180 - setup.fence_angle_deg;
      expectNear((Math.acos(cosine) * 180) / Math.PI, acute, 0.02);
      // The web is what is left between the end of the slot and the fence.
      expectNear(-fromLine(endA, fenceLeft, fenceRight) * scale, setup.blade_stop_mm, TRUE_MM * scale);
      // The middle of the kerf carried on to the fence, from the right side of the stop.
      const middle: Point = [(entryA[0] + entryB[0]) / 2, (entryA[1] + entryB[1]) / 2];
      const end: Point = [(endA[0] + endB[0]) / 2, (endA[1] + endB[1]) / 2];
      const reach =
        fromLine(middle, fenceLeft, fenceRight) /
        (fromLine(middle, fenceLeft, fenceRight) - fromLine(end, fenceLeft, fenceRight));
      const mark: Point = [
        middle[0] + reach * (end[0] - middle[0]),
        middle[1] + reach * (end[1] - middle[1]),
      ];
      const stopFace = stop.points[2];
      const along =
        ((mark[0] - stopFace[0]) * (fenceRight[0] - fenceLeft[0]) +
          (mark[1] - stopFace[1]) * (fenceRight[1] - fenceLeft[1])) /
        distance(fenceLeft, fenceRight);
      const [low, right, , top] = blank.points;
      const drawnLength = distance(low, right) * scale;
      // A long blank is drawn with stretches left out.
      const whole = Math.abs(drawnLength - design.blank.length_mm) < TRUE_MM * scale;
      if (whole) expectNear(along * scale, setup.stop_to_kerf_center_mm, TRUE_MM * scale);
      else expect(design.blank.length_mm / distance(low, top) / scale).toBeGreaterThan(5);
      // Corner to corner of an octagon it is 1 / cos 22.5° deeper than from flat to flat.
      const corner = design.blank.section.shape === 'octagon' && setup.face === null;
      const depth = design.blank.section.width_mm / (corner ? Math.cos(Math.PI / 8) : 1);
      expectNear(distance(low, top) * scale, depth, TRUE_MM * scale);
    }
  });
});

describe('the face that lies up', () => {
  it('follows from fence and stop by the right-hand rule', () => {
    // Facing the fence, right × fence = up. With the stop on the left, right runs from the end at the stop to
    // the other end: along +z when the foot is at the stop. Azimuth of the fence 0 is +x.
    const faces = { A: [1, 0, 0], B: [0, 1, 0], C: [-1, 0, 0], D: [0, -1, 0] } as const;
    for (const stop_side of ['acute', 'obtuse'] as const)
      for (const high_side of ['fence', 'entry'] as const) {
        const design = fourRings({ saw: { stop_side }, set: { high_side } });
        for (const setup of setupsOf(design)) {
          const [ux, uy] = faces[setup.face as keyof typeof faces];
          const z = setup.stop_end === 'foot' ? 1 : -1;
          const up = [-z * uy, z * ux, 0];
          const letter = Object.entries(faces).find(([, face]) =>
            face.every((value, k) => value === up[k] + 0),
          )![0];
          expect(faceUp(design, setup).letter).toBe(letter);
        }
      }
  });
});

describe('the wedge', () => {
  it('has the angle of the fence and sides of 150 mm', async () => {
    for (const [design, paper, angles] of [
      [CANDLE_STICK, 'letter', [45]],
      [BOWL, 'a4', [75, 72.5]],
      [HANDLE, 'a4', [30]],
    ] as const) {
      const pages = (await sheetOf(design, paper)).pdf.pages.filter(({ text }) =>
        text.includes('Wedge for the fence'),
      );
      expect(pages.length).toBe(angles.length);
      angles.forEach((angle, i) => {
        const [corner, along, fence] = pages[i].paths.find(
          ({ fill, points }) => fill === '#f1f3ee' && points.length === 3,
        )!.points;
        expectNear(distance(corner, along), 150);
        expectNear(distance(corner, fence), 150);
        expectNear(between_deg(direction_deg(corner, along), direction_deg(corner, fence)), angle, 0.02);
      });
    }
  });
});

/** Pages of a chapter; the coordinates of a tiled drawing are brought into its first tile's. */
function pagesOf(pdf: ReadPdf, section: string): ReadPage[] {
  return pdf.pages.filter(
    ({ text, words }) =>
      text.includes(section) && words.some(({ text: word, at }) => word.startsWith(section) && at[1] > 250),
  );
}

describe('the layout of the marks', () => {
  it('is as wide as the blank is round it and shows both sides of every kerf at full size', async () => {
    const { pdf } = await sheetOf(CANDLE_STICK, 'a4');
    const pages = pagesOf(pdf, 'Layout of the marks');
    expect(pages.length).toBe(2);
    const outlines = pages.map(({ paths }) =>
      paths.find(
        ({ points, fill, stroke }) =>
          fill === null &&
          stroke === '#1a2321' &&
          points.length === 4 &&
          distance(points[0], points[1]) > 200,
      )!,
    );
    for (const { points } of outlines) {
      expectNear(distance(points[0], points[1]), 4 * 76.2);
      expectNear(distance(points[1], points[2]), 203.2);
    }
    // The second tile shows the same drawing further on, less the strip that both share.
    const [first, second] = outlines.map(({ points }) => points[0]);
    expectNear(first[0] - second[0], 182 - 10);
    expectNear(first[1], second[1]);
    const kerfs = pages[0].paths.filter(({ fill }) => fill === '#dde7f1').map(({ points }) => points);
    const [x0, z0] = first;
    // On the entry face of S1.1 (C, the third) the kerf is a band across, k / sin 45° high, about z = 63.5 mm.
    const entry = kerfs.find(
      (points) =>
        points.every(([x]) => x > x0 + 152.3 && x < x0 + 228.7) &&
        Math.max(...points.map(([, y]) => y)) - Math.min(...points.map(([, y]) => y)) < 3,
    )!;
    const heights = entry.map(([, y]) => y - z0);
    expectNear(Math.min(...heights), 63.5 - 1.016 / Math.SQRT2);
    expectNear(Math.max(...heights), 63.5 + 1.016 / Math.SQRT2);
    // On the faces beside it the same cut climbs at 45° from there towards face A, and ends 2.54 mm short of it.
    const rising = kerfs.filter(
      (points) =>
        points.length === 4 &&
        points.every(([x]) => x >= x0 + 76.1 && x <= x0 + 152.5) &&
        Math.max(...points.map(([, y]) => y)) - Math.min(...points.map(([, y]) => y)) > 50,
    );
    expect(rising.length).toBe(2);
    for (const points of rising) {
      const sides = points.map((point, i): [Point, Point] => [point, points[(i + 1) % points.length]]);
      const long = sides.filter(([a, b]) => distance(a, b) > 50);
      expect(long.length).toBe(2);
      for (const [a, b] of long) expectNear(between_deg(direction_deg(a, b), 0), 45, 0.02);
      expectNear(Math.abs(fromLine(long[1][0], long[0][0], long[0][1])), 1.016);
      const xs = points.map(([x]) => x - x0 - 76.2);
      // From one edge of face B to 2.54 mm short of the other.
      expectNear(Math.max(...xs) - Math.min(...xs), 76.2 - 2.54);
    }
  });
});

describe('the turning template', () => {
  it('draws the outline at full size and the heights of the rings', async () => {
    const { pdf } = await sheetOf(CANDLE_STICK, 'a4');
    const [page] = pagesOf(pdf, 'Turning template');
    const axis = page.paths.find(
      ({ stroke, points }) =>
        stroke === '#5d6863' &&
        points.length === 2 &&
        Math.abs(points[0][0] - points[1][0]) < 1e-6 &&
        distance(points[0], points[1]) > 200,
    )!;
    const outline = page.paths.find(
      ({ width_mm, stroke, points }) =>
        stroke === '#1a2321' && Math.abs(width_mm - 0.5) < 0.01 && points.length > 2,
    )!.points;
    const x0 = axis.points[0][0];
    const z0 = outline[0][1];
    expectNear(outline[0][0] - x0, 30);
    const last = outline[outline.length - 1];
    expectNear(last[0] - x0, 22);
    expectNear(last[1] - z0, 203.2);
    // The outline passes through its smooth point (101.6, 18).
    const at = outline.reduce((best, point) =>
      Math.abs(point[1] - z0 - 101.6) < Math.abs(best[1] - z0 - 101.6) ? point : best,
    );
    expectNear(at[1] - z0, 101.6);
    expectNear(at[0] - x0, 18);
    // Ring S1.1: z = 101.6 + r(z) cos δ at 45°; at its top and bottom the line of the ring meets the outline.
    const levels = page.paths
      .filter(
        ({ stroke, points }) =>
          stroke === BLUE &&
          points.length === 2 &&
          distance(points[0], points[1]) > 10 &&
          Math.abs(points[0][1] - points[1][1]) < 1e-6,
      )
      .map(({ points }) => points[0][1] - z0);
    expect(levels.length).toBe(2);
    for (const z of levels) {
      const i = outline.findIndex(([, y]) => y - z0 >= z);
      const [a, b] = [outline[i - 1], outline[i]];
      const r = a[0] - x0 + ((z - (a[1] - z0)) / (b[1] - a[1])) * (b[0] - a[0]);
      expectNear(Math.abs(z - 101.6), r, 0.1);
    }
  });
});
