/**
 * One closed solid as binary STL: 80 bytes of header, a count, 50 bytes per triangle, little-endian, no
 * units in the file (they are millimetres, z up, lathe frame). Format from memory: the layout has no
 * published standard.
 */
import type { Part } from '../blank/parts.ts';
import { placeFloat32, snapMesh } from './snapMesh.ts';

/**
 * Bytes of the .stl file. Several parts (the layers of one strip) are written one after the other: each is
 * closed by itself. `label` goes into the header, ASCII only.
 */
export function writeStl(
  label: string,
  solids: readonly Pick<Part, 'positions_mm' | 'triangles'>[],
): Uint8Array {
  const meshes = solids.map((solid) => snapMesh(solid, placeFloat32));
  const count = meshes.reduce((sum, mesh) => sum + mesh.triangles.length / 3, 0);
  if (count === 0) throw new Error('there is no part to write');
  const bytes = new Uint8Array(84 + 50 * count);
  const view = new DataView(bytes.buffer);
  // "solid" at the start would make readers take the file for a text one.
  const header = `Kerfweave, mm: ${label}`.replace(/[^\x20-\x7e]/g, '?').slice(0, 80);
  bytes.set(new TextEncoder().encode(header));
  view.setUint32(80, count, true);
  let at = 84;
  for (const { positions, triangles } of meshes)
    for (let t = 0; t < triangles.length; t += 3) {
      const corners = [0, 1, 2].map((k) =>
        positions.subarray(triangles[t + k] * 3, triangles[t + k] * 3 + 3),
      );
      for (const triple of [facing(corners), ...corners])
        for (const value of triple) {
          view.setFloat32(at, value, true);
          at += 4;
        }
      at += 2;
    }
  return bytes;
}

/** Unit normal by the right-hand rule; zero where the triangle has no area, as readers then work it out. */
function facing([a, b, c]: Float64Array[]): number[] {
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const [vx, vy, vz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
  const normal = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const length = Math.hypot(...normal);
  return length === 0 ? [0, 0, 0] : normal.map((value) => value / length + 0);
}
