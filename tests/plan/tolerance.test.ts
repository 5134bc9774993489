/** Tolerance against published worked examples; the source of each stands beside it. */
import { describe, expect, it } from 'vitest';
import { rootSumSquare, worstCase } from '../../src/plan/propagation.ts';
import { largestOutsideRadius_mm, ringShift_mm, toleranceOf } from '../../src/plan/tolerance.ts';
import { setupsOf } from '../../src/plan/setups.ts';
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
  });
});

describe('GUM example H.1, end-gauge calibration', () => {
  // Inputs and results as in the GTC documentation (MSLNZ/GTC, docs/API/GUM_H1.rst and
  // test/test_uncertain_real_dof.py): u(d) 9.68194195 nm, u_c 31.66 nm.
  const difference = [5.8, 3.9, 6.7].map(equalWeight);
  const standard_nm = 5e7;
  const expansion = 11.5e-6;
  const meanTemperature = -0.1;
  const sources = [
    { sensitivity: 1, size: 25 },
    { sensitivity: 1, size: rootSumSquare(difference) },
    // l = l_s + d − l_s (δα θ + α_s δθ): neither α_s nor θ counts to first order, since δα and δθ are 0. The standard
    // uncertainty of a half-width is its 1/√3, of the amplitude of a swing its 1/√2 (clause numbers: 4.3.7, H.1.3.4, from memory).
    { sensitivity: 0, size: 2e-6 / Math.sqrt(3) },
    { sensitivity: 0, size: Math.hypot(0.2, 0.5 / Math.SQRT2) },
    { sensitivity: -standard_nm * meanTemperature, size: 1e-6 / Math.sqrt(3) },
    { sensitivity: -standard_nm * expansion, size: 0.05 / Math.sqrt(3) },
  ];

  it('difference of the comparator', () => {
    expect(rootSumSquare(difference)).toBeCloseTo(9.68194195, 8);
  });

  it('combined standard uncertainty 31.66 nm', () => {
    expect(rootSumSquare(sources)).toBeCloseTo(31.6637674111, 9);
  });
});

describe('shift of a ring', () => {
  it('r 30, 45°, ¼°: 0.261799', () => {
    // Computed with 30-digit arithmetic in the project's list of check values.
    expect(ringShift_mm(30, 45, 0.25)).toBeCloseTo(0.261799, 6);
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
    // The plane through (fence face u = h, z = m) at θ and at θ + δ: how far it moves at u = −r.
    const h = 38.1;
    const r = 30;
    for (const angle of [30, 45, 60, 80]) {
      const radians = (angle * Math.PI) / 180;
      const delta = (0.1 * Math.PI) / 180;
      const moved = (h + r) * (1 / Math.tan(radians - delta) - 1 / Math.tan(radians));
      expect(ringShift_mm(h + r, angle, 0.1) / moved).toBeCloseTo(1, 2);
    }
  });

  /**
   * With the table tilted, drawn by hand: the ledge stands d from the kerf on the table, the kerf's line rises from there by
   * cot θ. Both settings at their limits, each way, seen at both sides of the piece; formulas of a line in the plane.
   */
  it.each([
    ['fence', 'ahead', 40, 60],
    ['fence', 'ahead', 25, 170],
    ['entry', 'behind', 44, 150],
    ['entry', 'ahead', 30, 20],
  ] as const)(
    'high side %s, web %s, %d° at %d mm: the ledge and the tilt',
    (high_side, web_side, angle_deg, z) => {
      const h_mm = 38.1;
      const r_mm = 30;
      const design = {
        ...fourRings({
          sets: [
            slotSet({ cut: 'table', high_side, web_side, angle_deg, center_mm: z, fence_azimuths_deg: [0] }),
          ],
          length_mm: 203.2,
          saw: { angle_tolerance_deg: 0.05, stop_tolerance_mm: 0.2 },
        }),
        form: cylinderForm(203.2, r_mm),
      };
      const [setup] = setupsOf(design);
      if (setup.cut !== 'table') throw new Error('not cut on the table');
      const { ledge_to_kerf_center_mm: ledge_mm, end_down } = setup.table;
      const rise = high_side === 'fence' ? 1 : -1;
      const height_mm = (u_mm: number, tilt_deg: number, d_mm: number) =>
        (end_down === 'foot' ? 0 : 203.2) +
        (rise * (u_mm - (h_mm - d_mm))) / Math.tan((tilt_deg * Math.PI) / 180);
      expect(height_mm(0, angle_deg, ledge_mm ?? NaN)).toBeCloseTo(z, 9);
      const shifts = [-1, 1].map((side) => {
        const off = (tilt: number, ledge: number) =>
          Math.abs(
            height_mm(side * r_mm, angle_deg + tilt, (ledge_mm ?? NaN) + ledge) -
              height_mm(side * r_mm, angle_deg, ledge_mm ?? NaN),
          );
        const both = [-1, 1].flatMap((a) => [-1, 1].map((b) => off(0.05 * a, 0.2 * b)));
        return { worst: Math.max(...both), rss: Math.hypot(off(0.05, 0), off(0, 0.2)) };
      });
      const [{ worst_mm, rss_mm }] = toleranceOf(design);
      expect(worst_mm / Math.max(...shifts.map(({ worst }) => worst))).toBeCloseTo(1, 2);
      expect(rss_mm / Math.max(...shifts.map(({ rss }) => rss))).toBeCloseTo(1, 2);
    },
  );

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
