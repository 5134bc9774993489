/**
 * Bands of the unrolled map against the unrolled cosine of a plane through a cylinder: on the radius r the faces
 * of the kerf lie at z = z₀ + σ r cot θ cos(φ − φ₀) ± k / (2 sin θ) (elementary; docs/geometry.md, "Rings").
 */
import { expect, test } from 'vitest';
import { slotsOf } from '../../src/blank/slots.ts';
import { flattenOutline } from '../../src/geometry/outline.ts';
import { alongOf, outsideAt, outsideLine } from '../../src/blank/outsideLine.ts';
import { bandCells } from '../../src/panels/map/bands.ts';
import { bandPath } from '../../src/panels/map/bandPath.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';

const RADIUS = 30;
const design = fourRings({
  form: cylinderForm(203.2, RADIUS),
  set: { angle_deg: 60, kerf_mm: 3, fence_azimuths_deg: [0, 90, 200], high_side: 'entry' },
});
const slots = slotsOf(design);
const line = outsideLine(flattenOutline(design.form?.outline ?? []));

test('the outside of a cylinder is its length, and along it stands for z', () => {
  expect(line.length_mm).toBeCloseTo(203.2, 9);
  expect(outsideAt(line, 50)).toEqual({ z_mm: 50, r_mm: RADIUS });
  expect(alongOf(line, 77.7, RADIUS)).toBeCloseTo(77.7, 9);
});

test.each([0, 1, 2])('band of slot %i ends where the faces of the kerf meet the cylinder', (index) => {
  const slot = slots[index];
  const cells = bandCells(slot, line);
  expect(cells.length).toBeGreaterThan(20);
  const cot = 1 / Math.tan(Math.PI / 3);
  const half = 3 / (2 * Math.sin(Math.PI / 3));
  let checked = 0;
  for (const { low_mm, lowFrom_rad, lowTo_rad } of cells) {
    for (const azimuth of [lowFrom_rad, lowTo_rad]) {
      const middle = 101.6 - RADIUS * cot * Math.cos(azimuth - (slot.fenceAzimuth_deg * Math.PI) / 180);
      // Where an arc begins or ends within a row, its edge is that of the row beside it, 0.01 mm away at most.
      expect(Math.abs(Math.abs(low_mm - middle) - half)).toBeLessThan(0.0101);
      checked++;
    }
  }
  expect(checked).toBeGreaterThan(40);
});

test('the area of a band is that of the strip unrolled: width k / sin θ all around', () => {
  for (const slot of slots) {
    let area = 0;
    for (const cell of bandCells(slot, line))
      area +=
        ((cell.lowTo_rad - cell.lowFrom_rad + cell.highTo_rad - cell.highFrom_rad) / 2) *
        (cell.high_mm - cell.low_mm) *
        RADIUS;
    const exact = (3 / Math.sin(Math.PI / 3)) * 2 * Math.PI * RADIUS;
    expect(Math.abs(area / exact - 1)).toBeLessThan(2e-3);
  }
});

test('a band that passes the edge of the map is drawn on both sides of it', () => {
  const scale = { left_rad: -Math.PI / 4, xPerRad: 10, yPerMm: 1, length_mm: line.length_mm };
  for (const slot of slots) {
    const xs = [...bandPath(slot, line, scale).matchAll(/[MHL](-?[\d.]+)/g)].map((match) => Number(match[1]));
    expect(Math.min(...xs)).toBeLessThanOrEqual(0.5);
    expect(Math.max(...xs)).toBeGreaterThanOrEqual(2 * Math.PI * 10 - 0.5);
  }
});
