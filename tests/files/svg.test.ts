/**
 * Drawings in true size: their frame against the size of the wood, and the bands of a cylinder against the
 * closed form of a plane that cuts a cylinder.
 */
import { expect, test } from 'vitest';
import type { Hole } from '../../src/design/document.ts';
import { outlineSvg, unrolledMapSvg } from '../../src/files/svg.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';

const R = 25;
const L = 120;

function frame(svg: string): { width: number; height: number } {
  const found = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg);
  if (!found) throw new Error('no frame');
  // One unit is one millimetre.
  expect(found.slice(3)).toEqual(found.slice(1, 3));
  return { width: Number(found[1]), height: Number(found[2]) };
}

function points(d: string): [number, number][] {
  return [...d.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
}

function cylinder(angle_deg: number, kerf_mm: number) {
  return fourRings({
    length_mm: L,
    form: cylinderForm(L, R),
    set: { angle_deg, kerf_mm, center_mm: 60, fence_azimuths_deg: [0], web_mm: 0 },
  });
}

test('the map of a cylinder is its circumference wide and its length high', () => {
  const { width, height } = frame(unrolledMapSvg(cylinder(45, 2)) ?? '');
  expect(width).toBeCloseTo(2 * Math.PI * R + 10, 3);
  expect(height).toBeCloseTo(L + 10, 3);
});

test.each([
  [45, 2],
  [60, 1.016],
  [30, 4],
])('the band of a slot at %f° lies on z = c ± r cot θ cos φ ± k / (2 sin θ)', (angle_deg, kerf_mm) => {
  const svg = unrolledMapSvg(cylinder(angle_deg, kerf_mm)) ?? '';
  const d = /<g id="S1\.1"><path d="([^"]+)"/.exec(svg)?.[1] ?? '';
  // The edge of the sheet cuts the band; what lies on it is no edge of the band.
  const sheet_mm = 2 * Math.PI * R;
  const band = points(d).filter(([x]) => x > 5.001 && x < sheet_mm + 4.999);
  expect(band.length).toBeGreaterThan(100);
  const theta = (angle_deg * Math.PI) / 180;
  const slope = R / Math.tan(theta);
  const half = kerf_mm / 2 / Math.sin(theta);
  // Sections of a cylinder by parallel planes; which side is high depends on the saw's side only.
  const off = band.map(([x, y]) => {
    const azimuth = (x - 5) / R - Math.PI / 4;
    const z = L + 5 - y;
    const distances = [1, -1].flatMap((side) =>
      [half, -half].map((edge) => Math.abs(z - (60 + side * slope * Math.cos(azimuth) + edge))),
    );
    return { azimuth, distance: Math.min(...distances), z };
  });
  expect(Math.max(...off.map(({ distance }) => distance))).toBeLessThan(0.05);
  const span = Math.max(...off.map(({ z }) => z)) - Math.min(...off.map(({ z }) => z));
  expect(span).toBeCloseTo(2 * slope + 2 * half, 1);
});

test('the outline of a cylinder is a rectangle as wide as its diameter', () => {
  const svg = outlineSvg(cylinder(45, 2)) ?? '';
  expect(frame(svg)).toEqual({ width: 2 * R + 10, height: L + 10 });
  const line = points(/id="outline" d="([^"]+)"/.exec(svg)?.[1] ?? '');
  const xs = line.map(([x]) => x);
  const ys = line.map(([, y]) => y);
  expect([Math.min(...xs), Math.max(...xs)]).toEqual([5, 2 * R + 5]);
  expect([Math.min(...ys), Math.max(...ys)]).toEqual([5, L + 5]);
});

const DRILLED: Hole[] = [
  // At 315° the hole lies across the edge of the sheet.
  { from: 'side', diameter_mm: 10, depth_mm: 20, azimuth_deg: 315, z_mm: 40 },
  { from: 'side', diameter_mm: 6, depth_mm: null, azimuth_deg: 90, z_mm: 80 },
  { from: 'head', diameter_mm: 12, depth_mm: 30, offset_mm: 8, azimuth_deg: 45 },
];

function drilled() {
  const design = cylinder(45, 2);
  return { ...design, form: { ...cylinderForm(L, R), holes: DRILLED } };
}

test('on the map a drilled hole is a cylinder that meets a cylinder: R² sin²(φ − φ₀) + (z − z₀)² = ρ²', () => {
  const svg = unrolledMapSvg(drilled()) ?? '';
  const loops = (id: number) =>
    (new RegExp(`id="hole-${id}" d="([^"]+)"`).exec(svg)?.[1] ?? '')
      .split('M')
      .slice(1)
      .map((d) => points(d).map(([x, y]) => ({ azimuth: (x - 5) / R - Math.PI / 4, z: L + 5 - y })));
  for (const [id, azimuth, z0, radius] of [
    [1, (315 * Math.PI) / 180, 40, 5],
    [2, Math.PI / 2, 80, 3],
  ]) {
    const all = loops(id);
    // An edge of the sheet halves the first, the second goes in and comes out again.
    expect(all).toHaveLength(2);
    for (const loop of all) {
      expect(loop.length).toBeGreaterThan(30);
      for (const p of loop) {
        expect(Math.abs(p.azimuth - (3 / 4) * Math.PI)).toBeLessThan(Math.PI + 1e-4);
        const onEdge =
          Math.abs(p.azimuth + Math.PI / 4) < 1e-4 || Math.abs(p.azimuth - (7 / 4) * Math.PI) < 1e-4;
        if (!onEdge) expect(Math.hypot(R * Math.sin(p.azimuth - azimuth), p.z - z0)).toBeCloseTo(radius, 2);
      }
      expect(Math.max(...loop.map((p) => p.z)) - z0).toBeCloseTo(radius, 1);
    }
    const span = all.map((loop) => loop.map((p) => p.azimuth)).map((a) => Math.max(...a) - Math.min(...a));
    for (const width of span) expect(width).toBeCloseTo((id === 1 ? 1 : 2) * Math.asin(radius / R), 3);
  }
  expect(svg).not.toContain('id="hole-3"');
});

test('the outline has drilled holes of their size at their place, and names them in its description', () => {
  const svg = outlineSvg(drilled()) ?? '';
  const box = (id: number) => {
    const d = new RegExp(`id="hole-${id}" d="M([-\\d.]+) ([-\\d.]+)H([-\\d.]+)V([-\\d.]+)`).exec(svg);
    return d?.slice(1).map(Number);
  };
  // Left, top, right, bottom; the axis is R + 5 from the left, the head 5 from the top.
  expect(box(1)).toEqual([5 + R + (R - 20), 5 + L - 45, 5 + 2 * R, 5 + L - 35]);
  expect(box(2)).toEqual([5, 5 + L - 83, 5 + 2 * R, 5 + L - 77]);
  expect(box(3)).toEqual([5 + R + 2, 5, 5 + R + 14, 35]);
  expect(svg).toContain('Drilled holes are dashed');
  expect(outlineSvg(cylinder(45, 2))).not.toContain('hole');
});

test('smooth points are curves, and a design left square has neither drawing', () => {
  expect(outlineSvg(fourRings())).toMatch(/id="outline" d="[^"]*C/);
  expect(outlineSvg(fourRings({ form: null }))).toBeNull();
  expect(unrolledMapSvg(fourRings({ form: null }))).toBeNull();
});

test('a name with markup stays text', () => {
  const svg = unrolledMapSvg({ ...cylinder(45, 2), name: '</title><script>"&' }) ?? '';
  expect(svg).toContain('<title>&lt;/title&gt;&lt;script&gt;&quot;&amp;: unrolled map</title>');
});
