/** Cautions and limits of the saw: they appear where they apply, and each has a source. */
import { describe, expect, it } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { cautionsOf } from '../../src/plan/cautions.ts';
import { measuresOf } from '../../src/plan/measures.ts';
import { sawLimitsOf as limitsOf } from '../../src/plan/sawLimits.ts';
import { worded } from '../../src/plan/wording.ts';
import { sessionChoices } from '../../src/plan/sessionChoices.ts';
import { cylinderForm, fourRings, randomDesign, slotSet } from '../fixtures/designs.ts';

const cautions = (design: Design) =>
  cautionsOf(design, measuresOf(design)).map((caution) => ({
    ...caution,
    text: worded(caution.words, design.unit),
  }));
const sawLimitsOf = (design: Design) =>
  limitsOf(design).map(({ remedies, ...limit }) => ({
    ...limit,
    remedies: remedies.map(({ words }) => worded(words, 'mm')),
  }));
const ids = (design: Design) => cautions(design).map((caution) => caution.id);

describe('cautions', () => {
  it('start with the manual, cover saw, glue, lathe and dust, and each names a source', () => {
    const all = cautions(fourRings());
    expect(all[0].id).toBe('manual-first');
    expect(new Set(all.map((c) => c.where))).toEqual(new Set(['everywhere', 'saw', 'glue', 'lathe', 'dust']));
    for (const caution of all) {
      expect(caution.source, caution.id).toMatch(
        /common practice|WIS31|CFR|exposure|directive|rule of thumb|memory/,
      );
      expect(caution.text, caution.id).toMatch(/^\S.*\.$/);
    }
    expect(new Set(all.map((c) => c.id)).size).toBe(all.length);
  });

  it('those of a weak web only where the web is weak', () => {
    expect(ids(fourRings())).not.toContain('weak-web');
    const weak = cautions(fourRings({ set: { web_mm: 1 } })).find((c) => c.id === 'weak-web');
    expect(weak?.slots).toEqual(['S1.1', 'S1.2', 'S1.3', 'S1.4']);
  });

  it('deep cuts above about 2 in (common practice), cradles, small blanks, small angles', () => {
    const small = { section: { shape: 'square', width_mm: 50 } as const, form: null };
    expect(ids(fourRings())).toContain('deep-cut');
    expect(ids(fourRings(small))).not.toContain('deep-cut');
    expect(ids(fourRings({ ...small, length_mm: 120, set: { center_mm: 60 } }))).toContain('small-blank');
    expect(ids(fourRings(small))).not.toContain('small-blank');
    expect(ids(fourRings({ set: { fence_azimuths_deg: [45] } }))).toContain('no-flat');
    expect(ids(fourRings({ set: { angle_deg: 25 } }))).toContain('steep-sled');
    // Below a face at the fence a hexagon has a corner, an octagon a face.
    const sided = (shape: 'hexagon' | 'octagon') =>
      fourRings({ section: { shape, width_mm: 60 }, form: null, set: { fence_azimuths_deg: [0, 180] } });
    expect(ids(sided('hexagon'))).toContain('on-edge');
    expect(ids(sided('octagon'))).not.toContain('on-edge');
  });

  it('slots that are open together', () => {
    const apart = (max_open_slots: number) =>
      fourRings({
        sets: [
          slotSet({ fence_azimuths_deg: [0], center_mm: 50, angle_deg: 75 }),
          slotSet({ id: 'S2', fence_azimuths_deg: [0], center_mm: 150, angle_deg: 75 }),
        ],
        saw: { max_open_slots },
      });
    expect(ids(apart(1))).not.toContain('open-together');
    expect(cautions(apart(2)).find((c) => c.id === 'open-together')?.slots).toEqual(['S1.1', 'S2.1']);
  });

  it('timbers that need care, by name; also under their other names', () => {
    const wenge = fourRings({ set: { strip: { layers: [{ timber: 'wenge', thickness_mm: 1.016 }] } } });
    expect(cautions(wenge).find((c) => c.id === 'oily-timber')?.text).toContain('Oily: wenge.');
    expect(cautions(wenge).find((c) => c.id === 'sensitising')?.source).not.toContain('padauk');
    expect(cautions(wenge).find((c) => c.id === 'sensitising')?.text).toContain('black walnut and wenge');
    const mild = { ...fourRings(), blank: { ...fourRings().blank, timber: 'hard-maple' } };
    expect(ids(mild)).not.toContain('sensitising');
  });

  it('lathe speed for the largest diameter: 60 mm is 2.36 in, 2540 to 3810 rpm', () => {
    const design = { ...fourRings(), form: cylinderForm(203.2, 30) };
    expect(cautions(design).find((c) => c.id === 'speed')?.text).toContain(
      'For 2.4 in about 2540 to 3810 rpm as a rule of thumb',
    );
    expect(ids(fourRings({ form: null }))).not.toContain('speed');
  });
});

