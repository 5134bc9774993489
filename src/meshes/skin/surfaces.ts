/**
 * Which surface of the workpiece a triangle belongs to, and where its corners come to lie when that surface is laid out
 * flat: turned surfaces as unroll.ts says, flats and ends of the blank and bottoms of holes as they are, walls of holes
 * unrolled about the drill's axis. Lathe frame in, mm on the paper out.
 */
import type { SectionGeometry } from '../../blank/section.ts';
import { cosDeg, sinDeg } from '../../geometry/angle.ts';
import { cross, dot, type Vec3 } from '../../geometry/vector.ts';
import type { Drilled } from '../exact.ts';
import type { SweptProfile } from '../formProfile.ts';
import type { Band, Disc, Unrolling } from './unroll.ts';

/** Three corners of a triangle on the paper: u, v of each, mm. */
export type Laid = readonly [number, number, number, number, number, number];

export interface Placed {
  /** Triangles of one chart may be neighbours on the paper. */
  readonly chart: string;
  readonly laid: Laid;
}

export interface Surfaces {
  readonly section: SectionGeometry;
  readonly holes: readonly Drilled[];
  /** null: the sawn block. */
  readonly turned: { readonly profile: SweptProfile; readonly unrolling: Unrolling } | null;
}

type Corners = readonly [Vec3, Vec3, Vec3];

/** Distance from a plane within which a corner lies on it, mm: single precision at the size of a blank. */
const ON_PLANE_MM = 2e-4;
/** A triangle that faces another way than a segment is worth this many mm of distance from it. */
const FACING_MM = 0.5;

export function placeTriangle(surfaces: Surfaces, corners: Corners): Placed {
  const normal = normalOf(corners);
  return (
    onHole(surfaces.holes, corners, normal) ??
    onFlat(surfaces.section, corners, normal) ??
    (surfaces.turned
      ? onTurned(surfaces.turned.profile, surfaces.turned.unrolling, corners, normal)
      : {
          chart: normal[2] > 0 ? 'head' : 'foot',
          laid: laidOut(corners, ([x, y]) => [x, y]),
        })
  );
}

function normalOf([a, b, c]: Corners): Vec3 {
  const u: Vec3 = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const v: Vec3 = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
  const n = cross(u, v);
  const length = Math.hypot(...n) || 1;
  return [n[0] / length, n[1] / length, n[2] / length];
}

function laidOut(corners: Corners, lay: (p: Vec3) => readonly [number, number]): Laid {
  const [a, b, c] = corners.map(lay);
  return [a[0], a[1], b[0], b[1], c[0], c[1]];
}

function onFlat(section: SectionGeometry, corners: Corners, normal: Vec3): Placed | null {
  if (section.round || Math.abs(normal[2]) > 1e-3) return null;
  for (const [i, azimuth] of section.faceAzimuths_deg.entries()) {
    const out: Vec3 = [cosDeg(azimuth), sinDeg(azimuth), 0];
    if (dot(out, normal) < 0.99999) continue;
    if (corners.some((p) => Math.abs(dot(out, p) - section.faceDistances_mm[i]) > ON_PLANE_MM)) continue;
    return { chart: `flat${i}`, laid: laidOut(corners, (p) => [out[0] * p[1] - out[1] * p[0], p[2]]) };
  }
  return null;
}

