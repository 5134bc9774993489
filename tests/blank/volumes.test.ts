/**
 * Volumes of random pieces: blocks with flats against manifold-3d, an independent boolean library; round
 * blanks and turned forms against counted points and against shells of exact arcs; what they must not depend
 * on. Closed forms: tests/reference/.
 */
import { expect, test } from 'vitest';
import { blankSolid, interfere } from '../../src/blank/interference.ts';
import { BODY } from '../../src/blank/material.ts';
import { sectionGeometry } from '../../src/blank/section.ts';
import { slotsOf } from '../../src/blank/slots.ts';
import { blockVolumes, turnedVolumes, type PartVolumes } from '../../src/blank/volumes.ts';
import type { OutlinePoint, Section } from '../../src/design/document.ts';
import { flattenOutline } from '../../src/geometry/outline.ts';
import { fourRings, randomDesign } from '../fixtures/designs.ts';
import { manifoldLibrary, oracleParts } from '../oracles/manifoldOracle.ts';
import { countFor, SEED } from '../soak/counts.ts';
import { quarterTurned, randomPiece, volumesByPoints, type Piece } from './awkwardPieces.ts';
import { materialArcsAt } from './pointwise.ts';

const library = await manifoldLibrary();

const FLAT_SHAPES = ['square', 'rectangle', 'hexagon', 'octagon'] as const;

function partsOf({ strips_mm3, body_mm3 }: PartVolumes): number[] {
  return [...strips_mm3, body_mm3];
}

function turnedOf({ design, slots, profile, section }: Piece): PartVolumes {
  return turnedVolumes(slots, profile, section, design.blank.length_mm);
}

test('random blocks with flats: every part as the library has it', () => {
  const rounds = countFor('volumes-block', 30, 2_000);
  let worst = 0;
  for (let n = 0; n < rounds; n++) {
    const design = randomDesign(SEED + n, { shapes: FLAT_SHAPES, layered: false });
    const block = blockVolumes(
      slotsOf(design),
      sectionGeometry(design.blank.section),
      design.blank.length_mm,
    );
    const oracle = oracleParts(library, design, { turned: false, facets: 64 });
    // The library leaves out parts that are not there; ours have no volume.
    const strips = slotsOf(design).map(({ id }) =>
      oracle.parts
        .filter(({ name }) => name === id || name.startsWith(`${id}/`))
        .reduce((sum, { volume_mm3 }) => sum + volume_mm3, 0),
    );
    strips.forEach((volume, i) => {
      const off = Math.abs(block.strips_mm3[i] - volume) / oracle.whole_mm3;
      worst = Math.max(worst, off);
      expect(off, `randomDesign(${SEED + n}), ${design.order[i]}`).toBeLessThan(1e-6);
    });
    expect(Math.abs(block.volume_mm3 / oracle.whole_mm3 - 1)).toBeLessThan(1e-9);
    expect(block.error_mm3).toBe(0);
  }
  console.log(`largest difference of a strip’s volume: ${worst.toExponential(2)} of the whole`);
});

test('random pieces of all sections, turned and not: every part agrees with counted points', () => {
  const rounds = countFor('volumes-points', 16, 400);
  let worst = 0;
  for (let n = 0; n < rounds; n++) {
    const piece = randomPiece(SEED + n);
    const { section, design, slots } = piece;
    const box = (2 * section.circumscribedRadius_mm) ** 2 * design.blank.length_mm;
    const block = blockVolumes(slots, section, design.blank.length_mm);
    const turned = turnedOf(piece);
    // The sequence of points leaves up to 3e-3 of the box, with ten times as many a tenth; a wrong part stays.
    let off = Infinity;
    for (let points = 100_000; off > 6e-4 && points < 5e6; points *= 6) {
      const counted = volumesByPoints(piece, points);
      off = Math.max(
        ...partsOf(block).map((volume, i) => Math.abs(volume - counted.block[i]) / box),
        ...partsOf(turned).map((volume, i) => Math.abs(volume - counted.turned[i]) / box),
      );
    }
    worst = Math.max(worst, off);
    expect(off, `randomPiece(${SEED + n})`).toBeLessThan(6e-4);
    for (const computed of [block, turned]) {
      const sum = partsOf(computed).reduce((a, b) => a + b);
      expect(Math.abs(sum / computed.volume_mm3 - 1)).toBeLessThan(1e-12);
      expect(computed.error_mm3).toBeLessThan(1e-5 * computed.volume_mm3);
    }
  }
  console.log(`largest difference of a part’s volume: ${worst.toExponential(2)} of the box`);
});

