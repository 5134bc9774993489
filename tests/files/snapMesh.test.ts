import { describe, expect, it } from 'vitest';
import { placeFloat32, snapMesh } from '../../src/files/snapMesh.ts';
import { shaving, sliverCube, touchingBody, turnedCylinder } from './awkwardParts.ts';
import { meshFaults, readByLibrary, signedVolume } from './solids.ts';

describe('meshes on the grid of a file', () => {
  it('turns slivers into their neighbours and welds what falls together', () => {
    const cube = sliverCube();
    expect(cube.volume_mm3).toBeCloseTo(1e6, 3);
    expect(meshFaults(cube.positions_mm, cube.triangles).join()).toContain('no area');
    const snapped = snapMesh(cube, placeFloat32);
    expect(meshFaults(snapped.positions, snapped.triangles)).toEqual([]);
    expect(signedVolume(snapped.positions, snapped.triangles)).toBeCloseTo(1e6, 3);
    expect(snapped.positions.every((value) => Math.fround(value) === value)).toBe(true);
  });

  it('leaves nothing of a part thinner than the grid', () => {
    expect(snapMesh(shaving(), placeFloat32).triangles.length).toBe(0);
  });

  it('keeps volume and soundness of turned and touching parts', async () => {
    for (const part of [...(await turnedCylinder()), touchingBody()]) {
      const snapped = snapMesh(part, placeFloat32);
      expect(meshFaults(snapped.positions, snapped.triangles)).toEqual([]);
      const read = await readByLibrary(snapped.positions, snapped.triangles);
      expect(read.status).toBe('NoError');
      expect(Math.abs(read.volume_mm3 / part.volume_mm3 - 1)).toBeLessThan(1e-6);
    }
  });
});
