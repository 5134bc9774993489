/**
 * Accuracy in words: chances, what half of the pieces stay within, what matters most. The chance is checked on two
 * crossings that depend on a stop alone, where it is known in closed form: an error alike within ± T is beyond x with the chance
 * 1 − x / T, the larger of two independent ones with 1 − (x / T)² (elementary).
 */
import { describe, expect, it } from 'vitest';
import {
  accuracyOf,
  careText,
  chanceText,
  mattersMost,
  offCentreText,
  ringGroups,
  within_mm,
} from '../../src/plan/accuracy.ts';
import { chanceBeyond } from '../../src/plan/crossingErrors.ts';
import { measuresOf } from '../../src/plan/measures.ts';
import { readChoices, usualChoices } from '../../src/plan/makersChoices.ts';
import { cylinderForm, fourRings, slotSet } from '../fixtures/designs.ts';

const of = (design: ReturnType<typeof fourRings>) => accuracyOf(design, measuresOf(design));

describe('accuracy of a design', () => {
  it('is none for a blank left square, and has no crossings where no rings cross', () => {
    expect(of(fourRings({ form: null }))).toBeNull();
    const apart = fourRings({ sets: [slotSet({ fence_azimuths_deg: [0] })], form: cylinderForm(203.2, 30) });
    expect(of(apart)?.crossings).toBeNull();
    expect(of(apart)?.rings.length).toBe(1);
  });

  it('tries 2,000 pieces, the same ones every time', () => {
    const [a, b] = [of(fourRings()), of(fourRings())];
    expect(a?.crossings?.largest_mm.length).toBe(2000);
    expect(a).toEqual(b);
  });

  it('the stop alone: chance and quantiles as worked out by hand', () => {
    // Two opposite cuts at 45° from A and C cross on the sides of the cylinder, where u = 0 for both. The planes are
    // z = z₀ ± u: with errors of the marks a and b they meet at u = (b − a) / 2, z = z₀ + (a + b) / 2. On the cylinder,
    // there upright along y, the crossing moves by √((a − b)² + (a + b)²) / 2 = √((a² + b²) / 2), at both sides alike.
    // With a and b alike within ± T, the chance that it is beyond x ≤ T / √2 is 1 − π x² / (2 T²): a disc in a square.
    const T = 0.5;
    const design = fourRings({
      sets: [slotSet({ fence_azimuths_deg: [0, 180], angle_deg: 45 })],
      form: cylinderForm(203.2, 30),
      saw: { angle_tolerance_deg: 0, stop_tolerance_mm: T },
    });
    const errors = of(design)!.crossings!;
    expect(errors.steady).toBe(2);
    for (const x of [0.1, 0.2, 0.3, 0.35]) {
      const chance = 1 - (Math.PI * x * x) / (2 * T * T);
      // Two standard errors and a half of 2,000 tries at most: 0.028.
      expect(Math.abs(chanceBeyond(errors, x) - chance), `${x}`).toBeLessThan(0.028);
    }
    // Half of the pieces: π x² / (2 T²) = ½ at x = T / √π = 0.282.
    expect(within_mm(errors, 0.5)).toBeCloseTo(T / Math.sqrt(Math.PI), 1);
    expect(mattersMost(errors, design.order)).toEqual({ setting: 'stop', share: 1, cuts: [] });
    expect(careText(errors, design.order)).toContain('the stop: 100 %');
  });

  it('a cut with a longer arm stands out', () => {
    // At 30° the angle's error is 1 / sin² 30° = 4 times as large along the axis as at 90°.
    const design = fourRings({
      sets: [
        slotSet({ fence_azimuths_deg: [0], angle_deg: 80 }),
        slotSet({ id: 'S2', fence_azimuths_deg: [90], angle_deg: 30 }),
      ],
      form: cylinderForm(203.2, 30),
      saw: { angle_tolerance_deg: 0.5, stop_tolerance_mm: 0.01 },
    });
    const care = mattersMost(of(design)!.crossings!, design.order)!;
    expect(care.setting).toBe('angle');
    expect(care.cuts.map(({ slot }) => slot)).toEqual(['S2.1']);
  });
});

it('a chance is told no finer than the tries can tell', () => {
  expect([0, 0.0005, 0.124, 0.995, 1].map((chance) => chanceText(chance, 2000))).toEqual([
    'none of 2,000',
    'under 1 %',
    '12 %',
    'over 99 %',
    'all of 2,000',
  ]);
});

it('rings of equal tolerance are listed together, the farthest off first', () => {
  expect(
    ringGroups([
      { slot: 'S1.1', worst_mm: 0.2, rss_mm: 0.1 },
      { slot: 'S2.1', worst_mm: 0.4, rss_mm: 0.3 },
      { slot: 'S1.2', worst_mm: 0.2, rss_mm: 0.1 },
    ]).map(({ slots }) => slots),
  ).toEqual([['S2.1'], ['S1.1', 'S1.2']]);
});

describe('what the maker asks', () => {
  it('is as usual in round numbers of the unit until it is asked', () => {
    expect(readChoices(null, 'in').offBy_mm / 25.4).toBeCloseTo(0.02, 12);
    expect(readChoices(null, 'mm').offBy_mm).toBe(0.5);
    expect(readChoices('{', 'mm')).toEqual(usualChoices('mm'));
  });

  it('keeps what makes sense of a stored text', () => {
    const stored = JSON.stringify({ offBy_mm: 0.3, dry_pct: -4, damp_pct: 'wet', board: { width_mm: 80 } });
    expect(readChoices(stored, 'mm')).toEqual({
      ...usualChoices('mm'),
      offBy_mm: 0.3,
      board: { ...usualChoices('mm').board, width_mm: 80 },
    });
    for (const text of ['null', '3', '[]', '{"board":7}'])
      expect(readChoices(text, 'in'), text).toEqual(usualChoices('in'));
  });
});

/** A plane at θ to the axis, moved sideways by e, meets the axis e cot θ away: 0.5774 at 60°, 1.7321 at 30°, 0 at 90° (trigonometric tables). */
describe('off centre in the lathe', () => {
  it.each([
    [[60], '58 %'],
    [[30, 60], '173 %'],
    [[90], '0 %'],
  ] as const)('at %j rings shift by up to %s of it', (angles, share) => {
    const sets = angles.map((angle_deg, i) => slotSet({ id: `S${i + 1}`, angle_deg }));
    expect(offCentreText(sets)).toContain(`by up to ${share} of it`);
  });
});
