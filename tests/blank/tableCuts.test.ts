/**
 * Cuts with the table tilted through the engine: closed forms (Cavalieri, circles; elementary), the one rule materialAt,
 * and random pieces against manifold-3d, an independent boolean library, whose cutters are built from the slot's planes.
 */
import { describe, expect, test } from 'vitest';
import { coverageOf } from '../../src/blank/coverage.ts';
import { crossingsOf } from '../../src/blank/crossings.ts';
import { blankSolid, interfere, sawsThroughWeb } from '../../src/blank/interference.ts';
import { BODY, materialAt } from '../../src/blank/material.ts';
import { ringPaths, ringsOf } from '../../src/blank/rings.ts';
import { sectionGeometry } from '../../src/blank/section.ts';
import { blockParts } from '../../src/blank/solids.ts';
import { alongClosedEnd, slotsOf, wayOut, type Slot } from '../../src/blank/slots.ts';
import { blockVolumes, turnedVolumes } from '../../src/blank/volumes.ts';
import type { Design, SlotSet } from '../../src/design/document.ts';
import { dot } from '../../src/geometry/vector.ts';
import { tabled } from '../fixtures/decorated.ts';
import { fourRings, randomDesign, slotSet } from '../fixtures/designs.ts';
import { seededRandom } from '../fixtures/random.ts';
import { solidFaults } from '../oracles/closed.ts';
import { manifoldLibrary, oracleParts } from '../oracles/manifoldOracle.ts';
import { cylinder, slotsLike } from '../reference/forms.ts';
import { countFor, SEED } from '../soak/counts.ts';

const library = await manifoldLibrary();
const DEGREE = Math.PI / 180;

/** A bowl blank 100 × 100 × 40 mm with cuts at 30°, 20 mm from the foot. */
function bowl(set: Partial<SlotSet> = {}): Design {
  return fourRings({
    section: { shape: 'square', width_mm: 100 },
    length_mm: 40,
    form: null,
    set: {
      cut: 'table',
      angle_deg: 30,
      center_mm: 20,
      kerf_mm: 2,
      web_mm: 10,
      fence_azimuths_deg: [0],
      ...set,
    },
  });
}

describe('one slot by hand', () => {
  test('is as wide across the table as k / cos θ, through the whole height, as long as the feed', () => {
    const [, strip] = blockParts(bowl());
    expect(strip.volume_mm3).toBeCloseTo((2 / Math.cos(30 * DEGREE)) * 40 * 90, 6);
  });

  test.each([
    [0, 'ahead', [0, 1]],
    [0, 'behind', [0, -1]],
    [90, 'ahead', [-1, 0]],
    [90, 'behind', [1, 0]],
    [180, 'ahead', [0, -1]],
    [270, 'behind', [-1, 0]],
  ] as const)('fence azimuth %d, web %s: the web is there', (azimuth, web_side, [x, y]) => {
    const [slot] = slotsOf(bowl({ fence_azimuths_deg: [azimuth], web_side }));
    // On the mid-plane through the middle, z = 20 at u = 0.
    expect(materialAt([slot], [39.9 * x, 39.9 * y, 20])).toBe(0);
    expect(materialAt([slot], [40.1 * x, 40.1 * y, 20])).toBe(BODY);
    expect(materialAt([slot], [-50 * x, -50 * y, 20])).toBe(0);
    expect([slot.stopNormal[0], slot.stopNormal[1], slot.stop_mm]).toEqual([
      expect.closeTo(x, 12),
      expect.closeTo(y, 12),
      40,
    ]);
  });

  test('four quarter-turns: each web at its own side, the slab as at the fence', () => {
    const azimuths = [0, 90, 180, 270];
    const table = slotsOf(bowl({ fence_azimuths_deg: azimuths }));
    const fence = slotsOf(bowl({ fence_azimuths_deg: azimuths, cut: 'fence' }));
    table.forEach((slot, n) => {
      expect([slot.normal, slot.offset_mm]).toEqual([fence[n].normal, fence[n].offset_mm]);
      const azimuth = (azimuths[n] + 90) * DEGREE;
      expect(slot.stopNormal[0]).toBeCloseTo(Math.cos(azimuth), 12);
      expect(slot.stopNormal[1]).toBeCloseTo(Math.sin(azimuth), 12);
    });
  });
});

