/** The section plane that the maker sets, against elementary geometry of a 76.2 × 76.2 × 203.2 mm block. */
import { expect, test } from 'vitest';
import { sectionOf } from '../../src/app/stageView.ts';
import { HOME_SECTION } from '../../src/app/store.ts';
import { fourRings } from '../fixtures/designs.ts';

const { blank } = fourRings();

test('off is no plane', () => {
  expect(sectionOf(HOME_SECTION, blank)).toBeNull();
});

test('along the axis it passes through it, across it through the middle of the length', () => {
  const along = sectionOf({ ...HOME_SECTION, on: true, azimuth_deg: 90 }, blank);
  expect(along?.normal).toEqual([0, 1, 0]);
  expect(along?.offset_mm).toBe(0);
  const across = sectionOf({ ...HOME_SECTION, on: true, tilt_deg: 90 }, blank);
  expect(across?.normal).toEqual([0, 0, 1]);
  expect(across?.offset_mm).toBeCloseTo(101.6, 10);
});

test('place 1 and −1 are where the plane leaves the wood', () => {
  const end = sectionOf({ on: true, tilt_deg: 90, azimuth_deg: 0, place: 1 }, blank);
  expect(end?.offset_mm).toBeCloseTo(203.2, 10);
  const face = sectionOf({ on: true, tilt_deg: 0, azimuth_deg: 0, place: -1 }, blank);
  expect(face?.offset_mm).toBeCloseTo(-38.1, 10);
  // At 45° the farthest corner lies at (h + L/2) / √2 from the middle along the normal.
  const tilted = sectionOf({ on: true, tilt_deg: 45, azimuth_deg: 0, place: 1 }, blank);
  expect(tilted?.offset_mm).toBeCloseTo(101.6 / Math.SQRT2 + (38.1 + 101.6) / Math.SQRT2, 10);
});
