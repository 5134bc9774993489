/**
 * Bands of the outside against the unrolled cosine of a plane through a cylinder: on the radius r the faces of the kerf lie
 * at z = z₀ + σ r cot θ cos(φ − φ₀) ± k / (2 sin θ) (elementary; docs/geometry.md, "Rings").
 */
import { expect, test } from 'vitest';
import { bandStrands, outlineOf, type BandStrand } from '../../src/blank/bands.ts';
import { alongOf, outsideAt, outsideLine } from '../../src/blank/outsideLine.ts';
import { slotsOf } from '../../src/blank/slots.ts';
import { flattenOutline } from '../../src/geometry/outline.ts';
import { cylinderForm, fourRings, slotSet } from '../fixtures/designs.ts';

const RADIUS = 30;
const design = fourRings({
  form: cylinderForm(203.2, RADIUS),
  set: { angle_deg: 60, kerf_mm: 3, fence_azimuths_deg: [0, 90, 200], high_side: 'entry' },
});
const slots = slotsOf(design);
const line = outsideLine(flattenOutline(design.form?.outline ?? []));
const TURN = 2 * Math.PI;

/** Trapezoids between rows: exact for straight edges. */
function area_mm2(strands: readonly BandStrand[]): number {
  let area = 0;
  for (const rows of strands)
    rows.slice(1).forEach((above, i) => {
      const below = rows[i];
      const widths = below.to_rad - below.from_rad + above.to_rad - above.from_rad;
      area += (widths / 2) * (above.along_mm - below.along_mm) * RADIUS;
    });
  return area;
}

test('the outside of a cylinder is its length, and along it stands for z', () => {
  expect(line.length_mm).toBeCloseTo(203.2, 9);
  expect(outsideAt(line, 50)).toEqual({ z_mm: 50, r_mm: RADIUS });
  expect(alongOf(line, 77.7, RADIUS)).toBeCloseTo(77.7, 9);
});

test.each([0, 1, 2])('band of slot %i ends where the faces of the kerf meet the cylinder', (index) => {
  const slot = slots[index];
  const cot = 1 / Math.tan(Math.PI / 3);
  const half = 3 / (2 * Math.sin(Math.PI / 3));
  for (const detail of [{ true_mm: 0.03 }, { true_mm: 0.1, step_mm: 1 }]) {
    const rows = bandStrands(slot, line, detail).flat();
    expect(rows.length).toBeGreaterThan(20);
    for (const { along_mm, from_rad, to_rad } of rows)
      for (const azimuth of [from_rad, to_rad]) {
        const middle = 101.6 - RADIUS * cot * Math.cos(azimuth - (slot.fenceAzimuth_deg * Math.PI) / 180);
        // Where an arc begins or ends within a row, its edge is that of the row beside it, 0.01 mm away at most.
        expect(Math.abs(Math.abs(along_mm - middle) - half)).toBeLessThan(0.0101);
      }
  }
});

test('the area of a band is that of the strip unrolled: width k / sin θ all around', () => {
  const exact = (3 / Math.sin(Math.PI / 3)) * TURN * RADIUS;
  for (const slot of slots) {
    expect(Math.abs(area_mm2(bandStrands(slot, line, { true_mm: 0.03 })) / exact - 1)).toBeLessThan(5e-4);
    expect(
      Math.abs(area_mm2(bandStrands(slot, line, { true_mm: 0.1, step_mm: 1 })) / exact - 1),
    ).toBeLessThan(2e-3);
  }
});

test('a window keeps the part of the band inside it: halves add up, and half a turn about the fence is half of it', () => {
  const exact = (3 / Math.sin(Math.PI / 3)) * Math.PI * RADIUS;
  for (const slot of slots) {
    const fence = (slot.fenceAzimuth_deg * Math.PI) / 180;
    for (const from_rad of [fence - Math.PI / 2, fence + Math.PI / 2, fence + 1 - 3 * TURN]) {
      const window = { from_rad, to_rad: from_rad + Math.PI };
      const strands = bandStrands(slot, line, { true_mm: 0.03, window });
      for (const { from_rad: from, to_rad: to } of strands.flat()) {
        expect(from).toBeGreaterThanOrEqual(window.from_rad - 1e-9);
        expect(to).toBeLessThanOrEqual(window.to_rad + 1e-9);
      }
      expect(Math.abs(area_mm2(strands) / exact - 1)).toBeLessThan(1e-3);
    }
  }
});

test('a kerf square across that is narrower than a row is not stepped over', () => {
  const square = fourRings({
    form: cylinderForm(203.2, RADIUS),
    sets: [slotSet({ angle_deg: 90, center_mm: 101.37, kerf_mm: 0.3, fence_azimuths_deg: [0] })],
  });
  const strands = bandStrands(slotsOf(square)[0], line, { true_mm: 0.1, step_mm: 1 });
  // All round, 0.3 mm high: the web, 38.1 − 2.54 from the axis, lies outside the radius of 30.
  expect(Math.abs(area_mm2(strands) / (0.3 * TURN * RADIUS) - 1)).toBeLessThan(0.04);
});

test('the outline of a strand goes up one edge and down the other', () => {
  const [strand] = bandStrands(slots[0], line, { true_mm: 0.03 });
  const outline = outlineOf(strand);
  expect(outline.length).toBe(2 * strand.length);
  expect(outline[0]).toEqual({
    ...outline[0],
    azimuth_rad: strand[0].from_rad,
    along_mm: strand[0].along_mm,
  });
  expect(outline[outline.length - 1].azimuth_rad).toBe(strand[0].to_rad);
  const heights = outline.map(({ along_mm }) => along_mm);
  const top = strand.length - 1;
  expect(heights.slice(0, top + 1)).toEqual(heights.slice(0, top + 1).toSorted((a, b) => a - b));
  expect(heights.slice(top + 1)).toEqual(heights.slice(top + 1).toSorted((a, b) => b - a));
});
