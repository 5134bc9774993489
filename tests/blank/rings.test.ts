/**
 * Rings of random pieces against the one rule materialAt, point by point along their centrelines; what makes a
 * ring whole; what rings must not depend on. Closed forms: tests/reference/.
 */
import { describe, expect, test } from 'vitest';
import { materialAt } from '../../src/blank/material.ts';
import { ringPaths, ringsOf, type Ring, type RingPath } from '../../src/blank/rings.ts';
import { kerfDistance_mm, slotsOf, type Slot } from '../../src/blank/slots.ts';
import { dot, type Vec3 } from '../../src/geometry/vector.ts';
import { corners, cylinder, oneSlot, slotsLike } from '../reference/forms.ts';
import { countFor, SEED } from '../soak/counts.ts';
import { quarterTurned, randomPiece } from './awkwardPieces.ts';

function pointsOf(path: RingPath): Vec3[] {
  return Array.from(path.z_mm, (z, k) => [
    path.r_mm[k] * Math.cos(path.azimuth_rad[k]),
    path.r_mm[k] * Math.sin(path.azimuth_rad[k]),
    z,
  ]);
}

function chordLength(points: readonly Vec3[]): number {
  let sum = 0;
  points.slice(1).forEach((p, i) => {
    sum += Math.hypot(p[0] - points[i][0], p[1] - points[i][1], p[2] - points[i][2]);
  });
  return sum;
}

test('random pieces: along every centreline shown, hidden and missing are what materialAt says', () => {
  const rounds = countFor('rings', 30, 2_000);
  let checked = 0;
  for (let n = 0; n < rounds; n++) {
    const { slots, profile } = randomPiece(SEED + n);
    const rings = ringsOf(slots, profile);
    slots.forEach((slot, i) => {
      const ring = rings[i];
      const paths = ringPaths(slots, profile, i, 0.02);
      const lengths = { shown: 0, hidden: 0, missing: 0 };
      let low = Infinity;
      let high = -Infinity;
      let offPlane = 0;
      const wrong: Vec3[] = [];
      for (const path of paths) {
        const points = pointsOf(path);
        lengths[path.state] += chordLength(points);
        points.forEach((p, k) => {
          low = Math.min(low, p[2]);
          high = Math.max(high, p[2]);
          offPlane = Math.max(offPlane, Math.abs(kerfDistance_mm(slot, p)));
          const isEnd = k === 0 || k + 1 === points.length;
          if (isEnd || chordLength(points.slice(k - 1, k + 2)) < 1e-3) return;
          const state = stateAt(slots, i, p);
          if (state === null) return;
          checked++;
          if (state !== path.state) wrong.push(p);
        });
      }
      expect(wrong, `randomPiece(${SEED + n}), slot ${i}`).toEqual([]);
      expect(offPlane).toBeLessThan(1e-7);
      if (ring.zLow_mm === null) {
        expect(paths).toEqual([]);
        expect(ring.length_mm).toBe(0);
        return;
      }
      expect(low).toBeCloseTo(ring.zLow_mm, 6);
      expect(high).toBeCloseTo(ring.zHigh_mm!, 6);
      // Chords of 0.02 rad are short of their arcs by up to 0.02² / 24, more where a ring is steep.
      const total = lengths.shown + lengths.hidden + lengths.missing;
      const loss = 5e-3 * ring.length_mm + 1e-3;
      expect(total).toBeLessThanOrEqual(ring.length_mm * (1 + 1e-9));
      expect(total).toBeGreaterThan(ring.length_mm - loss);
      expect(Math.abs(lengths.hidden - ring.hidden_mm)).toBeLessThan(loss);
      expect(Math.abs(lengths.missing - ring.missing_mm)).toBeLessThan(loss);
      expectFlags(ring);
    });
  }
  expect(checked).toBeGreaterThan(500 * rounds);
});

/** State of the ring of slot i at a point of its centreline; null where rounding decides, on a face or a stop. */
function stateAt(slots: readonly Slot[], i: number, p: Vec3): RingPath['state'] | null {
  const past = dot(slots[i].stopNormal, p) - slots[i].stop_mm;
  if (Math.abs(past) < 1e-6) return null;
  if (past > 0) return 'missing';
  const onFace = slots.some(
    (other, k) =>
      k > i &&
      (Math.abs(Math.abs(kerfDistance_mm(other, p)) - other.kerf_mm / 2) < 1e-6 ||
        Math.abs(dot(other.stopNormal, p) - other.stop_mm) < 1e-6),
  );
  if (onFace) return null;
  return materialAt(slots, p) === i ? 'shown' : 'hidden';
}

function expectFlags(ring: Ring): void {
  expect(ring.closed).toBe(ring.runsOff.length === 0);
  expect(ring.whole).toBe(ring.closed && ring.missing_mm === 0);
  expect(ring.unbroken).toBe(ring.whole && ring.hidden_mm === 0);
  expect(ring.span_mm).toBe(ring.zHigh_mm! - ring.zLow_mm!);
  expect(ring.missing_mm + ring.hidden_mm).toBeLessThanOrEqual(ring.length_mm * (1 + 1e-12));
}

