/** The section plane that the maker sets, against elementary geometry of a 76.2 × 76.2 × 203.2 mm block. */
import { expect, test } from 'vitest';
import { cutawayOf, sectionOf } from '../../src/app/stageView.ts';
import { HOME_SECTION } from '../../src/app/view.ts';
import { fourRings } from '../fixtures/designs.ts';

const { blank } = fourRings();

test('off is no plane', () => {
  expect(sectionOf(HOME_SECTION, blank)).toBeNull();
});

test('along the axis it passes through it, across it through the middle of the length', () => {
  const along = sectionOf({ ...HOME_SECTION, on: true, azimuth_deg: 90 }, blank);
  expect(along?.normal).toEqual([0, 1, 0]);
  expect(along?.offset_mm).toBe(0);
  const across = sectionOf({ ...HOME_SECTION, on: true, azimuth_deg: 0, tilt_deg: 90 }, blank);
  expect(across?.normal).toEqual([0, 0, 1]);
  expect(across?.offset_mm).toBeCloseTo(101.6, 10);
});

test('place 1 and −1 are where the plane leaves the wood', () => {
  const end = sectionOf({ ...HOME_SECTION, on: true, azimuth_deg: 0, tilt_deg: 90, place: 1 }, blank);
  expect(end?.offset_mm).toBeCloseTo(203.2, 10);
  const face = sectionOf({ ...HOME_SECTION, on: true, azimuth_deg: 0, place: -1 }, blank);
  expect(face?.offset_mm).toBeCloseTo(-38.1, 10);
  // At 45° the farthest corner lies at (h + L/2) / √2 from the middle along the normal.
  const tilted = sectionOf({ ...HOME_SECTION, on: true, azimuth_deg: 0, tilt_deg: 45, place: 1 }, blank);
  expect(tilted?.offset_mm).toBeCloseTo(101.6 / Math.SQRT2 + (38.1 + 101.6) / Math.SQRT2, 10);
});

test('the first plane takes away the wood on the side of the camera, which stands at azimuth −58° at first', () => {
  const first = sectionOf({ ...HOME_SECTION, on: true }, blank);
  const toward = [Math.cos((-58 * Math.PI) / 180), Math.sin((-58 * Math.PI) / 180)];
  const facing = (first?.normal[0] ?? 0) * toward[0] + (first?.normal[1] ?? 0) * toward[1];
  expect(facing).toBeGreaterThan(0.95);
});

test('a wedge opens about the axis, an octant stands where it is placed, and neither is a plane', () => {
  const wedge = { ...HOME_SECTION, on: true, kind: 'wedge', azimuth_deg: 30, opening_deg: 60 } as const;
  expect(sectionOf(wedge, blank)).toBeNull();
  expect(cutawayOf(wedge, blank)).toEqual({
    kind: 'wedge',
    at_mm: [0, 0, 101.6],
    azimuth_deg: 30,
    tilt_deg: 0,
    opening_deg: 60,
  });
  expect(cutawayOf({ ...wedge, kind: 'octant', place: 0.5 }, blank)?.at_mm[2]).toBeCloseTo(152.4, 10);
  expect(cutawayOf({ ...wedge, kind: 'plane' }, blank)).toBeNull();
});
