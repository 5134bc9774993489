/** The code of a link is read back by an independent reader. */
import jsQR from 'jsqr';
import { expect, test } from 'vitest';
import { makeLink } from '../../src/files/link.ts';
import { MAX_QR_CHARACTERS, qrCodeOf } from '../../src/files/qrCode.ts';
import { fourRings, randomDesign } from '../fixtures/designs.ts';

/** Paints the path as a picture of 4 pixels a module, and reads it. */
function read(address: string): string | undefined {
  const code = qrCodeOf(address);
  if (!code) throw new Error('too long');
  const side = code.size * 4;
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
  for (const [, x, y, width] of code.path.matchAll(/M(\d+) (\d+)h(\d+)v1H\d+z/g))
    for (let py = Number(y) * 4; py < Number(y) * 4 + 4; py++)
      for (let px = Number(x) * 4; px < (Number(x) + Number(width)) * 4; px++)
        pixels.fill(0, (py * side + px) * 4, (py * side + px) * 4 + 3);
  return jsQR(pixels, side, side)?.data;
}

test.each([
  ['four rings', fourRings()],
  ['a random design', randomDesign(5)],
])('the link of %s', (_name, design) => {
  const made = makeLink({ variants: [{ name: 'Variant 1', design }], active: 0 });
  if (!made.ok) throw new Error(made.message);
  const address = `https://rings.example/kerfweave/#${made.fragment}`;
  expect(read(address)).toBe(address);
});

test('the longest that is offered, and no longer', () => {
  const longest = 'https://rings.example/#d=1.'.padEnd(MAX_QR_CHARACTERS, 'aB3-_');
  expect(read(longest)).toBe(longest);
  expect(qrCodeOf(`${longest}x`)).toBeNull();
});
