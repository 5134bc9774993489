import { describe, expect, it } from 'vitest';
import { write3mf } from '../../src/files/threemf.ts';
import { LOOKS, shaving, sliverCube, touchingBody, turnedCylinder } from './awkwardParts.ts';
import { read3mf } from './read3mf.ts';
import { meshFaults, readByLibrary } from './solids.ts';

describe('3MF', () => {
  it('holds the three files of a package, in millimetres, with the title', async () => {
    const read = read3mf(write3mf('Kerf & "weave" <½″>', await turnedCylinder(), LOOKS));
    expect(read.files).toEqual(['[Content_Types].xml', '_rels/.rels', '3D/3dmodel.model']);
    expect(read.unit).toBe('millimeter');
    expect(read.title).toBe('Kerf & "weave" <½″>');
  });

  it('has one named object per part with its timber, gathered as components of one item', async () => {
    const read = read3mf(write3mf('Test', [...(await turnedCylinder()), shaving()], LOOKS));
    const parts = read.objects.filter((object) => object.triangles.length > 0);
    expect(parts.map((object) => object.name)).toEqual(['body', 'S1.1', 'S1.2/1', 'S1.2/2']);
    expect(parts.map((object) => object.material)).toEqual([
      { name: 'Black walnut', displaycolor: '#826854FF' },
      ...Array.from({ length: 3 }, () => ({ name: 'Hard (sugar) maple', displaycolor: '#DABC9CFF' })),
    ]);
    const whole = read.objects.at(-1)!;
    expect(whole.components).toEqual(parts.map((object) => object.id));
    expect(read.items.map((item) => item.objectid)).toEqual([whole.id]);
  });

  it('keeps the core rules of a mesh and the volume of every part', async () => {
    for (const parts of [await turnedCylinder(), [touchingBody()], [sliverCube()]]) {
      const { objects } = read3mf(write3mf('Test', parts, LOOKS));
      for (const [i, part] of parts.entries()) {
        expect(meshFaults(objects[i].positions, objects[i].triangles)).toEqual([]);
        const read = await readByLibrary(objects[i].positions, objects[i].triangles);
        expect(read.status).toBe('NoError');
        expect(Math.abs(read.volume_mm3 / part.volume_mm3 - 1)).toBeLessThan(1e-6);
      }
    }
  });

  it('moves the whole into the positive octant and nothing else', async () => {
    const { objects, items } = read3mf(write3mf('Test', await turnedCylinder(), LOOKS));
    const positions = objects.flatMap((object) => object.positions);
    const lowest = [0, 1, 2].map((axis) => Math.min(...positions.filter((_, i) => i % 3 === axis)));
    expect(lowest[0]).toBeCloseTo(-30, 4);
    const { transform } = items[0];
    expect(transform.slice(0, 9)).toEqual([1, 0, 0, 0, 1, 0, 0, 0, 1]);
    for (let axis = 0; axis < 3; axis++) expect(lowest[axis] + transform[9 + axis]).toBeCloseTo(0, 6);
  });

  it('writes the same bytes whatever the clock and the zone', async () => {
    const parts = await turnedCylinder();
    const zone = process.env.TZ;
    const files = ['UTC', 'Pacific/Auckland', 'America/Los_Angeles'].map((name) => {
      process.env.TZ = name;
      return write3mf('Test', parts, LOOKS);
    });
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
    expect(files[1]).toEqual(files[0]);
    expect(files[2]).toEqual(files[0]);
  });
});
