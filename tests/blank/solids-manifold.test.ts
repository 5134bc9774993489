/**
 * The exact solids against manifold-3d, an independent boolean library in double precision: the volume of
 * every part within 1e-6 of the whole's, every part closed, the parts together the whole. Designs are random
 * and awkward on purpose (coincident cuts, cuts face to face, slots out through an end, flats left on the
 * form), besides the cases below that chance would not find.
 */
import { describe, expect, test } from 'vitest';
import { blockParts, turnedParts } from '../../src/blank/solids.ts';
import type { Part } from '../../src/blank/parts.ts';
import type { Design, SlotSet } from '../../src/design/document.ts';
import { decorated } from '../fixtures/decorated.ts';
import { fourRings, hollowForm, randomDesign, slotSet } from '../fixtures/designs.ts';
import { seededRandom } from '../fixtures/random.ts';
import { solidFaults } from '../oracles/closed.ts';
import { manifoldLibrary, oracleParts, type OracleOptions } from '../oracles/manifoldOracle.ts';
import { countFor, SEED } from '../soak/counts.ts';

const TOLERANCE = 1e-6;
const library = await manifoldLibrary();

/** Faults of our solids of a design in words, and the largest difference of a part's volume, over the whole's. */
function compare(design: Design, options: OracleOptions): { faults: string[]; worst: number } {
  const ours: Part[] = options.turned ? turnedParts(design, options) : blockParts(design, options);
  const oracle = oracleParts(library, design, options);
  const faults = ours.flatMap((part) => solidFaults(part, oracle.whole_mm3));
  expect(ours.map(({ name }) => name)).toEqual(oracle.parts.map(({ name }) => name));
  let worst = 0;
  ours.forEach(({ name, volume_mm3 }, i) => {
    const off = Math.abs(volume_mm3 - oracle.parts[i].volume_mm3) / oracle.whole_mm3;
    worst = Math.max(worst, off);
    if (!(off <= TOLERANCE))
      faults.push(`${name}: ${volume_mm3} mm³, the library has ${oracle.parts[i].volume_mm3} mm³`);
  });
  const sum = ours.reduce((total, { volume_mm3 }) => total + volume_mm3, 0);
  if (!(Math.abs(sum / oracle.whole_mm3 - 1) <= TOLERANCE))
    faults.push(`all parts: ${sum} mm³, the whole has ${oracle.whole_mm3} mm³`);
  return { faults, worst };
}

function expectAgreement(
  count: number,
  next: (seed: number) => { design: Design; options: OracleOptions },
): void {
  let worst = 0;
  for (let i = 0; i < count; i++) {
    const { design, options } = next(SEED + i);
    const result = compare(design, options);
    worst = Math.max(worst, result.worst);
    expect(result.faults, `randomDesign(${SEED + i}), ${JSON.stringify(options)}`).toEqual([]);
  }
  console.log(`largest difference of a part's volume: ${worst.toExponential(2)} of the whole`);
}

test('random blocks', () => {
  const count = countFor('solids-block', 60, 20_000);
  expectAgreement(count, (seed) => ({ design: randomDesign(seed), options: { turned: false, facets: 64 } }));
});

test('random turned pieces', () => {
  const count = countFor('solids-turned', 4, 1_000);
  expectAgreement(count, (seed) => {
    const random = seededRandom(seed);
    let design = randomDesign(seed);
    for (let other = 1; !design.form; other++) design = randomDesign(seed + 1e6 * other);
    return {
      design,
      options: { turned: true, facets: random.whole(3, 24) * 4, rows: random.whole(8, 48) },
    };
  });
});

test('random drilled pieces and loops, some cuts with the table tilted', () => {
  const count = countFor('solids-drilled', 6, 1_000);
  expectAgreement(count, (seed) => {
    const random = seededRandom(seed);
    let plain = randomDesign(seed);
    for (let other = 1; !plain.form; other++) plain = randomDesign(seed + 1e6 * other);
    const design = decorated(seed, plain);
    const sets = design.sets.map((set): SlotSet =>
      random.chance(0.4) ? { ...set, cut: 'table', web_side: random.pick(['ahead', 'behind']) } : set,
    );
    return {
      design: { ...design, sets },
      options: { turned: true, facets: random.whole(3, 16) * 4, rows: random.whole(8, 32) },
    };
  });
});

test.each([1096, 1978, 2781, 5713])('block of random design %i, found by a longer run', (seed) => {
  expect(compare(randomDesign(seed), { turned: false, facets: 64 }).faults).toEqual([]);
});

