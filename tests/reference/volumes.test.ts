/**
 * Volumes and areas against published and closed-form solids: slabs and their overlaps, cylindrical wedges,
 * segments of cylinder and sphere, zones of the sphere. G numbers are those of the list of formulas; published
 * values are quoted with each check; "elementary" is school geometry.
 */
import { describe, expect, test } from 'vitest';
import { coverageOf } from '../../src/blank/coverage.ts';
import { sectionGeometry } from '../../src/blank/section.ts';
import { blockVolumes, turnedVolumes } from '../../src/blank/volumes.ts';
import type { Section } from '../../src/design/document.ts';
import { discPolygonArea } from '../../src/geometry/discPolygon.ts';
import { corners, cylinder, oneSlot, slotsLike, sphere, WIDE_SECTION } from './forms.ts';

const DEG = Math.PI / 180;
const SQUARE_60: Section = { shape: 'square', width_mm: 60 };

/** |value / expected − 1| below 1e-9, or as said. */
function expectRatio(value: number, expected: number, tolerance = 1e-9): void {
  expect(Math.abs(value / expected - 1), `${value} for ${expected}`).toBeLessThan(tolerance);
}

describe('an oblique slab (G8, Cavalieri: elementary)', () => {
  test.each([
    [30, 3, 45, 11995.78393],
    [25, 2.5, 30, 9817.477042],
  ])('through a cylinder r = %f, t = %f, θ = %f°: π r² t / sin θ', (r, kerf_mm, angle_deg, volume) => {
    const slots = oneSlot({ kerf_mm, angle_deg });
    const turned = turnedVolumes(slots, cylinder(203.2, r), WIDE_SECTION, 203.2);
    expectRatio(turned.strips_mm3[0], volume);
    expectRatio(turned.volume_mm3, Math.PI * r * r * 203.2);
    expectRatio(turned.body_mm3, Math.PI * r * r * 203.2 - volume);
    const round: Section = { shape: 'round', width_mm: 2 * r };
    const blank = blockVolumes(oneSlot({ kerf_mm, angle_deg }, round), sectionGeometry(round), 203.2);
    expectRatio(blank.strips_mm3[0], volume);
  });

  test('through a prism 60 × 60, t = 3.2, θ = 60°: 13302.1502', () => {
    const slots = oneSlot({ kerf_mm: 3.2, angle_deg: 60 }, SQUARE_60);
    const block = blockVolumes(slots, sectionGeometry(SQUARE_60), 203.2);
    expectRatio(block.strips_mm3[0], 13302.1502, 1e-8);
    expect(block.volume_mm3).toBe(60 * 60 * 203.2);
  });

  test.each(['hexagon', 'octagon'] as const)('through a %s: section area · t / sin θ', (shape) => {
    const section = sectionGeometry({ shape, width_mm: 60 });
    const slots = oneSlot({ kerf_mm: 3, angle_deg: 45 }, { shape, width_mm: 60 });
    // Regular polygon of n sides about a circle of radius 30: n 30² tan(π / n) (elementary).
    const n = shape === 'hexagon' ? 6 : 8;
    const area = n * 900 * Math.tan(Math.PI / n);
    expectRatio(blockVolumes(slots, section, 203.2).strips_mm3[0], (area * 3) / Math.sin(45 * DEG));
  });
});

describe('slabs that overlap: what the later cut takes from the earlier one', () => {
  // G17: t1 t2 w / sin 2θ; t = 3, w = 60.
  test.each([
    [45, 540],
    [30, 623.5382907],
    [60, 623.5382907],
  ])('two at ±%f°', (angle_deg, overlap) => {
    const slots = slotsLike([{ angle_deg, kerf_mm: 3, fence_azimuths_deg: [0, 180] }], SQUARE_60);
    const { strips_mm3, body_mm3, volume_mm3 } = blockVolumes(slots, sectionGeometry(SQUARE_60), 203.2);
    expectRatio(strips_mm3[1] - strips_mm3[0], overlap, 1e-8);
    expectRatio(volume_mm3 - body_mm3, strips_mm3[0] + strips_mm3[1]);
  });

  test('three at θ = 45°, azimuths 0/120/240, t = 3 (G18): the parallelepiped of all three, 29.3938769134', () => {
    const of = (azimuths: number[]) => {
      const slots = slotsLike([{ angle_deg: 45, kerf_mm: 3, fence_azimuths_deg: azimuths }], {
        shape: 'round',
        width_mm: 90,
      });
      const round = sectionGeometry({ shape: 'round', width_mm: 90 });
      const { volume_mm3, body_mm3 } = blockVolumes(slots, round, 203.2);
      return volume_mm3 - body_mm3;
    };
    // Inclusion and exclusion: |A∩B∩C| = |A∪B∪C| − Σ|A∪B| + Σ|A|.
    const pairs = of([0, 120]) + of([0, 240]) + of([120, 240]);
    const singles = of([0]) + of([120]) + of([240]);
    expect(of([0, 120, 240]) - pairs + singles).toBeCloseTo(29.3938769134, 3);
  });
});

