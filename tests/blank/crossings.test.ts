/**
 * Crossings: closed forms on cylinders, touches, webs, joints and shoulders; random pieces against changes of
 * sign along the rings, found without the crossings' own formulas.
 */
import { describe, expect, test } from 'vitest';
import { crossingsOf, type Crossing } from '../../src/blank/crossings.ts';
import { kerfDistance_mm, slotsOf, type Slot } from '../../src/blank/slots.ts';
import type { Profile } from '../../src/geometry/outline.ts';
import { dot, type Vec3 } from '../../src/geometry/vector.ts';
import { corners, cylinder, slotsLike, sphere } from '../reference/forms.ts';
import { countFor, SEED } from '../soak/counts.ts';
import { quarterTurned, randomPiece } from './awkwardPieces.ts';

function pointOf({ z_mm, azimuth_deg, radius_mm }: Crossing): Vec3 {
  const phi = (azimuth_deg * Math.PI) / 180;
  return [radius_mm * Math.cos(phi), radius_mm * Math.sin(phi), z_mm];
}

const azimuths = (crossings: readonly Crossing[]) =>
  crossings.map(({ azimuth_deg }) => Number(azimuth_deg.toFixed(6)));

test('four rings at 45°, r = 30: where cos φ of two rings agree (G2, unrolled cosines)', () => {
  const crossings = crossingsOf(slotsLike([{}]), cylinder(203.2, 30));
  const rise = 30 * Math.SQRT1_2;
  const expected = [
    [0, 1, 101.6 - rise, 225],
    [0, 1, 101.6 + rise, 45],
    [0, 2, 101.6, 90],
    [0, 2, 101.6, 270],
    [0, 3, 101.6 - rise, 135],
    [0, 3, 101.6 + rise, 315],
    [1, 2, 101.6 - rise, 315],
    [1, 2, 101.6 + rise, 135],
    [1, 3, 101.6, 0],
    [1, 3, 101.6, 180],
    [2, 3, 101.6 - rise, 45],
    [2, 3, 101.6 + rise, 225],
  ];
  expect(crossings).toHaveLength(expected.length);
  crossings.forEach((crossing, i) => {
    const [under, over, z, azimuth] = expected[i];
    expect(crossing).toMatchObject({ under, over });
    expect(crossing.z_mm).toBeCloseTo(z, 9);
    expect(crossing.azimuth_deg).toBeCloseTo(azimuth, 9);
    expect(crossing.radius_mm).toBeCloseTo(30, 9);
  });
});

describe('two opposite rings of 45° on r = 30, their centres Δ apart: cos φ = Δ / 2r (elementary)', () => {
  const pair = (apart: number, r = 30, profile: Profile = cylinder(400, r)) =>
    crossingsOf(
      slotsLike([
        { center_mm: 150, fence_azimuths_deg: [0] },
        { center_mm: 150 + apart, fence_azimuths_deg: [180] },
      ]),
      profile,
    );
  test.each([0, 10, 30, 59.9])('Δ = %f', (apart) => {
    const half = (Math.acos(apart / 60) * 180) / Math.PI;
    const found = pair(apart);
    expect(found).toHaveLength(2);
    expect(found[0].azimuth_deg).toBeCloseTo(half, 8);
    expect(found[1].azimuth_deg).toBeCloseTo(360 - half, 8);
    for (const { z_mm } of found) expect(z_mm).toBeCloseTo(150 + apart / 2, 9);
  });
  test('touching at Δ = 2 r counts once, apart not at all', () => {
    const touch = pair(60);
    expect(touch).toHaveLength(1);
    expect(touch[0].azimuth_deg).toBe(0);
    expect(touch[0].z_mm).toBeCloseTo(180, 9);
    expect(pair(60.0001)).toEqual([]);
    for (const r of [7.3, 17.77, 29.123, 51.9]) expect(pair(2 * r, r), `r = ${r}`).toHaveLength(1);
  });
  test('on a cylinder in many pieces each crossing is still one', () => {
    const pieces = Array.from({ length: 81 }, (_, i) => [5 * i, 30] as const);
    const many = corners([0, 0], ...pieces, [400, 0]);
    // The joint at z = 165 lies at the height of both crossings of Δ = 30.
    for (const apart of [0, 10, 30, 59.9]) expect(pair(apart, 30, many)).toHaveLength(2);
    expect(pair(60, 30, many)).toHaveLength(1);
  });
});

