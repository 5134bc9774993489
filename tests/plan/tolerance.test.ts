/** Tolerance against published worked examples; the source of each stands beside it. */
import { describe, expect, it } from 'vitest';
import {
  arcsineUncertainty,
  effectiveDegreesOfFreedom,
  rectangularUncertainty,
  rootSumSquare,
  triangularUncertainty,
  worstCase,
} from '../../src/plan/propagation.ts';
import {
  exactRingShift_mm,
  largestOutsideRadius_mm,
  offCentreShift_mm,
  ringShift_mm,
  toleranceOf,
} from '../../src/plan/tolerance.ts';
import { cylinderForm, fourRings, slotSet } from '../fixtures/designs.ts';

const equalWeight = (size: number) => ({ sensitivity: 1, size });

describe('worst case and root sum square', () => {
  // Worked example of a secondary page on RSS stack-ups (ph.creery.org, 2024-01-05, citing Drake,
  // Dimensioning and Tolerancing Handbook): it prints 0.45 and 0.27.
  it('0.20, 0.10, 0.15', () => {
    const stack = [0.2, 0.1, 0.15].map(equalWeight);
    expect(worstCase(stack)).toBeCloseTo(0.45, 12);
    expect(rootSumSquare(stack)).toBeCloseTo(0.26925824, 8);
  });

  it('ten of 0.1 (same page)', () => {
    const stack = Array.from({ length: 10 }, () => equalWeight(0.1));
    expect(worstCase(stack)).toBeCloseTo(1.0, 12);
    expect(rootSumSquare(stack)).toBeCloseTo(0.316228, 6);
  });

  it('a sensitivity counts with its size, not its sign', () => {
    const stack = [
      { sensitivity: -0.5, size: 0.4 },
      { sensitivity: 2, size: 0.05 },
    ];
    expect(worstCase(stack)).toBeCloseTo(0.3, 12);
    expect(rootSumSquare(stack)).toBeCloseTo(Math.sqrt(0.04 + 0.01), 12);
  });

  it('no source, no error', () => {
    expect(worstCase([])).toBe(0);
    expect(rootSumSquare([])).toBe(0);
    expect(effectiveDegreesOfFreedom([])).toBe(Infinity);
  });
});

describe('standard uncertainties of simple distributions', () => {
  // GUM 4.3.7, 4.3.9 (clause numbers from memory); values computed: 1/√3, 1/√6, 1/√2.
  it('rectangular, triangular, arcsine', () => {
    expect(rectangularUncertainty(1)).toBeCloseTo(0.577350269, 9);
    expect(triangularUncertainty(1)).toBeCloseTo(0.40824829, 9);
    expect(arcsineUncertainty(1)).toBeCloseTo(Math.SQRT1_2, 12);
  });
});

describe('GUM example H.1, end-gauge calibration', () => {
  // Inputs and results as in the GTC documentation (MSLNZ/GTC, docs/API/GUM_H1.rst and
  // test/test_uncertain_real_dof.py): u(d) 9.68194195 nm, u_c 31.66 nm, ν_eff 16.7521475.
  const difference = [
    { sensitivity: 1, size: 5.8, degreesOfFreedom: 24 },
    { sensitivity: 1, size: 3.9, degreesOfFreedom: 5 },
    { sensitivity: 1, size: 6.7, degreesOfFreedom: 8 },
  ];
  const standard_nm = 5e7;
  const expansion = 11.5e-6;
  const meanTemperature = -0.1;
  const sources = [
    { sensitivity: 1, size: 25, degreesOfFreedom: 18 },
    {
      sensitivity: 1,
      size: rootSumSquare(difference),
      degreesOfFreedom: effectiveDegreesOfFreedom(difference),
    },
    // l = l_s + d − l_s (δα θ + α_s δθ): neither α_s nor θ counts to first order, since δα and δθ are 0.
    { sensitivity: 0, size: rectangularUncertainty(2e-6) },
    { sensitivity: 0, size: Math.hypot(0.2, arcsineUncertainty(0.5)) },
    {
      sensitivity: -standard_nm * meanTemperature,
      size: rectangularUncertainty(1e-6),
      degreesOfFreedom: 50,
    },
    { sensitivity: -standard_nm * expansion, size: rectangularUncertainty(0.05), degreesOfFreedom: 2 },
  ];

  it('difference of the comparator', () => {
    expect(rootSumSquare(difference)).toBeCloseTo(9.68194195, 8);
  });

  it('combined standard uncertainty 31.66 nm', () => {
    expect(rootSumSquare(sources)).toBeCloseTo(31.6637674111, 9);
  });

  it('effective degrees of freedom 16.75', () => {
    expect(effectiveDegreesOfFreedom(sources)).toBeCloseTo(16.7521475, 6);
  });
});

