/** Where an added set lands; the places expected are worked by hand from the length of the blank and what is taken. */
import { expect, test } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { addSet } from '../../src/design/edits.ts';
import { freePlace } from '../../src/panels/rings/freePlace.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';

const at = (unit: 'in' | 'mm', length_mm: number, places_mm: readonly number[]) => {
  const design = fourRings({ unit });
  return {
    ...design,
    blank: { ...design.blank, length_mm },
    sets: places_mm.map((center_mm, n) => slotSet({ id: `S${n + 1}`, center_mm })),
  };
};

test.each([
  // A blank of 8 in: its middle; then a half of it, that at the head; the other half; the quarter above the middle.
  ['in', 203.2, [], 101.6],
  ['in', 203.2, [101.6], 152.4],
  ['in', 203.2, [101.6, 152.4], 50.8],
  ['in', 203.2, [50.8, 101.6, 152.4], 127],
  // The widest stretch, wherever the sets stand in the list.
  ['mm', 200, [150, 30], 90],
  ['mm', 200, [20], 110],
  // A set beyond an end takes that end.
  ['mm', 200, [-40, 260], 100],
  // Of 25.3, 79.8, 84.9 and 10 mm the third is the widest: its middle 147.55 mm, to the millimetre.
  ['mm', 200, [25.3, 105.1, 190], 148],
  // Of 99 and 104.2 mm the second: its middle 151.1 mm is 95.18 sixteenths of an inch, so 95 of them.
  ['in', 203.2, [99], 150.8125],
] as const)('in %s, %d mm long, sets at %j: at %d mm', (unit, length_mm, places_mm, expected_mm) => {
  expect(freePlace(at(unit, length_mm, places_mm))).toBeCloseTo(expected_mm, 9);
});

test('set after set, none lands on another', () => {
  let design: Design = at('in', 203.2, []);
  for (let n = 0; n < 12; n++) design = addSet(design, { center_mm: freePlace(design) });
  const places = design.sets.map(({ center_mm }) => center_mm).sort((a, b) => a - b);
  // 12 sets cut 8 in into 13 stretches by halving: none is less than a sixteenth of the whole.
  for (let n = 1; n < places.length; n++)
    expect(places[n] - places[n - 1]).toBeGreaterThanOrEqual(12.7 - 1e-9);
  expect(places).toHaveLength(12);
});