describe('wedges of a cylinder standing on its foot', () => {
  /**
   * A kerf so wide that only its upper face is in the blank; it crosses the foot at u = r − b. A wedge tapers
   * to nothing across such a kerf, where the quadrature is at its worst: 2e-6 instead of 1e-9.
   */
  const wedge = (r: number, b: number, h: number) => {
    const angle = Math.atan2(b, h);
    const kerf_mm = 400;
    const slots = oneSlot({
      angle_deg: angle / DEG,
      kerf_mm,
      center_mm: -kerf_mm / 2 / Math.sin(angle) - (r - b) / Math.tan(angle),
    });
    return turnedVolumes(slots, cylinder(100, r), WIDE_SECTION, 100).strips_mm3[0];
  };
  test('hoof on half a circle, r = 3, h = 4: 2 r² h / 3 = 24 (http://www.vias.org/comp_geometry/geom_3d_cyl_wedge.html)', () => {
    expectRatio(wedge(3, 3, 4), 24, 2e-6);
  });
  // G11, http://mathworld.wolfram.com/CylindricalWedge.html: base depth b, height h.
  test.each([
    [3, 2, 4, 13.669474068],
    [30, 12, 20, 3283.02911396],
    [30, 45, 20, 20360.5992484],
  ])('wedge R = %f, b = %f, h = %f', (r, b, h, volume) => {
    expectRatio(wedge(r, b, h), volume, 2e-6);
  });
});

describe('stopped slots', () => {
  /** Segment of a circle beyond a chord at distance d: r² acos(d/r) − d √(r² − d²) (elementary). */
  const segment = (r: number, d: number) => r * r * Math.acos(d / r) - d * Math.sqrt(r * r - d * d);
  const section: Section = { shape: 'square', width_mm: 76.2 };

  test.each([
    [30, 20],
    [35, 4],
    [35, 38.1],
    [37, 60],
  ])('square across, r = %f, web %f: the kerf on a circle less its segment', (r, web_mm) => {
    const slots = oneSlot({ angle_deg: 90, kerf_mm: 2, web_mm }, section);
    const { strips_mm3 } = turnedVolumes(slots, cylinder(203.2, r), sectionGeometry(section), 203.2);
    expectRatio(strips_mm3[0], 2 * (Math.PI * r * r - segment(r, 38.1 - web_mm)));
  });

  test('slanted: kerf / sin θ on the same area, less and more by nothing (the stop is parallel to the axis)', () => {
    const slots = oneSlot({ angle_deg: 50, kerf_mm: 2, web_mm: 20 }, section);
    const { strips_mm3 } = turnedVolumes(slots, cylinder(203.2, 30), sectionGeometry(section), 203.2);
    const area = Math.PI * 900 - segment(30, 18.1);
    expectRatio(strips_mm3[0], (2 / Math.sin(50 * DEG)) * area);
  });

  test('what shows of it: the band of axial width k / sin θ but for the web’s arc', () => {
    const slots = oneSlot({ angle_deg: 50, kerf_mm: 2, web_mm: 20 }, section);
    const cover = coverageOf(slots, cylinder(203.2, 30));
    const turn = 2 * Math.PI - 2 * Math.acos(18.1 / 30);
    expectRatio(cover.strips_mm2[0], (2 / Math.sin(50 * DEG)) * 30 * turn);
    expectRatio(cover.outside_mm2, 2 * Math.PI * 30 * 203.2);
    expectRatio(cover.body_mm2, cover.outside_mm2 - cover.strips_mm2[0]);
  });
});

describe('hollow forms', () => {
  // A tube: outside 30, inside 25, with a floor of 20.
  const cup = corners([0, 0], [0, 30], [200, 30], [200, 25], [20, 25], [20, 0]);
  test('a slab through a tube: π (R² − r²) t / sin θ (elementary)', () => {
    const slots = oneSlot({ angle_deg: 45, kerf_mm: 3, center_mm: 110 });
    const { strips_mm3, volume_mm3 } = turnedVolumes(slots, cup, WIDE_SECTION, 200);
    expectRatio(strips_mm3[0], (Math.PI * (900 - 625) * 3) / Math.sin(45 * DEG));
    expectRatio(volume_mm3, Math.PI * (900 * 200 - 625 * 180));
  });
  test('a slab square across at the floor: half in the floor, half in the wall', () => {
    const slots = oneSlot({ angle_deg: 90, kerf_mm: 3, center_mm: 20 });
    const { strips_mm3 } = turnedVolumes(slots, cup, WIDE_SECTION, 200);
    expectRatio(strips_mm3[0], Math.PI * (900 * 1.5 + (900 - 625) * 1.5));
  });
  test('the outside alone is covered', () => {
    const slots = oneSlot({ angle_deg: 90, kerf_mm: 3, center_mm: 100 });
    const cover = coverageOf(slots, cup);
    expectRatio(cover.outside_mm2, 2 * Math.PI * 30 * 200);
    expectRatio(cover.strips_mm2[0], 2 * Math.PI * 30 * 3);
  });
});

