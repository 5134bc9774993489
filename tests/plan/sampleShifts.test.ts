/** How far a sample is off, against the elementary geometry of planes on a cylinder and against measuring anew. */
import { describe, expect, test } from 'vitest';
import { crossingsOf } from '../../src/blank/crossings.ts';
import { ringPaths } from '../../src/blank/rings.ts';
import { slotsOf } from '../../src/blank/slots.ts';
import { DEG } from '../../src/geometry/angle.ts';
import { asBuiltSlots, sampleErrors } from '../../src/plan/asBuilt.ts';
import { measuredProfile } from '../../src/plan/measures.ts';
import { sampleShifts } from '../../src/plan/sampleShifts.ts';
import { toleranceOf } from '../../src/plan/tolerance.ts';
import { cylinderForm, fourRings, slotSet } from '../fixtures/designs.ts';

const RADIUS_MM = 30;

function sampled(design: ReturnType<typeof fourRings>, seed: number) {
  const slots = slotsOf(design);
  const profile = measuredProfile(cylinderForm(203.2, RADIUS_MM));
  const paths = slots.map((_, n) => ringPaths(slots, profile, n));
  const crossings = crossingsOf(slots, profile);
  return {
    slots,
    profile,
    crossings,
    shifts: sampleShifts(slots, paths, crossings, profile, design.saw, seed),
  };
}

const onCylinder = (saw: { angle_tolerance_deg: number; stop_tolerance_mm: number }, angle_deg = 60) =>
  fourRings({ set: { angle_deg }, form: cylinderForm(203.2, RADIUS_MM), saw });

describe.each([1, 2, 3])('try %i', (seed) => {
  test('stops alone move every ring by what the stop was off', () => {
    const { shifts } = sampled(onCylinder({ angle_tolerance_deg: 0, stop_tolerance_mm: 0.4 }), seed);
    for (const { shift_mm, error } of shifts.rings) {
      expect(Math.abs(error.angle_deg)).toBe(0);
      expect(shift_mm).toBeCloseTo(Math.abs(error.stop_mm), 6);
    }
  });

  test('angles alone: (h + r) (cot(θ + δ) − cot θ) on the entry side', () => {
    // The plane turns about its mark at u = h = 38.1; the ring is farthest from there at u = −r.
    const { shifts } = sampled(onCylinder({ angle_tolerance_deg: 0.5, stop_tolerance_mm: 0 }), seed);
    for (const { shift_mm, error, at } of shifts.rings) {
      const cot = (deg: number) => 1 / Math.tan(deg * DEG);
      const wanted = (38.1 + RADIUS_MM) * Math.abs(cot(60 + error.angle_deg) - cot(60));
      expect(shift_mm).toBeCloseTo(wanted, 4);
      expect(Math.hypot(at?.[0] ?? 0, at?.[1] ?? 0)).toBeCloseTo(RADIUS_MM, 2);
    }
  });

  test('no ring beyond its worst case, and the farthest is the farthest', () => {
    const design = onCylinder({ angle_tolerance_deg: 0.1, stop_tolerance_mm: 0.1 });
    const { shifts } = sampled(design, seed);
    const worst = toleranceOf({ ...design, form: cylinderForm(203.2, RADIUS_MM) });
    shifts.rings.forEach(({ shift_mm }, n) => {
      // The worst case is linear; the exact shift may pass it by second order only.
      expect(shift_mm).toBeLessThan(worst[n].worst_mm * 1.003);
      expect(shift_mm).toBeLessThanOrEqual(shifts.worstRing?.shift_mm ?? 0);
    });
  });

  test('the crossing that is farthest off is so when the piece is measured anew', () => {
    const design = onCylinder({ angle_tolerance_deg: 0.02, stop_tolerance_mm: 0.02 });
    const { slots, profile, crossings, shifts } = sampled(design, seed);
    const moved = crossingsOf(asBuiltSlots(slots, design.saw, seed), profile);
    const point = (c: (typeof crossings)[number]) => [
      c.radius_mm * Math.cos(c.azimuth_deg * DEG),
      c.radius_mm * Math.sin(c.azimuth_deg * DEG),
      c.z_mm,
    ];
    const offs = crossings.map((crossing) => {
      const from = point(crossing);
      return Math.min(
        ...moved
          .filter(({ under, over }) => under === crossing.under && over === crossing.over)
          .map((other) => Math.hypot(...point(other).map((value, k) => value - from[k]))),
      );
    });
    const farthest = Math.max(...offs);
    // First order against exact: 1 %.
    expect(shifts.worstCrossing?.shift_mm).toBeGreaterThan(0.99 * farthest);
    expect(shifts.worstCrossing?.shift_mm).toBeLessThan(1.01 * farthest);
  });
});

test('errors drawn larger: angle and mark on the fence face are ideal + k (sampled − ideal)', () => {
  const design = fourRings({
    sets: [
      slotSet({ angle_deg: 60 }),
      slotSet({ id: 'S2', angle_deg: 50, center_mm: 80, high_side: 'entry' }),
    ],
    saw: { angle_tolerance_deg: 0.3, stop_tolerance_mm: 0.3 },
  });
  const slots = slotsOf(design);
  // The mark: where the mid-plane meets the fence face, z = z₀ + σ h cot θ, h = 38.1.
  const mark = (slot: (typeof slots)[number]) =>
    slot.center_mm + (slot.slope * 38.1) / Math.tan(slot.angle_deg * DEG);
  const once = asBuiltSlots(slots, design.saw, 7);
  for (const times of [1, 5, 10])
    asBuiltSlots(slots, design.saw, 7, {}, times).forEach((slot, n) => {
      const angle = slots[n].angle_deg + times * (once[n].angle_deg - slots[n].angle_deg);
      expect(slot.angle_deg).toBeCloseTo(angle, 9);
      expect(mark(slot)).toBeCloseTo(mark(slots[n]) + times * (mark(once[n]) - mark(slots[n])), 9);
      expect(Math.abs(once[n].angle_deg - slots[n].angle_deg)).toBeGreaterThan(0);
    });
  // What is drawn larger is the error that was sampled.
  sampleErrors(slots.length, design.saw, 7).forEach(({ angle_deg, stop_mm }, n) => {
    expect(once[n].angle_deg - slots[n].angle_deg).toBeCloseTo(angle_deg, 9);
    expect(mark(once[n]) - mark(slots[n])).toBeCloseTo(stop_mm, 9);
  });
});
