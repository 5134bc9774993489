/**
 * Rings against published and closed-form curves: plane sections of cylinder, cone and sphere. Published
 * values come from the list of formulas G1–G23, quoted with each check; "elementary" is school geometry.
 */
import { describe, expect, test } from 'vitest';
import { slotArcsAt } from '../../src/blank/arcs.ts';
import { materialArcsAt } from '../blank/pointwise.ts';
import { ringPaths, ringsOf, type Ring } from '../../src/blank/rings.ts';
import type { Slot } from '../../src/blank/slots.ts';
import { corners, cylinder, oneSlot, slotsLike, sphere } from './forms.ts';

const DEG = Math.PI / 180;
const only = (rings: Ring[]): Ring => rings[0];

/** Perimeter by the arithmetic-geometric mean (G5; DLMF §19.8(i), from memory). */
function ellipsePerimeter(a: number, b: number): number {
  let [x, y] = [a, b];
  let sum = (a * a - b * b) / 2;
  for (let n = 0; n < 40 && x !== y; n++) {
    const c = (x - y) / 2;
    [x, y] = [(x + y) / 2, Math.sqrt(x * y)];
    sum += 2 ** n * c * c;
    if (Math.abs(c) < 1e-17 * x) break;
  }
  return (2 * Math.PI * (a * a - sum)) / x;
}

test('the perimeter used below is the published one', () => {
  // https://en.wikipedia.org/wiki/Perimeter_of_an_ellipse: P = 4a E(m); a = 2, b = 1.
  expect(ellipsePerimeter(2, 1)).toBeCloseTo(9.68844822054768, 12);
});

describe('a cylinder cut by a plane: an ellipse (G1, MathWorld "Cylindric Section", from memory)', () => {
  // r, θ, semi-major axis r / sin θ, r cot θ, perimeter 4a E(m) (G1, G2, G4), 30-digit arithmetic.
  const published = [
    [25, 30, 50, 43.30127019, 242.2112055137],
    [30, 45, 42.42640687, 30, 229.2118673417],
    [40, 60, 46.18802154, 23.09401077, 271.1167045081],
    [50, 75, 51.76380902, 13.39745962, 319.7244456848],
    [25, 90, 25, 0, 157.0796326795],
  ] as const;
  test.each(published)('r = %f, θ = %f°', (r, angle_deg, semiMajor, rise, perimeter) => {
    const slots = oneSlot({ angle_deg });
    const ring = only(ringsOf(slots, cylinder(203.2, r)));
    expect(ring.length_mm).toBeCloseTo(perimeter, 8);
    expect(ring.span_mm).toBeCloseTo(2 * rise, 7);
    expect(ring.zLow_mm).toBeCloseTo(101.6 - rise, 7);
    expect(ring.zHigh_mm).toBeCloseTo(101.6 + rise, 7);
    expect(Math.hypot(ring.span_mm! / 2, r)).toBeCloseTo(semiMajor, 7);
    expect(ring).toMatchObject({ closed: true, whole: true, unbroken: true, missing_mm: 0, hidden_mm: 0 });
  });

  test.each([1, 2, 5, 12.34, 88, 89.9, 89.9999])('steep and flat planes: θ = %f°', (angle_deg) => {
    const r = 10;
    const length_mm = 2400;
    const ring = only(ringsOf(oneSlot({ angle_deg, center_mm: 1200 }), cylinder(length_mm, r)));
    const perimeter = ellipsePerimeter(r / Math.sin(angle_deg * DEG), r);
    expect(Math.abs(ring.length_mm / perimeter - 1)).toBeLessThan(1e-9);
    expect(ring.whole).toBe(true);
  });

  test('the cylinder in 300 pieces is the same cylinder', () => {
    const pieces = Array.from({ length: 301 }, (_, i) => [(203.2 * i) / 300, 30] as const);
    const ring = only(ringsOf(oneSlot({ angle_deg: 45 }), corners([0, 0], ...pieces, [203.2, 0])));
    expect(ring.length_mm).toBeCloseTo(229.2118673417, 8);
    expect(ring.closed).toBe(true);
  });

  test('unrolled: z = z0 + r cot θ cos(φ − φ0) (G2), the high side toward the fence or the entry', () => {
    for (const [high_side, sign] of [
      ['fence', 1],
      ['entry', -1],
    ] as const) {
      const azimuth = 37;
      const slots = slotsLike([{ angle_deg: 60, fence_azimuths_deg: [azimuth], high_side }]);
      const paths = ringPaths(slots, cylinder(203.2, 40), 0);
      const points = paths.flatMap((path) => Array.from(path.z_mm, (z, k) => [path.azimuth_rad[k], z]));
      expect(points.length).toBeGreaterThan(100);
      for (const [phi, z] of points) {
        // r cot θ = 23.09401077 for r = 40, θ = 60°.
        const expected = 101.6 + sign * 23.09401077 * Math.cos(phi - azimuth * DEG);
        expect(Math.abs(z - expected)).toBeLessThan(1e-8);
      }
    }
  });
});

