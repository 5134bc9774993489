/**
 * What drilled holes take from the parts of a turned form: bores, crossing cylinders and holes through strips
 * in closed form, random ones against counted points. G numbers: published list of formulas.
 */
import { describe, expect, test } from 'vitest';
import { holeCylinder, type HoleCylinder } from '../../src/blank/holes.ts';
import { turnedVolumes } from '../../src/blank/volumes.ts';
import type { Form, Hole } from '../../src/design/document.ts';
import { seededRandom } from '../fixtures/random.ts';
import { corners, cylinder, oneSlot, slotsLike, WIDE_SECTION } from '../reference/forms.ts';
import { countFor, SEED } from '../soak/counts.ts';
import { randomPiece, volumesByPoints } from './awkwardPieces.ts';

const DEG = Math.PI / 180;
const CYLINDER: Form = {
  outline: [
    { z_mm: 0, r_mm: 0 },
    { z_mm: 0, r_mm: 30 },
    { z_mm: 200, r_mm: 30 },
    { z_mm: 200, r_mm: 0 },
  ],
};
const drilled = (...holes: Hole[]): HoleCylinder[] => holes.map((hole) => holeCylinder(hole, CYLINDER));
const volumesOf = (slots: ReturnType<typeof oneSlot>, holes: HoleCylinder[]) =>
  turnedVolumes(slots, cylinder(200, 30), WIDE_SECTION, 200, holes);

function expectRatio(value: number, expected: number, tolerance = 1e-9): void {
  expect(Math.abs(value / expected - 1), `${value} for ${expected}`).toBeLessThan(tolerance);
}

describe('bores', () => {
  const slots = oneSlot({ angle_deg: 45, kerf_mm: 3, center_mm: 100 });
  test('right through: a tube (elementary)', () => {
    const bored = volumesOf(slots, drilled({ from: 'head', diameter_mm: 20, depth_mm: null }));
    expectRatio(bored.volume_mm3, Math.PI * (900 - 100) * 200);
    expectRatio(bored.strips_mm3[0], (Math.PI * (900 - 100) * 3) / Math.sin(45 * DEG));
    expectRatio(bored.body_mm3, bored.volume_mm3 - bored.strips_mm3[0]);
  });
  test('of two that overlap the wider one counts', () => {
    const holes = drilled(
      { from: 'head', diameter_mm: 20, depth_mm: 150 },
      { from: 'foot', diameter_mm: 30, depth_mm: 80 },
    );
    // z 0–80: radius 15; 80–200: radius 10.
    expectRatio(volumesOf([], holes).volume_mm3, Math.PI * (900 * 200 - 225 * 80 - 100 * 120));
  });
  test('a square strip at the bottom of a blind bore', () => {
    const across = oneSlot({ angle_deg: 90, kerf_mm: 4, center_mm: 150 });
    const bored = volumesOf(across, drilled({ from: 'head', diameter_mm: 20, depth_mm: 50 }));
    expectRatio(bored.strips_mm3[0], Math.PI * (900 * 4 - 100 * 2));
  });
  test('wider than a form’s own hollow', () => {
    const cup = corners([0, 0], [0, 30], [200, 30], [200, 5], [100, 5], [100, 0]);
    const holes = drilled({ from: 'head', diameter_mm: 20, depth_mm: 150 });
    const { volume_mm3 } = turnedVolumes([], cup, WIDE_SECTION, 200, holes);
    expectRatio(volume_mm3, Math.PI * (900 * 200 - 100 * 150));
  });
});

