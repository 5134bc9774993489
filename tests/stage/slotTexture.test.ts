/**
 * What the shader reads of the slots says the same as blank/material.ts: the textures' numbers, looked up on the
 * processor the way the shader looks them up, against materialAt at random points of random designs. Seed 4100 + n.
 */
import { expect, test } from 'vitest';
import { materialAt } from '../../src/blank/material.ts';
import { sectionGeometry } from '../../src/blank/section.ts';
import { layerBounds_mm, slotsOf } from '../../src/blank/slots.ts';
import type { Vec3 } from '../../src/geometry/vector.ts';
import { CELLS_ACROSS, CELLS_ALONG, SlotTextures } from '../../src/stage/slotTexture.ts';
import { blankGrain, stripGrain } from '../../src/stage/wood/grain.ts';
import { fourRings, randomDesign, slotSet } from '../fixtures/designs.ts';
import { seededRandom } from '../fixtures/random.ts';
import type { Design } from '../../src/design/document.ts';

function written(design: Design) {
  const slots = slotsOf(design);
  const radius_mm = sectionGeometry(design.blank.section).circumscribedRadius_mm;
  const { length_mm } = design.blank;
  const textures = new SlotTextures();
  textures.write(
    slots,
    { radius_mm, length_mm },
    { timberRow: 7, frame: blankGrain(design.blank) },
    (slot, layer) => ({ timberRow: slot % 20, frame: stripGrain(slots[slot], layer) }),
  );
  return { slots, radius_mm, length_mm, textures };
}

/** The list of the cell that a point is in, and the material by the numbers in the textures. */
function readAsShader({ radius_mm, length_mm, textures }: ReturnType<typeof written>, p: Vec3) {
  const cell = (value: number, from: number, to: number, cells: number) =>
    Math.min(cells - 1, Math.max(0, Math.floor(((value - from) / (to - from)) * cells)));
  const x = cell(p[0], -radius_mm, radius_mm, CELLS_ACROSS);
  const y = cell(p[1], -radius_mm, radius_mm, CELLS_ACROSS);
  const z = cell(p[2], 0, length_mm, CELLS_ALONG);
  const cells = textures.cells.image.data as Uint32Array;
  const packed = cells[(z * CELLS_ACROSS + y) * CELLS_ACROSS + x];
  const start = Math.floor(packed / 256);
  const list = [...(textures.list.image.data as Uint8Array).subarray(start, start + (packed & 255))];
  const numbers = textures.slots.image.data as Float32Array;
  const holds = (slot: number): boolean => {
    const row = numbers.subarray(12 * slot, 12 * slot + 12);
    const f = row[0] * p[0] + row[1] * p[1] + row[2] * p[2] - row[3];
    return Math.abs(f) <= 1 && row[4] * p[0] + row[5] * p[1] + row[6] * p[2] <= row[7];
  };
  return { list, material: list.find(holds) ?? -1 };
}

/** Points so near a plane that single precision may decide otherwise are left out. */
function nearAnEdge(slots: ReturnType<typeof slotsOf>, p: Vec3): boolean {
  return slots.some((slot) => {
    const f = slot.normal[0] * p[0] + slot.normal[1] * p[1] + slot.normal[2] * p[2] - slot.offset_mm;
    const m = slot.stopNormal[0] * p[0] + slot.stopNormal[1] * p[1] + slot.stopNormal[2] * p[2];
    return Math.abs(Math.abs(f) - slot.kerf_mm / 2) < 1e-4 || Math.abs(m - slot.stop_mm) < 1e-4;
  });
}

test('40 random designs, 400 points each: the same material, last cut first in every list', () => {
  let inStrips = 0;
  for (let n = 0; n < 40; n++) {
    const seed = 4100 + n;
    const design = randomDesign(seed);
    const read = written(design);
    const random = seededRandom(seed);
    for (let i = 0; i < 400; i++) {
      const r = read.radius_mm;
      const p: Vec3 = [random.between(-r, r), random.between(-r, r), random.between(0, read.length_mm)];
      if (nearAnEdge(read.slots, p)) continue;
      const { list, material } = readAsShader(read, p);
      expect(material, `seed ${seed} at ${p.join(', ')}`).toBe(materialAt(read.slots, p));
      expect(list).toEqual([...list].sort((a, b) => b - a));
      if (material >= 0) inStrips++;
    }
  }
  expect(inStrips).toBeGreaterThan(300);
});

test('96 slots: no cell lists more than a dozen', () => {
  const sets = Array.from({ length: 24 }, (_, i) => slotSet({ id: `S${i + 1}`, center_mm: 8 * (i + 0.5) }));
  const { textures, slots } = written(fourRings({ sets }));
  expect(slots).toHaveLength(96);
  expect(textures.longestList()).toBeLessThanOrEqual(12);
  expect(textures.longestList()).toBeGreaterThan(0);
});

test('layers: one row each after the blank, bounds from the engine, axes square and right-handed', () => {
  const layers = [
    { timber: 'hard-maple', thickness_mm: 0.4 },
    { timber: 'wenge', thickness_mm: 0.3 },
    { timber: 'hard-maple', thickness_mm: 0.4 },
  ];
  const { slots, textures } = written(fourRings({ set: { kerf_mm: 1.2, strip: { layers } } }));
  const rows = textures.layers.image.data as Float32Array;
  slots.forEach((slot, i) => {
    const first = (textures.slots.image.data as Float32Array)[12 * i + 10];
    expect(first).toBe(1 + 3 * i);
    const bounds = layerBounds_mm(slot);
    layers.forEach((_, layer) => {
      const row = rows.subarray(16 * (first + layer), 16 * (first + layer) + 16);
      expect(row[0]).toBeCloseTo(bounds[layer + 1], 6);
      const [a, b, g] = [row.subarray(4, 7), row.subarray(8, 11), row.subarray(12, 15)];
      const dot = (u: Float32Array, v: Float32Array) => u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
      for (const [u, v, expected] of [
        [a, a, 1],
        [b, b, 1],
        [g, g, 1],
        [a, b, 0],
        [b, g, 0],
        [g, a, 0],
      ] as const)
        expect(dot(u, v)).toBeCloseTo(expected, 5);
      const cross = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
      expect(dot(Float32Array.from(cross), g)).toBeCloseTo(1, 5);
    });
  });
});

test('a loose strip has a wider line than a fitting one, by half its gap', () => {
  const glue = (thickness_mm: number) => {
    const strip = { layers: [{ timber: 'hard-maple', thickness_mm }] };
    const { textures } = written(fourRings({ set: { kerf_mm: 2, strip } }));
    return (textures.slots.image.data as Float32Array)[11];
  };
  expect(glue(1.6) - glue(2)).toBeCloseTo(0.2, 6);
  expect(glue(2.2)).toBe(glue(2));
});
