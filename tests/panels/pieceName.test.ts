/** A sheet of one variant is not taken for that of another. */
import { expect, test } from 'vitest';
import { pieceName } from '../../src/panels/pieceName.ts';
import { fourRings } from '../fixtures/designs.ts';

test('one variant goes by the design, one of several by its own name too', () => {
  const design = fourRings({ name: 'Hall vase' });
  const steep = { id: 'v1', name: '45°', design };
  const flat = { id: 'v2', name: '60°', design };
  expect(pieceName({ variants: [steep], active: 0 })).toBe('Hall vase');
  expect(pieceName({ variants: [steep, flat], active: 1 })).toBe('Hall vase, 60°');
});