describe('width of the band', () => {
  /** Heights between which the slot holds the point at azimuth φ of the cylinder, by bisection on its arcs. */
  function edges(slot: Slot, r: number, phi: number, middle: number): [number, number] {
    const holds = (z: number) =>
      slotArcsAt(slot, z, r).some(({ from_rad, to_rad }) => {
        const turned = phi < from_rad ? phi + 2 * Math.PI : phi;
        return turned >= from_rad && turned <= to_rad;
      });
    const edge = (outward: number) => {
      let inside = middle;
      let outside = middle + outward * 40;
      for (let k = 0; k < 60; k++) {
        const half = (inside + outside) / 2;
        if (holds(half)) inside = half;
        else outside = half;
      }
      return inside;
    };
    return [edge(-1), edge(1)];
  }

  // G9: along the axis t / sin θ at every azimuth; t = 3.
  test.each([
    [30, 6.0],
    [45, 4.242640687],
    [60, 3.464101615],
    [75, 3.105828541],
  ])('along the axis, θ = %f°', (angle_deg, width) => {
    const [slot] = oneSlot({ angle_deg, kerf_mm: 3 });
    for (const phi_deg of [0.5, 30, 45, 90, 137, 180, 301]) {
      const middle = 101.6 + (30 / Math.tan(angle_deg * DEG)) * Math.cos(phi_deg * DEG);
      const [low, high] = edges(slot, 30, phi_deg * DEG, middle);
      expect(high - low).toBeCloseTo(width, 8);
    }
  });

  // G9: square to the ring (t / sin θ) / √(1 + cot²θ sin²φ); t = 3, θ = 45°.
  test.each([
    [0, 4.242640687],
    [30, 3.794733192],
    [45, 3.464101615],
    [60, 3.207134903],
    [90, 3.0],
  ])('square to the ring at φ = %f°', (phi_deg, width) => {
    const r = 30;
    const [slot] = oneSlot({ angle_deg: 45, kerf_mm: 3 });
    const at = (phi: number) =>
      edges(slot, r, (phi + 2 * Math.PI) % (2 * Math.PI), 101.6 + r * Math.cos(phi));
    const step = 1e-4;
    const [low, high] = at(phi_deg * DEG);
    const rise = (at(phi_deg * DEG + step)[1] - at(phi_deg * DEG - step)[1]) / (2 * step * r);
    expect((high - low) / Math.hypot(1, rise)).toBeCloseTo(width, 6);
  });
});

