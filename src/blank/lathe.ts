/** Polylines (z, r) for the faceted lathe surface: an outline resampled to rows, and cut to the blank. */
import {
  bezierAt,
  outlineSegment,
  segmentCount,
  type OutlinePointLike,
  type Profile,
} from '../geometry/outline.ts';

export interface Polyline {
  readonly z_mm: Float64Array;
  readonly r_mm: Float64Array;
  /** A closed ring off the axis; its last vertex is not repeated. */
  readonly loop?: boolean;
}

/** The polyline of a flattened outline; a loop's last vertex, which repeats its first, is left out. */
export function polylineOf(profile: Profile, loop: boolean): Polyline {
  const end = loop ? -1 : undefined;
  return { z_mm: profile.z_mm.slice(0, end), r_mm: profile.r_mm.slice(0, end), loop };
}

/** An outline as about `rows` straight pieces, shared out by length; straight segments count too. */
export function resampleProfile(outline: readonly OutlinePointLike[], rows: number, loop = false): Polyline {
  const segments = Array.from({ length: segmentCount(outline, loop) }, (_, i) => i);
  const lengths = segments.map((i) => {
    const next = outline[(i + 1) % outline.length];
    return Math.hypot(next.z_mm - outline[i].z_mm, next.r_mm - outline[i].r_mm);
  });
  const total = lengths.reduce((a, b) => a + b, 0);
  const zMin = Math.min(...outline.map((p) => p.z_mm));
  const zMax = Math.max(...outline.map((p) => p.z_mm));
  const z = [outline[0].z_mm];
  const r = [outline[0].r_mm];
  lengths.forEach((length, i) => {
    if (length === 0) return;
    const curve = outlineSegment(outline, i, loop);
    const pieces = Math.max(1, Math.round((rows * length) / total));
    for (let k = 1; k <= pieces; k++) {
      const [pz, pr] = k === pieces ? curve[3] : bezierAt(curve, k / pieces);
      z.push(Math.min(Math.max(pz, zMin), zMax));
      r.push(Math.max(pr, 0));
    }
  });
  const end = loop ? -1 : undefined;
  return { z_mm: Float64Array.from(z.slice(0, end)), r_mm: Float64Array.from(r.slice(0, end)), loop };
}

/**
 * The polyline of (region bounded by the outline) ∩ {0 ≤ z ≤ length} ∩ {r ≤ limit}. Where the outline runs
 * outside, it is moved onto the border.
 */
export function clipProfile(profile: Polyline, length_mm: number, limit_mm: number): Polyline {
  let points = Array.from(profile.z_mm, (z, i): [number, number] => [z, profile.r_mm[i]]);
  if (profile.loop) points.push(points[0]);
  points = withCrossings(points, 0, 0);
  points = withCrossings(points, 0, length_mm);
  if (Number.isFinite(limit_mm)) points = withCrossings(points, 1, limit_mm);
  const clamped = points.map(([z, r]): [number, number] => [
    Math.min(Math.max(z, 0), length_mm),
    Math.min(r, limit_mm),
  ]);
  if (profile.loop) clamped.pop();
  const kept = clamped.filter((p, i) => i === 0 || p[0] !== clamped[i - 1][0] || p[1] !== clamped[i - 1][1]);
  return {
    z_mm: Float64Array.from(kept, (p) => p[0]),
    r_mm: Float64Array.from(kept, (p) => p[1]),
    loop: profile.loop,
  };
}

/** The polyline with a vertex wherever coordinate `axis` passes through `value`. */
function withCrossings(points: [number, number][], axis: 0 | 1, value: number): [number, number][] {
  const out: [number, number][] = [points[0]];
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1];
    const b = points[i];
    const da = a[axis] - value;
    const db = b[axis] - value;
    if (da * db < 0) {
      const t = da / (da - db);
      const crossing: [number, number] = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
      crossing[axis] = value;
      out.push(crossing);
    }
    out.push(b);
  }
  return out;
}
