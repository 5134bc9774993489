/**
 * The exact solids against the rule itself and against published overlaps: which part a point lies in (by
 * winding number of the meshes, van Oosterom and Strackee 1983) is what materialAt says; overlaps of slabs
 * have their textbook volumes; parts partition the piece at every moment of the work.
 */
import { describe, expect, test } from 'vitest';
import { materialAt } from '../../src/blank/material.ts';
import type { Part } from '../../src/blank/parts.ts';
import { blockParts, partName, turnedParts, wholePart } from '../../src/blank/solids.ts';
import { kerfDistance_mm, slotsOf } from '../../src/blank/slots.ts';
import { dot, type Vec3 } from '../../src/geometry/vector.ts';
import { cylinderForm, fourRings, randomDesign, slotSet } from '../fixtures/designs.ts';
import { seededRandom } from '../fixtures/random.ts';
import { solidFaults } from '../oracles/closed.ts';
import { countFor, SEED } from '../soak/counts.ts';
import { layerAt } from './pointwise.ts';

/** Winding number of a closed mesh about a point: the solid angle of its triangles over 4π. */
function windingNumber(part: Part, p: Vec3): number {
  const { positions_mm, triangles } = part;
  let sum = 0;
  const corner = (i: number): Vec3 => [
    positions_mm[3 * i] - p[0],
    positions_mm[3 * i + 1] - p[1],
    positions_mm[3 * i + 2] - p[2],
  ];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [corner(triangles[t]), corner(triangles[t + 1]), corner(triangles[t + 2])];
    const [la, lb, lc] = [Math.hypot(...a), Math.hypot(...b), Math.hypot(...c)];
    const triple =
      a[0] * (b[1] * c[2] - b[2] * c[1]) +
      a[1] * (b[2] * c[0] - b[0] * c[2]) +
      a[2] * (b[0] * c[1] - b[1] * c[0]);
    sum += 2 * Math.atan2(triple, la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
  }
  return sum / (4 * Math.PI);
}

test('a point lies in the part that the last cut gives it', () => {
  const count = countFor('solids-points', 24, 2_000);
  let inside = 0;
  for (let i = 0; i < count; i++) {
    const design = randomDesign(SEED + i);
    const slots = slotsOf(design);
    const turned = design.form !== null && i % 2 === 1;
    const options = { facets: 32, rows: 16 };
    const parts = turned ? turnedParts(design, options) : blockParts(design, options);
    const whole = wholePart(design, turned, options);
    const random = seededRandom(SEED + i);
    const reach_mm = 0.75 * Math.max(design.blank.section.width_mm, design.blank.section.depth_mm ?? 0);
    for (let k = 0; k < 40; k++) {
      const p: Vec3 = [
        random.between(-reach_mm, reach_mm),
        random.between(-reach_mm, reach_mm),
        random.between(0, design.blank.length_mm),
      ];
      const near = slots.some(
        (slot) =>
          Math.abs(Math.abs(kerfDistance_mm(slot, p)) - slot.kerf_mm / 2) < 1e-4 ||
          Math.abs(dot(slot.stopNormal, p) - slot.stop_mm) < 1e-4,
      );
      if (near || Math.abs(windingNumber(whole, p) - 1) > 1e-6) continue;
      inside++;
      const material = materialAt(slots, p);
      const slot = material < 0 ? null : slots[material];
      const expected = partName(slot, slot ? layerAt(slot, p) : 0);
      const holding = parts.filter((part) => windingNumber(part, p) > 0.5).map(({ name }) => name);
      expect(holding, `randomDesign(${SEED + i}), point ${p.join(', ')}`).toEqual([expected]);
    }
  }
  expect(inside).toBeGreaterThan(count * 5);
});

describe('published overlaps', () => {
  const prism = { shape: 'square', width_mm: 60 } as const;

  // Oblique slab through a prism: w h t / sin θ (Cavalieri); 60 × 60, t = 3.2, θ = 60° gives 13302.1502.
  test('one slab', () => {
    const design = fourRings({
      section: prism,
      set: { angle_deg: 60, fence_azimuths_deg: [0], kerf_mm: 3.2, web_mm: 0 },
    });
    const strip = blockParts(design)[1].volume_mm3;
    expect(strip).toBeCloseTo(13302.1502, 4);
    expect(strip).toBeCloseTo((60 * 60 * 3.2) / Math.sin(Math.PI / 3), 8);
  });

  // Two slabs at ±θ in one block of width w: t₁ t₂ w / sin 2θ; t = 3, w = 60: 540 at 45°, 623.5382907 at 60°.
  test.each([
    [45, 540],
    [60, 623.5382907],
    [30, 623.5382907],
  ])('two slabs at ±%d°', (angle_deg, overlap_mm3) => {
    const both = fourRings({
      section: prism,
      set: { angle_deg, fence_azimuths_deg: [0, 180], kerf_mm: 3, web_mm: 0 },
    });
    const alone = fourRings({
      section: prism,
      set: { angle_deg, fence_azimuths_deg: [0], kerf_mm: 3, web_mm: 0 },
    });
    const lost_mm3 = blockParts(alone)[1].volume_mm3 - blockParts(both)[1].volume_mm3;
    expect(lost_mm3).toBeCloseTo(overlap_mm3, 6);
  });

  // Three slabs with unit normals n₁ n₂ n₃: t³ / |det(n₁, n₂, n₃)|; t = 3, θ = 45°, azimuths 0/120/240: 29.3938769134.
  test('three slabs', () => {
    const at = (azimuths: number[]) =>
      blockParts(
        fourRings({
          section: prism,
          set: { fence_azimuths_deg: azimuths, kerf_mm: 3, web_mm: 0 },
        }),
      ).map(({ volume_mm3 }) => volume_mm3);
    const sum = (volumes: number[]) => volumes.slice(1).reduce((a, b) => a + b, 0);
    const pairs = [
      [0, 120],
      [120, 240],
      [240, 0],
    ].map(at);
    const singles = [[0], [120], [240]].map((azimuth) => sum(at(azimuth)));
    const overlapOfPairs = pairs.reduce((total, pair) => total + sum(pair), 0);
    const union = sum(at([0, 120, 240]));
    // |A ∪ B ∪ C| = Σ|A| − Σ|A ∩ B| + |A ∩ B ∩ C|, and |A ∪ B| = |A| + |B| − |A ∩ B|.
    const all = singles.reduce((a, b) => a + b, 0);
    expect(union - all + (2 * all - overlapOfPairs)).toBeCloseTo(29.3938769134, 6);
  });

  // Slab through a cylinder: π r² t / sin θ = 11995.78393 for r = 30, t = 3, θ = 45°; an inscribed polygon of n
  // corners has the area (n/2) r² sin(2π/n).
  test('a slab through a faceted cylinder', () => {
    const design = fourRings({
      form: cylinderForm(203.2, 30),
      set: { fence_azimuths_deg: [0], kerf_mm: 3, web_mm: 0 },
    });
    const facets = 256;
    const polygon = (facets / 2 / Math.PI) * Math.sin((2 * Math.PI) / facets);
    expect(turnedParts(design, { facets })[1].volume_mm3 / (11995.78393 * polygon)).toBeCloseTo(1, 9);
  });
});

