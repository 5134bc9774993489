/**
 * The starter designs as 3D files, read back: which parts they have, and their volumes against the report's,
 * which are worked out another way (exact plane sections, no facets).
 */
import { validateBytes } from 'gltf-validator';
import { describe, expect, it } from 'vitest';
import { modelEnding, modelFile, type ModelRequest } from '../../src/files/model.ts';
import { reportOf } from '../../src/plan/report.ts';
import type { Design } from '../../src/design/document.ts';
import { fourRings } from '../fixtures/designs.ts';
import { starterDesigns } from '../fixtures/starters.ts';
import { read3mf } from './read3mf.ts';
import { meshFaults, signedVolume } from './solids.ts';

function bytesOf(design: Design, request: ModelRequest): Uint8Array {
  const result = modelFile(design, request);
  if ('refusal' in result) throw new Error(result.refusal);
  return result.bytes;
}

const starters = starterDesigns();

describe('the starter designs as 3D files', () => {
  it('are ten', () => {
    expect(starters.length).toBe(10);
  });

  it.each(starters.map((design) => [design.name, design] as const))('%s', (_, design) => {
    const report = reportOf(design);
    const { objects, title } = read3mf(bytesOf(design, { ending: '3mf' }));
    const parts = objects.filter(({ triangles }) => triangles.length > 0);
    expect(title).toBe(design.name);
    const layers = new Map(design.sets.map((set) => [set.id, set.strip.layers.length]));
    const expected = design.order.flatMap((slot) => {
      const count = layers.get(slot.split('.')[0]) ?? 0;
      return count === 1 ? [slot] : Array.from({ length: count }, (_unused, i) => `${slot}/${i + 1}`);
    });
    expect(parts.map(({ name }) => name)).toEqual(['body', ...expected]);
    for (const { positions, triangles } of parts) expect(meshFaults(positions, triangles)).toEqual([]);
    const whole = report.turned!.volume_mm3;
    for (const [slot, volume] of Object.entries(report.turned!.parts_mm3)) {
      const measured = parts
        .filter(({ name }) => name.split('/')[0] === slot)
        .reduce((sum, part) => sum + signedVolume(part.positions, part.triangles), 0);
      // Facets stand inside the round, low by 0.01 % at 256 to the turn; rows within 0.002 mm of the outline,
      // which is 0.03 % of the slimmest piece.
      expect(Math.abs(measured - volume) / whole, slot).toBeLessThan(5e-4);
    }
  });

  it('pass the glTF validator, plain and layered', async () => {
    for (const design of [starters[0], starters[6]]) {
      const { issues } = await validateBytes(bytesOf(design, { ending: 'glb' }));
      expect(issues.messages).toEqual([]);
    }
  });

  it('are one closed surface as STL', () => {
    const stl = bytesOf(starters[0], { ending: 'stl' });
    expect(stl.length).toBe(84 + 50 * new DataView(stl.buffer).getUint32(80, true));
  });
});

describe('what there is to export', () => {
  it('knows a format by its ending', () => {
    expect(
      ['a.glb', 'b.3MF', 'c.d.stl', 'e.obj', 'glb', '.stl', 'f.stl/'].map((name) => modelEnding(name)),
    ).toEqual(['glb', '3mf', 'stl', null, null, 'stl', null]);
  });

  it('leaves out of a 3D file what a later cut has taken away, and says so when it is asked for', () => {
    // The second cut repeats the first one: nothing is left of the first strip.
    const twice = fourRings({ set: { fence_azimuths_deg: [0, 0] }, form: null });
    const { objects } = read3mf(bytesOf(twice, { ending: '3mf' }));
    expect(objects.filter(({ triangles }) => triangles.length > 0).map(({ name }) => name)).toEqual([
      'body',
      'S1.2',
    ]);
    expect(modelFile(twice, { ending: 'stl', part: 'S1.1' })).toEqual({
      refusal: 'nothing is left of S1.1 at this moment',
    });
    expect(modelFile(twice, { ending: 'stl', part: 'S1.1', step: 2 })).toHaveProperty('bytes');
  });
});