describe('running off', () => {
  const off = (center_mm: number, angle_deg = 45) =>
    ringsOf(oneSlot({ center_mm, angle_deg }), cylinder(200, 30))[0];
  test('the ends of the outside that the centreline crosses, foot first', () => {
    expect(off(100)).toMatchObject({ runsOff: [], closed: true });
    expect(off(29)).toMatchObject({ runsOff: ['foot'], closed: false, whole: false, zLow_mm: 0 });
    expect(off(171)).toMatchObject({ runsOff: ['head'], closed: false, zHigh_mm: 200 });
    expect(off(100, 10)).toMatchObject({ runsOff: ['foot', 'head'], zLow_mm: 0, zHigh_mm: 200 });
  });
  test('touching an end is not running off', () => {
    expect(off(30)).toMatchObject({ runsOff: [], closed: true });
    expect(off(30 - 1e-6).runsOff).toEqual(['foot']);
  });
  test('an ellipse cut off by the foot: the arc that is left', () => {
    // z = 15 + 30 cos φ ≥ 0 for |φ| ≤ 120°, where ds = 30 √(1 + sin²φ) dφ; midpoints.
    let arc = 0;
    const n = 100_000;
    for (let i = 0; i < n; i++)
      arc += ((30 * Math.hypot(1, Math.sin((2 * Math.PI * (i + 0.5)) / 3 / n)) * 2 * Math.PI) / 3 / n) * 2;
    expect(off(15).length_mm).toBeCloseTo(arc, 6);
  });
});

test('a ring in two loops is closed when both are', () => {
  // Two balls on a neck of radius 2 at z = 100, where the plane stands 120 tan 8° = 16.9 from the axis.
  const dumbbell = corners([0, 0], [50, 40], [100, 2], [150, 40], [200, 0]);
  const slots = oneSlot({ angle_deg: 8, center_mm: 220 });
  const [ring] = ringsOf(slots, dumbbell);
  expect(ring).toMatchObject({ closed: true, whole: true });
  const heights = ringPaths(slots, dumbbell, 0).flatMap((path) => [...path.z_mm]);
  expect(Math.min(...heights)).toBeLessThan(80);
  expect(Math.max(...heights)).toBeGreaterThan(150);
  expect(heights.filter((z) => z > 88 && z < 112)).toEqual([]);
});

describe('four rings at 45° on a cylinder', () => {
  const kerf = 1.016;
  const slots = slotsLike([{ fence_azimuths_deg: [0, 90, 180, 270], kerf_mm: kerf }]);
  const rings = ringsOf(slots, cylinder(203.2, 30));
  test('the last is unbroken, the others whole but covered at their crossings', () => {
    expect(rings.map(({ unbroken }) => unbroken)).toEqual([false, false, false, true]);
    for (const ring of rings) expect(ring.whole).toBe(true);
  });
  test('hidden under the opposite ring: the arc where 2 r cot θ |cos φ| ≤ (k/2) / sin θ, twice', () => {
    // S1.3 lies under S1.4 at ±45° and its opposite, S1.2 under S1.4 (opposite) and S1.3.
    const pair = ringsOf(slotsLike([{ fence_azimuths_deg: [0, 180], kerf_mm: kerf }]), cylinder(203.2, 30));
    // f2 on the mid-plane of the first: 2 r cos θ cos φ; |f2| ≤ k/2. ds = r √(1 + sin²φ) dφ about φ = 90°.
    const half = Math.asin(kerf / 2 / (2 * 30 * Math.SQRT1_2));
    let arc = 0;
    const n = 1000;
    for (let i = 0; i < n; i++) arc += 4 * 30 * Math.hypot(1, Math.cos((half * (i + 0.5)) / n)) * (half / n);
    expect(pair[0].hidden_mm).toBeCloseTo(arc, 7);
    expect(pair[1].hidden_mm).toBe(0);
  });
});

test('a quarter-turn of the design turns its rings', () => {
  for (let n = 0; n < 40; n++) {
    const { design, profile } = randomPiece(SEED + n, { shapes: ['square', 'octagon', 'round'] });
    const before = ringsOf(slotsOf(design), profile);
    const after = ringsOf(slotsOf(quarterTurned(design)), profile);
    after.forEach((ring, i) => {
      expect(ring.slot).toBe(before[i].slot);
      expect(ring.runsOff).toEqual(before[i].runsOff);
      for (const key of ['length_mm', 'missing_mm', 'hidden_mm'] as const)
        expect(Math.abs(ring[key] - before[i][key])).toBeLessThan(2e-3);
      expect(Math.abs((ring.span_mm ?? -1) - (before[i].span_mm ?? -1))).toBeLessThan(1e-7);
    });
  }
});

test('200 slots', () => {
  const slots = slotsLike(
    Array.from({ length: 50 }, (_, i) => ({ center_mm: 4 * i, fence_azimuths_deg: [0, 90, 180, 270] })),
  );
  const rings = ringsOf(slots, corners([0, 0], [0, 30], [100, 36], [200, 25], [200, 0]));
  expect(rings).toHaveLength(200);
  for (const ring of rings) expectFlags(ring);
  // The last cut of all lies over everything; every other ring is crossed by a later one of its own set.
  expect(rings.map(({ hidden_mm }) => hidden_mm === 0).lastIndexOf(false)).toBe(198);
});