test('turned forms inside their blank: every part agrees with shells of exact arcs', () => {
  const rounds = countFor('volumes-shells', 8, 300);
  let worst = 0;
  let checked = 0;
  for (let n = 0; checked < rounds; n++) {
    const piece = randomPiece(SEED + n, { form: 'solid', maxSlots: 6 });
    const { slots, profile, section } = piece;
    // A square slot’s faces jump from one row to the next: those are met by closed forms elsewhere.
    if (Math.max(...profile.r_mm) > section.inscribedRadius_mm || slots.some((s) => s.angle_deg > 89))
      continue;
    checked++;
    const turned = turnedOf(piece);
    let off = Infinity;
    for (let fine = 1; off > 1e-4 && fine <= 8; fine *= 2) {
      const shells = volumesByShells(piece, 300 * fine, 30 * fine);
      off = Math.max(...partsOf(turned).map((volume, i) => Math.abs(volume - shells[i]) / turned.volume_mm3));
    }
    worst = Math.max(worst, off);
    expect(off, `randomPiece(${SEED + n})`).toBeLessThan(1e-4);
  }
  console.log(`largest difference of a part’s volume: ${worst.toExponential(2)} of the whole`);
});

/** ∫ arcs · r dr dz by midpoints, for a solid form whose outside rises from foot to head. */
function volumesByShells({ slots, profile }: Piece, rows: number, shells: number): Float64Array {
  const volumes = new Float64Array(slots.length + 1);
  for (let i = profile.outsideStart; i < profile.outsideEnd; i++) {
    const dz = profile.z_mm[i + 1] - profile.z_mm[i];
    const count = Math.ceil((rows * dz) / profile.z_mm[profile.outsideEnd]);
    for (let k = 0; k < count; k++) {
      const t = (k + 0.5) / count;
      const radius = profile.r_mm[i] + t * (profile.r_mm[i + 1] - profile.r_mm[i]);
      for (let shell = 0; shell < shells; shell++) {
        const r = (radius * (shell + 0.5)) / shells;
        for (const arc of materialArcsAt(slots, profile.z_mm[i] + t * dz, r))
          volumes[arc.material === BODY ? slots.length : arc.material] +=
            (arc.to_rad - arc.from_rad) * r * (radius / shells) * (dz / count);
      }
    }
  }
  return volumes;
}

test('a quarter-turn of the design changes nothing', () => {
  for (let n = 0; n < 25; n++) {
    const piece = randomPiece(SEED + n, { shapes: ['square', 'octagon', 'round'] });
    const { design, profile, section } = piece;
    const { length_mm } = design.blank;
    const before = slotsOf(design);
    const after = slotsOf(quarterTurned(design));
    for (const of of [
      (slots: typeof before) => blockVolumes(slots, section, length_mm),
      (slots: typeof before) => turnedVolumes(slots, profile, section, length_mm),
    ]) {
      const first = of(before);
      const second = of(after);
      first.strips_mm3.forEach((volume, i) =>
        expect(Math.abs(second.strips_mm3[i] - volume)).toBeLessThan(2e-6 * first.volume_mm3),
      );
    }
  }
});

