/** As-built samples: the sampler against published quantiles, crossings against closed forms and re-measuring. */
import { describe, expect, it } from 'vitest';
import { crossingsOf } from '../../src/blank/crossings.ts';
import { kerfDistance_mm, slotsOf } from '../../src/blank/slots.ts';
import { DEG } from '../../src/geometry/angle.ts';
import { asBuiltSlots, erredSlot, sampleErrors } from '../../src/plan/asBuilt.ts';
import { chanceBeyond, crossingSensitivities, sampleCrossingErrors } from '../../src/plan/crossingErrors.ts';
import { measuredProfile } from '../../src/plan/measures.ts';
import { seededSampler } from '../../src/plan/seeded.ts';
import { toleranceOf } from '../../src/plan/tolerance.ts';
import { cylinderForm, fourRings, slotSet } from '../fixtures/designs.ts';
import { SEED } from '../soak/counts.ts';

describe('the sampler', () => {
  it('four rectangular variables of unit variance: 95 % within ±3.8794', () => {
    // Exact Irwin–Hall value 2 √3 (2 − 0.6^¼) = 3.87940674 (JCGM 101, 9.2.3 prints 3.88, from memory); one
    // standard error of the quantile with 10⁶ draws is 0.0048.
    const sampler = seededSampler(1);
    const draws = Float64Array.from({ length: 1_000_000 }, () => {
      let sum = 0;
      for (let k = 0; k < 4; k++) sum += sampler.symmetric() * Math.sqrt(3);
      return sum;
    }).sort();
    expect(Math.abs(draws[25_000] + 3.87940674)).toBeLessThan(0.01);
    expect(Math.abs(draws[975_000] - 3.87940674)).toBeLessThan(0.01);
  });

  it('the same seed, the same numbers; another seed, others', () => {
    const first = Array.from({ length: 5 }, seededSampler(7).next);
    expect(Array.from({ length: 5 }, seededSampler(7).next)).toEqual(first);
    expect(Array.from({ length: 5 }, seededSampler(8).next)).not.toEqual(first);
    for (const value of first) expect(value >= 0 && value < 1).toBe(true);
  });
});

describe('a cut with an error', () => {
  const [slot] = slotsOf(fourRings({ set: { angle_deg: 60 } }));

  it('keeps its mark on the fence face when only the angle is off', () => {
    const erred = erredSlot(slot, { angle_deg: 0.5, stop_mm: 0 });
    // u = h on the fence face; the mid-plane of both passes the mark there: z₀ + h cot 60°.
    const mark = [38.1, 5, 101.6 + 38.1 / Math.sqrt(3)] as const;
    expect(kerfDistance_mm(slot, mark)).toBeCloseTo(0, 12);
    expect(kerfDistance_mm(erred, mark)).toBeCloseTo(0, 12);
    expect(erred.angle_deg).toBeCloseTo(60.5, 12);
  });

  it('moves along the axis when only the stop is off', () => {
    const erred = erredSlot(slot, { angle_deg: 0, stop_mm: 0.3 });
    expect(erred.center_mm - slot.center_mm).toBeCloseTo(0.3, 12);
    expect(erred.normal).toEqual(slot.normal);
  });

  it('past 90° leans the other way', () => {
    const [square] = slotsOf(fourRings({ set: { angle_deg: 90 } }));
    const erred = erredSlot(square, { angle_deg: 0.2, stop_mm: 0 });
    expect(erred.slope).toBe(-1);
    expect(erred.angle_deg).toBeCloseTo(89.8, 12);
    // The plane turns about its mark: at the entry face it is 2 h tan 0.2° nearer to the head.
    const entry = [-38.1, 0, 101.6 + 76.2 * Math.tan(0.2 * DEG)] as const;
    expect(kerfDistance_mm(erred, entry)).toBeCloseTo(0, 10);
  });

  it('stays within the tolerances, and rings stay within their worst case', () => {
    const design = { ...fourRings(), form: cylinderForm(203.2, 30) };
    const slots = slotsOf(design);
    const worst = toleranceOf(design);
    let largest = 0;
    for (let seed = 1; seed <= 500; seed++) {
      for (const error of sampleErrors(4, design.saw, seed)) {
        expect(Math.abs(error.angle_deg)).toBeLessThanOrEqual(0.1);
        expect(Math.abs(error.stop_mm)).toBeLessThanOrEqual(0.1);
      }
      asBuiltSlots(slots, design.saw, seed).forEach((built, n) => {
        // Height of the mid-plane at u = −r against the ideal one.
        const height = (s: typeof built) => s.center_mm - (s.slope * 30) / Math.tan(s.angle_deg * DEG);
        const shift = Math.abs(height(built) - height(slots[n]));
        largest = Math.max(largest, shift / worst[n].worst_mm);
      });
    }
    // The worst case is linear; the exact shift may pass it by second order only.
    expect(largest).toBeLessThan(1.003);
    expect(largest).toBeGreaterThan(0.9);
  });
});

