/** Awkward random designs through all three formats, read back by the tests' own readers. */
import { validateBytes } from 'gltf-validator';
import { expect, it } from 'vitest';
import type { Part } from '../../src/blank/parts.ts';
import { blockParts, turnedParts, wholePart } from '../../src/blank/solids.ts';
import { writeGlb } from '../../src/files/glb.ts';
import { looksOf } from '../../src/files/look.ts';
import { placeFloat32, snapMesh } from '../../src/files/snapMesh.ts';
import { write3mf } from '../../src/files/threemf.ts';
import { randomDesign } from '../fixtures/designs.ts';
import { countFor, SEED } from '../soak/counts.ts';
import { read3mf } from './read3mf.ts';
import { meshFaults, signedVolume } from './solids.ts';

const rounds = countFor('export-meshes', 12, 1000);

it('keeps every mesh of random designs sound and its volume, block and turned', async () => {
  for (let seed = SEED; seed < SEED + rounds; seed++) {
    const design = randomDesign(seed, {});
    const options = { facets: 48, rows: 24 };
    for (const turned of design.form ? [false, true] : [false]) {
      const parts = turned ? turnedParts(design, options) : blockParts(design, options);
      const whole = wholePart(design, turned, options);
      if (whole.triangles.length === 0) continue;
      const where = `seed ${seed}, ${turned ? 'turned' : 'block'}`;
      const { objects } = read3mf(write3mf(where, parts, looksOf(design)));
      for (const part of parts) {
        const object = objects.find(({ name }) => name === part.name);
        if (object) expectSound(`${where}, ${part.name}`, object.positions, object.triangles, part, whole);
        // What is left out must be too small to hold in single precision.
        else expect(part.volume_mm3 / whole.volume_mm3, `${where}, ${part.name} left out`).toBeLessThan(1e-9);
      }
      const { positions, triangles } = snapMesh(whole, placeFloat32);
      expectSound(`${where}, whole`, positions, triangles, whole, whole);
      const { issues } = await validateBytes(writeGlb(where, parts, looksOf(design)));
      expect(issues.messages, where).toEqual([]);
    }
  }
});

function expectSound(
  where: string,
  positions: ArrayLike<number>,
  triangles: ArrayLike<number>,
  part: Part,
  whole: Part,
) {
  expect(meshFaults(positions, triangles), where).toEqual([]);
  const error = Math.abs(signedVolume(positions, triangles) - part.volume_mm3) / whole.volume_mm3;
  expect(error, `${where}: volume`).toBeLessThan(1e-6);
}
