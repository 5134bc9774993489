/**
 * Interference of slots: closed-form cases of touching and overlapping, and random designs against the
 * volumes of an independent boolean library (manifold-3d, a development dependency).
 */
import { describe, expect, it } from 'vitest';
import Module, { type Manifold } from 'manifold-3d';
import { blankSolid, interfere, reachesBlank, sawsThroughWeb } from '../../src/blank/interference.ts';
import { sectionGeometry } from '../../src/blank/section.ts';
import { slotsOf, type Slot } from '../../src/blank/slots.ts';
import type { Design } from '../../src/design/document.ts';
import { fourRings, randomDesign, slotSet, type FourRingsOverrides } from '../fixtures/designs.ts';
import { countFor, SEED } from '../soak/counts.ts';

function pair(overrides: FourRingsOverrides): boolean {
  const design = fourRings(overrides);
  const [a, b] = slotsOf(design);
  const solid = blankSolid(design.blank);
  const result = interfere(a, b, solid);
  expect(interfere(b, a, solid)).toBe(result);
  return result;
}

describe('two parallel slots of one face', () => {
  const two = (gapAlongAxis_mm: number, angle_deg: number) =>
    pair({
      sets: [
        slotSet({ fence_azimuths_deg: [0], angle_deg, kerf_mm: 3, center_mm: 100 }),
        slotSet({
          id: 'S2',
          fence_azimuths_deg: [0],
          angle_deg,
          kerf_mm: 3,
          // Axial width of a slab of thickness t: t / sin θ (published formula list G9, elementary).
          center_mm: 100 + 3 / Math.sin((angle_deg * Math.PI) / 180) + gapAlongAxis_mm,
        }),
      ],
    });

  for (const angle of [12.34, 30, 45, 54.7356, 75, 90]) {
    it(`${angle}°: touching is no overlap, 0.1 µm either way decides`, () => {
      expect(two(0, angle)).toBe(false);
      expect(two(1e-4, angle)).toBe(false);
      expect(two(-1e-4, angle)).toBe(true);
    });
  }
});

describe('slots of different faces', () => {
  it('the same plane sawn from opposite faces: overlaps when the two depths pass each other', () => {
    const opposite = (web_mm: number) =>
      pair({
        sets: [
          slotSet({ fence_azimuths_deg: [0], web_mm, high_side: 'fence' }),
          slotSet({ id: 'S2', fence_azimuths_deg: [180], web_mm, high_side: 'entry' }),
        ],
      });
    // Each slot reaches u ≤ 38.1 − w; they meet when w < 38.1, half the width of 76.2.
    expect(opposite(38.0)).toBe(true);
    expect(opposite(38.1)).toBe(false);
    expect(opposite(38.2)).toBe(false);
  });

  it('crossing planes overlap only where both are inside the blank', () => {
    const crossing = (apart_mm: number, section: 'square' | 'round') =>
      pair({
        section: { shape: section, width_mm: 60 },
        sets: [
          slotSet({ fence_azimuths_deg: [0], kerf_mm: 2, web_mm: 0, angle_deg: 45, center_mm: 100 }),
          slotSet({
            id: 'S2',
            fence_azimuths_deg: [90],
            kerf_mm: 2,
            web_mm: 0,
            angle_deg: 45,
            center_mm: 100 + apart_mm,
          }),
        ],
      });
    // Mid-planes z = 100 + x and z = 100 + d + y meet where x − y = d; slabs add √2 each to the reach.
    // Largest x − y: 60 at the square's corner, 30 √2 on the circle.
    const slabs_mm = 2 * Math.SQRT2;
    expect(crossing(60 + slabs_mm - 1e-3, 'square')).toBe(true);
    expect(crossing(60 + slabs_mm + 1e-3, 'square')).toBe(false);
    expect(crossing(30 * Math.SQRT2 + slabs_mm - 1e-3, 'round')).toBe(true);
    expect(crossing(30 * Math.SQRT2 + slabs_mm + 1e-3, 'round')).toBe(false);
  });

  it('an overlap beyond the end of the blank does not count', () => {
    const beyond = (center_mm: number) =>
      pair({
        sets: [
          slotSet({ fence_azimuths_deg: [0], angle_deg: 45, center_mm, web_mm: 0 }),
          slotSet({
            id: 'S2',
            fence_azimuths_deg: [0],
            angle_deg: 45,
            center_mm,
            web_mm: 0,
            high_side: 'entry',
          }),
        ],
      });
    // They cross on the axis at z = center; kerfs reach 0.508 · √2 further along it.
    const half = 0.508 * Math.SQRT2;
    expect(beyond(203.2 + half - 1e-3)).toBe(true);
    expect(beyond(203.2 + half + 1e-3)).toBe(false);
    expect(beyond(-half - 1e-3)).toBe(false);
    expect(beyond(-half + 1e-3)).toBe(true);
  });
});