test('parallel and identical planes do not cross', () => {
  const same = { center_mm: 100, fence_azimuths_deg: [0] };
  for (const other of [same, { ...same, center_mm: 101 }, { ...same, kerf_mm: 3 }])
    expect(crossingsOf(slotsLike([same, other]), cylinder(200, 30))).toEqual([]);
  // The same plane, cut from the other face.
  const opposite = { center_mm: 100, fence_azimuths_deg: [180], high_side: 'entry' as const };
  expect(crossingsOf(slotsLike([same, opposite]), cylinder(200, 30))).toEqual([]);
});

test('a crossing in a web does not count, one at its limit does', () => {
  const at = (web_mm: number) =>
    azimuths(
      crossingsOf(
        slotsLike([{ fence_azimuths_deg: [0, 90], web_mm }], { shape: 'square', width_mm: 76.2 }),
        cylinder(203.2, 37),
      ),
    );
  // At 45° u = 37 / √2 = 26.16 for both; in the web when h − w = 38.1 − w is less.
  expect(at(2.54)).toEqual([225, 45]);
  expect(at(38.1 - 37 * Math.SQRT1_2)).toEqual([225, 45]);
  expect(at(12)).toEqual([225]);
});

test('under a third strip a crossing counts all the same', () => {
  const two = { center_mm: 100, fence_azimuths_deg: [0, 180] };
  const cover = { center_mm: 100, angle_deg: 90, kerf_mm: 20, fence_azimuths_deg: [0] };
  const crossings = crossingsOf(slotsLike([two, cover]), cylinder(200, 30));
  expect(crossings.filter(({ under, over }) => under === 0 && over === 1)).toHaveLength(2);
});

test('on a flat shoulder, and along one', () => {
  const stepped = corners([0, 0], [0, 20], [100, 20], [100, 35], [200, 35], [200, 0]);
  // θ = 45° from azimuths 0 and 90 at z0 = 80: their line is x = y = z − 80, at (20, 20) on the
  // shoulder: r = 28.3; it meets the cylinders at z = 80 ± r / √2.
  const on = crossingsOf(slotsLike([{ center_mm: 80, fence_azimuths_deg: [0, 90] }]), stepped);
  const heights = [80 - 20 * Math.SQRT1_2, 80 + 20 * Math.SQRT1_2, 100, 80 + 35 * Math.SQRT1_2];
  expect(on).toHaveLength(4);
  on.forEach(({ z_mm, radius_mm }, i) => {
    expect(z_mm).toBeCloseTo(heights[i], 9);
    expect(radius_mm).toBeCloseTo([20, 20, 20 * Math.SQRT2, 35][i], 9);
  });
  // Opposite slots whose common line runs within the shoulder: at both its edges.
  const along = crossingsOf(slotsLike([{ center_mm: 100, fence_azimuths_deg: [0, 180] }]), stepped);
  expect(along.map(({ radius_mm }) => Math.round(radius_mm * 1e6) / 1e6).sort((a, b) => a - b)).toEqual([
    20, 20, 35, 35,
  ]);
});

test('on the axis the azimuth is 0', () => {
  const crossings = crossingsOf(slotsLike([{ center_mm: 80, fence_azimuths_deg: [0, 90] }]), sphere(40, 200));
  const atPole = crossings.filter(({ z_mm }) => Math.abs(z_mm - 80) < 1e-9);
  expect(atPole).toHaveLength(1);
  expect(atPole[0].azimuth_deg).toBe(0);
  expect(atPole[0].radius_mm).toBeLessThan(1e-9);
});

test('random pieces: every crossing is on both planes and on the outside, in order', () => {
  for (let n = 0; n < 80; n++) {
    const { slots, profile } = randomPiece(SEED + n);
    const crossings = crossingsOf(slots, profile);
    crossings.forEach((crossing, i) => {
      const p = pointOf(crossing);
      for (const index of [crossing.under, crossing.over]) {
        expect(Math.abs(kerfDistance_mm(slots[index], p))).toBeLessThan(1e-7);
        expect(dot(slots[index].stopNormal, p)).toBeLessThanOrEqual(slots[index].stop_mm + 1e-7);
      }
      expect(crossing.azimuth_deg).toBeGreaterThanOrEqual(0);
      expect(crossing.azimuth_deg).toBeLessThan(360);
      expect(crossing.under).toBeLessThan(crossing.over);
      expect(distanceToOutside(profile, crossing.z_mm, crossing.radius_mm)).toBeLessThan(1e-7);
      const next = crossings[i + 1];
      if (!next) return;
      const before =
        crossing.under - next.under ||
        crossing.over - next.over ||
        (next.z_mm > crossing.z_mm + 1e-7 ? -1 : 0);
      if (before === 0) expect(crossing.azimuth_deg).toBeLessThan(next.azimuth_deg);
      else expect(before).toBeLessThan(0);
    });
  }
});

