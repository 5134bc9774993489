/**
 * Normals and surface radii for a solid that comes as bare triangles (the exact kernel's): each triangle is matched
 * with the half-section that the solid was swung from; what matches no part of it is plane. Lathe frame in, mm.
 */
import type { Drilled } from './exact.ts';
import { MeshBuilder, toDrawn, toLathe, type WorkMesh } from './mesh.ts';
import type { SweptProfile } from './formProfile.ts';

/** The solid's triangles as a drawn mesh. `profile` null: plane faces only. */
export function dressSolid(
  positions_mm: Float64Array,
  triangles: Uint32Array,
  profile: SweptProfile | null,
  openness: Float64Array | null,
): WorkMesh {
  const builder = new MeshBuilder();
  const shared = new Map<string, number>();
  const surface = profile ? surfaceOf(profile, openness) : null;
  const p = positions_mm;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const ux = p[b] - p[a];
    const uy = p[b + 1] - p[a + 1];
    const uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a];
    const vy = p[c + 1] - p[a + 1];
    const vz = p[c + 2] - p[a + 2];
    const n = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const length = Math.hypot(n[0], n[1], n[2]) || 1;
    const normal: [number, number, number] = [n[0] / length, n[1] / length, n[2] / length];
    const segment = surface ? surface.match(p, [a, b, c], normal) : -1;
    const place = (at: number): number => {
      const key =
        segment >= 0
          ? `${at},${segment}`
          : `${at},${normal[0].toFixed(4)},${normal[1].toFixed(4)},${normal[2].toFixed(4)}`;
      const known = shared.get(key);
      if (known !== undefined) return known;
      const made =
        surface && segment >= 0
          ? surface.vertex(builder, p[at], p[at + 1], p[at + 2], segment)
          : builder.vertex(p[at], p[at + 1], p[at + 2], ...normal);
      shared.set(key, made);
      return made;
    };
    builder.triangle(place(a), place(b), place(c));
  }
  return builder.build();
}

interface Surface {
  /** Segment of the half-section that a triangle lies on, or −1. */
  match(p: Float64Array, corners: readonly [number, number, number], normal: readonly number[]): number;
  vertex(builder: MeshBuilder, x: number, y: number, z: number, segment: number): number;
}

function surfaceOf(profile: SweptProfile, openness: Float64Array | null): Surface {
  const { z_mm: z, r_mm: r, corner } = profile;
  const segments = z.length - 1;
  const nz = new Float64Array(segments);
  const nr = new Float64Array(segments);
  for (let i = 0; i < segments; i++) {
    const length = Math.hypot(z[i + 1] - z[i], r[i + 1] - r[i]) || 1;
    nz[i] = -(r[i + 1] - r[i]) / length;
    nr[i] = (z[i + 1] - z[i]) / length;
  }
  const distance = (i: number, atZ: number, atR: number): number => {
    const off = (atZ - z[i]) * nz[i] + (atR - r[i]) * nr[i];
    const length = Math.hypot(z[i + 1] - z[i], r[i + 1] - r[i]);
    const along = (atZ - z[i]) * nr[i] - (atR - r[i]) * nz[i];
    return along < -1e-6 || along > length + 1e-6 ? Infinity : Math.abs(off);
  };
  return {
    match(p, corners, normal) {
      for (let i = 0; i < segments; i++) {
        // All three corners stand on the segment's cone: the vertices of a facet do, and so do points on its edges
        // and, a little inside of it, those that a cut has made on its face.
        let worst = 0;
        let radial = 0;
        for (const at of corners) {
          const rho = Math.hypot(p[at], p[at + 1]);
          worst = Math.max(worst, distance(i, p[at + 2], rho) - rho * 6e-4);
          if (worst > 1e-5) break;
          radial += rho > 1e-9 ? (normal[0] * p[at] + normal[1] * p[at + 1]) / rho / 3 : 0;
        }
        if (worst > 1e-5) continue;
        if (radial * nr[i] + normal[2] * nz[i] > 0.98 || (nr[i] === 0 && normal[2] * nz[i] > 0.999)) return i;
      }
      return -1;
    },
    vertex(builder, x, y, atZ, i) {
      const rho = Math.hypot(x, y);
      const dz = z[i + 1] - z[i];
      const dr = r[i + 1] - r[i];
      const t = Math.min(1, Math.max(0, ((atZ - z[i]) * dz + (rho - r[i]) * dr) / (dz * dz + dr * dr || 1)));
      const normalAt = (row: number, other: number): [number, number] =>
        corner[row] || other < 0 || other >= segments
          ? [nz[i], nr[i]]
          : [nz[i] + nz[other], nr[i] + nr[other]];
      const [z0, r0] = normalAt(i, i - 1);
      const [z1, r1] = normalAt(i + 1, i + 1);
      const [l0, l1] = [Math.hypot(z0, r0) || 1, Math.hypot(z1, r1) || 1];
      const axial = (z0 / l0) * (1 - t) + (z1 / l1) * t;
      const radial = (r0 / l0) * (1 - t) + (r1 / l1) * t;
      const length = Math.hypot(axial, radial) || 1;
      const [c, s] = rho > 1e-9 ? [x / rho, y / rho] : [0, 0];
      const open = openness ? openness[i] + t * (openness[i + 1] - openness[i]) : 1;
      const radius = dz === 0 ? -1 : r[i] + t * dr;
      return builder.vertex(
        x,
        y,
        atZ,
        (radial / length) * c,
        (radial / length) * s,
        axial / length,
        radius,
        open,
      );
    },
  };
}

/** Turns the facets of drilled holes into smooth walls: their vertices get the normal of the hole's cylinder. */
export function smoothHoles(mesh: WorkMesh, holes: readonly Drilled[]): WorkMesh {
  const { positions: p, normals: n, radii } = mesh;
  for (const { cylinder } of holes) {
    const { origin_mm: o, inward: d, radius_mm } = cylinder;
    for (let v = 0; v < radii.length; v++) {
      if (radii[v] >= 0) continue;
      const [x, y, z] = toLathe(p[3 * v], p[3 * v + 1], p[3 * v + 2]);
      const [nx, ny, nz] = toLathe(n[3 * v], n[3 * v + 1], n[3 * v + 2]);
      if (Math.abs(nx * d[0] + ny * d[1] + nz * d[2]) > 0.02) continue;
      const t = (x - o[0]) * d[0] + (y - o[1]) * d[1] + (z - o[2]) * d[2];
      const out = [x - o[0] - t * d[0], y - o[1] - t * d[1], z - o[2] - t * d[2]] as const;
      const rho = Math.hypot(...out);
      if (Math.abs(rho - radius_mm) > 0.02 * radius_mm) continue;
      if ((out[0] * nx + out[1] * ny + out[2] * nz) / rho > -0.97) continue;
      n.set(toDrawn([-out[0] / rho, -out[1] / rho, -out[2] / rho]), 3 * v);
    }
  }
  return mesh;
}