describe('its ring', () => {
  // On a cylinder of radius 30 the stop at v = 24 cuts off what lies within acos(24/30) of azimuth + 90°.
  const profile = cylinder(203.2, 30);
  const half = Math.acos(24 / 30);
  const slotOf = (web_side: 'ahead' | 'behind', azimuth = 20): Slot[] =>
    slotsLike([{ cut: 'table', web_side, web_mm: 26, angle_deg: 60, fence_azimuths_deg: [azimuth] }], {
      shape: 'round',
      width_mm: 100,
    });

  test.each([
    ['ahead', 110],
    ['behind', 290],
  ] as const)('web %s: the missing arc is about azimuth %d°', (side, middle) => {
    const missing = ringPaths(slotOf(side), profile, 0).filter(({ state }) => state === 'missing');
    const azimuths = missing.flatMap(({ azimuth_rad }) => [...azimuth_rad]);
    const off = azimuths.map((phi) => {
      const turn = (((phi / DEGREE - middle) % 360) + 540) % 360;
      return (turn - 180) * DEGREE;
    });
    expect(Math.max(...off)).toBeCloseTo(half, 6);
    expect(Math.min(...off)).toBeCloseTo(-half, 6);
  });

  test('as long as an arc of the ellipse', () => {
    const [ring] = ringsOf(slotOf('ahead'), profile);
    // z = z₀ + r cot θ cos ψ, ψ from the fence azimuth; ds = r √(1 + cot²θ sin²ψ) dψ about ψ = 90°; midpoints.
    let arc = 0;
    const n = 100_000;
    for (let i = 0; i < n; i++) {
      const psi = Math.PI / 2 - half + (2 * half * (i + 0.5)) / n;
      arc += 30 * Math.hypot(1, Math.sin(psi) / Math.tan(60 * DEGREE)) * ((2 * half) / n);
    }
    expect(ring.missing_mm).toBeCloseTo(arc, 6);
    expect(ring).toMatchObject({ closed: true, whole: false });
  });

  test('crosses another only where neither is in its web', () => {
    // Two planes at ±30° through one centre meet in the line u = 0: at azimuths 90° and 270° of the fence.
    const both = (web_mm: number) =>
      slotsLike(
        [0, 180].map((azimuth) => ({
          cut: 'table' as const,
          angle_deg: 30,
          web_mm,
          fence_azimuths_deg: [azimuth],
        })),
        { shape: 'round', width_mm: 100 },
      );
    const azimuths = (web_mm: number) =>
      crossingsOf(both(web_mm), profile).map(({ azimuth_deg }) => Math.round(azimuth_deg));
    expect(azimuths(10)).toEqual([90, 270]);
    // Stopped at v = 29 the ring of radius 30 lies in the web at 90° of one and at 270° of the other.
    expect(azimuths(21)).toEqual([]);
  });
});

describe('beside other slots', () => {
  const pair = (sets: readonly Partial<SlotSet>[]): [Slot, Slot, ReturnType<typeof blankSolid>] => {
    const design = fourRings({
      section: { shape: 'square', width_mm: 100 },
      length_mm: 40,
      form: null,
      sets: sets.map((set, n) => slotSet({ id: `S${n + 1}`, fence_azimuths_deg: [0], kerf_mm: 2, ...set })),
    });
    const [a, b] = slotsOf(design);
    return [a, b, blankSolid(design.blank)];
  };

  test('one plane fed from both sides: they meet where both webs together are under the width', () => {
    const meet = (web_mm: number) => {
      const set = { cut: 'table', angle_deg: 30, center_mm: 20, web_mm } as const;
      const [a, b, solid] = pair([set, { ...set, web_side: 'behind' }]);
      return { interfere: interfere(a, b, solid), web: sawsThroughWeb(b, a, solid) };
    };
    expect(meet(40)).toEqual({ interfere: true, web: true });
    // 50 + 50 = 100: the two ends touch and all of each web is the other's slot.
    expect(meet(50)).toEqual({ interfere: false, web: true });
  });

  test('a cut at the fence through the web at the table', () => {
    // The web stands at v > 40; a flat cut at 90° from face B leaves v > 50 − w uncut itself.
    const through = (web_mm: number) => {
      const [a, b, solid] = pair([
        { cut: 'table', angle_deg: 30, center_mm: 20, web_mm: 10 },
        { angle_deg: 90, center_mm: 20, web_mm, fence_azimuths_deg: [90] },
      ]);
      return sawsThroughWeb(b, a, solid);
    };
    expect(through(5)).toBe(true);
    expect(through(10)).toBe(false);
  });
});