describe('the gap of the web', () => {
  test('on a cylinder an arc of half-angle acos((h − w) / r) about the fence (elementary)', () => {
    const h = 38.1;
    for (const [r, web_mm] of [
      [37, 2.54],
      [30, 20],
      [38, 38.1],
      [20, 50],
    ] as const) {
      const slots = oneSlot({ angle_deg: 90, web_mm }, { shape: 'square', width_mm: 76.2 });
      const half = Math.acos((h - web_mm) / r);
      const ring = only(ringsOf(slots, cylinder(203.2, r)));
      // Square across, the ring is a circle and the gap 2 r times the half-angle.
      expect(ring.missing_mm).toBeCloseTo(2 * r * half, 8);
      expect(ring.length_mm).toBeCloseTo(2 * Math.PI * r, 8);
      expect(ring).toMatchObject({ closed: true, whole: false, unbroken: false });
      const [arc, ...others] = slotArcsAt(slots[0], 101.6, r);
      expect(others).toEqual([]);
      expect(arc.from_rad).toBeCloseTo(half, 9);
      expect(arc.to_rad).toBeCloseTo(2 * Math.PI - half, 9);
      expect(materialArcsAt(slots, 101.6, r).map(({ material }) => material)).toEqual([-1, 0, -1]);
    }
  });

  test('a stop at (h − w) = r only touches the ring: it is whole', () => {
    const slots = slotsLike([{ web_mm: 2.54 }], { shape: 'square', width_mm: 76.2 });
    for (const ring of ringsOf(slots, cylinder(203.2, 38.1 - 2.54))) expect(ring.whole).toBe(true);
    for (const ring of ringsOf(slots, cylinder(203.2, 38.1 - 2.53))) expect(ring.whole).toBe(false);
  });

  test('of a slanted ring the gap is the ellipse over that arc, between the closed forms of chord and arc', () => {
    const slots = oneSlot({ angle_deg: 45, web_mm: 2.54 }, { shape: 'square', width_mm: 76.2 });
    const ring = only(ringsOf(slots, cylinder(203.2, 37)));
    const half = Math.acos((38.1 - 2.54) / 37);
    // ds² = r² (1 + cot²θ sin²φ) dφ², so the gap is longer than the arc and shorter than at φ = half throughout.
    const arc = 2 * 37 * half;
    expect(ring.missing_mm).toBeGreaterThan(arc);
    expect(ring.missing_mm).toBeLessThan(arc * Math.hypot(1, Math.sin(half)));
    // Series of ∫ √(1 + sin²φ): φ + φ³/6 − 7φ⁵/120 + … (elementary).
    const series = half + half ** 3 / 6 - (7 * half ** 5) / 120;
    expect(ring.missing_mm).toBeCloseTo(2 * 37 * series, 3);
  });
});

describe('a sphere cut by a plane at distance d: a circle of radius √(R² − d²) (G19, MathWorld "Spherical Section", from memory)', () => {
  // The polyline of 2500 pieces lies within R (π/2500)² / 8 = 8e-6 of the sphere.
  const ball = sphere(40, 2500);
  test.each([90, 75, 60, 45, 30, 12])('R = 40, d = 20, θ = %f°: length 2π · 34.64101615', (angle_deg) => {
    const center_mm = 40 + 20 / Math.sin(angle_deg * DEG);
    const ring = only(ringsOf(oneSlot({ angle_deg, center_mm }), ball));
    expect(Math.abs(ring.length_mm - 2 * Math.PI * 34.6410161514)).toBeLessThan(6e-5);
    expect(ring.span_mm).toBeCloseTo(2 * 34.6410161514 * Math.cos(angle_deg * DEG), 4);
    expect(ring.whole).toBe(true);
  });

  test('a plane through the centre, and so steep that it passes both poles closely', () => {
    for (const angle_deg of [90, 45, 3, 0.5]) {
      const ring = only(ringsOf(oneSlot({ angle_deg, center_mm: 40 }), ball));
      expect(Math.abs(ring.length_mm - 2 * Math.PI * 40)).toBeLessThan(6e-5);
    }
  });

  test('a plane that misses leaves no ring', () => {
    const ring = only(ringsOf(oneSlot({ angle_deg: 90, center_mm: 80.001 }), ball));
    expect(ring).toMatchObject({
      zLow_mm: null,
      zHigh_mm: null,
      span_mm: null,
      length_mm: 0,
      missing_mm: 0,
      hidden_mm: 0,
      closed: false,
      whole: false,
      unbroken: false,
      runsOff: [],
    });
  });
});

