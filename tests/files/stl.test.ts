import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { describe, expect, it } from 'vitest';
import { writeStl } from '../../src/files/stl.ts';
import { sliverCube, turnedCylinder } from './awkwardParts.ts';
import { meshFaults, signedVolume } from './solids.ts';

/** The file as three's loader reads it, equal corners joined. */
function read(bytes: Uint8Array) {
  const geometry = new STLLoader().parse(Uint8Array.from(bytes).buffer);
  const corners = geometry.getAttribute('position').array;
  const normals = geometry.getAttribute('normal').array;
  const positions: number[] = [];
  const index = new Map<string, number>();
  const triangles = Array.from({ length: corners.length / 3 }, (_, corner) => {
    const point = corners.slice(corner * 3, corner * 3 + 3);
    const key = point.join();
    if (!index.has(key)) {
      index.set(key, positions.length / 3);
      positions.push(...point);
    }
    return index.get(key)!;
  });
  return { positions, triangles, normals };
}

describe('STL', () => {
  it('is 84 bytes and 50 per triangle, and does not start like a text file', async () => {
    const [body] = await turnedCylinder();
    const bytes = writeStl('a piece ½″', [body]);
    const count = new DataView(bytes.buffer).getUint32(80, true);
    expect(bytes.length).toBe(84 + 50 * count);
    expect(new TextDecoder().decode(bytes.subarray(0, 5))).not.toBe('solid');
    expect(new TextDecoder().decode(bytes.subarray(0, 25))).toBe('Kerfweave, mm: a piece ??');
  });

  it('is closed and keeps the volume', async () => {
    for (const part of [...(await turnedCylinder()), sliverCube()]) {
      const { positions, triangles } = read(writeStl(part.name, [part]));
      expect(meshFaults(positions, triangles)).toEqual([]);
      expect(Math.abs(signedVolume(positions, triangles) / part.volume_mm3 - 1)).toBeLessThan(1e-6);
    }
  });

  it('writes the layers of a strip one after the other', async () => {
    const [, , low, high] = await turnedCylinder();
    const { positions, triangles } = read(writeStl('S1.2', [low, high]));
    expect(signedVolume(positions, triangles)).toBeCloseTo(low.volume_mm3 + high.volume_mm3, 1);
  });

  it('gives each facet the normal of its corners', async () => {
    const [body] = await turnedCylinder();
    const { positions, triangles, normals } = read(writeStl('body', [body]));
    const flux = triangles.reduce((sum, v, corner) => {
      const at = [0, 1, 2].map((k) => positions[v * 3 + k] * normals[corner * 3 + k]);
      return sum + at[0] + at[1] + at[2];
    }, 0);
    expect(normals.length).toBe(triangles.length * 3);
    expect(flux).toBeGreaterThan(0);
    for (let corner = 0; corner < triangles.length; corner++)
      expect(Math.hypot(...normals.slice(corner * 3, corner * 3 + 3))).toBeCloseTo(1, 5);
  });
});
