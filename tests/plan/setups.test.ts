/**
 * Set-ups against hand calculation. Values marked "common practice" are of the trade, without a published
 * source; the rest is trigonometry worked out beside each check, and G23 of the published formula list
 * (stopped cut: path along the saw plane (w − u)/sin θ, elementary).
 */
import { describe, expect, it } from 'vitest';
import { setupsOf } from '../../src/plan/setups.ts';
import { fourRings, randomDesign, slotSet } from '../fixtures/designs.ts';

describe('set-ups of the four rings at 45°', () => {
  const setups = setupsOf(fourRings());

  it('names slots and faces in cutting order', () => {
    expect(setups.map((s) => [s.slot, s.face, s.entry_face])).toEqual([
      ['S1.1', 'A', 'C'],
      ['S1.2', 'B', 'D'],
      ['S1.3', 'C', 'A'],
      ['S1.4', 'D', 'B'],
    ]);
  });

  it('marks, stop and depth (45°: a rise of half the width, 38.1 mm)', () => {
    const [s] = setups;
    expect(s.fence_angle_deg).toBe(45);
    expect(s.protractor_deg).toBe(45);
    expect(s.mark_fence_mm).toBeCloseTo(101.6 + 38.1, 12);
    expect(s.mark_entry_mm).toBeCloseTo(101.6 - 38.1, 12);
    expect(s.stop_end).toBe('foot');
    expect(s.stop_to_kerf_center_mm).toBeCloseTo(139.7, 12);
    // Half the kerf as the fence sees it: 0.508 · √2.
    expect(s.stop_to_kerf_near_mm).toBeCloseTo(139.7 - 0.508 * Math.SQRT2, 12);
    // Web of 0.100 in and kerf of 0.040 in: common practice.
    expect(s.blade_stop_mm).toBe(2.54);
    expect(s.thinnest_web_mm).toBeCloseTo(2.54 - 0.508 / Math.SQRT2, 12);
    // (76.2 − 2.54) · √2
    expect(s.slot_depth_mm).toBeCloseTo(73.66 * Math.SQRT2, 12);
    expect(s.strip_depth_mm).toBeCloseTo(73.66 * Math.SQRT2 + 0.508 + 3, 12);
    expect(s.strip_length_mm).toBeCloseTo(82.2, 12);
    expect(s.strip_thickness_mm).toBe(1.016);
    expect(s.cut_height_mm).toBeCloseTo(76.2, 12);
    expect(s.fit_mm).toBe(0);
  });

  it('puts the other end to a stop on the obtuse side, and turns with the slope', () => {
    const end = (stop_side: 'acute' | 'obtuse', high_side: 'fence' | 'entry', angle_deg = 45) =>
      setupsOf(fourRings({ saw: { stop_side }, set: { high_side, angle_deg } }))[0].stop_end;
    expect(end('acute', 'fence')).toBe('foot');
    expect(end('obtuse', 'fence')).toBe('head');
    expect(end('acute', 'entry')).toBe('head');
    expect(end('obtuse', 'entry')).toBe('foot');
    for (const side of ['acute', 'obtuse'] as const)
      for (const high of ['fence', 'entry'] as const) expect(end(side, high, 90)).toBe('foot');
  });

  it('measures from the head when the head is against the stop', () => {
    const [s] = setupsOf(fourRings({ saw: { stop_side: 'obtuse' } }));
    expect(s.stop_to_kerf_center_mm).toBeCloseTo(203.2 - 139.7, 12);
    expect(s.stop_to_kerf_near_mm).toBeCloseTo(63.5 - 0.508 * Math.SQRT2, 12);
  });
});

