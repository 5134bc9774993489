/** The line about each starter design; expected words written by hand from the design files. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { starterLine } from '../../src/app/starterLine.ts';
import { parseDesign } from '../../src/design/parse.ts';

function starter(file: string) {
  const result = parseDesign(readFileSync(`assets/designs/${file}.json`, 'utf8'));
  if (!result.ok) throw new Error(file);
  return result.design;
}

/** No-break spaces as plain ones. */
const plain = (line: string) => line.replaceAll('\u00a0', ' ');

test.each([
  ['01-lantern-candle-stick', 'in', '4 rings, hard maple in black walnut, 3 × 3 × 9 in'],
  ['01-lantern-candle-stick', 'mm', '4 rings, hard maple in black walnut, 76.2 × 76.2 × 228.6 mm'],
  ['02-tide-bowl', 'in', '8 rings, African padauk and black walnut in hard maple, 5 3/4 × 5 3/4 × 3 1/2 in'],
  ['05-tavern-stopper', 'in', '6 rings, American holly in purpleheart, 1 3/4 × 3 in'],
  // 40 mm and 150 mm are on no rule in inches: decimal, 40 / 25.4 and 150 / 25.4.
  ['06-bench-handle', 'in', '8 rings, wenge and African padauk in white ash, 1.575 × 5.906 in'],
  ['06-bench-handle', 'mm', '8 rings, wenge and African padauk in white ash, 40 × 150 mm'],
  ['07-harvest-vase', 'in', '4 rings, hard maple and black walnut in sapele, 3 1/2 × 3 1/2 × 8 in'],
] as const)('%s in %s', (file, unit, line) => {
  expect(plain(starterLine(starter(file), unit))).toBe(line);
});

test('a size never breaks over two lines', () => {
  const line = starterLine(starter('02-tide-bowl'), 'in');
  expect(line.slice(line.lastIndexOf(', ') + 2)).not.toContain(' ');
});
