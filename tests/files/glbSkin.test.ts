import { validateBytes } from 'gltf-validator';
import { expect, it } from 'vitest';
import { sectionGeometry } from '../../src/blank/section.ts';
import { writeSkinGlb } from '../../src/files/glbSkin.ts';
import { SHINE } from '../../src/files/look.ts';
import { skinOf } from '../../src/meshes/skin/skin.ts';

/** A PNG of one pixel. */
const PNG = Uint8Array.from(
  atob('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='),
  (letter) => letter.codePointAt(0)!,
);

const RING = skinOf(
  {
    section: sectionGeometry({ shape: 'round', width_mm: 90 }),
    length_mm: 40,
    profile: {
      z_mm: Float64Array.of(5, 5, 25, 25, 5),
      r_mm: Float64Array.of(30, 40, 40, 30, 30),
      corner: Uint8Array.of(1, 1, 1, 1, 1),
    },
    holes: [],
  },
  512,
);

it.each(['raw', 'oiled', 'gloss'] as const)(
  'a ring in %s passes the Khronos validator without any issue',
  async (finish) => {
    const bytes = writeSkinGlb('Ring “½”', RING, { bytes: PNG, mimeType: 'image/png' }, SHINE[finish]);
    const report = await validateBytes(bytes);
    expect(report.issues.messages).toEqual([]);
  },
);

it('stands on y = 0 in metres, wherever it was in the blank', () => {
  const bytes = writeSkinGlb('Ring', RING, { bytes: PNG, mimeType: 'image/png' }, SHINE.raw);
  const view = new DataView(bytes.buffer);
  const json = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + view.getUint32(12, true)))) as {
    accessors: { min?: number[]; max?: number[] }[];
  };
  const { min, max } = json.accessors[0];
  // Single precision at the size of the piece.
  min!.forEach((value, k) => expect(value).toBeCloseTo([-0.04, 0, -0.04][k], 7));
  max!.forEach((value, k) => expect(value).toBeCloseTo([0.04, 0.02, 0.04][k], 7));
});
