/** What to prepare before the first cut, by the section of the blank. */
import { expect, test } from 'vitest';
import type { SectionShape } from '../../src/design/document.ts';
import { measuresOf } from '../../src/plan/measures.ts';
import { preparationsOf } from '../../src/plan/preparations.ts';
import { worded } from '../../src/plan/wording.ts';
import { fourRings } from '../fixtures/designs.ts';

function prepared(shape: SectionShape): string {
  const design = fourRings({ section: { shape, width_mm: 60 }, form: null });
  return preparationsOf(design, measuresOf(design))
    .map((words) => worded(words, 'mm'))
    .join(' ');
}

/** Angles between neighbours of regular polygons: 180° − 360° / n (Euclid). */
test.each([
  ['square', 'neighbours square to each other', 'diagonals'],
  ['hexagon', '120° between neighbours', 'three widths'],
  ['octagon', '135° between neighbours', 'four widths'],
] as const)('a %s blank is trued as it is', (shape, angles, check) => {
  const words = prepared(shape);
  expect(words).toContain(angles);
  expect(words).toContain(check);
});

test('a six-sided blank at the fence is laid in a V; no other stands on an edge', () => {
  expect(prepared('hexagon')).toContain('a V of 120°');
  for (const shape of ['square', 'octagon', 'round'] as const)
    expect(prepared(shape)).not.toContain('a V of');
});
