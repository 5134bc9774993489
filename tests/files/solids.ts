/**
 * Solids for the export tests, built without the engine: boxes by hand, and results of the boolean library
 * (manifold-3d) where something awkward is wanted. Lathe frame, mm.
 */
import Module, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import type { Part } from '../../src/blank/parts.ts';

export type Vec3 = readonly [number, number, number];

let library: Promise<ManifoldToplevel> | null = null;

export function manifoldLibrary(): Promise<ManifoldToplevel> {
  library ??= Module().then((loaded) => {
    loaded.setup();
    return loaded;
  });
  return library;
}

export function part(name: string, positions: readonly number[], triangles: readonly number[]): Part {
  const mesh = { positions_mm: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
  return {
    name,
    slot: name === 'body' ? null : name.replace(/\/\d+$/, ''),
    layer: name.includes('/') ? Number(name.split('/')[1]) - 1 : 0,
    timber: name === 'body' ? 'black-walnut' : 'sugar-maple',
    ...mesh,
    volume_mm3: signedVolume(mesh.positions_mm, mesh.triangles),
  };
}

/** Box from corner to corner, outward faces; `inside` makes it a cavity instead. */
export function box(low: Vec3, high: Vec3, inside = false): { positions: number[]; triangles: number[] } {
  const positions: number[] = [];
  for (let i = 0; i < 8; i++)
    positions.push((i & 1 ? high : low)[0], (i & 2 ? high : low)[1], (i & 4 ? high : low)[2]);
  const quads = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ];
  const triangles = quads.flatMap(([a, b, c, d]) => (inside ? [a, c, b, a, d, c] : [a, b, c, a, c, d]));
  return { positions, triangles };
}

/** Several boxes as one mesh, equal corners shared. */
export function joined(...boxes: { positions: number[]; triangles: number[] }[]) {
  const positions: number[] = [];
  const triangles: number[] = [];
  const known = new Map<string, number>();
  for (const one of boxes) {
    const index = Array.from({ length: one.positions.length / 3 }, (_, v) => {
      const point = one.positions.slice(v * 3, v * 3 + 3);
      const key = point.join();
      if (!known.has(key)) {
        known.set(key, positions.length / 3);
        positions.push(...point);
      }
      return known.get(key)!;
    });
    triangles.push(...one.triangles.map((v) => index[v]));
  }
  return { positions, triangles };
}

export function fromManifold(name: string, solid: Manifold): Part {
  const mesh = solid.getMesh();
  const positions: number[] = [];
  for (let v = 0; v < mesh.numVert; v++)
    for (let k = 0; k < 3; k++) positions.push(mesh.vertProperties[v * mesh.numProp + k]);
  return part(name, positions, [...mesh.triVerts]);
}

/** Volume by the divergence theorem, from the mesh's first vertex. */
export function signedVolume(positions: ArrayLike<number>, triangles: ArrayLike<number>): number {
  let six = 0;
  const at = (t: number, k: number) => positions[triangles[t] * 3 + k] - positions[triangles[0] * 3 + k];
  for (let t = 0; t < triangles.length; t += 3)
    six +=
      at(t, 0) * (at(t + 1, 1) * at(t + 2, 2) - at(t + 1, 2) * at(t + 2, 1)) -
      at(t, 1) * (at(t + 1, 0) * at(t + 2, 2) - at(t + 1, 2) * at(t + 2, 0)) +
      at(t, 2) * (at(t + 1, 0) * at(t + 2, 1) - at(t + 1, 1) * at(t + 2, 0));
  return six / 6;
}

/**
 * Faults against the 3MF core rules (§4.1): edges not shared by exactly one triangle in each direction,
 * corners that repeat, triangles without area.
 */
export function meshFaults(positions: ArrayLike<number>, triangles: ArrayLike<number>): string[] {
  const faults: string[] = [];
  const size = positions.length / 3;
  const uses = new Map<number, number>();
  const edges = (t: number) =>
    [0, 1, 2].map((k) => [triangles[t + k], triangles[t + ((k + 1) % 3)]] as const);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t], triangles[t + 1], triangles[t + 2]];
    if (a === b || b === c || c === a) faults.push(`triangle ${t / 3} repeats a corner`);
    if (doubleArea(positions, a, b, c) === 0) faults.push(`triangle ${t / 3} has no area`);
    for (const [from, to] of edges(t)) uses.set(from * size + to, (uses.get(from * size + to) ?? 0) + 1);
  }
  for (const [edge, count] of uses) {
    const [from, to] = [Math.floor(edge / size), edge % size];
    const back = uses.get(to * size + from) ?? 0;
    if (count !== 1 || back !== 1) faults.push(`edge ${from} ${to}: ${count} forward, ${back} back`);
  }
  return faults;
}

function doubleArea(p: ArrayLike<number>, a: number, b: number, c: number): number {
  const [ux, uy, uz] = [0, 1, 2].map((k) => p[b * 3 + k] - p[a * 3 + k]);
  const [vx, vy, vz] = [0, 1, 2].map((k) => p[c * 3 + k] - p[a * 3 + k]);
  return Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
}

/** Volume and status of an indexed mesh as the boolean library reads it. */
export async function readByLibrary(positions: ArrayLike<number>, triangles: ArrayLike<number>) {
  const { Manifold: Solid, Mesh } = await manifoldLibrary();
  const mesh = new Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(Array.from(positions)),
    triVerts: Uint32Array.from(Array.from(triangles)),
  });
  const solid = new Solid(mesh);
  const result = { status: solid.status(), volume_mm3: solid.volume(), empty: solid.isEmpty() };
  solid.delete();
  return result;
}