describe('a hole square to the axis through a cylinder', () => {
  const through = (diameter_mm: number, azimuth_deg = 20): Hole => ({
    from: 'side',
    diameter_mm,
    depth_mm: null,
    azimuth_deg,
    z_mm: 100,
  });
  // G13: (8a/3)[(a² + b²) E(k) − (a² − b²) K(k)], k = b / a; a = 30, b = 10: 18583.987657.
  test('of radius 10 through one of 30', () => {
    const { volume_mm3 } = volumesOf([], drilled(through(20)));
    expectRatio(Math.PI * 900 * 200 - volume_mm3, 18583.987657, 1e-7);
  });
  // G12, https://mathworld.wolfram.com/SteinmetzSolid.html: 16 r³ / 3.
  test('of its own radius: two equal cylinders at right angles', () => {
    const { volume_mm3 } = volumesOf([], drilled(through(60)));
    expectRatio(Math.PI * 900 * 200 - volume_mm3, (16 * 27000) / 3, 1e-6);
  });
  test('from the wood it goes through', () => {
    // A square strip 4 thick at the hole's middle: what is within 2 of the hole's axis, 2 ∫ 2√(10² − w²) · 2√(30² − y²) dy dw.
    const across = oneSlot({ angle_deg: 90, kerf_mm: 4, center_mm: 100 });
    const bare = volumesOf(across, []);
    const bored = volumesOf(across, drilled(through(20)));
    let taken = 0;
    const n = 2000;
    for (let i = 0; i < n; i++) {
      const half = Math.sqrt(100 - (-2 + (4 * (i + 0.5)) / n) ** 2);
      // ∫ from −half to half of 2 √(900 − y²) dy (elementary).
      taken += (4 / n) * 2 * (half * Math.sqrt(900 - half * half) + 900 * Math.asin(half / 30));
    }
    expectRatio(bare.strips_mm3[0] - bored.strips_mm3[0], taken, 1e-6);
    expectRatio(bored.body_mm3 + bored.strips_mm3[0], bored.volume_mm3, 1e-12);
  });
  test('two that cross at right angles take their union', () => {
    // Equal radii 10: each 18583.987657, common 16 · 1000 / 3, all inside the cylinder.
    const { volume_mm3 } = volumesOf([], drilled(through(20), through(20, 110)));
    expectRatio(Math.PI * 900 * 200 - volume_mm3, 2 * 18583.987657 - 16000 / 3, 2e-4);
  });
});

test('holes along the axis but off it, blind, through slanted strips', () => {
  const slots = slotsLike([{ angle_deg: 50, kerf_mm: 3, center_mm: 100, fence_azimuths_deg: [0, 90] }]);
  const hole: Hole = { from: 'foot', diameter_mm: 12, depth_mm: 160, offset_mm: 18, azimuth_deg: 77 };
  const bare = volumesOf(slots, []);
  const bored = volumesOf(slots, drilled(hole));
  expectRatio(bare.volume_mm3 - bored.volume_mm3, Math.PI * 36 * 160, 1e-8);
  // The later strip: kerf / sin θ along the hole (G8). The hole is clear of the strips' crossing there.
  expectRatio(bare.strips_mm3[1] - bored.strips_mm3[1], (Math.PI * 36 * 3) / Math.sin(50 * DEG), 1e-7);
});

test('random pieces with random holes agree with counted points', () => {
  const rounds = countFor('volumes-holes', 8, 200);
  let worst = 0;
  for (let n = 0; n < rounds; n++) {
    const piece = randomPiece(SEED + n, { maxSlots: 5 });
    const random = seededRandom(SEED + n);
    const { length_mm, section } = piece.design.blank;
    const holes = Array.from({ length: random.whole(1, 3) }, () => {
      const hole: Hole = {
        from: random.pick(['head', 'foot', 'side'] as const),
        diameter_mm: random.between(0.05, 0.4) * section.width_mm,
        depth_mm: random.pick([null, random.between(5, length_mm)]),
        offset_mm: random.pick([0, random.between(0, 0.4) * section.width_mm]),
        azimuth_deg: random.between(0, 360),
      };
      const placed = hole.from === 'side' ? { ...hole, z_mm: random.between(0, length_mm) } : hole;
      return holeCylinder(placed, piece.design.form!, piece.profile);
    });
    const turned = turnedVolumes(piece.slots, piece.profile, piece.section, length_mm, holes);
    const parts = [...turned.strips_mm3, turned.body_mm3];
    const box = (2 * piece.section.circumscribedRadius_mm) ** 2 * length_mm;
    let off = Infinity;
    for (let points = 100_000; off > 6e-4 && points < 5e6; points *= 6) {
      const counted = volumesByPoints(piece, points, holes).turned;
      off = Math.max(...parts.map((volume, i) => Math.abs(volume - counted[i]) / box));
    }
    worst = Math.max(worst, off);
    expect(off, `randomPiece(${SEED + n})`).toBeLessThan(6e-4);
    expect(Math.abs(parts.reduce((a, b) => a + b) - turned.volume_mm3)).toBeLessThan(1e-9 * box);
  }
  console.log(`largest difference of a part’s volume: ${worst.toExponential(2)} of the box`);
});
