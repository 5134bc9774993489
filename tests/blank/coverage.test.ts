/**
 * Coverage against quadratures that share nothing with it but the arcs of circles, and those against the one
 * rule materialAt; what it must not depend on; cases where borders coincide. Closed forms: tests/reference/.
 */
import { describe, expect, test } from 'vitest';
import { slotArcsAt, type Arc } from '../../src/blank/arcs.ts';
import { bandStrands, type BandRow } from '../../src/blank/bands.ts';
import { coverageOf } from '../../src/blank/coverage.ts';
import { blankSolid, interfere } from '../../src/blank/interference.ts';
import { materialAt } from '../../src/blank/material.ts';
import { outsideLine } from '../../src/blank/outsideLine.ts';
import { slotHolds, slotsOf } from '../../src/blank/slots.ts';
import { seededRandom } from '../fixtures/random.ts';
import { corners, cylinder, slotsLike } from '../reference/forms.ts';
import { countFor, SEED } from '../soak/counts.ts';
import { areasByRows, quarterTurned, randomPiece } from './awkwardPieces.ts';
import { materialArcsAt } from './pointwise.ts';

const TURN = 2 * Math.PI;

test('arcs of random circles say what materialAt says', () => {
  for (let n = 0; n < 150; n++) {
    const { slots, design } = randomPiece(SEED + n);
    const random = seededRandom(SEED + n);
    for (let circle = 0; circle < 5; circle++) {
      const z = random.between(0, design.blank.length_mm);
      const r = random.between(0.1, design.blank.section.width_mm * 0.6);
      const arcs = materialArcsAt(slots, z, r);
      expect(arcs[0].from_rad).toBe(0);
      expect(arcs.at(-1)!.to_rad).toBe(TURN);
      arcs.slice(1).forEach((arc, i) => {
        expect(arc.from_rad).toBe(arcs[i].to_rad);
        expect(arc.material).not.toBe(arcs[i].material);
      });
      for (const { from_rad, to_rad, material } of arcs) {
        if (to_rad - from_rad < 1e-7) continue;
        for (const share of [1e-3, 0.37, 0.999]) {
          const phi = from_rad + share * (to_rad - from_rad);
          expect(materialAt(slots, [r * Math.cos(phi), r * Math.sin(phi), z])).toBe(material);
        }
      }
      for (const slot of slots) {
        const held = slotArcsAt(slot, z, r);
        const holds = (phi: number) =>
          held.some((arc: Arc) => [phi, phi + TURN].some((p) => p >= arc.from_rad && p <= arc.to_rad));
        for (let k = 0; k < 12; k++) {
          const phi = random.between(0, TURN);
          expect(holds(phi)).toBe(slotHolds(slot, [r * Math.cos(phi), r * Math.sin(phi), z]));
        }
      }
    }
  }
});

test('random pieces: every part agrees with rows of arcs, and the parts add up', () => {
  const rounds = countFor('coverage', 60, 5_000);
  let worst = 0;
  for (let n = 0; n < rounds; n++) {
    const piece = randomPiece(SEED + n);
    const cover = coverageOf(piece.slots, piece.profile);
    const parts = [...cover.strips_mm2, cover.body_mm2];
    // Midpoints over 1500 rows: kinks and ends of bands leave some 1e-5, at worst 1e-3, less with more rows; a
    // wrong border would stay.
    let off = Infinity;
    for (let rows = 1500; off > 1e-4 && rows < 100_000; rows *= 6) {
      const counted = areasByRows(piece, rows);
      off = Math.max(...parts.map((area, i) => Math.abs(area - counted[i]) / cover.outside_mm2));
    }
    worst = Math.max(worst, off);
    expect(off, `randomPiece(${SEED + n})`).toBeLessThan(1e-4);
    expect(Math.abs(parts.reduce((a, b) => a + b) / cover.outside_mm2 - 1)).toBeLessThan(1e-12);
    expect(Math.min(...parts)).toBeGreaterThanOrEqual(-1e-9 * cover.outside_mm2);
  }
  console.log(`largest difference of a part’s area: ${worst.toExponential(2)} of the outside`);
});