test('every moment of the work is a partition of what is left', () => {
  const design = randomDesign(SEED, { minSlots: 6, maxSlots: 6 });
  const slots = slotsOf(design);
  const whole_mm3 = wholePart(design, false).volume_mm3;
  for (let filled = 0; filled <= slots.length; filled++) {
    for (const open of filled < slots.length ? [false, true] : [false]) {
      const parts = blockParts(design, { filled, open });
      const names = ['body', ...slots.slice(0, filled).map(({ id }) => id)];
      expect([...new Set(parts.map(({ name }) => name.split('/')[0]))]).toEqual(names);
      expect(parts.flatMap((part) => solidFaults(part, whole_mm3))).toEqual([]);
      const sum = parts.reduce((total, { volume_mm3 }) => total + volume_mm3, 0);
      const left_mm3 = wholePart(design, false, { filled, open }).volume_mm3;
      expect(Math.abs(sum / left_mm3 - 1)).toBeLessThan(1e-12);
    }
  }
});

describe('cases with a rule of their own', () => {
  const square = (angle_deg: number, center_mm: number, more = {}) =>
    slotSet({ angle_deg, center_mm, fence_azimuths_deg: [0], ...more });

  test('a cut repeated leaves nothing of the first strip', () => {
    const parts = blockParts(fourRings({ sets: [slotSet({ id: 'S1' }), slotSet({ id: 'S2' })] }));
    for (const part of parts) expect(solidFaults(part, 1e6)).toEqual([]);
    for (const part of parts.slice(1, 5)) expect(part.volume_mm3).toBeCloseTo(0, 9);
    for (const part of parts.slice(5)) expect(part.volume_mm3).toBeGreaterThan(1000);
  });

  test('strips that touch face to face keep their full volume', () => {
    const kerf_mm = 1.016;
    const parts = blockParts(
      fourRings({
        sets: [
          { ...square(90, 50, { web_mm: 0 }), id: 'S1' },
          { ...square(90, 50 + kerf_mm, { web_mm: 0 }), id: 'S2' },
        ],
      }),
    );
    for (const part of parts) expect(solidFaults(part, 1e6)).toEqual([]);
    for (const part of parts.slice(1)) expect(part.volume_mm3).toBeCloseTo(76.2 * 76.2 * kerf_mm, 7);
  });

  test('a slot on the end face, and one half through it', () => {
    const flush = blockParts(fourRings({ sets: [square(90, 0.508, { web_mm: 0 })] }));
    expect(flush[1].volume_mm3).toBeCloseTo(76.2 * 76.2 * 1.016, 7);
    const half = blockParts(fourRings({ sets: [square(90, 0, { web_mm: 0 })] }));
    expect(half[1].volume_mm3).toBeCloseTo((76.2 * 76.2 * 1.016) / 2, 7);
    for (const part of [...flush, ...half]) expect(solidFaults(part, 1e6)).toEqual([]);
  });

  test('a slot plane that grazes the form takes nothing', () => {
    const radius_mm = 20;
    const center_mm = 100;
    // The foot side of the kerf touches the head end of a cylinder of length 100 − k/2 exactly.
    const design = fourRings({
      sets: [square(90, center_mm, { web_mm: 0 })],
      form: cylinderForm(center_mm - 0.508, radius_mm),
    });
    const parts = turnedParts(design, { facets: 64 });
    expect(parts[1].volume_mm3).toBeCloseTo(0, 9);
    for (const part of parts) expect(solidFaults(part, 1e6)).toEqual([]);
  });

  test('four mid-planes through one point, and stopping planes that meet other slots', () => {
    const design = fourRings({
      sets: [slotSet({ id: 'S1', web_mm: 38.1 }), slotSet({ id: 'S2', web_mm: 20, high_side: 'entry' })],
    });
    const parts = blockParts(design);
    const sum = parts.reduce((total, { volume_mm3 }) => total + volume_mm3, 0);
    expect(sum / (76.2 * 76.2 * 203.2)).toBeCloseTo(1, 12);
    for (const part of parts) expect(solidFaults(part, 1e6)).toEqual([]);
  });
});
