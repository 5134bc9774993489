/**
 * Volumes of drilled pieces and of loops against the closed solids of the same design, which are carved plane by
 * plane and faceted: two ways that share the outline and the slots alone. Closed forms: holes.test.ts,
 * holeVolumes.test.ts.
 */
import { expect, test } from 'vitest';
import { turnedParts } from '../../src/blank/solids.ts';
import type { Design } from '../../src/design/document.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { measuresOf } from '../../src/plan/measures.ts';
import { decorated } from '../fixtures/decorated.ts';
import { fourRings, randomDesign } from '../fixtures/designs.ts';
import { solidFaults } from '../oracles/closed.ts';
import { countFor, SEED } from '../soak/counts.ts';

/** A solid of 512 facets is low by 2π² / (3 · 512²) = 2.5e-5. */
const AGREED = 1e-4;

/**
 * Largest difference of a part, as a share of the whole; every solid must be closed. The solids' own outline is a
 * coarse polyline, low by up to 1e-4 where it curves all the way: then they are carved once more with fine rows.
 */
function difference(design: Design): number {
  const off = differenceFrom(design, {});
  return off < AGREED ? off : differenceFrom(design, { rows: 800 });
}

function differenceFrom(design: Design, options: { readonly rows?: number }): number {
  const { form, slots } = measuresOf(design);
  if (!form) throw new Error('the design has no form');
  const { turned } = form;
  const parts = turnedParts(design, { ...options, facets: 512 });
  expect(parts.flatMap((part) => solidFaults(part, turned.volume_mm3))).toEqual([]);
  const carved = (id: string | null): number =>
    parts.filter(({ slot }) => slot === id).reduce((sum, { volume_mm3 }) => sum + volume_mm3, 0);
  const off = slots.map((slot, i) => carved(slot.id) - turned.strips_mm3[i]);
  off.push(carved(null) - turned.body_mm3);
  off.push(parts.reduce((sum, { volume_mm3 }) => sum + volume_mm3, 0) - turned.volume_mm3);
  return Math.max(...off.map(Math.abs)) / turned.volume_mm3;
}

test('a candle stick with its cup, a hole up the foot and a cord hole that meets the cup', () => {
  const { form, ...design } = fourRings();
  if (!form) throw new Error('the candle stick has a form');
  const drilled: Design = {
    ...design,
    form: {
      ...form,
      holes: [
        { from: 'head', diameter_mm: 22, depth_mm: 60 },
        { from: 'foot', diameter_mm: 9, depth_mm: 110, offset_mm: 8, azimuth_deg: 70 },
        { from: 'side', diameter_mm: 6, depth_mm: null, azimuth_deg: 20, z_mm: 150 },
      ],
    },
  };
  expect(difference(drilled)).toBeLessThan(AGREED);
});

test('a bangle with a pin hole', () => {
  const bangle = parseDesign(
    JSON.stringify({
      ...fourRings({
        section: { shape: 'octagon', width_mm: 90 },
        length_mm: 40,
        set: { center_mm: 20, angle_deg: 75 },
      }),
      form: {
        outline: [
          { z_mm: 5, r_mm: 38, smooth: true },
          { z_mm: 20, r_mm: 42, smooth: true },
          { z_mm: 35, r_mm: 38, smooth: true },
          { z_mm: 32, r_mm: 32 },
          { z_mm: 8, r_mm: 32 },
        ],
        loop: true,
        holes: [{ from: 'side', diameter_mm: 4, depth_mm: 6, azimuth_deg: 10, z_mm: 20 }],
      },
    }),
  );
  expect(bangle.ok && difference(bangle.design)).toBeLessThan(AGREED);
});

test('a long thin loop that curves all the way, its bore grooved by a hole from the head', () => {
  const seed = 20_251_434;
  const design = decorated(seed, randomDesign(seed, { form: 'any', maxSlots: 6 }));
  expect(differenceFrom(design, { rows: 800 })).toBeLessThan(AGREED);
});

test('random pieces, drilled and looped at random', () => {
  const rounds = countFor('volumes-drilled-solids', 6, 400);
  let worst = 0;
  for (let n = 0; n < rounds; n++) {
    const design = decorated(SEED + n, randomDesign(SEED + n, { form: 'any', maxSlots: 6 }));
    const off = difference(design);
    worst = Math.max(worst, off);
    expect(off, `decorated(${SEED + n})`).toBeLessThan(AGREED);
  }
  console.log(`largest difference of a part’s volume: ${worst.toExponential(2)} of the whole`);
});
