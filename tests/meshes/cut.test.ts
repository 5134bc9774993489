/**
 * What is shown of open kerfs and cutaways: each result closed, as large as elementary formulas say, and where the
 * boolean library fails, the exact kernel's solid and a word about it.
 */
import { describe, expect, test } from 'vitest';
import { sectionGeometry } from '../../src/blank/section.ts';
import { slotsOf } from '../../src/blank/slots.ts';
import type { SectionShape } from '../../src/design/document.ts';
import { cutOut, type CutAnswer } from '../../src/meshes/cut.ts';
import { cutawayPlanes, slotPlanes, type Cutaway } from '../../src/meshes/cutters.ts';
import { carveWorkpiece } from '../../src/meshes/exact.ts';
import { turningProfile } from '../../src/meshes/formProfile.ts';
import { checkClosed, meshVolume_mm3 } from '../../src/meshes/mesh.ts';
import { holeCylinder, holeRegion } from '../../src/blank/holes.ts';
import type { Hole } from '../../src/design/document.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';

const LENGTH_MM = 203.2;
const W = 76.2;

const kerfOf = async (shape: SectionShape, angle_deg: number, azimuth: number, web_mm = 2.54, depth = 1) => {
  const design = fourRings({
    section: { shape, width_mm: W, depth_mm: shape === 'rectangle' ? 60 : undefined },
    set: { angle_deg, fence_azimuths_deg: [azimuth], web_mm },
  });
  const section = sectionGeometry(design.blank.section);
  const [slot] = slotsOf(design);
  return cutOut({
    source: { section, length_mm: LENGTH_MM, profile: null, columns: 128, holes: [] },
    region: slotPlanes(slot, section, depth),
  });
};

function expectSound(answer: CutAnswer, whole_mm3: number): void {
  expect(checkClosed(answer.left, answer.method === 'exact' ? 0 : 2e-4).openEdges).toBe(0);
  expect(Math.abs(meshVolume_mm3(answer.left) / answer.left_mm3 - 1)).toBeLessThan(1e-5);
  expect(Math.abs((answer.left_mm3 + answer.taken_mm3) / whole_mm3 - 1)).toBeLessThan(2e-6);
}

describe('an open kerf', () => {
  // Oblique slab of a prism: w h t / sin θ (Cavalieri), here with the depth across the faces less the web.
  test.each([
    [90, 2.54],
    [60, 2.54],
    [45, 2.54],
    [31.7, 5],
  ])('at %s° with a web of %s mm is an oblique slab', async (angle_deg, web_mm) => {
    const answer = await kerfOf('square', angle_deg, 0, web_mm);
    const slab = (W * (W - web_mm) * 1.016) / Math.sin((angle_deg * Math.PI) / 180);
    expectSound(answer, W * W * LENGTH_MM);
    expect(Math.abs(answer.taken_mm3 / slab - 1)).toBeLessThan(1e-4);
  });

  test('half way in takes half the depth', async () => {
    const answer = await kerfOf('square', 45, 90, 2.54, 0.5);
    const slab = (W * ((W - 2.54) / 2) * 1.016) / Math.SQRT1_2;
    expectSound(answer, W * W * LENGTH_MM);
    expect(Math.abs(answer.taken_mm3 / slab - 1)).toBeLessThan(1e-4);
  });

  test.each(['square', 'rectangle', 'hexagon', 'octagon', 'round'] as const)(
    'in a %s blank is sound',
    async (shape) => {
      const section = sectionGeometry({ shape, width_mm: W, depth_mm: 60 });
      const area = shape === 'round' ? 64 * Math.sin(Math.PI / 64) * (W / 2) ** 2 : section.area_mm2;
      for (const angle of [90, 60, 45, 33.3])
        for (const azimuth of [0, 90, 22])
          for (const depth of [0.03, 0.5, 1])
            expectSound(await kerfOf(shape, angle, azimuth, 2.54, depth), area * LENGTH_MM);
    },
  );

  test('without a web the block falls in two and both pieces are kept', async () => {
    const answer = await kerfOf('square', 60, 0, 0);
    expectSound(answer, W * W * LENGTH_MM);
    const slab = (W * W * 1.016) / Math.sin(Math.PI / 3);
    expect(Math.abs(answer.taken_mm3 / slab - 1)).toBeLessThan(1e-4);
  });
});