describe('turned pieces with planes where they are awkward', () => {
  const facets = 24;
  const options: OracleOptions = { turned: true, facets, rows: 16 };
  const cone = (foot_mm: number, head_mm: number, length_mm: number) => ({
    outline: [
      { z_mm: 0, r_mm: 0 },
      { z_mm: 0, r_mm: foot_mm },
      { z_mm: length_mm, r_mm: head_mm },
      { z_mm: length_mm, r_mm: 0 },
    ],
  });
  /** Azimuth of the middle of facet 0, and the facet's distance from the axis where the radius is r. */
  const middle_deg = 180 / facets;
  const apothem = (radius_mm: number) => radius_mm * Math.cos(Math.PI / facets);

  test('a face of the kerf in the plane of a facet of a cone', () => {
    const [foot_mm, head_mm, length_mm] = [30, 10, 200];
    const slope = (apothem(foot_mm) - apothem(head_mm)) / length_mm;
    const angle_deg = (Math.atan(slope) * 180) / Math.PI;
    const kerf_mm = 1;
    // The facet falls toward the axis as z rises: u = apothem(foot) − slope · z, a low side at the fence.
    const faceCenter_mm = apothem(foot_mm) / slope;
    for (const side of [-1, 1]) {
      const center_mm = faceCenter_mm + (side * kerf_mm) / 2 / Math.sin(Math.atan(slope));
      const set = slotSet({
        fence_azimuths_deg: [middle_deg],
        high_side: 'entry',
        angle_deg,
        center_mm,
        kerf_mm,
        web_mm: 0,
      });
      const design = fourRings({ length_mm, sets: [set], form: cone(foot_mm, head_mm, length_mm) });
      expect(compare(design, options).faults).toEqual([]);
    }
  });

  test('a face of the kerf in the plane of a shoulder, of the foot and of the head', () => {
    const form = {
      outline: [
        { z_mm: 0, r_mm: 0 },
        { z_mm: 0, r_mm: 30 },
        { z_mm: 100, r_mm: 30 },
        { z_mm: 100, r_mm: 20 },
        { z_mm: 200, r_mm: 20 },
        { z_mm: 200, r_mm: 0 },
      ],
    };
    for (const center_mm of [-0.5, 0.5, 99.5, 100, 100.5, 199.5, 200.5]) {
      const set = slotSet({ angle_deg: 90, center_mm, kerf_mm: 1, web_mm: 20, fence_azimuths_deg: [0, 180] });
      const design = fourRings({ length_mm: 200, sets: [set], form });
      expect(compare(design, options).faults, `center ${center_mm}`).toEqual([]);
    }
  });

  test('a stopping plane through the axis, in a facet, and touching an edge of the form', () => {
    const h_mm = 38.1;
    for (const stop_mm of [0, apothem(25), 25]) {
      const sets = [
        slotSet({ web_mm: h_mm - stop_mm, fence_azimuths_deg: [0, 90] }),
        slotSet({ id: 'S2', web_mm: h_mm - stop_mm, fence_azimuths_deg: [middle_deg, 180] }),
      ];
      const design = fourRings({ sets, form: cone(25, 25, 203.2) });
      expect(compare(design, options).faults, `stop ${stop_mm}`).toEqual([]);
    }
  });

  test('mid-planes and kerf faces through the vertices of the faceted surface', () => {
    // On a cylinder of radius 30, 45°: planes z = z0 + x pass through the vertices at x = 0 of a row at z0.
    const form = {
      outline: [0, 20, 40, 60, 80, 100].flatMap((z_mm, i, all) =>
        i === 0 || i === all.length - 1
          ? i === 0
            ? [
                { z_mm, r_mm: 0 },
                { z_mm, r_mm: 30 },
              ]
            : [
                { z_mm, r_mm: 30 },
                { z_mm, r_mm: 0 },
              ]
          : [{ z_mm, r_mm: 30 }],
      ),
    };
    const kerf_mm = 2 * Math.SQRT1_2;
    const sets = [40, 41, 60].map((center_mm, i) =>
      slotSet({ id: `S${i + 1}`, angle_deg: 45, center_mm, kerf_mm, web_mm: 0 }),
    );
    const design = fourRings({ length_mm: 100, sets, form });
    expect(compare(design, options).faults).toEqual([]);
  });

  test('a hollow bowl with flats left by the blank', () => {
    const sets = [slotSet({ angle_deg: 30, center_mm: 30, fence_azimuths_deg: [0, 60, 120, 180, 240, 300] })];
    const design = fourRings({
      section: { shape: 'hexagon', width_mm: 90 },
      length_mm: 60,
      sets,
      form: hollowForm(60, 50, 5, 6),
    });
    expect(compare(design, options).faults).toEqual([]);
  });
});
