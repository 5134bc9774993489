/** The judge of solids itself: it passes a sound one and finds what is wrong with a spoilt one. */
import { expect, test } from 'vitest';
import { enclosedVolume, solidFaults } from './closed.ts';

/** A 2 × 3 × 5 box with corners numbered by bits (x, y, z), outward triangles. */
function box() {
  const positions_mm = new Float64Array(
    Array.from({ length: 8 }, (_, i) => [(i & 1) * 2, ((i >> 1) & 1) * 3, ((i >> 2) & 1) * 5]).flat(),
  );
  const quads = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ];
  const triangles = new Uint32Array(quads.flatMap(([a, b, c, d]) => [a, b, c, a, c, d]));
  return { name: 'box', positions_mm, triangles, volume_mm3: 30 };
}

test('a box is sound and holds 2 · 3 · 5', () => {
  const solid = box();
  expect(enclosedVolume(solid.positions_mm, solid.triangles)).toBe(30);
  expect(solidFaults(solid, 30)).toEqual([]);
});

test('a missing triangle, a turned triangle, a doubled vertex and a wrong volume are found', () => {
  const missing = { ...box(), triangles: box().triangles.slice(3) };
  expect(solidFaults(missing, 30).join()).toContain('3 open edges');
  const turned = box();
  [turned.triangles[0], turned.triangles[1]] = [turned.triangles[1], turned.triangles[0]];
  expect(solidFaults(turned, 30).join()).toContain('open edges');
  const doubled = box();
  doubled.triangles[1] = doubled.triangles[0];
  expect(solidFaults(doubled, 30).join()).toContain('twice');
  expect(solidFaults({ ...box(), volume_mm3: 30.001 }, 30).join()).toContain('encloses 30 mm³');
});

test('a vertex put on one side of an edge only (a T-junction) is found', () => {
  const { positions_mm, triangles, ...rest } = box();
  // The edge 0–2 of the first triangle split at its middle (vertex 8), the neighbour's left whole.
  const split = new Uint32Array([0, 8, 3, 8, 2, 3, ...triangles.slice(3)]);
  const positions = new Float64Array([...positions_mm, 0, 1.5, 0]);
  const faults = solidFaults({ ...rest, positions_mm: positions, triangles: split }, 30);
  expect(faults.join()).toContain('3 open edges');
});