test('the way out of a slot is away from its closed end, in its plane', () => {
  for (let n = 0; n < 40; n++) {
    const random = seededRandom(SEED + n);
    const plain = randomDesign(SEED + n);
    const design = { ...plain, sets: plain.sets.map((set) => tabled(random, plain.blank.section, set)) };
    for (const slot of slotsOf(design)) {
      const out = wayOut(slot);
      expect(dot(out, out)).toBeCloseTo(1, 12);
      expect(dot(out, slot.normal)).toBeCloseTo(0, 12);
      expect(dot(out, slot.stopNormal)).toBeLessThan(0);
      const along = alongClosedEnd(slot);
      expect(dot(along, slot.normal)).toBeCloseTo(0, 12);
      expect(dot(along, slot.stopNormal)).toBeCloseTo(0, 12);
      if (slot.cut === 'table') expect(dot(out, slot.stopNormal)).toBeCloseTo(-1, 12);
    }
  }
});

test('random blocks: closed parts with the volumes that the library has', () => {
  const rounds = countFor('table-blocks', 25, 1_000);
  let worst = 0;
  let tables = 0;
  for (let n = 0; n < rounds; n++) {
    const random = seededRandom(SEED + n);
    const plain = randomDesign(SEED + n, { form: 'none', layered: false });
    const sets = plain.sets.map((set): SlotSet => {
      const all = tabled(random, plain.blank.section, set);
      return all.cut ? all : tabled(random, plain.blank.section, set);
    });
    const design: Design = { ...plain, sets };
    tables += slotsOf(design).filter(({ cut }) => cut === 'table').length;
    const parts = blockParts(design, { facets: 64 });
    const oracle = oracleParts(library, design, { turned: false, facets: 64 });
    const block = blockVolumes(
      slotsOf(design),
      sectionGeometry(design.blank.section),
      design.blank.length_mm,
    );
    const measured = [block.body_mm3, ...block.strips_mm3];
    parts.forEach((part, i) => {
      const what = `seed ${SEED + n}, ${part.name}`;
      expect(solidFaults(part, oracle.whole_mm3), what).toEqual([]);
      const off = Math.abs(part.volume_mm3 - oracle.parts[i].volume_mm3) / oracle.whole_mm3;
      worst = Math.max(worst, off);
      expect(off, what).toBeLessThan(1e-6);
      // A round blank is measured as a cylinder; the solids have facets.
      if (design.blank.section.shape !== 'round')
        expect(Math.abs(measured[i] - part.volume_mm3) / oracle.whole_mm3, what).toBeLessThan(1e-6);
    });
  }
  console.log(
    `${tables} cuts, largest difference of a part's volume: ${worst.toExponential(2)} of the whole`,
  );
  expect(tables).toBeGreaterThan(rounds);
});

test('a turned cylinder: strip and coverage by hand', () => {
  // θ = 90° keeps the slab square to the axis: the strip is a disc of 2 mm less the segment beyond the stop.
  const profile = cylinder(203.2, 30);
  const section = { shape: 'square', width_mm: 100 } as const;
  const slots = slotsLike(
    [{ cut: 'table', angle_deg: 90, kerf_mm: 2, web_mm: 26, fence_azimuths_deg: [0] }],
    section,
  );
  const half = Math.acos(24 / 30);
  const disc = Math.PI * 900 - 900 * (half - Math.sin(half) * Math.cos(half));
  const turned = turnedVolumes(slots, profile, sectionGeometry(section), 203.2);
  expect(turned.strips_mm3[0] / (2 * disc)).toBeCloseTo(1, 6);
  expect(coverageOf(slots, profile).strips_mm2[0]).toBeCloseTo(2 * 30 * 2 * (Math.PI - half), 8);
});