describe('shift of a ring', () => {
  it('r 30, 45°, ¼°: 0.261799 linear, 0.262948 exact', () => {
    // Computed with 30-digit arithmetic in the project's list of check values.
    expect(ringShift_mm(30, 45, 0.25)).toBeCloseTo(0.261799, 6);
    expect(exactRingShift_mm(30, 45, 0.25)).toBeCloseTo(0.262948, 6);
  });

  it('a blank off centre by 0.5 mm: none at 90°, 0.5 at 45°, 0.866 at 30°', () => {
    expect(offCentreShift_mm(0.5, 90)).toBe(0);
    expect(offCentreShift_mm(0.5, 45)).toBe(0.5);
    expect(offCentreShift_mm(0.5, 30)).toBeCloseTo(0.8660254, 7);
  });

  it('pivots at the fence face: arm h + r', () => {
    // By hand: h 38.1, r 30, 45°: 68.1 · 0.1° · 2 = 0.237714…; stop 0.1.
    const design = { ...fourRings(), form: cylinderForm(203.2, 30) };
    const angle_mm = 68.1 * ((0.1 * Math.PI) / 180) * 2;
    const [first] = toleranceOf(design);
    expect(first.slot).toBe('S1.1');
    expect(first.worst_mm).toBeCloseTo(0.1 + angle_mm, 12);
    expect(first.rss_mm).toBeCloseTo(Math.sqrt(0.01 + angle_mm ** 2), 12);
  });

  it('at 90° an error of the angle still tilts the cut: (h + r) δθ', () => {
    const design = {
      ...fourRings({ sets: [slotSet({ angle_deg: 90 })] }),
      form: cylinderForm(203.2, 20),
    };
    expect(toleranceOf(design)[0].worst_mm).toBeCloseTo(0.1 + (58.1 * 0.1 * Math.PI) / 180, 12);
  });

  it('agrees with a pivoted plane drawn by hand', () => {
    // The plane through (fence face u = h, z = m) at θ and at θ + δ; heights at u = −r differ by the exact shift.
    const h = 38.1;
    const r = 30;
    for (const angle of [30, 45, 60, 80]) {
      const radians = (angle * Math.PI) / 180;
      const delta = (0.1 * Math.PI) / 180;
      const moved = (h + r) * (1 / Math.tan(radians - delta) - 1 / Math.tan(radians));
      expect(exactRingShift_mm(h + r, angle, 0.1)).toBeCloseTo(moved, 9);
      expect(ringShift_mm(h + r, angle, 0.1) / moved).toBeCloseTo(1, 2);
    }
  });

  it('takes the largest radius of the outside, not of the inside or of a smooth handle', () => {
    expect(largestOutsideRadius_mm(cylinderForm(100, 25))).toBe(25);
    // Corner to smooth apex to corner: symmetric, so the apex is the largest radius.
    const bulge = {
      outline: [
        { z_mm: 0, r_mm: 0 },
        { z_mm: 0, r_mm: 10 },
        { z_mm: 50, r_mm: 30, smooth: true },
        { z_mm: 100, r_mm: 10 },
        { z_mm: 100, r_mm: 0 },
      ],
    };
    expect(largestOutsideRadius_mm(bulge)).toBeCloseTo(30, 4);
  });
});
