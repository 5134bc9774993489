/** Wall and floor of an inside, against shapes whose walls are known in closed form. */
import { expect, test } from 'vitest';
import type { OutlinePoint } from '../../src/design/document.ts';
import { formFor } from '../../src/design/forms.ts';
import { filled, hollowed } from '../../src/design/hollowing.ts';
import { insideSizes } from '../../src/design/insideSizes.ts';

const points = (...places: readonly (readonly [z: number, r: number])[]): OutlinePoint[] =>
  places.map(([z_mm, r_mm]) => ({ z_mm, r_mm }));

test('a straight cup: the difference of the radii, and the floor under it', () => {
  const cup = points([5, 0], [5, 30], [95, 30], [95, 26], [17, 26], [17, 0]);
  expect(insideSizes(cup)).toEqual({ wall_mm: 4, floor_mm: 12 });
});

test('a cone in a cone: the distance of two parallel lines', () => {
  // Radii grow by 30 over a height of 40, so a step of 5 across is 5 · 40 / 50 = 4 square to the wall.
  const cone = points([0, 0], [0, 10], [40, 40], [40, 35], [16, 17], [16, 0]);
  const sizes = insideSizes(cone);
  expect(sizes?.wall_mm).toBeCloseTo(4, 9);
  expect(sizes?.floor_mm).toBe(16);
});

test('a corner of the outside that comes near the middle of a straight inside', () => {
  const waisted = points([0, 0], [0, 30], [50, 22], [100, 30], [100, 20], [10, 20], [10, 0]);
  expect(insideSizes(waisted)?.wall_mm).toBeCloseTo(2, 9);
});

test('an inside made to a wall and a floor has that wall, to the 2 % that hollowing draws it to', () => {
  const { outline } = formFor(
    'vase',
    { section: { shape: 'square', width_mm: 90 }, length_mm: 200, timber: 'sapele' },
    2.5,
  );
  const sizes = insideSizes(hollowed(outline, 5, 14));
  expect(Math.abs((sizes?.wall_mm ?? 0) - 5)).toBeLessThan(0.02 * 5 + 0.01);
  expect(sizes?.floor_mm).toBeCloseTo(14, 6);
  expect(insideSizes(filled(outline))).toBeNull();
});