test('where more rows are taken the rows come to the areas', () => {
  for (let n = 0; n < 6; n++) {
    const piece = randomPiece(SEED + 7 * n, { maxSlots: 6 });
    const cover = coverageOf(piece.slots, piece.profile);
    const off = (rows: number) => {
      const areas = areasByRows(piece, rows);
      return Math.max(
        ...[...cover.strips_mm2, cover.body_mm2].map(
          (area, i) => Math.abs(area - areas[i]) / cover.outside_mm2,
        ),
      );
    };
    expect(off(20_000)).toBeLessThan(5e-6);
  }
});

test('a quarter-turn of the design changes nothing', () => {
  for (let n = 0; n < 40; n++) {
    const { design, profile } = randomPiece(SEED + n, { shapes: ['square', 'octagon', 'round'] });
    const before = coverageOf(slotsOf(design), profile);
    const after = coverageOf(slotsOf(quarterTurned(design)), profile);
    expect(after.strips_mm2.length).toBe(before.strips_mm2.length);
    before.strips_mm2.forEach((area, i) =>
      expect(Math.abs(after.strips_mm2[i] - area)).toBeLessThan(1e-7 * before.outside_mm2),
    );
  }
});

test('neighbours in the order that do not interfere may change places', () => {
  let swapped = 0;
  for (let n = 0; n < 60; n++) {
    const { design, profile } = randomPiece(SEED + n, { form: 'solid' });
    const slots = slotsOf(design);
    const solid = blankSolid(design.blank);
    // Inside the blank only: where the form reaches past it, slots may meet outside.
    if (Math.max(...profile.r_mm) > Math.min(...slots.map((slot) => slot.fenceSupport_mm))) continue;
    const before = coverageOf(slots, profile);
    for (let i = 0; i + 1 < slots.length; i++) {
      if (interfere(slots[i], slots[i + 1], solid)) continue;
      const other = [...slots];
      [other[i], other[i + 1]] = [slots[i + 1], slots[i]];
      const after = coverageOf(other, profile).strips_mm2;
      [after[i], after[i + 1]] = [after[i + 1], after[i]];
      before.strips_mm2.forEach((area, k) =>
        expect(Math.abs(after[k] - area)).toBeLessThan(1e-6 * before.outside_mm2),
      );
      swapped++;
    }
  }
  expect(swapped).toBeGreaterThan(20);
});