describe('sawing through a web', () => {
  const design = (cutterWeb_mm: number) =>
    fourRings({
      sets: [
        slotSet({ fence_azimuths_deg: [0], angle_deg: 90, web_mm: 10, kerf_mm: 1 }),
        slotSet({
          id: 'S2',
          fence_azimuths_deg: [0],
          angle_deg: 45,
          web_mm: cutterWeb_mm,
          kerf_mm: 1,
          center_mm: 101.6 - 33,
        }),
      ],
    });
  // The 45° plane passes u = 33 at z = 101.6, inside the web 28.1 < u < 38.1 of the square cut.
  it('is seen when the cutter reaches the web and only then', () => {
    const solid = blankSolid(design(1).blank);
    const at = (web_mm: number) => {
      const [open, cutter] = slotsOf(design(web_mm));
      return [
        interfere(open, cutter, solid),
        sawsThroughWeb(cutter, open, solid),
        sawsThroughWeb(open, cutter, solid),
      ];
    };
    expect(at(1)).toEqual([false, true, false]);
    // The 45° kerf inside the square cut's kerf begins at u = 33 − 0.5 − 0.5 √2 = 31.79: a web of 6.31.
    expect(at(6.2)).toEqual([false, true, false]);
    expect(at(6.4)).toEqual([false, false, false]);
  });

  it('a web of nothing cannot be sawn through', () => {
    const d = fourRings({ set: { web_mm: 0 } });
    const slots = slotsOf(d);
    const solid = blankSolid(d.blank);
    const sawn = slots.flatMap((a) => slots.filter((b) => a !== b && sawsThroughWeb(a, b, solid)));
    expect(sawn).toEqual([]);
  });
});

describe('a slot that misses the blank', () => {
  const reaches = (center_mm: number, angle_deg: number, web_mm = 2.54) => {
    const design = fourRings({ set: { fence_azimuths_deg: [0], angle_deg, center_mm, web_mm } });
    return reachesBlank(slotsOf(design)[0], blankSolid(design.blank));
  };

  it('is told from one that takes a sliver', () => {
    // Square across: the kerf is 1.016 wide, the blank 203.2 long.
    expect(reaches(203.2 + 0.507, 90)).toBe(true);
    expect(reaches(203.2 + 0.508, 90)).toBe(false);
    expect(reaches(-0.509, 90)).toBe(false);
    // At 45° it falls by 38.1 to the entry face; at the fence side the web is in the way.
    expect(reaches(203.2 + 38.1 + 0.718, 45)).toBe(true);
    expect(reaches(203.2 + 38.1 + 0.719, 45)).toBe(false);
    expect(reaches(-38.1 + 2.54 - 0.718, 45)).toBe(true);
    expect(reaches(-38.1 + 2.54 - 0.719, 45)).toBe(false);
  });
});

/** How far the library's bodies are grown for the outer side of the comparison, mm. */
const GROWN_MM = 0.005;