describe('a cone of half-angle α cut at θ: eccentricity cos θ / cos α (G20, MathWorld "Conic Section", from memory)', () => {
  const alpha = 15 * DEG;
  // Apex at the head, z = 300.
  const cone = corners([0, 0], [0, 300 * Math.tan(alpha)], [300, 0]);
  test.each([
    [60, 0.517638090205],
    [75, Math.cos(75 * DEG) / Math.cos(alpha)],
    [30, Math.cos(30 * DEG) / Math.cos(alpha)],
  ])('θ = %f°', (angle_deg, eccentricity) => {
    const ring = only(ringsOf(oneSlot({ angle_deg, center_mm: 180 }), cone));
    const major = ring.span_mm! / 2 / Math.cos(angle_deg * DEG);
    // Distances from the apex of the two ends of the major axis (law of sines, elementary).
    const fromApex = (ring_z: number) => 300 - ring_z;
    const theta = angle_deg * DEG;
    const near = (120 * Math.sin(theta) * Math.cos(alpha)) / Math.sin(theta + alpha);
    const far = (120 * Math.sin(theta) * Math.cos(alpha)) / Math.sin(theta - alpha);
    expect(fromApex(ring.zHigh_mm!)).toBeCloseTo(near, 7);
    expect(fromApex(ring.zLow_mm!)).toBeCloseTo(far, 7);
    const minor = major * Math.sqrt(1 - eccentricity ** 2);
    expect(ring.length_mm).toBeCloseTo(ellipsePerimeter(major, minor), 7);
  });

  test('θ = α is a parabola that runs off at the foot', () => {
    const [ring] = ringsOf(oneSlot({ angle_deg: 15, center_mm: 280 }), cone);
    expect(ring).toMatchObject({ closed: false, whole: false, runsOff: ['foot'] });
    // Apex at 20 above the crossing of plane and axis. In the plane, s up the slope from there, the cone is
    // v² = (20 − s cos α)² tan²α − (s sin α)² = (20 tan α)² − 40 tan α sin α s: v² = 4 p (vertex − s).
    const p = 10 * Math.tan(alpha) * Math.sin(alpha);
    const vertex = 10 / Math.cos(alpha);
    const reach = vertex + 280 / Math.cos(alpha);
    // Arc of a parabola from its vertex: √(s² + p s) + p asinh √(s / p) (elementary), on either side.
    const half = Math.sqrt(reach * reach + p * reach) + p * Math.asinh(Math.sqrt(reach / p));
    expect(Math.abs(ring.length_mm / (2 * half) - 1)).toBeLessThan(1e-9);
    expect(ring.zHigh_mm).toBeCloseTo(280 + vertex * Math.cos(alpha), 8);
  });

  test('through the apex, flatter than the cone: two generators', () => {
    const [ring] = ringsOf(oneSlot({ angle_deg: 5, center_mm: 300 }), cone);
    expect(ring.length_mm).toBeCloseTo((2 * 300) / Math.cos(alpha), 8);
    expect(ring).toMatchObject({ closed: false, runsOff: ['foot'], zLow_mm: 0, zHigh_mm: 300 });
    // Steeper than the cone the plane holds the apex alone.
    expect(only(ringsOf(oneSlot({ angle_deg: 45, center_mm: 300 }), cone)).length_mm).toBe(0);
  });
});

describe('flat shoulders: the centreline is a chord (elementary)', () => {
  // Radius 20 up to z = 100, then 35.
  const stepped = corners([0, 0], [0, 20], [100, 20], [100, 35], [200, 35], [200, 0]);
  test('chords across the shoulder join the ellipses below and above', () => {
    const [ring] = ringsOf(oneSlot({ angle_deg: 45, center_mm: 90 }), stepped);
    // At z = 100 the plane stands at u = 10 from the axis: two chords from r = 20 to r = 35.
    const chords = 2 * (Math.sqrt(35 ** 2 - 10 ** 2) - Math.sqrt(20 ** 2 - 10 ** 2));
    const arc = (r: number, from: number, to: number) => {
      let sum = 0;
      const n = 20000;
      for (let i = 0; i < n; i++)
        sum += Math.hypot(r, r * Math.sin(from + ((i + 0.5) / n) * (to - from))) * ((to - from) / n);
      return sum;
    };
    const lower = 2 * arc(20, Math.acos(10 / 20), Math.PI);
    const upper = 2 * arc(35, 0, Math.acos(10 / 35));
    expect(ring.length_mm).toBeCloseTo(chords + lower + upper, 5);
    expect(ring).toMatchObject({ closed: true, whole: true });
    expect(ring.zLow_mm).toBeCloseTo(70, 9);
    expect(ring.zHigh_mm).toBeCloseTo(125, 9);
  });

  test('a chord through the axis is two radii', () => {
    const [ring] = ringsOf(oneSlot({ angle_deg: 45, center_mm: 100 }), stepped);
    const half = (r: number) => ellipsePerimeter(r * Math.SQRT2, r) / 2;
    expect(ring.length_mm).toBeCloseTo(2 * (35 - 20) + half(20) + half(35), 8);
  });

  test('a circle at the height of a joint is counted once', () => {
    const [ring] = ringsOf(oneSlot({ angle_deg: 90, center_mm: 100 }), stepped);
    expect(ring.length_mm).toBeCloseTo(2 * Math.PI * 35, 9);
    const bent = corners([0, 0], [0, 20], [100, 30], [200, 20], [200, 0]);
    expect(only(ringsOf(oneSlot({ angle_deg: 90, center_mm: 100 }), bent)).length_mm).toBeCloseTo(
      2 * Math.PI * 30,
      9,
    );
  });
});
