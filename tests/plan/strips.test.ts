/** Strips, passes and small sums of the shop, against hand calculation (elementary; worked out beside each). */
import { describe, expect, it } from 'vitest';
import { fenceScale, scaleMark } from '../../src/plan/fenceScale.ts';
import { latheSpeed } from '../../src/plan/latheSpeed.ts';
import { passesFor } from '../../src/plan/passes.ts';
import { setupsOf } from '../../src/plan/setups.ts';
import { boardsFor, piecesFromBoard, stripGroups } from '../../src/plan/strips.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';

describe('strip cut list', () => {
  it('four equal strips and a spare one from one billet', () => {
    const [group, ...more] = stripGroups(fourRings(), { sliceKerf_mm: 1 });
    expect(more).toEqual([]);
    expect(group.timber).toBe('hard-maple');
    expect([group.count, group.spare]).toEqual([4, 1]);
    expect(group.pieces.map((piece) => piece.slots)).toEqual([['S1.1', 'S1.2', 'S1.3', 'S1.4']]);
    // Depth (76.2 − 2.54) √2 + 0.508 + 3, length 76.2 + 6; five slices of 1.016 and four cuts of 1.
    const depth_mm = 73.66 * Math.SQRT2 + 3.508;
    expect(group.pieces[0].depth_mm).toBeCloseTo(depth_mm, 10);
    expect(group.stock.depth_mm).toBeCloseTo(depth_mm, 10);
    expect(group.stock.length_mm).toBeCloseTo(82.2, 10);
    expect(group.stock.thickness_mm).toBeCloseTo(5 * 1.016 + 4, 10);
    expect(group.stock.kerfLoss_mm3).toBeCloseTo(4 * depth_mm * 82.2, 6);
  });

  it('one spare for every four begun', () => {
    const spares = [1, 4, 5, 8, 9].map((count) => {
      const azimuths = Array.from({ length: count }, (_, i) => (i * 360) / count);
      const design = fourRings({ sets: [slotSet({ fence_azimuths_deg: azimuths })] });
      return stripGroups(design, { sliceKerf_mm: 1 }).reduce((sum, { spare }) => sum + spare, 0);
    });
    // On odd azimuths of a square the strips differ in size, not in timber and thickness: one group.
    expect(spares).toEqual([1, 1, 2, 2, 3]);
  });

  it('groups by timber and thickness, sizes by angle, layers one piece each', () => {
    const layers = [
      { timber: 'wenge', thickness_mm: 0.5 },
      { timber: 'american-holly', thickness_mm: 1 },
      { timber: 'wenge', thickness_mm: 0.5 },
    ];
    const design = fourRings({
      sets: [
        slotSet({ fence_azimuths_deg: [0, 90], kerf_mm: 2, strip: { layers } }),
        slotSet({ id: 'S2', fence_azimuths_deg: [0], angle_deg: 60, kerf_mm: 2, strip: { layers } }),
        slotSet({ id: 'S3', fence_azimuths_deg: [0], center_mm: 40 }),
      ],
    });
    const groups = stripGroups(design, { sliceKerf_mm: 1, spareFor: () => 0 });
    expect(groups.map((g) => [g.timber, g.thickness_mm, g.count])).toEqual([
      ['wenge', 0.5, 6],
      ['american-holly', 1, 3],
      ['hard-maple', 1.016, 1],
    ]);
    expect(groups[0].pieces.map((p) => p.slots)).toEqual([
      ['S1.1', 'S1.1', 'S1.2', 'S1.2'],
      ['S2.1', 'S2.1'],
    ]);
    // The 45° pieces are deeper, so the billet follows them.
    expect(groups[0].stock.depth_mm).toBe(groups[0].pieces[0].depth_mm);
    expect(groups[0].pieces[0].depth_mm).toBeGreaterThan(groups[0].pieces[1].depth_mm);
  });

  it('pieces from a board: its grain along the pieces’ own', () => {
    const strip = (grain: 'length' | 'depth') => ({
      layers: [{ timber: 'hard-maple', thickness_mm: 1.016, grain }],
    });
    // 107.68 mm deep and 82.2 long, 1.016 thick; 12 × 1.016 + 11 × 1 = 23.192.
    const [deep] = stripGroups(fourRings({ set: { strip: strip('depth') } }), {
      sliceKerf_mm: 1,
      spareFor: () => 0,
    });
    const board = { length_mm: 217, width_mm: 90, thickness_mm: 23.2 };
    expect(deep.grain).toBe('depth');
    // Two and a cut take 216.4 of the length, one the width, twelve the thickness.
    expect(piecesFromBoard(deep, board, 1)).toBe(24);
    expect(piecesFromBoard(deep, { ...board, thickness_mm: 23.1 }, 1)).toBe(22);
    expect(piecesFromBoard(deep, { ...board, length_mm: 215 }, 1)).toBe(12);
    expect(boardsFor(deep, { ...board, thickness_mm: 2 }, 1)).toBe(2);
    expect(boardsFor(deep, { ...board, width_mm: 80 }, 1)).toBeNull();
    // With the fibre along the length the deep side lies across the board, which is then too narrow.
    const [long] = stripGroups(fourRings({ set: { strip: strip('length') } }), {
      sliceKerf_mm: 1,
      spareFor: () => 0,
    });
    expect(piecesFromBoard(long, board, 1)).toBe(0);
    expect(piecesFromBoard(long, { ...board, width_mm: 108 }, 1)).toBe(24);
  });

  it('keeps strips of unlike grain apart', () => {
    const layers = (['length', 'depth'] as const).map((grain) => ({
      timber: 'wenge',
      thickness_mm: 0.508,
      grain,
    }));
    const groups = stripGroups(fourRings({ set: { strip: { layers } } }), { sliceKerf_mm: 1 });
    expect(groups.map((group) => [group.grain, group.count])).toEqual([
      ['length', 4],
      ['depth', 4],
    ]);
  });
});

