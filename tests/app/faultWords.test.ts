/** Places in a design file in words. The words expected are those of the stations, written by hand. */
import { expect, test } from 'vitest';
import { placeWords } from '../../src/app/faultWords.ts';

test.each([
  ['sets[0].angle_deg', 'Set 1, angle in degrees'],
  ['sets[2].strip.layers[0].timber', 'Set 3, strip, layer 1, timber'],
  ['sets[0].fence_azimuths_deg[3]', 'Set 1, azimuth 4 in degrees'],
  ['blank.section.width_mm', 'Blank, section, width in mm'],
  ['form.outline[4].r_mm', 'Form, point 5, distance from the axis in mm'],
  ['order[7]', 'Cut 8'],
  ['order', 'Order of cutting'],
  ['glue', 'Glue'],
  ['saw["blade width"]', 'Saw, “blade width”'],
  ['saw.max_open_slots', 'Saw, max open slots'],
  // A field that nobody thought of, and one that every object seems to have.
  ['sets[0].constructor', 'Set 1, constructor'],
  ['', ''],
])('%j is %j', (path, words) => {
  expect(placeWords(path)).toBe(words);
});
