/** Where a timber's tile lies in the sheet; places worked out by hand for 8 columns and 3 rows. */
import { expect, test } from 'vitest';
import { FIGURE_COLUMNS, FIGURE_ROWS, figurePlace } from '../../../src/panels/fields/figure.ts';
import { TIMBERS } from '../../../src/timber/timbers.ts';

test('the sheet of the style sheet has as many tiles as there are timbers', () => {
  // figure.css says 800 % and 300 %.
  expect([FIGURE_COLUMNS, FIGURE_ROWS]).toEqual([8, 3]);
  expect(TIMBERS.length).toBeLessThanOrEqual(24);
});

test.each([
  [0, '0.000% 0.000%'],
  [7, '100.000% 0.000%'],
  [8, '0.000% 50.000%'],
  [19, '42.857% 100.000%'],
] as const)('timber %i lies at %s', (index, place) => {
  expect(figurePlace(TIMBERS[index].id)).toBe(place);
});

test('another name of a timber has its tile, an unknown timber none', () => {
  expect(figurePlace('sugar-maple')).toBe(figurePlace('hard-maple'));
  expect(figurePlace('plywood')).toBe(null);
});