describe('passes for a slot wider than the blade', () => {
  const [setup] = setupsOf(fourRings({ set: { kerf_mm: 3, angle_deg: 30, fence_azimuths_deg: [0] } }));

  it('three passes of a blade of 1 mm, 1 mm apart across the kerf, 2 mm along the fence at 30°', () => {
    const result = passesFor(setup, 1);
    const at = setup.stop_to_kerf_center_mm;
    expect(result?.passes.map((pass) => pass.number)).toEqual([1, 2, 3]);
    result?.passes.forEach((pass, n) => expect(pass.stop_to_blade_center_mm).toBeCloseTo(at - 2 + 2 * n, 10));
    expect(result?.step_along_fence_mm).toBeCloseTo(2, 12);
    expect(result?.overlap_mm).toBeCloseTo(0, 12);
    expect(result?.thinnest_web_mm).toBeCloseTo(2.54 - 0.5 * Math.cos(Math.PI / 6), 12);
  });

  it('overlaps evenly when the kerf is no whole number of blades', () => {
    const result = passesFor(setup, 1.1);
    expect(result?.passes.length).toBe(3);
    // (3 − 1.1)/2 = 0.95 across; 0.15 overlap.
    expect(result?.step_along_fence_mm).toBeCloseTo(1.9, 12);
    expect(result?.overlap_mm).toBeCloseTo(0.15, 12);
  });

  it('covers the kerf and nothing beside it', () => {
    for (const blade of [0.7, 1, 1.3, 2.9, 3]) {
      const result = passesFor(setup, blade);
      const places = (result?.passes ?? []).map(
        (pass) => (pass.stop_to_blade_center_mm - setup.stop_to_kerf_center_mm) * 0.5,
      );
      expect(places[0] - blade / 2).toBeCloseTo(-1.5, 9);
      expect(places[places.length - 1] + blade / 2).toBeCloseTo(1.5, 9);
      places.slice(1).forEach((place, n) => expect(place - places[n]).toBeLessThanOrEqual(blade + 1e-9));
    }
  });

  it('one pass for a blade of the kerf; none for a wider one', () => {
    expect(passesFor(setup, 3)?.passes).toEqual([
      { number: 1, stop_to_blade_center_mm: setup.stop_to_kerf_center_mm },
    ]);
    expect(passesFor(setup, 3.1)).toBeNull();
  });
});

describe('lathe speed', () => {
  // Diameter in inches × rpm = 6,000 to 9,000 (rule of thumb); rim speed 8.0 to 12.0 m/s (computed).
  it('3 in: 2000 to 3000 rpm', () => {
    const { low_rpm, high_rpm } = latheSpeed(76.2);
    expect(low_rpm).toBeCloseTo(2000, 9);
    expect(high_rpm).toBeCloseTo(3000, 9);
  });

  it('the same rim speed at every diameter', () => {
    for (const diameter of [12, 76.2, 300]) {
      const { low_rpm, high_rpm } = latheSpeed(diameter);
      const circumference_m = (Math.PI * diameter) / 1000;
      expect((circumference_m * low_rpm) / 60).toBeCloseTo(8.0, 1);
      expect((circumference_m * high_rpm) / 60).toBeCloseTo(12.0, 1);
    }
  });
});

describe('scale of the fence', () => {
  it('13 marks from 90° to 30°, every 5° (common practice)', () => {
    expect(fenceScale(200).map((mark) => mark.angle_deg)).toEqual([
      90, 85, 80, 75, 70, 65, 60, 55, 50, 45, 40, 35, 30,
    ]);
  });

  it('offsets and chords at a radius of 200', () => {
    expect(scaleMark(90, 200)).toEqual({ angle_deg: 90, offset_mm: 0, chord_mm: 0 });
    expect(scaleMark(60, 200).offset_mm).toBeCloseTo(100, 10);
    // A turn by 60° has the radius itself for a chord.
    expect(scaleMark(30, 200).chord_mm).toBeCloseTo(200, 10);
    expect(scaleMark(45, 200).offset_mm).toBeCloseTo(200 / Math.SQRT2, 10);
  });
});
