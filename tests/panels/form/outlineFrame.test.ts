/**
 * Which point of the outline a pointer means. The reference is the definition itself (the least distance, by hand),
 * on the walls of a thin vessel: outside and inside 4 px apart.
 */
import { expect, test } from 'vitest';
import { GRAB_PX, pointAt } from '../../../src/panels/form/outlineFrame.ts';

/** Outside at x = 60, inside at x = 56, both at the heights 100 and 140; index 4 lies on index 3. */
const WALL = [
  [60, 100],
  [60, 140],
  [56, 140],
  [56, 100],
  [56, 100],
] as const;

test.each([
  { at: [75, 100], means: 0, why: 'from outside the wall the outer point' },
  { at: [40, 101], means: 3, why: 'from inside it the inner one' },
  { at: [58.5, 139], means: 1, why: 'between the two the nearer' },
  { at: [57, 141], means: 2, why: 'and the other way round' },
  { at: [60 + GRAB_PX + 0.5, 100], means: null, why: 'none beyond the reach of a fingertip' },
] as const)('$why', ({ at, means }) => {
  expect(pointAt(WALL, at, 1)).toBe(means);
});

test('of two points on the same place the selected one is meant', () => {
  expect(pointAt(WALL, [50, 100], 4)).toBe(4);
  expect(pointAt(WALL, [50, 100], 3)).toBe(3);
  // A selected point further away takes nothing from the nearest.
  expect(pointAt(WALL, [50, 100], 0)).toBe(3);
});
