/** Drilled holes and closed loops of the turned form, against elementary volumes (cylinder, torus by Pappus). */
import { expect, test } from 'vitest';
import type { Design, Hole } from '../../src/design/document.ts';
import { holeCylinder } from '../../src/blank/holes.ts';
import { turnedParts, wholePart } from '../../src/blank/solids.ts';
import type { Vec3 } from '../../src/geometry/vector.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';
import { solidFaults } from '../oracles/closed.ts';
import { holeHolds } from './pointwise.ts';

const LENGTH_MM = 203.2;
const RADIUS_MM = 30;
const FACETS = { facets: 256, rows: 64 };

function drilled(...holes: Hole[]): Design {
  return fourRings({ form: { ...cylinderForm(LENGTH_MM, RADIUS_MM), holes } });
}

/** Volume that the holes take; every part must be closed and the parts must add up to what is left. */
function taken_mm3(...holes: Hole[]): number {
  const whole = wholePart(drilled(), true, FACETS).volume_mm3;
  const left = wholePart(drilled(...holes), true, FACETS);
  const parts = turnedParts(drilled(...holes), FACETS);
  expect([left, ...parts].flatMap((part) => solidFaults(part, whole))).toEqual([]);
  const sum = parts.reduce((total, { volume_mm3 }) => total + volume_mm3, 0);
  expect(Math.abs(sum / left.volume_mm3 - 1)).toBeLessThan(1e-12);
  return whole - left.volume_mm3;
}

test('a candle cup, and a hole off the axis', () => {
  const cup: Hole = { from: 'head', diameter_mm: 22, depth_mm: 25 };
  expect(taken_mm3(cup)).toBeCloseTo(Math.PI * 11 * 11 * 25, 6);
  expect(taken_mm3({ ...cup, from: 'foot', diameter_mm: 6, offset_mm: 20, azimuth_deg: 77 })).toBeCloseTo(
    Math.PI * 9 * 25,
    6,
  );
});

test('right through along the axis', () => {
  expect(taken_mm3({ from: 'foot', diameter_mm: 8, depth_mm: null })).toBeCloseTo(
    Math.PI * 16 * LENGTH_MM,
    5,
  );
});

// Two cylinders at right angles, a > b: V = (8a/3)[(a² + b²) E(k) − (a² − b²) K(k)], k = b/a (MathWorld "Steinmetz
// Solid", unequal radii); a = 30, b = 10 gives 18583.987657.
test('a cord hole across a cylinder takes the unequal Steinmetz solid', () => {
  const volume_mm3 = taken_mm3({ from: 'side', z_mm: 101, azimuth_deg: 30, diameter_mm: 20, depth_mm: null });
  expect(Math.abs(volume_mm3 / 18583.987657 - 1)).toBeLessThan(2e-3);
});

test('holes that meet take their common wood once', () => {
  const down: Hole = { from: 'head', diameter_mm: 6, depth_mm: 40 };
  const across: Hole = { from: 'side', z_mm: 180, diameter_mm: 4, depth_mm: null };
  const together = taken_mm3(down, across);
  expect(together).toBeLessThan(taken_mm3(down) + taken_mm3(across) - 40);
  expect(together).toBeGreaterThan(taken_mm3(across) + Math.PI * 9 * 40 - Math.PI * 4 * 6);
});

test('a hole that misses the wood takes nothing', () => {
  expect(taken_mm3({ from: 'side', z_mm: 101, offset_mm: 40, diameter_mm: 4, depth_mm: null })).toBe(0);
});

test('which points a hole takes', () => {
  const form = cylinderForm(LENGTH_MM, RADIUS_MM);
  const side = holeCylinder({ from: 'side', z_mm: 100, azimuth_deg: 90, diameter_mm: 5, depth_mm: 10 }, form);
  const holds = (p: Vec3) => holeHolds(side, p);
  expect(holds([0, 25, 100])).toBe(true);
  expect(holds([0, 19.9, 100])).toBe(false);
  expect(holds([2.4, 25, 100])).toBe(true);
  expect(holds([2.6, 25, 100])).toBe(false);
  expect(holds([0, -25, 100])).toBe(false);
});

// Pappus: the volume of a solid of revolution is the area of its section times the path of the centroid.
test('a bangle with a rectangular section', () => {
  const outline = [
    { z_mm: 5, r_mm: 36 },
    { z_mm: 17, r_mm: 36 },
    { z_mm: 17, r_mm: 30 },
    { z_mm: 5, r_mm: 30 },
  ];
  const design = fourRings({ form: { outline, loop: true }, set: { center_mm: 11, angle_deg: 80 } });
  const parts = turnedParts(design, { facets: 256 });
  const exact = 12 * 6 * 2 * Math.PI * 33;
  const polygon = (256 / 2 / Math.PI) * Math.sin((2 * Math.PI) / 256);
  const sum = parts.reduce((total, { volume_mm3 }) => total + volume_mm3, 0);
  expect(sum / (exact * polygon)).toBeCloseTo(1, 10);
  expect(parts.flatMap((part) => solidFaults(part, exact))).toEqual([]);
});