test('random pieces: as many crossings as changes of sign along the rings', () => {
  const rounds = countFor('crossings', 40, 2_000);
  let pairs = 0;
  for (let n = 0; n < rounds; n++) {
    const { slots, profile } = randomPiece(SEED + n, { form: 'solid', maxSlots: 6 });
    const found = crossingsOf(slots, profile);
    slots.forEach((_, under) => {
      for (let over = under + 1; over < slots.length; over++) {
        const expected = signChanges(slots[under], slots[over], profile);
        if (expected === null) continue;
        pairs++;
        const count = found.filter((crossing) => crossing.under === under && crossing.over === over).length;
        expect(count, `randomPiece(${SEED + n}), ${under} under ${over}`).toBe(expected);
      }
    });
  }
  expect(pairs).toBeGreaterThan(2 * rounds);
});

/**
 * How often the ring of one slot changes sides of another's mid-plane outside both webs, by following it from
 * azimuth to azimuth; null where it cannot be told: several heights at one azimuth, or signs too close to call.
 */
function signChanges(a: Slot, b: Slot, profile: Profile): number | null {
  const steps = 1500;
  const row: ({ f: number; clear: boolean } | null)[] = [];
  for (let k = 0; k < steps; k++) {
    const phi = (2 * Math.PI * (k + 0.371)) / steps;
    const points: Vec3[] = [];
    for (let i = profile.outsideStart; i < profile.outsideEnd; i++) {
      const at = (j: number): Vec3 => [
        profile.r_mm[j] * Math.cos(phi),
        profile.r_mm[j] * Math.sin(phi),
        profile.z_mm[j],
      ];
      const fFrom = kerfDistance_mm(a, at(i));
      const fTo = kerfDistance_mm(a, at(i + 1));
      if (fFrom < 0 === fTo < 0) continue;
      const t = fFrom / (fFrom - fTo);
      points.push(at(i).map((x, c) => x + t * (at(i + 1)[c] - x)) as unknown as Vec3);
    }
    if (points.length > 1) return null;
    if (points.length === 0) {
      row.push(null);
      continue;
    }
    const [p] = points;
    const stops = [a, b].map((slot) => slot.stop_mm - dot(slot.stopNormal, p));
    const f = kerfDistance_mm(b, p);
    if (Math.abs(f) < 1e-3 || stops.some((stop) => Math.abs(stop) < 0.2)) {
      // Too close to a web's edge or to a touch to be sure of.
      if (Math.abs(f) < 0.3) return null;
    }
    row.push({ f, clear: stops.every((stop) => stop > 0) });
  }
  const after = (k: number) => row[(k + 1) % steps];
  const jump = Math.max(...row.map((here, k) => Math.abs((here?.f ?? 0) - (after(k)?.f ?? here?.f ?? 0))));
  // Where the ring leaves the outside between two azimuths a change of sign may lie between them.
  if (row.some((here, k) => !here !== !after(k) && Math.abs((here ?? after(k))!.f) < 2 * jump)) return null;
  let changes = 0;
  row.forEach((here, k) => {
    const next = after(k);
    if (here && next && here.f < 0 !== next.f < 0 && here.clear && next.clear) changes++;
  });
  return changes;
}

function distanceToOutside(profile: Profile, z: number, r: number): number {
  let least = Infinity;
  for (let i = profile.outsideStart; i < profile.outsideEnd; i++) {
    const dz = profile.z_mm[i + 1] - profile.z_mm[i];
    const dr = profile.r_mm[i + 1] - profile.r_mm[i];
    const t = ((z - profile.z_mm[i]) * dz + (r - profile.r_mm[i]) * dr) / (dz * dz + dr * dr);
    const along = Math.min(1, Math.max(0, t));
    least = Math.min(least, Math.hypot(z - profile.z_mm[i] - along * dz, r - profile.r_mm[i] - along * dr));
  }
  return least;
}

test('a quarter-turn of the design turns its crossings', () => {
  for (let n = 0; n < 30; n++) {
    const { design, profile } = randomPiece(SEED + n, { shapes: ['square', 'octagon', 'round'] });
    const before = crossingsOf(slotsOf(design), profile);
    const after = crossingsOf(slotsOf(quarterTurned(design)), profile);
    expect(after).toHaveLength(before.length);
    for (const crossing of before) {
      const [x, y, z] = pointOf(crossing);
      const near = after.some((other) => {
        const p = pointOf(other);
        return (
          other.under === crossing.under &&
          other.over === crossing.over &&
          Math.hypot(p[0] + y, p[1] - x, p[2] - z) < 1e-4
        );
      });
      expect(near).toBe(true);
    }
  }
});