describe('a cutaway', () => {
  const section = sectionGeometry({ shape: 'square', width_mm: W });
  const outline = [
    { z_mm: 0, r_mm: 0 },
    { z_mm: 0, r_mm: 30 },
    { z_mm: 60, r_mm: 35, smooth: true },
    { z_mm: 140, r_mm: 18, smooth: true },
    { z_mm: 200, r_mm: 26 },
    { z_mm: 198, r_mm: 22, smooth: true },
    { z_mm: 150, r_mm: 9 },
    { z_mm: 150, r_mm: 0 },
  ];
  const profile = turningProfile({
    outline,
    blankLength_mm: LENGTH_MM,
    blankRadius_mm: section.circumscribedRadius_mm,
    outside: 1,
    inside: 1,
  });
  const source = { section, length_mm: LENGTH_MM, profile, columns: 128, holes: [] };
  const cut = async (cutaway: Cutaway) => cutOut({ source, region: cutawayPlanes(cutaway, W) });

  test.each([30, 90, 135])(
    'a wedge of %s° along the axis takes its share of the turn',
    async (opening_deg) => {
      const answer = await cut({
        kind: 'wedge',
        at_mm: [0, 0, 0],
        azimuth_deg: 10,
        tilt_deg: 0,
        opening_deg,
      });
      const whole = answer.left_mm3 + answer.taken_mm3;
      expectSound(answer, whole);
      expect(answer.taken_mm3 / whole).toBeCloseTo(opening_deg / 360, 3);
    },
  );

  test('an octant beyond the middle of a block takes an eighth of it', async () => {
    const answer = await cutOut({
      source: { ...source, profile: null },
      region: cutawayPlanes({ kind: 'octant', at_mm: [0, 0, LENGTH_MM / 2], azimuth_deg: 0, tilt_deg: 0 }, W),
    });
    expectSound(answer, W * W * LENGTH_MM);
    expect(answer.taken_mm3 / (W * W * LENGTH_MM)).toBeCloseTo(1 / 8, 4);
  });

  test('a box inside a block takes its own volume, whatever its turn and tilt', async () => {
    for (const [azimuth_deg, tilt_deg] of [
      [0, 0],
      [37, 0],
      [20, 25],
    ]) {
      const answer = await cutOut({
        source: { ...source, profile: null },
        region: cutawayPlanes(
          { kind: 'box', at_mm: [2, 3, 90], azimuth_deg, tilt_deg, size_mm: [20, 24, 30] },
          W,
        ),
      });
      expectSound(answer, W * W * LENGTH_MM);
      expect(answer.taken_mm3).toBeCloseTo(20 * 24 * 30, 0);
    }
  });

  test.each([
    { kind: 'wedge', at_mm: [5, -4, 80], azimuth_deg: 45, tilt_deg: 12, opening_deg: 70 },
    { kind: 'octant', at_mm: [0, 0, 100], azimuth_deg: 30, tilt_deg: -20 },
    { kind: 'box', at_mm: [20, 10, 120], azimuth_deg: 45, tilt_deg: 30 },
  ] as const)('$kind, tilted: as large as the exact kernel has it', async (cutaway) => {
    const answer = await cut(cutaway);
    expectSound(answer, answer.left_mm3 + answer.taken_mm3);
    const exact = carveWorkpiece(source, cutawayPlanes(cutaway, W), null);
    expect(Math.abs(answer.taken_mm3 / exact.takenVolume_mm3 - 1)).toBeLessThan(1e-4);
  });

  test('a drilled hole takes the circle times its depth, two holes theirs', async () => {
    const cylinder = turningProfile({
      outline: [
        { z_mm: 0, r_mm: 0 },
        { z_mm: 0, r_mm: 30 },
        { z_mm: 100, r_mm: 30 },
        { z_mm: 100, r_mm: 0 },
      ],
      blankLength_mm: LENGTH_MM,
      blankRadius_mm: section.circumscribedRadius_mm,
      outside: 1,
      inside: 1,
    });
    const form = cylinderForm(100, 30);
    const drill = (hole: Hole) => ({ region: holeRegion(hole, form), cylinder: holeCylinder(hole, form) });
    const cup = drill({ from: 'head', diameter_mm: 20, depth_mm: 25 });
    const cord = drill({ from: 'foot', diameter_mm: 6, depth_mm: 40, offset_mm: 12, azimuth_deg: 33 });
    const one = await cutOut({ source: { ...source, profile: cylinder, holes: [cup] }, region: null });
    expect(one.method).toBe('boolean');
    expectSound(one, one.left_mm3 + one.taken_mm3);
    expect(Math.abs(one.taken_mm3 / (Math.PI * 100 * 25) - 1)).toBeLessThan(1e-4);
    const two = await cutOut({ source: { ...source, profile: cylinder, holes: [cup, cord] }, region: null });
    expect(two.method).toBe('exact');
    expect(checkClosed(two.left).openEdges).toBe(0);
    const gone = one.left_mm3 + one.taken_mm3 - two.left_mm3;
    expect(Math.abs(gone / (Math.PI * (100 * 25 + 9 * 40)) - 1)).toBeLessThan(1e-4);
  });

  test('where the library fails, the exact solid is shown and the fault is told', async () => {
    // Flats and turned corners meet in slivers here; the library loses 2 % of the volume.
    const rough = turningProfile({
      outline,
      blankLength_mm: LENGTH_MM,
      blankRadius_mm: section.circumscribedRadius_mm,
      outside: 0.3,
      inside: 0,
    });
    const answer = await cutOut({
      source: { ...source, profile: rough },
      region: cutawayPlanes({ kind: 'wedge', at_mm: [0, 0, 100], azimuth_deg: 0, tilt_deg: 0 }, W),
    });
    expect(answer.fault).not.toBeNull();
    expect(answer.method).toBe('exact');
    expect(checkClosed(answer.left).openEdges).toBe(0);
    expect(answer.taken_mm3 / (answer.left_mm3 + answer.taken_mm3)).toBeCloseTo(1 / 4, 3);
  });

  test('a region that misses leaves the whole piece', async () => {
    const answer = await cut({
      kind: 'box',
      at_mm: [0, 0, 900],
      azimuth_deg: 0,
      tilt_deg: 0,
      size_mm: [5, 5, 5],
    });
    expect(answer.taken_mm3).toBe(0);
    expect(checkClosed(answer.left).openEdges).toBe(0);
  });
});