/** Two cuts of opposite faces at 45° that cross on the axis, on a cylinder. */
function opposite(angle_tolerance_deg: number, stop_tolerance_mm: number) {
  const design = fourRings({
    sets: [slotSet({ fence_azimuths_deg: [0, 180] })],
    form: cylinderForm(203.2, 20),
    saw: { angle_tolerance_deg, stop_tolerance_mm },
  });
  const slots = slotsOf(design);
  const profile = measuredProfile(cylinderForm(203.2, 20));
  return { design, slots, profile, crossings: crossingsOf(slots, profile) };
}

describe('errors of crossings', () => {
  it('stops only: the chance beyond x is 1 − π x² / (2 T²)', () => {
    // Planes z = z₀ + u + a and z = z₀ − u + b meet at u = (b − a)/2, z = z₀ + (a + b)/2, where the cylinder is
    // level: |δp|² = (a² + b²)/2 with a, b uniform in ±T (elementary).
    const { design, slots, profile, crossings } = opposite(0, 0.2);
    expect(crossings.length).toBe(2);
    const errors = sampleCrossingErrors(slots, crossings, profile, design.saw, 20_000, SEED);
    for (const x of [0.04, 0.08, 0.12, 0.14])
      expect(Math.abs(chanceBeyond(errors, x) - (1 - (Math.PI * x * x) / (2 * 0.04)))).toBeLessThan(0.01);
    expect(chanceBeyond(errors, 0.2)).toBe(0);
    expect(chanceBeyond(errors, -1)).toBe(1);
    expect([errors.angleShare, errors.stopShare]).toEqual([0, 1]);
    expect(errors.slotShares[0]).toBeCloseTo(0.5, 12);
  });

  it('angle against stop: (h δθ / sin²θ)² to δz²', () => {
    // Both crossings lie at u = 0, an arm of h = 38.1 from the fence face: 38.1 · 0.1° · 2 = 0.13299 to 0.1.
    const { design, slots, profile, crossings } = opposite(0.1, 0.1);
    const errors = sampleCrossingErrors(slots, crossings, profile, design.saw, 10, SEED);
    const arm = 38.1 * 0.1 * DEG * 2;
    expect(errors.angleShare).toBeCloseTo(arm ** 2 / (arm ** 2 + 0.01), 9);
  });

  it('agrees with measuring the piece anew with small errors', () => {
    const saw = { angle_tolerance_deg: 1e-3, stop_tolerance_mm: 1e-3 };
    const design = fourRings({ sets: [slotSet({}), slotSet({ id: 'S2', angle_deg: 60, center_mm: 110 })] });
    const slots = slotsOf(design);
    const profile = design.form ? measuredProfile(design.form) : null;
    if (!profile) throw new Error('the design has a form');
    const crossings = crossingsOf(slots, profile);
    const sensitivities = crossingSensitivities(slots, crossings, profile);
    expect(sensitivities.length).toBeGreaterThan(20);
    const point = (c: (typeof crossings)[number]) => [
      c.radius_mm * Math.cos(c.azimuth_deg * DEG),
      c.radius_mm * Math.sin(c.azimuth_deg * DEG),
      c.z_mm,
    ];
    for (let seed = 1; seed <= 5; seed++) {
      const errors = sampleErrors(slots.length, saw, seed);
      const moved = crossingsOf(asBuiltSlots(slots, saw, seed), profile);
      for (const s of sensitivities) {
        const { crossing } = s;
        const [under, over] = [errors[crossing.under], errors[crossing.over]];
        const predicted = [0, 1, 2].map(
          (k) =>
            s.underAngle[k] * under.angle_deg +
            s.underStop[k] * under.stop_mm +
            s.overAngle[k] * over.angle_deg +
            s.overStop[k] * over.stop_mm,
        );
        const ideal = point(crossing);
        const found = moved
          .filter((c) => c.under === crossing.under && c.over === crossing.over)
          .map((c) => point(c).map((value, k) => value - ideal[k]))
          .sort((a, b) => Math.hypot(...a) - Math.hypot(...b))[0];
        // First order: what is left is of second order, and the facets of the polyline (fractions of a µm).
        const off = Math.hypot(...predicted.map((value, k) => value - found[k]));
        expect(off, `seed ${seed}`).toBeLessThan(0.05 * Math.hypot(...found) + 2e-5);
      }
    }
  });

  it('rings that only graze each other are told apart', () => {
    // At 60° and 59° from the same face with one centre the mid-planes part slowly: spans below 0.05.
    const design = fourRings({
      sets: [
        slotSet({ fence_azimuths_deg: [0], angle_deg: 60 }),
        slotSet({ id: 'S2', fence_azimuths_deg: [0], angle_deg: 59 }),
      ],
      form: cylinderForm(203.2, 20),
    });
    const slots = slotsOf(design);
    const profile = measuredProfile(cylinderForm(203.2, 20));
    const crossings = crossingsOf(slots, profile);
    const errors = sampleCrossingErrors(slots, crossings, profile, design.saw, 10, SEED);
    expect([errors.steady, errors.unsteady]).toEqual([0, 2]);
    expect(chanceBeyond(errors, 0)).toBe(0);
  });
});
