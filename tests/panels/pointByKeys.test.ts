/** Every ring and every crossing of a design is reached with the arrow keys, in both directions. */
import { expect, test } from 'vitest';
import type { Pointed } from '../../src/panels/bench.ts';
import { crossingsFor } from '../../src/panels/derived.ts';
import { pointedByKey } from '../../src/panels/map/pointByKeys.ts';
import { fourRings } from '../fixtures/designs.ts';

const design = fourRings();

function walk(key: string, from: Pointed | null, steps: number): Pointed[] {
  const seen: Pointed[] = [];
  let pointed = from;
  for (let i = 0; i < steps; i++) {
    pointed = pointedByKey(key, design, pointed) ?? null;
    if (pointed) seen.push(pointed);
  }
  return seen;
}

test('rings in cutting order, and around again', () => {
  const up = walk('ArrowUp', null, 5).map((pointed) => pointed.kind === 'ring' && pointed.slot);
  expect(up).toEqual(['S1.1', 'S1.2', 'S1.3', 'S1.4', 'S1.1']);
  const down = walk('ArrowDown', null, 2).map((pointed) => pointed.kind === 'ring' && pointed.slot);
  expect(down).toEqual(['S1.4', 'S1.3']);
});

test.each(['ArrowLeft', 'ArrowRight'])('%s reaches all crossings', (key) => {
  const count = crossingsFor(design)?.length ?? 0;
  // Four rings cross pairwise in two points each, six pairs (docs/geometry.md, "Rings").
  expect(count).toBe(12);
  const seen = walk(key, null, count).map((pointed) => JSON.stringify(pointed));
  expect(new Set(seen).size).toBe(count);
});

test('from a ring the crossings are its own; other keys are not the map’s', () => {
  const first = pointedByKey('ArrowRight', design, { kind: 'ring', slot: 'S1.3' });
  expect(first?.kind === 'crossing' && [first.under, first.over]).toContain('S1.3');
  expect(pointedByKey('x', design, null)).toBeUndefined();
  expect(pointedByKey('Escape', design, { kind: 'ring', slot: 'S1.3' })).toBeNull();
});