describe('limits of the saw', () => {
  it('none for what it can cut', () => {
    expect(sawLimitsOf(fourRings())).toEqual([]);
  });

  it('an angle below the fence: raise it, make a sled, or tilt the table', () => {
    const [limit] = sawLimitsOf(fourRings({ set: { angle_deg: 25 } }));
    expect(limit.limit).toBe('angle');
    expect(limit.remedies[0]).toContain('30°');
    // Tilted by 25° the blade runs through 76.2 / sin 25° = 180.3 mm of wood, more than the 150 mm that the saw clears.
    expect(limit.remedies.length).toBe(2);
    const [higher] = sawLimitsOf(fourRings({ set: { angle_deg: 25 }, saw: { max_cut_height_mm: 181 } }));
    expect(higher.remedies[2]).toBe('Cut it with the table tilted by 25°.');
    // 50° cannot be had by tilting a table that goes to 45°.
    const [steep] = sawLimitsOf(fourRings({ set: { angle_deg: 50 }, saw: { fence_min_deg: 55 } }));
    expect(steep.remedies.length).toBe(2);
  });

  it('a blank too tall: how much smaller', () => {
    const [limit] = sawLimitsOf(fourRings({ saw: { max_cut_height_mm: 70 } }));
    expect(limit.limit).toBe('height');
    expect(limit.remedies[0]).toContain('6.2 mm smaller');
  });

  it('no flat: the cradle, or the nearest face', () => {
    const [limit] = sawLimitsOf(fourRings({ set: { fence_azimuths_deg: [350] } }));
    expect(limit.remedies[0]).toContain('350°');
    expect(limit.remedies[1]).toContain('by 10° to face A (0°)');
  });

  it('speak of the same slots as the messages', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const design = randomDesign(seed, { form: 'none', maxSlots: 6 });
      const { setups } = measuresOf(design);
      const limits = sawLimitsOf(design);
      setups.forEach((setup) => {
        const mine = limits.filter((l) => l.slot === setup.slot).map((l) => l.limit);
        expect(mine.includes('angle'), `seed ${seed}`).toBe(
          setup.fence_angle_deg < 30 || setup.fence_angle_deg > 90,
        );
        expect(mine.includes('height'), `seed ${seed}`).toBe(setup.cut_height_mm > 150);
        expect(mine.includes('face'), `seed ${seed}`).toBe(setup.face === null);
      });
    }
  });
});

describe('the price of open slots', () => {
  it('24 glue-ups one at a time, 8 with three open, for six groups apart', () => {
    const design = fourRings({
      length_mm: 700,
      sets: Array.from({ length: 6 }, (_, n) =>
        slotSet({ id: `S${n + 1}`, center_mm: 60 + n * 110, angle_deg: 60 }),
      ),
      form: null,
    });
    const { slots, plan } = measuresOf(design);
    const choices = sessionChoices(slots, design.blank, design.saw, plan, [1, 2, 3, 6]);
    expect(choices.map((choice) => [choice.maxOpen, choice.glueUps])).toEqual([
      [1, 24],
      [2, 12],
      [3, 8],
      [6, 4],
    ]);
    expect(choices[0].clampMinutes).toBe(480);
    expect(choices.every((choice) => choice.exact)).toBe(true);
  });
});
