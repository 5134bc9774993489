/**
 * The layout of a USDZ package after the "Usdz File Format Specification" 1.3 (openusd.org/release/spec_usdz.html), read by a
 * reader of the tests' own; and the layer in it, as far as its text goes (a browser test reads it with three's loader).
 */
import * as fc from 'fast-check';
import { unzipSync } from 'fflate';
import { expect, it } from 'vitest';
import { SHINE } from '../../src/files/look.ts';
import { packed, writeUsdz } from '../../src/files/usdz.ts';
import { skinOf } from '../../src/meshes/skin/skin.ts';
import { sectionGeometry } from '../../src/blank/section.ts';
import { SEED } from '../soak/counts.ts';
import { zipEntries } from './zipEntries.ts';

const BLOCK = skinOf(
  {
    section: sectionGeometry({ shape: 'square', width_mm: 80 }),
    length_mm: 200,
    profile: null,
    holes: [],
  },
  512,
);
const PICTURE = { bytes: Uint8Array.of(0xff, 0xd8, 0xff, 0xd9), mimeType: 'image/jpeg' } as const;

it('stores files of any size and name with their data at multiples of 64 bytes', () => {
  fc.assert(
    fc.property(
      fc.uniqueArray(fc.tuple(fc.stringMatching(/^[a-z]{1,90}$/), fc.uint8Array({ maxLength: 300 })), {
        minLength: 1,
        maxLength: 6,
        selector: ([name]) => name,
      }),
      (files) => {
        const archive = packed(files);
        const entries = zipEntries(archive);
        expect(entries.map(({ name }) => name)).toEqual(files.map(([name]) => name));
        for (const [i, entry] of entries.entries()) {
          expect({ method: entry.method, encrypted: entry.encrypted, over: entry.start % 64 }).toEqual({
            method: 0,
            encrypted: false,
            over: 0,
          });
          expect(entry.bytes).toEqual(files[i][1]);
        }
        expect(Object.keys(unzipSync(archive))).toHaveLength(files.length);
      },
    ),
    { seed: SEED, numRuns: 200 },
  );
});

it('begins with a text layer that refers to the picture beside it', () => {
  const [layer, picture, ...rest] = zipEntries(writeUsdz('Block', BLOCK, PICTURE, SHINE.gloss));
  expect(rest).toEqual([]);
  expect(layer.name).toMatch(/\.usda$/);
  expect(picture.bytes).toEqual(PICTURE.bytes);
  const text = new TextDecoder().decode(layer.bytes);
  expect(text).toMatch(/^#usda 1\.0\n/);
  expect(text).toMatch(/^ {4}metersPerUnit = 1$/m);
  expect(text).toMatch(/^ {4}upAxis = "Y"$/m);
  expect(text).toMatch(/defaultPrim = "Piece"/);
  expect(text).toContain(`asset inputs:file = @${picture.name}@`);
  expect(text).toMatch(/inputs:clearcoat = 1/);
  // 80 mm square and 200 mm tall, standing on y = 0, in metres.
  expect(text).toContain('float3[] extent = [(-0.04, 0, -0.04), (0.04, 0.2, 0.04)]');
  const points = /point3f\[\] points = \[(.*)\]/.exec(text)![1].split('), (').length;
  expect(text.match(/texCoord2f\[\] primvars:st = \[(.*)\]/)![1].split('), (')).toHaveLength(points);
  expect(text.match(/normal3f\[\] normals = \[(.*)\]/)![1].split('), (')).toHaveLength(points);
});

it('keeps odd names as a name, and the same bytes for the same piece', () => {
  const name = 'A "name" \\ with\nlines';
  const bytes = writeUsdz(name, BLOCK, PICTURE, SHINE.raw);
  expect(writeUsdz(name, BLOCK, PICTURE, SHINE.raw)).toEqual(bytes);
  const [layer] = zipEntries(bytes);
  expect(new TextDecoder().decode(layer.bytes)).toContain('string title = "A \\"name\\" \\\\ with lines"');
});
