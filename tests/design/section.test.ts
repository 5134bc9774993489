/** Faces and edges of sections by azimuth: n faces at 360° / n, edges midway between them (regular polygons). */
import { expect, test } from 'vitest';
import { edgeLettersAt, faceLetterAt, sectionGeometry } from '../../src/design/section.ts';

test.each([
  ['hexagon', 90, null, 'B/C'],
  ['hexagon', 270, null, 'E/F'],
  ['hexagon', 330, null, 'F/A'],
  ['hexagon', -30, null, 'F/A'],
  ['hexagon', 60, 'B', null],
  ['square', 90, 'B', null],
  ['square', 45, null, 'A/B'],
  ['octagon', 90, 'C', null],
  ['octagon', 22.5, null, 'A/B'],
  ['octagon', 20, null, null],
  ['round', 90, null, null],
] as const)('%s at %d°: face %s, edge %s', (shape, azimuth_deg, face, edge) => {
  const section = sectionGeometry({ shape, width_mm: 60 });
  expect(faceLetterAt(section, azimuth_deg)).toBe(face);
  expect(edgeLettersAt(section, azimuth_deg)).toBe(edge);
});