function onHole(holes: readonly Drilled[], corners: Corners, normal: Vec3): Placed | null {
  for (const [i, { cylinder }] of holes.entries()) {
    const { origin_mm: o, inward, radius_mm, depth_mm } = cylinder;
    const across: Vec3 = Math.abs(inward[2]) > 0.5 ? [1, 0, 0] : [0, 0, 1];
    const aside = cross(inward, across);
    const seen = corners.map((p) => {
      const from: Vec3 = [p[0] - o[0], p[1] - o[1], p[2] - o[2]];
      return { t: dot(from, inward), x: dot(from, across), y: dot(from, aside) };
    });
    if (seen.some(({ x, y }) => Math.hypot(x, y) > 1.01 * radius_mm)) continue;
    const slope = dot(normal, inward);
    if (slope < -0.999 && seen.every(({ t }) => Math.abs(t - depth_mm) < ON_PLANE_MM)) {
      const [a, b, c] = seen;
      return { chart: `bottom${i}`, laid: [a.x, a.y, b.x, b.y, c.x, c.y] };
    }
    // The wall is a prism of flat sides about the drill's cylinder; it faces the drill's axis.
    if (Math.abs(slope) > 0.02 || seen.some(({ x, y }) => Math.hypot(x, y) < 0.99 * radius_mm)) continue;
    const middle = Math.atan2(seen[0].y + seen[1].y + seen[2].y, seen[0].x + seen[1].x + seen[2].x);
    const outX = Math.cos(middle);
    const outY = Math.sin(middle);
    if (dot(normal, across) * outX + dot(normal, aside) * outY > -0.9) continue;
    const [a, b, c] = seen.map(
      ({ x, y, t }) => [radius_mm * angleNear(Math.atan2(y, x), middle), t] as const,
    );
    return { chart: `wall${i}`, laid: [a[0], a[1], b[0], b[1], c[0], c[1]] };
  }
  return null;
}

function onTurned(profile: SweptProfile, unrolling: Unrolling, corners: Corners, normal: Vec3): Placed {
  const { z_mm: z, r_mm: r } = profile;
  const middleX = corners[0][0] + corners[1][0] + corners[2][0];
  const middleY = corners[0][1] + corners[1][1] + corners[2][1];
  const middle = (Math.atan2(middleY, middleX) + 2 * Math.PI) % (2 * Math.PI);
  const radial = normal[0] * Math.cos(middle) + normal[1] * Math.sin(middle);
  const radii = corners.map(([x, y]) => Math.hypot(x, y));
  let best = -1;
  let least = Infinity;
  for (let i = 0; i + 1 < z.length; i++) {
    if (!unrolling.charts[i]) continue;
    const dz = z[i + 1] - z[i];
    const dr = r[i + 1] - r[i];
    const length = Math.hypot(dz, dr);
    if (length === 0) continue;
    let off = FACING_MM * (1 - (radial * dz - normal[2] * dr) / length);
    for (let k = 0; k < 3 && off < least; k++) {
      const t = ((corners[k][2] - z[i]) * dz + (radii[k] - r[i]) * dr) / (length * length);
      const held = Math.min(1, Math.max(0, t));
      off = Math.max(off, Math.hypot(corners[k][2] - z[i] - held * dz, radii[k] - r[i] - held * dr));
    }
    if (off >= least) continue;
    least = off;
    best = i;
  }
  const chart = unrolling.charts[best];
  if (!chart) throw new Error('a triangle of the turned piece lies on no segment of its half-section');
  const dz = z[best + 1] - z[best];
  const dr = r[best + 1] - r[best];
  const length = Math.hypot(dz, dr);
  const along = corners.map(
    (p, k) => unrolling.along_mm[best] + ((p[2] - z[best]) * dz + (radii[k] - r[best]) * dr) / length,
  );
  return chart.kind === 'disc'
    ? onDisc(chart, corners, radii, along)
    : onBand(chart, corners, along, middle, unrolling.charts.indexOf(chart));
}

function onDisc(chart: Disc, corners: Corners, radii: readonly number[], along: readonly number[]): Placed {
  const [a, b, c] = corners.map(([x, y], k) => {
    const scale = radii[k] > 1e-9 ? Math.abs(along[k] - chart.pole_mm) / radii[k] : 0;
    return [x * scale, y * scale] as const;
  });
  return { chart: `disc${chart.pole_mm}`, laid: [a[0], a[1], b[0], b[1], c[0], c[1]] };
}

function onBand(
  chart: Band,
  corners: Corners,
  along: readonly number[],
  middle: number,
  first: number,
): Placed {
  const sector = Math.min(chart.sectors - 1, Math.floor((middle / (2 * Math.PI)) * chart.sectors));
  const [a, b, c] = corners.map(([x, y]) => chart.radius_mm * angleNear(Math.atan2(y, x), middle));
  return { chart: `band${first}.${sector}`, laid: [a, along[0], b, along[1], c, along[2]] };
}

/** The angle, by full turns, that is nearest to another. */
function angleNear(angle: number, other: number): number {
  return angle - 2 * Math.PI * Math.round((angle - other) / (2 * Math.PI));
}
