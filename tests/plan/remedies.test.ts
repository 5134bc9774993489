/**
 * Remedies for what the saw cannot cut. Each change is made to the design and the cut is looked at with plain
 * trigonometry (written here from docs/shop-plan.md, not taken from the plan): angle in the saw's range, wood along
 * the blade, farthest corner beside the cutting plane, flats, kerf.
 */
import { describe, expect, it } from 'vitest';
import type { Design, SlotSet } from '../../src/design/document.ts';
import { changed } from '../../src/plan/remedies.ts';
import { sawLimitsOf } from '../../src/plan/sawLimits.ts';
import { worded } from '../../src/plan/wording.ts';
import { seededRandom } from '../fixtures/random.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';
import { SEED } from '../soak/counts.ts';

const RAD = Math.PI / 180;

/** Eight corners of a square or rectangular blank. */
function corners({ blank }: Design): [number, number, number][] {
  const x = blank.section.width_mm / 2;
  const y = (blank.section.depth_mm ?? blank.section.width_mm) / 2;
  return [-x, x].flatMap((cx) =>
    [-y, y].flatMap((cy) => [0, blank.length_mm].map((cz): [number, number, number] => [cx, cy, cz])),
  );
}

/** Wood on both sides of the cutting plane of a set cut from azimuth φ, at the fence. */
function beside(design: Design, set: SlotSet, azimuth_deg: number): [foot: number, head: number] {
  const slope = set.high_side === 'fence' ? 1 : -1;
  const f = corners(design).map(
    ([x, y, z]) =>
      Math.sin(set.angle_deg * RAD) * (z - set.center_mm) -
      slope *
        Math.cos(set.angle_deg * RAD) *
        (x * Math.cos(azimuth_deg * RAD) + y * Math.sin(azimuth_deg * RAD)),
  );
  return [Math.max(...f.map((value) => -value)), Math.max(...f)];
}

/** The blank's extent along the blade, at the fence. */
function tall(design: Design, azimuth_deg: number): number {
  const along = corners(design).map(
    ([x, y]) => -x * Math.sin(azimuth_deg * RAD) + y * Math.cos(azimuth_deg * RAD),
  );
  return Math.max(...along) - Math.min(...along);
}

describe('every change that is offered lifts the limit', () => {
  it('on 300 random cuts of square and rectangular blanks at the fence', () => {
    const random = seededRandom(SEED);
    const offered = new Map<string, number>();
    for (let n = 0; n < 300; n++) {
      const design = fourRings({
        section: random.chance(0.5)
          ? { shape: 'square', width_mm: random.between(40, 120) }
          : { shape: 'rectangle', width_mm: random.between(40, 120), depth_mm: random.between(40, 120) },
        length_mm: random.between(100, 400),
        form: null,
        sets: [
          slotSet({
            fence_azimuths_deg: [random.pick([0, 90, 180, 270, 33])],
            angle_deg: random.between(20, 90),
            center_mm: random.between(30, 300),
            kerf_mm: random.pick([1, 2]),
          }),
        ],
        saw: {
          max_cut_height_mm: random.between(50, 120),
          throat_mm: random.between(60, 200),
          fence_min_deg: 35,
          fence_max_deg: random.pick([80, 90]),
          blade_kerf_mm: random.pick([1, 1.3]),
        },
      });
      for (const { slot, limit, remedies } of sawLimitsOf(design)) {
        expect(remedies.length, limit).toBeGreaterThan(0);
        for (const { change, words } of remedies) {
          if (change === null) continue;
          const next = changed(design, slot, change);
          const [set] = next.sets;
          const where = `${n}: ${worded(words, 'mm')}`;
          const [azimuth] = set.fence_azimuths_deg;
          offered.set(change.kind, (offered.get(change.kind) ?? 0) + 1);
          if (set.cut === 'table') {
            expect(set.angle_deg, where).toBeLessThanOrEqual(next.saw.table_tilt_max_deg);
            continue;
          }
          const { saw } = next;
          if (limit === 'angle') {
            expect(set.angle_deg, where).toBeGreaterThanOrEqual(saw.fence_min_deg);
            expect(set.angle_deg, where).toBeLessThanOrEqual(saw.fence_max_deg);
          }
          if (limit === 'height')
            expect(tall(next, azimuth), where).toBeLessThanOrEqual(saw.max_cut_height_mm + 1e-6);
          if (limit === 'throat')
            expect(Math.min(...beside(next, set, azimuth)), where).toBeLessThanOrEqual(
              (saw.throat_mm ?? Infinity) + 1e-6,
            );
          if (limit === 'face') expect(azimuth % 90, where).toBe(0);
          if (limit === 'kerf') expect(set.kerf_mm, where).toBe(saw.blade_kerf_mm);
        }
      }
    }
    console.log(`changes offered: ${JSON.stringify([...offered])}`);
    expect([...offered.keys()].toSorted()).toEqual(
      expect.arrayContaining(['angle', 'azimuth', 'kerf', 'narrower', 'shorter']),
    );
  });

  it('a kerf takes its strip along, layers in their shares', () => {
    const layers = [0.5, 1.5].map((thickness_mm) => ({ timber: 'wenge', thickness_mm }));
    const design = fourRings({ sets: [slotSet({ kerf_mm: 2, strip: { layers } })] });
    const next = changed(design, 'S1.1', { kind: 'kerf', kerf_mm: 3 });
    expect(next.sets[0].strip.layers.map((layer) => layer.thickness_mm)).toEqual([0.75, 2.25]);
  });
});
