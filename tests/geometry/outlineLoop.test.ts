/** Where the outside of a closed outline lies: by hand, on sections of bangles. */
import { expect, test } from 'vitest';
import { flattenOutline, type OutlinePointLike } from '../../src/geometry/outline.ts';

const at = (z_mm: number, r_mm: number, smooth = false): OutlinePointLike => ({ z_mm, r_mm, smooth });

/** From the foot along the outside: foot outside, head outside, head inside, foot inside. */
const RECTANGLE = [at(5, 36), at(17, 36), at(17, 30), at(5, 30)];
/** Two rims and two feet of one height. */
const CHANNELLED = [at(0, 40), at(20, 42), at(10, 36), at(20, 32), at(0, 30), at(8, 35)];

function outside(outline: readonly OutlinePointLike[]): number[][] {
  const { z_mm, r_mm, outsideStart, outsideEnd } = flattenOutline(outline, 1e-3, true);
  expect([z_mm.at(-1), r_mm.at(-1)]).toEqual([z_mm[0], r_mm[0]]);
  return Array.from({ length: outsideEnd - outsideStart + 1 }, (_, i) => [
    z_mm[outsideStart + i],
    r_mm[outsideStart + i],
  ]);
}

test('the outside is the same at whichever point the outline starts', () => {
  for (let first = 0; first < RECTANGLE.length; first++)
    expect(outside([...RECTANGLE.slice(first), ...RECTANGLE.slice(0, first)])).toEqual([
      [5, 36],
      [17, 36],
    ]);
  for (let first = 0; first < CHANNELLED.length; first++)
    expect(outside([...CHANNELLED.slice(first), ...CHANNELLED.slice(0, first)])).toEqual([
      [0, 40],
      [20, 42],
    ]);
});

test('corners and smooth points stay what they are', () => {
  const outline = [at(10, 50, true), at(20, 40), at(10, 30, true), at(0, 40, true)];
  const { z_mm, r_mm, corner } = flattenOutline(outline, 1e-3, true);
  const corners = Array.from(corner).flatMap((is, i) => (is ? [[z_mm[i], r_mm[i]]] : []));
  expect(corners).toEqual([[20, 40]]);
  expect([z_mm[0], r_mm[0]]).toEqual([0, 40]);
});
