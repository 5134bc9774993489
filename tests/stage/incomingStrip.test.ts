/** The strip on its way in: home it lies in its slot, drawn out it is clear of the blank, at the fence and at the table. */
import { expect, it } from 'vitest';
import { slotHolds } from '../../src/blank/slots.ts';
import type { Design } from '../../src/design/document.ts';
import type { Vec3 } from '../../src/geometry/vector.ts';
import { incomingStrip } from '../../src/stage/incomingStrip.ts';
import { shapeAt } from '../../src/stage/shape.ts';
import { fourRings } from '../fixtures/designs.ts';

const design = (cut: 'fence' | 'table'): Design =>
  fourRings({
    section: { shape: 'square', width_mm: 100 },
    length_mm: 80,
    form: null,
    set: { cut, angle_deg: 40, center_mm: 30, kerf_mm: 2, web_mm: 10, fence_azimuths_deg: [90] },
  });

/** Corners of the strip in the lathe frame: drawn frame (x, y, z) = (x, z, −y). */
function corners(cut: 'fence' | 'table', slide: number, overhang: number): Vec3[] {
  const { layers, offset } = incomingStrip(shapeAt(design(cut), 1), 0, slide, overhang);
  return layers.flatMap(({ positions }) =>
    Array.from({ length: positions.length / 3 }, (_, i): Vec3 => {
      const [x, y, z] = [0, 1, 2].map((axis) => positions[3 * i + axis] + offset[axis]);
      return [x, -z, y];
    }),
  );
}

it.each(['fence', 'table'] as const)('cut at the %s', (cut) => {
  const [slot] = shapeAt(design(cut), 1).slots;
  const home = corners(cut, 1, 1);
  expect(home.length).toBeGreaterThan(7);
  for (const p of home) expect(slotHolds(slot, p)).toBe(true);
  // With its overhang it reaches past the blank where the slot is open; the closed end stays inside.
  const out = (p: Vec3) => -(p[0] * slot.stopNormal[0] + p[1] * slot.stopNormal[1]);
  expect(Math.max(...home.map(out))).toBeGreaterThan(50);
  expect(Math.min(...home.map(out))).toBeCloseTo(-40, 1);
  for (const p of corners(cut, 0, 1)) expect(out(p)).toBeGreaterThan(50);
});

it('table tilted: as long down the slope as the wood in its kerf', () => {
  // 80 / cos 40° between the ends, k tan 40° for the kerf's slanted mouths, 3 mm of overhang at both.
  const slope = corners('table', 1, 1).map(
    ([, y, z]) => y * Math.sin((40 * Math.PI) / 180) + z * Math.cos((40 * Math.PI) / 180),
  );
  const length = Math.max(...slope) - Math.min(...slope);
  expect(length).toBeCloseTo(80 / Math.cos((40 * Math.PI) / 180) + 2 * Math.tan((40 * Math.PI) / 180) + 6, 1);
});