describe('borders that coincide', () => {
  const outside = 2 * Math.PI * 30 * 200;
  const band = (k: number) => 2 * Math.PI * 30 * k;
  const square = (center_mm: number, kerf_mm: number) => ({
    angle_deg: 90,
    center_mm,
    kerf_mm,
    fence_azimuths_deg: [0],
  });

  test('the same cut twice: the later one has all of it', () => {
    const cover = coverageOf(slotsLike([square(100, 3), square(100, 3)]), cylinder(200, 30));
    expect(cover.strips_mm2[0]).toBe(0);
    expect(cover.strips_mm2[1]).toBeCloseTo(band(3), 8);
  });
  test('face to face, square across and slanted: each keeps its own', () => {
    const squareAcross = coverageOf(slotsLike([square(100, 3), square(103, 3)]), cylinder(200, 30));
    for (const area of squareAcross.strips_mm2) expect(area).toBeCloseTo(band(3), 8);
    const angle_deg = 52.3;
    const axial = 3 / Math.sin((angle_deg * Math.PI) / 180);
    const slanted = coverageOf(
      slotsLike([
        { angle_deg, kerf_mm: 3, center_mm: 90, fence_azimuths_deg: [20] },
        { angle_deg, kerf_mm: 3, center_mm: 90 + axial, fence_azimuths_deg: [20] },
      ]),
      cylinder(200, 30),
    );
    for (const area of slanted.strips_mm2) expect(area).toBeCloseTo(band(axial), 7);
    expect(slanted.outside_mm2).toBeCloseTo(outside, 7);
  });
  test('a wider cut over the same mid-plane, and a narrower one', () => {
    const wider = coverageOf(slotsLike([square(100, 3), square(100, 5)]), cylinder(200, 30));
    expect([...wider.strips_mm2].map((area) => area / band(1))).toEqual([0, expect.closeTo(5, 9)]);
    const narrower = coverageOf(slotsLike([square(100, 5), square(100, 3)]), cylinder(200, 30));
    expect(narrower.strips_mm2[0] / band(1)).toBeCloseTo(2, 9);
    expect(narrower.strips_mm2[1] / band(1)).toBeCloseTo(3, 9);
  });
  test('a face at a joint of the outline, and one in a flat shoulder, which closed slots hold', () => {
    const joined = corners([0, 0], [0, 30], [100, 30], [200, 30], [200, 0]);
    for (const center_mm of [98, 102]) {
      const cover = coverageOf(slotsLike([square(center_mm, 4)]), joined);
      expect(cover.strips_mm2[0]).toBeCloseTo(band(4), 8);
    }
    const stepped = corners([0, 0], [0, 20], [100, 20], [100, 30], [200, 30], [200, 0]);
    const shoulder = Math.PI * (900 - 400);
    const below = coverageOf(slotsLike([square(98, 4)]), stepped);
    expect(below.strips_mm2[0]).toBeCloseTo(2 * Math.PI * 20 * 4 + shoulder, 8);
    const above = coverageOf(slotsLike([square(102, 4)]), stepped);
    expect(above.strips_mm2[0]).toBeCloseTo(band(4) + shoulder, 8);
    expect(materialAt(slotsLike([square(98, 4)]), [25, 0, 100])).toBe(0);
  });
});

test('bands: the strands of a slot carry the area that its strip covers where no other slot is', () => {
  let compared = 0;
  for (let n = 0; n < 10; n++) {
    const { slots, profile } = randomPiece(SEED + n, { maxSlots: 6, form: 'solid' });
    const line = outsideLine(profile);
    for (const slot of slots) {
      const [covered] = coverageOf([slot], profile).strips_mm2;
      let area = 0;
      for (const rows of bandStrands(slot, line, { true_mm: 0.005, step_mm: 0.2 }))
        rows.slice(1).forEach((above, i) => {
          const width = (row: BandRow) => (row.to_rad - row.from_rad) * row.r_mm;
          area += ((width(rows[i]) + width(above)) / 2) * (above.along_mm - rows[i].along_mm);
        });
      // Its two edges lie within 0.005 mm of the true ones; it begins and ends within 0.01 mm, at most a whole turn wide.
      const largest = Math.max(...profile.r_mm);
      expect(Math.abs(area - covered)).toBeLessThan(2 * 0.005 * line.length_mm + 2 * 0.01 * TURN * largest);
      if (covered > 10) compared++;
    }
  }
  expect(compared).toBeGreaterThan(20);
});

test('200 slots', () => {
  const sets = Array.from({ length: 50 }, (_, i) => ({
    angle_deg: 45 + (i % 7) * 5,
    center_mm: 4 * i,
    kerf_mm: 1,
    high_side: i % 2 === 0 ? ('fence' as const) : ('entry' as const),
    fence_azimuths_deg: [0, 90, 180, 270],
  }));
  const slots = slotsLike(sets);
  const profile = corners([0, 0], [0, 30], [100, 36], [200, 25], [200, 0]);
  const cover = coverageOf(slots, profile);
  const piece = { ...randomPiece(SEED), slots, profile };
  const rows = areasByRows(piece, 1500);
  cover.strips_mm2.forEach((area, i) =>
    expect(Math.abs(area - rows[i])).toBeLessThan(2e-5 * cover.outside_mm2),
  );
});