test('neighbours in the order that do not interfere may change places', () => {
  let swapped = 0;
  for (let n = 0; n < 40; n++) {
    const design = randomDesign(SEED + n, { shapes: FLAT_SHAPES });
    const slots = slotsOf(design);
    const solid = blankSolid(design.blank);
    const section = sectionGeometry(design.blank.section);
    const before = blockVolumes(slots, section, design.blank.length_mm);
    for (let i = 0; i + 1 < slots.length; i++) {
      if (interfere(slots[i], slots[i + 1], solid)) continue;
      const other = [...slots];
      [other[i], other[i + 1]] = [slots[i + 1], slots[i]];
      const after = blockVolumes(other, section, design.blank.length_mm).strips_mm3;
      [after[i], after[i + 1]] = [after[i + 1], after[i]];
      before.strips_mm3.forEach((volume, k) =>
        expect(Math.abs(after[k] - volume)).toBeLessThan(1e-9 * before.volume_mm3),
      );
      swapped++;
    }
  }
  expect(swapped).toBeGreaterThan(20);
});

test('the four-ring candle stick: strips of the block and of the form, and no slots at all', () => {
  const design = fourRings();
  const section = sectionGeometry(design.blank.section);
  const profile = flattenOutline(design.form!.outline);
  const slots = slotsOf(design);
  const block = blockVolumes(slots, section, 203.2);
  // Each slot alone: depth (76.2 − 2.54) / sin θ along the slope, 76.2 across, 1.016 thick (G23, elementary);
  // the last cut is whole, every earlier one has lost wood to it.
  expect(block.strips_mm3[3]).toBeCloseTo(((76.2 - 2.54) / Math.SQRT1_2) * 76.2 * 1.016, 7);
  expect(block.strips_mm3[2]).toBeLessThan(block.strips_mm3[3]);
  const bare = turnedVolumes([], profile, section, 203.2);
  const turned = turnedVolumes(slots, profile, section, 203.2);
  expect(bare.body_mm3).toBe(bare.volume_mm3);
  expect(turned.volume_mm3).toBe(bare.volume_mm3);
  expect(partsOf(turned).reduce((a, b) => a + b)).toBeCloseTo(turned.volume_mm3, 6);
});

test('a slot along the axis that takes all of a thin piece has the volume of the piece', () => {
  // Planes of such a slot pass from one edge of the piece to the other within a hair, and their sections jump there.
  const whole = (
    section: Section,
    length_mm: number,
    outline: readonly OutlinePoint[],
    expected_mm3: number,
  ) => {
    const base = fourRings({ set: { angle_deg: 0.1, kerf_mm: 1000, center_mm: 0, web_mm: 0 } });
    const [slot] = slotsOf(base);
    const profile = flattenOutline(outline);
    const { volume_mm3, strips_mm3 } = turnedVolumes([slot], profile, sectionGeometry(section), length_mm);
    expect(volume_mm3 / expected_mm3).toBeCloseTo(1, 9);
    expect(Math.abs(strips_mm3[0] / expected_mm3 - 1)).toBeLessThan(1e-6);
  };
  // The floor of a hollow form wider than its blank. Octagon: 2 (√2 − 1) times the square of its width (elementary).
  const hollow = [
    { z_mm: 0, r_mm: 0 },
    { z_mm: 0, r_mm: 16.5 },
    { z_mm: 203.2, r_mm: 24.75 },
    { z_mm: 203.2, r_mm: 19.25 },
    { z_mm: 6, r_mm: 11 },
    { z_mm: 6, r_mm: 0 },
  ];
  whole({ shape: 'octagon', width_mm: 1 }, 203.2, hollow, 2 * (Math.SQRT2 - 1) * 6);
  // A plank of 1 mm, one long, in a cylinder: the disc between two chords, by ∫ 2 √(r² − x²) dx (elementary).
  const r = 30.48;
  const cylinder = [
    { z_mm: 0, r_mm: 0 },
    { z_mm: 0, r_mm: r },
    { z_mm: 100, r_mm: r },
    { z_mm: 100, r_mm: 0 },
  ];
  const disc = 2 * (0.5 * Math.sqrt(r * r - 0.25) + r * r * Math.asin(0.5 / r));
  whole({ shape: 'rectangle', width_mm: 1, depth_mm: 92 }, 1, cylinder, disc);
});
