/** What the workpiece is at each place of the line of moments. */
import { expect, test } from 'vitest';
import { momentsOf } from '../../src/blank/moments.ts';
import { momentAt } from '../../src/stage/props.ts';
import { shapeAt } from '../../src/stage/shape.ts';
import { fourRings } from '../fixtures/designs.ts';

const design = fourRings();
const moments = momentsOf(design);
const indexOf = (kind: string, nth = 0) =>
  moments.map((moment, i) => (moment.kind === kind ? i : -1)).filter((i) => i >= 0)[nth];

test('a whole number is a moment complete, between two the later one is under way', () => {
  expect(momentAt(moments, 0)).toMatchObject({ index: 0, progress: 1, moment: { kind: 'block' } });
  expect(momentAt(moments, 1)).toMatchObject({ index: 1, progress: 1, moment: { kind: 'cut' } });
  expect(momentAt(moments, 0.25)).toMatchObject({ index: 1, progress: 0.25 });
  expect(momentAt(moments, 1e9).moment.kind).toBe('finished');
  expect(momentAt(moments, -3).moment.kind).toBe('block');
});

test('the blade comes in, the strip slides home and is trimmed, then it is glued in', () => {
  const cut = indexOf('cut', 1);
  expect(shapeAt(design, cut - 0.5)).toMatchObject({
    filled: 1,
    open: { slot: 1, depth: 0.5 },
    incoming: null,
  });
  expect(shapeAt(design, cut)).toMatchObject({ filled: 1, open: { slot: 1, depth: 1 } });
  const sliding = shapeAt(design, cut + 0.3);
  expect(sliding).toMatchObject({
    filled: 1,
    open: { slot: 1, depth: 1 },
    incoming: { slot: 1, overhang: 1 },
  });
  expect(sliding.incoming?.slide).toBeCloseTo(0.4, 9);
  const trimming = shapeAt(design, cut + 0.9);
  expect(trimming.incoming?.slide).toBe(1);
  expect(trimming.incoming?.overhang).toBeCloseTo(0.4, 9);
  expect(shapeAt(design, cut + 1)).toMatchObject({ filled: 2, open: null, incoming: null });
});

test('a quarter-turn turns the blank by a quarter, always the same way, and the last one brings it home', () => {
  const turns = [0, 1, 2].map((n) => indexOf('quarter-turn', n));
  turns.forEach((index, n) => {
    expect(shapeAt(design, index - 1).spin_rad).toBeCloseTo((-Math.PI / 2) * n, 9);
    expect(shapeAt(design, index - 0.5).spin_rad).toBeCloseTo((-Math.PI / 2) * (n + 0.5), 9);
    expect(shapeAt(design, index).spin_rad).toBeCloseTo((-Math.PI / 2) * (n + 1), 9);
  });
  expect(shapeAt(design, indexOf('glued')).spin_rad).toBeCloseTo(-2 * Math.PI, 9);
});

test('the blank stays square until it is turned; then the outside, then the inside', () => {
  expect(shapeAt(design, indexOf('glued')).profile).toBeNull();
  const turned = indexOf('turned');
  const half = shapeAt(design, turned - 0.5).profile;
  const done = shapeAt(design, turned).profile;
  if (!half || !done) throw new Error('not turned');
  expect(Math.max(...half.r_mm)).toBeGreaterThan(Math.max(...done.r_mm));
  expect(Math.max(...done.r_mm)).toBeCloseTo(30, 6);
});

test('a design without a form ends glued', () => {
  const block = fourRings({ form: null });
  expect(shapeAt(block, 1e9)).toMatchObject({ moment: { kind: 'glued' }, profile: null, filled: 4 });
});
