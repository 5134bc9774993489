/**
 * Drawings in true size: their frame against the size of the wood, and the bands of a cylinder against the
 * closed form of a plane that cuts a cylinder.
 */
import { expect, test } from 'vitest';
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

test('smooth points are curves, and a design left square has neither drawing', () => {
  expect(outlineSvg(fourRings())).toMatch(/id="outline" d="[^"]*C/);
  expect(outlineSvg(fourRings({ form: null }))).toBeNull();
  expect(unrolledMapSvg(fourRings({ form: null }))).toBeNull();
});

test('a name with markup stays text', () => {
  const svg = unrolledMapSvg({ ...cylinder(45, 2), name: '</title><script>"&' }) ?? '';
  expect(svg).toContain('<title>&lt;/title&gt;&lt;script&gt;&quot;&amp;: unrolled map</title>');
});
