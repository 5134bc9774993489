/** Drilled holes and rings open along the axis, on the cover and at full size, measured in the page's own coordinates. */
import { describe, expect, it } from 'vitest';
import { holeCylinder } from '../../../src/blank/holes.ts';
import { mouthsOf } from '../../../src/files/drawing/holes.ts';
import { flattenOutline } from '../../../src/geometry/outline.ts';
import { cylinderForm, fourRings, slotSet } from '../../fixtures/designs.ts';
import { CANDLE_STICK, sheetOf } from './designs.ts';
import type { Point, ReadPage, ReadPdf } from './readPdf.ts';

const INK = '#1a2321';
const DRILLED = fourRings({
  name: 'Drilled drum',
  unit: 'mm',
  section: { shape: 'square', width_mm: 110 },
  length_mm: 70,
  sets: [slotSet({ angle_deg: 70, center_mm: 35, fence_azimuths_deg: [0] })],
  form: {
    ...cylinderForm(70, 50),
    holes: [
      { from: 'head', diameter_mm: 12, depth_mm: 25, offset_mm: 30, azimuth_deg: 60 },
      { from: 'foot', diameter_mm: 20, depth_mm: 10 },
      { from: 'side', diameter_mm: 8, depth_mm: 30, azimuth_deg: 200, z_mm: 40, offset_mm: 5 },
    ],
  },
});
const BANGLE = fourRings({
  name: 'Bangle',
  unit: 'mm',
  section: { shape: 'square', width_mm: 100 },
  length_mm: 30,
  sets: [slotSet({ angle_deg: 70, center_mm: 15, fence_azimuths_deg: [0, 90] })],
  form: {
    loop: true,
    outline: [
      { z_mm: 5, r_mm: 34 },
      { z_mm: 5, r_mm: 44 },
      { z_mm: 25, r_mm: 44 },
      { z_mm: 25, r_mm: 34 },
    ],
    holes: [{ from: 'side', diameter_mm: 3, depth_mm: null, azimuth_deg: 60, z_mm: 15 }],
  },
});

const distance = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(bx - ax, by - ay);
const direction_deg = ([ax, ay]: Point, [bx, by]: Point) => (Math.atan2(by - ay, bx - ax) * 180) / Math.PI;
const turnBetween = (a: number, b: number) => Math.abs(((((a - b + 180) % 360) + 360) % 360) - 180);

function pageOf(pdf: ReadPdf, title: string): ReadPage {
  return pdf.pages.find(({ words, height_mm }) =>
    words.some(({ text, at }) => text.startsWith(title) && Math.abs(at[1] - height_mm + 12) < 0.1),
  )!;
}

/** Circles are four curves: the reader gives their start and the four quarter points. */
function circlesOf({ paths }: ReadPage): { center: Point; radius: number }[] {
  return paths
    .filter(
      ({ points, stroke, fill }) =>
        points.length === 5 && stroke !== null && fill === null && distance(points[0], points[4]) < 1e-6,
    )
    .map(({ points: [right, , left] }) => ({
      center: [(right[0] + left[0]) / 2, (right[1] + left[1]) / 2],
      radius: distance(right, left) / 2,
    }));
}