describe('random designs against manifold-3d', () => {
  it('overlaps where the library finds volume, none where even grown bodies share nothing', async () => {
    const library = await Module();
    library.setup();
    const rounds = countFor('interference', 15, 1000);
    const tally = { overlap: 0, apart: 0, through: 0, spared: 0 };
    for (let n = 0; n < rounds; n++) {
      const seed = SEED + n;
      const design = randomDesign(seed, { form: 'none', maxSlots: 6 });
      const slots = slotsOf(design);
      const solid = blankSolid(design.blank);
      const exact = bodiesOf(library, design, slots, 0);
      const grown = bodiesOf(library, design, slots, GROWN_MM);
      const compare = (
        first: 'slots' | 'webs',
        i: number,
        second: 'slots' | 'webs',
        j: number,
        ours: boolean,
      ) => {
        const inner = exact[first][i].intersect(exact[second][j]);
        const outer = grown[first][i].intersect(grown[second][j]);
        const what = `seed ${seed} ${slots[i].id} ${first} with ${slots[j].id} ${second}`;
        if (inner.volume() > 1e-3) expect(ours, what).toBe(true);
        if (outer.volume() < 1e-9) expect(ours, what).toBe(false);
        inner.delete();
        outer.delete();
      };
      slots.forEach((a, i) => {
        const reaches = reachesBlank(a, solid);
        if (exact.slots[i].volume() > 1e-3) expect(reaches, `seed ${seed} ${a.id}`).toBe(true);
        if (grown.slots[i].volume() < 1e-9) expect(reaches, `seed ${seed} ${a.id}`).toBe(false);
        slots.forEach((b, j) => {
          if (i === j) return;
          const through = sawsThroughWeb(a, b, solid);
          compare('slots', i, 'webs', j, through);
          tally[through ? 'through' : 'spared']++;
          if (i > j) return;
          const overlap = interfere(a, b, solid);
          compare('slots', i, 'slots', j, overlap);
          tally[overlap ? 'overlap' : 'apart']++;
        });
      });
      for (const body of [...exact.slots, ...exact.webs, ...grown.slots, ...grown.webs]) body.delete();
    }
    console.log(`interference against manifold-3d: ${JSON.stringify(tally)}`);
    for (const [kind, count] of Object.entries(tally)) expect(count, kind).toBeGreaterThan(0);
  });
});

type Library = Awaited<ReturnType<typeof Module>>;

/** Slots and webs cut to the blank, all boundaries moved outward by `grow_mm`. */
function bodiesOf(library: Library, design: Design, slots: readonly Slot[], grow_mm: number) {
  const section = sectionGeometry(design.blank.section);
  // A round blank is a polygon of 720 sides: inside the circle when exact, around it when grown.
  const sides = 720;
  const radius = section.circumscribedRadius_mm / (grow_mm > 0 ? Math.cos(Math.PI / sides) : 1);
  const corners = section.round
    ? Array.from({ length: sides }, (_, i) => {
        const angle = (2 * Math.PI * i) / sides;
        return [radius * Math.cos(angle), radius * Math.sin(angle)] as [number, number];
      })
    : section.corners_mm.map(([x, y]) => [x, y] as [number, number]);
  const stretch = 1 + (2 * grow_mm) / section.inscribedRadius_mm;
  const block = library.Manifold.extrude(
    [corners.map(([x, y]) => [x * (grow_mm > 0 ? stretch : 1), y * (grow_mm > 0 ? stretch : 1)])],
    design.blank.length_mm + 2 * grow_mm,
  ).translate([0, 0, -grow_mm]);
  const body = (slot: Slot, web: boolean): Manifold => {
    const [nx, ny, nz] = slot.normal;
    const half = slot.kerf_mm / 2 + grow_mm;
    const [sx, sy, sz] = slot.stopNormal;
    let part = block
      .trimByPlane([nx, ny, nz], slot.offset_mm - half)
      .trimByPlane([-nx, -ny, -nz], -slot.offset_mm - half);
    part = web
      ? part.trimByPlane([sx, sy, sz], slot.stop_mm - grow_mm)
      : part.trimByPlane([-sx, -sy, -sz], -slot.stop_mm - grow_mm);
    return part;
  };
  return { slots: slots.map((slot) => body(slot, false)), webs: slots.map((slot) => body(slot, true)) };
}