describe('other blanks and angles', () => {
  it('60° in a rectangle: depth and height follow the face at the fence', () => {
    const setups = setupsOf(
      fourRings({
        section: { shape: 'rectangle', width_mm: 60, depth_mm: 40 },
        sets: [
          slotSet({ angle_deg: 60, center_mm: 100, fence_azimuths_deg: [0, 90], web_mm: 2, kerf_mm: 1 }),
        ],
      }),
    );
    const cot60 = 1 / Math.sqrt(3);
    expect(setups[0].mark_fence_mm).toBeCloseTo(100 + 30 * cot60, 12);
    expect(setups[0].slot_depth_mm).toBeCloseTo(58 / (Math.sqrt(3) / 2), 12);
    expect(setups[0].cut_height_mm).toBeCloseTo(40, 12);
    expect(setups[1].mark_fence_mm).toBeCloseTo(100 + 20 * cot60, 12);
    expect(setups[1].cut_height_mm).toBeCloseTo(60, 12);
  });

  it('90°: no slope, so both marks are at the centre and the strip needs no extra depth', () => {
    const [s] = setupsOf(fourRings({ set: { angle_deg: 90 } }));
    expect(s.mark_fence_mm).toBe(101.6);
    expect(s.mark_entry_mm).toBe(101.6);
    expect(s.protractor_deg).toBe(0);
    expect(s.thinnest_web_mm).toBe(2.54);
    expect(s.strip_depth_mm).toBeCloseTo(76.2 - 2.54 + 3, 12);
  });

  it('hexagon: corner to corner across the blade, 2/√3 of the width across flats', () => {
    const [s] = setupsOf(fourRings({ section: { shape: 'hexagon', width_mm: 60 } }));
    expect(s.cut_height_mm).toBeCloseTo((60 * 2) / Math.sqrt(3), 10);
  });

  it('octagon: flat to flat across the blade', () => {
    const [s] = setupsOf(fourRings({ section: { shape: 'octagon', width_mm: 60 } }));
    expect(s.cut_height_mm).toBeCloseTo(60, 10);
  });

  it('a square on its corner: no face, depth and height of the diagonal', () => {
    const [s] = setupsOf(fourRings({ set: { fence_azimuths_deg: [45] } }));
    expect(s.face).toBeNull();
    expect(s.cut_height_mm).toBeCloseTo(76.2 * Math.SQRT2, 10);
    expect(s.slot_depth_mm).toBeCloseTo((76.2 * Math.SQRT2 - 2.54) * Math.SQRT2, 10);
  });

  it('round: no face, diameter across', () => {
    const [s] = setupsOf(fourRings({ section: { shape: 'round', width_mm: 50 } }));
    expect(s.face).toBeNull();
    expect(s.cut_height_mm).toBe(50);
  });
});

describe('a quarter-turn of the design', () => {
  it('changes nothing but the faces', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const design = randomDesign(seed, { shapes: ['square', 'octagon', 'round'] });
      const turned = {
        ...design,
        sets: design.sets.map((set) => ({
          ...set,
          fence_azimuths_deg: set.fence_azimuths_deg.map((azimuth) => azimuth + 90),
        })),
      };
      const before = setupsOf(design);
      setupsOf(turned).forEach((after, n) => {
        const { fence_azimuth_deg, face, entry_face, ...numbers } = after;
        const { fence_azimuth_deg: azimuth, face: f, entry_face: e, ...same } = before[n];
        for (const [key, value] of Object.entries(numbers)) {
          const expected = same[key as keyof typeof same];
          if (typeof value === 'number')
            expect(value, `seed ${seed} ${key}`).toBeCloseTo(expected as number, 9);
          else expect(value, `seed ${seed} ${key}`).toBe(expected);
        }
        expect((fence_azimuth_deg - azimuth + 360) % 360).toBeCloseTo(90, 9);
        expect((face === null) === (f === null) && (entry_face === null) === (e === null)).toBe(true);
        const quarter = design.blank.section.shape === 'octagon' ? 2 : 1;
        const letters = design.blank.section.shape === 'octagon' ? 'ABCDEFGH' : 'ABCD';
        if (face !== null && f !== null)
          expect(letters.indexOf(face)).toBe((letters.indexOf(f) + quarter) % letters.length);
      });
    }
  });
});