describe('holes at full size', () => {
  it('stand where they are pricked, as wide as they are drilled, seen from the head', async () => {
    const page = pageOf((await sheetOf(DRILLED, 'a4')).pdf, 'Holes seen from the head');
    const circles = circlesOf(page);
    const piece = circles.reduce((a, b) => (a.radius > b.radius ? a : b));
    expect(Math.abs(piece.radius - 50)).toBeLessThan(0.05);
    const off = circles.find(({ radius }) => Math.abs(radius - 6) < 0.05)!;
    expect(Math.abs(distance(piece.center, off.center) - 30)).toBeLessThan(0.05);
    expect(turnBetween(direction_deg(piece.center, off.center), 60)).toBeLessThan(0.02);
    const axial = circles.find(({ radius }) => Math.abs(radius - 10) < 0.05)!;
    expect(distance(piece.center, axial.center)).toBeLessThan(0.05);
    // The drill from the side: 8 wide, 30 deep from the outside (r 50) along its own direction, 5 beside the axis toward 290°.
    const drill = page.paths.find(
      ({ points, stroke, fill }) =>
        points.length === 4 &&
        stroke === INK &&
        fill === null &&
        Math.abs(distance(points[1], points[2]) - 8) < 0.05,
    )!.points;
    expect(Math.abs(distance(drill[0], drill[1]) - 30)).toBeLessThan(0.05);
    expect(turnBetween(direction_deg(drill[1], drill[0]), 200)).toBeLessThan(0.02);
    const middle = (i: number, j: number): Point => [
      (drill[i][0] + drill[j][0]) / 2 - piece.center[0],
      (drill[i][1] + drill[j][1]) / 2 - piece.center[1],
    ];
    const mouth = middle(0, 3);
    const [c, s] = [Math.cos((200 * Math.PI) / 180), Math.sin((200 * Math.PI) / 180)];
    expect(Math.abs(mouth[0] * c + mouth[1] * s - 50)).toBeLessThan(0.05);
    expect(Math.abs(-mouth[0] * s + mouth[1] * c - 5)).toBeLessThan(0.05);
    const squeezed = page.text.replace(/\s+/g, '');
    for (const words of [
      'hole 1 Ø 12.00 mm × 25.00 mm, from the head, 30.00 mm from the axis at 60°',
      'hole 2 Ø 20.00 mm × 10.00 mm, from the foot, on the axis',
      'hole 3 Ø 8.00 mm × 30.00 mm, from the side at 200°, 40.00 mm above the foot line, passing the axis by 5.00 mm',
    ])
      expect(squeezed).toContain(words.replace(/\s+/g, ''));
  });

  it('are dashed in the turning template, from the axis and from the ends', async () => {
    const page = pageOf((await sheetOf(DRILLED, 'a4')).pdf, 'Turning template');
    const outline = page.paths.find(
      ({ width_mm, stroke, points }) =>
        stroke === INK && Math.abs(width_mm - 0.5) < 0.01 && points.length === 2,
    )!.points;
    const [x0, z0] = [outline[0][0] - 50, outline[0][1]];
    const boxes = page.paths
      .filter(
        ({ points, stroke, fill, width_mm }) =>
          stroke === INK &&
          fill === null &&
          Math.abs(width_mm - 0.2) < 0.01 &&
          (points.length === 5 || points.length === 4),
      )
      .map(({ points }) => {
        const [xs, zs] = [points.map(([x]) => x - x0), points.map(([, z]) => z - z0)];
        return [Math.min(...xs), Math.max(...xs), Math.min(...zs), Math.max(...zs)];
      });
    const expected = [
      [24, 36, 45, 70],
      [0, 10, 0, 10],
      [20, 50, 36, 44],
    ];
    expect(boxes.length).toBe(expected.length);
    boxes.forEach((box, i) =>
      box.forEach((value, k) => expect(Math.abs(value - expected[i][k])).toBeLessThan(0.05)),
    );
  });

  it('along the axis only have no page of their own', async () => {
    expect(pageOf((await sheetOf(CANDLE_STICK, 'letter')).pdf, 'Holes seen')).toBeUndefined();
  });
});

describe('the mouth of a hole', () => {
  it('lies on the drill and on the outside, and spreads over a cylinder as asin((offset ± radius) / R)', () => {
    const form = DRILLED.form!;
    const profile = flattenOutline(form.outline);
    const [entry, ...more] = mouthsOf(holeCylinder(form.holes![2], form, profile), profile);
    expect(more).toEqual([]);
    const turns = entry.map(({ azimuth_rad }) => azimuth_rad - (200 * Math.PI) / 180 + 2 * Math.PI);
    expect(Math.max(...turns)).toBeCloseTo(Math.asin(9 / 50), 6);
    expect(Math.min(...turns)).toBeCloseTo(Math.asin(1 / 50), 6);
    for (const [i, { z_mm, r_mm }] of entry.entries()) {
      expect(r_mm).toBeCloseTo(50, 9);
      const aside = 50 * Math.sin(turns[i]) - 5;
      expect(Math.hypot(aside, z_mm - 40)).toBeCloseTo(4, 9);
    }
  });

  it('opens a ring twice where the drill goes right through', () => {
    const form = BANGLE.form!;
    const profile = flattenOutline(form.outline, undefined, true);
    expect(mouthsOf(holeCylinder(form.holes![0], form, profile), profile).length).toBe(2);
  });
});

describe('a bangle', () => {
  it('has its bore in every drawing, and both mouths of its pin hole laid flat', async () => {
    const { pdf } = await sheetOf(BANGLE, 'letter');
    const template = pageOf(pdf, 'Turning template');
    const solid = template.paths.filter(
      ({ stroke, width_mm }) => stroke === INK && Math.abs(width_mm - 0.4) < 0.01,
    );
    const outside = template.paths.find(
      ({ stroke, width_mm }) => stroke === INK && Math.abs(width_mm - 0.5) < 0.01,
    )!;
    const x0 = outside.points[0][0] - 44;
    // The inside, drawn as a line to turn to: from the rim over the bore to the start.
    const inside = solid.find(({ points }) => points.length === 3)!;
    expect(inside.points.map(([x]) => Math.round((x - x0) * 100) / 100)).toEqual([44, 34, 34]);
    expect(template.text).toContain('bore Ø 68.00 mm');
    // The outside is not taken for a bore, at its foot neither, where the outline closes.
    expect(template.text).not.toContain('bore Ø 88.00 mm');
    expect(template.text).toContain('Ø 88.00 mm');
    const holes = circlesOf(pageOf(pdf, 'Holes seen from the head')).map(({ radius }) => radius);
    for (const radius of [44, 34])
      expect(Math.min(...holes.map((one) => Math.abs(one - radius)))).toBeLessThan(0.05);
    // Dark mouths: one is turned to the eye at 45°, two are laid flat.
    const dark = pdf.pages[0].paths.filter(({ fill }) => fill === '#241d19');
    expect(dark.length).toBe(1 + 2);
  });
});
