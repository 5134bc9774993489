import { describe, expect, it } from 'vitest';
import { splitNonManifold } from '../../src/files/manifoldEdges.ts';
import { box, joined, meshFaults, readByLibrary, signedVolume } from './solids.ts';

const asMesh = (solid: { positions: number[]; triangles: number[] }) => ({
  positions: Float64Array.from(solid.positions),
  triangles: Uint32Array.from(solid.triangles),
});

/** How many pieces the triangles fall into when joined over shared vertices. */
function pieces(triangles: Uint32Array): number {
  const parent = new Map<number, number>();
  const find = (v: number): number => {
    const up = parent.get(v) ?? v;
    return up === v ? v : find(up);
  };
  for (let t = 0; t < triangles.length; t += 3)
    for (const v of triangles.subarray(t, t + 3)) parent.set(find(v), find(triangles[t]));
  return new Set([...triangles].map(find)).size;
}

describe('edges shared by more than two triangles', () => {
  it('leaves a sound mesh alone', () => {
    const cube = asMesh(box([0, 0, 0], [1, 1, 1]));
    expect(splitNonManifold(cube)).toBe(cube);
  });

  it('parts two cubes that touch along an edge, wood by wood', () => {
    const touching = asMesh(joined(box([0, 0, 0], [1, 1, 1]), box([1, 1, 0], [2, 2, 1])));
    expect(meshFaults(touching.positions, touching.triangles)).not.toEqual([]);
    const split = splitNonManifold(touching);
    expect(meshFaults(split.positions, split.triangles)).toEqual([]);
    // Two cubes of eight corners each, and nothing doubled beyond that.
    expect(split.positions.length / 3).toBe(16);
    expect(pieces(split.triangles)).toBe(2);
    expect(signedVolume(split.positions, split.triangles)).toBeCloseTo(2, 12);
  });

  it('parts four cubes that meet edge to edge in one corner, whatever their order', () => {
    // Four cubes of a 2 × 2 × 2 stack that touch one another along edges only.
    const cubes = [
      box([0, 0, 0], [1, 1, 1]),
      box([1, 1, 0], [2, 2, 1]),
      box([1, 0, 1], [2, 1, 2]),
      box([0, 1, 1], [1, 2, 2]),
    ];
    for (const turn of [0, 1, 2, 3]) {
      const stack = asMesh(joined(...cubes.slice(turn), ...cubes.slice(0, turn)));
      const split = splitNonManifold(stack);
      expect(meshFaults(split.positions, split.triangles)).toEqual([]);
      expect(pieces(split.triangles)).toBe(4);
      expect(signedVolume(split.positions, split.triangles)).toBeCloseTo(4, 12);
    }
  });

  it('keeps a corner whole where two solids touch in a point only', () => {
    // The core rules count edges; doubling a vertex without need is discouraged (3MF core §4.1.3).
    const touching = asMesh(joined(box([0, 0, 0], [1, 1, 1]), box([1, 1, 1], [2, 2, 2])));
    const split = splitNonManifold(touching);
    expect(split.positions.length / 3).toBe(15);
    expect(meshFaults(split.positions, split.triangles)).toEqual([]);
  });

  it('closes the wood between two cavities that meet along an edge', async () => {
    const hollow = asMesh(
      joined(box([-2, -2, -2], [4, 4, 3]), box([0, 0, 0], [1, 1, 1], true), box([1, 1, 0], [2, 2, 1], true)),
    );
    const split = splitNonManifold(hollow);
    expect(meshFaults(split.positions, split.triangles)).toEqual([]);
    expect(signedVolume(split.positions, split.triangles)).toBeCloseTo(6 * 6 * 5 - 2, 12);
    const read = await readByLibrary(split.positions, split.triangles);
    expect(read.status).toBe('NoError');
    expect(read.volume_mm3).toBeCloseTo(6 * 6 * 5 - 2, 5);
  });

  it('refuses a mesh that is open or turned inside out in places', () => {
    const cube = box([0, 0, 0], [1, 1, 1]);
    const open = asMesh({ ...cube, triangles: cube.triangles.slice(3) });
    expect(() => splitNonManifold(open)).toThrow('open edge');
    const [a, b, c, ...rest] = cube.triangles;
    expect(() => splitNonManifold(asMesh({ ...cube, triangles: [a, c, b, ...rest] }))).toThrow('which side');
  });
});