describe('a sphere', () => {
  // 1500 pieces: the polyline’s area and volume fall short by less than 4e-6.
  const ball = sphere(40, 1500);
  // A slab from distance a to distance b of the centre, at any tilt: its zone 2π R (b − a) (Archimedes;
  // MathWorld "Zone", from memory), its volume π (R² (b − a) − (b³ − a³) / 3) (elementary).
  test.each([90, 66, 45, 30])('slab from 18.5 to 21.5 of the centre, θ = %f°', (angle_deg) => {
    const slots = oneSlot({ angle_deg, kerf_mm: 3, center_mm: 40 + 20 / Math.sin(angle_deg * DEG) });
    expectRatio(coverageOf(slots, ball).strips_mm2[0], 2 * Math.PI * 40 * 3, 4e-6);
    const volume = Math.PI * (1600 * 3 - (21.5 ** 3 - 18.5 ** 3) / 3);
    const { strips_mm3, volume_mm3 } = turnedVolumes(slots, ball, WIDE_SECTION, 80);
    expectRatio(strips_mm3[0], volume, 4e-6);
    expectRatio(volume_mm3, (4 / 3) * Math.PI * 40 ** 3, 4e-6);
  });

  test('a cap: a kerf that passes the pole', () => {
    const slots = oneSlot({ angle_deg: 66, kerf_mm: 10, center_mm: 40 + 38 / Math.sin(66 * DEG) });
    // From 33 to the pole at 40: zone 2π R h, cap π h² (3R − h) / 3 (elementary).
    expectRatio(coverageOf(slots, ball).strips_mm2[0], 2 * Math.PI * 40 * 7, 4e-6);
    const { strips_mm3 } = turnedVolumes(slots, ball, WIDE_SECTION, 80);
    expectRatio(strips_mm3[0], (Math.PI * 49 * (120 - 7)) / 3, 1e-5);
  });
});

describe('a form that reaches past its blank', () => {
  test('keeps the flats of the blank, and ends where the blank ends', () => {
    const section = sectionGeometry(SQUARE_60);
    const slots = oneSlot({ angle_deg: 45, kerf_mm: 3, center_mm: 100 }, SQUARE_60);
    // Square of 60 less four segments of the circle of radius 35 beyond its sides (elementary).
    const segment = 35 ** 2 * Math.acos(30 / 35) - 30 * Math.sqrt(35 ** 2 - 30 ** 2);
    const area = Math.PI * 35 ** 2 - 4 * segment;
    const turned = turnedVolumes(slots, cylinder(260, 35), section, 200);
    expectRatio(turned.volume_mm3, area * 200);
    expectRatio(turned.strips_mm3[0], (area * 3) / Math.sin(45 * DEG));
    // Wholly outside: the blank itself.
    const all = turnedVolumes(slots, cylinder(260, 43), section, 200);
    expectRatio(all.volume_mm3, 3600 * 200);
    expectRatio(all.strips_mm3[0], (3600 * 3) / Math.sin(45 * DEG));
    // The surface is the outline’s own all the same.
    expectRatio(coverageOf(slots, cylinder(260, 35)).outside_mm2, 2 * Math.PI * 35 * 260);
  });

  test('a cone out of a square blank: closed form by shells', () => {
    const section = sectionGeometry(SQUARE_60);
    // r falls from 60 to 0 over 120: V = ∫ area(disc r ∩ square) dz; the disc-square area from the same
    // segments as above, by 20000 midpoints.
    const cone = corners([0, 0], [0, 60], [120, 0]);
    let volume = 0;
    const n = 20000;
    for (let i = 0; i < n; i++) {
      const r = (60 * (i + 0.5)) / n;
      const beyond = r > 30 ? r * r * Math.acos(30 / r) - 30 * Math.sqrt(r * r - 900) : 0;
      volume += (r > 30 * Math.SQRT2 ? 3600 : Math.PI * r * r - 4 * beyond) * (120 / n);
    }
    expectRatio(turnedVolumes([], cone, section, 120).volume_mm3, volume, 1e-7);
  });
});

test('disc and square: corner cases of the closed form', () => {
  const square = [
    [1, -1],
    [1, 1],
    [-1, 1],
    [-1, -1],
  ] as const;
  expect(discPolygonArea(0.5, square)).toBeCloseTo(Math.PI / 4, 14);
  expect(discPolygonArea(1, square)).toBeCloseTo(Math.PI, 14);
  expect(discPolygonArea(2, square)).toBeCloseTo(4, 14);
  // Four segments beyond the sides: 4 (r² acos(1/r) − √(r² − 1)) (elementary).
  const beyond = 4 * (1.44 * Math.acos(1 / 1.2) - Math.sqrt(0.44));
  expect(discPolygonArea(1.2, square)).toBeCloseTo(Math.PI * 1.44 - beyond, 13);
});
