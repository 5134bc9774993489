/**
 * How the half-section of a turned surface is laid out flat: round the axis as discs, elsewhere as bands of azimuth
 * times length along the half-section, each narrow enough in its range of radius that a millimetre of wood is about as
 * wide everywhere. Lathe frame, mm.
 */
import type { SweptProfile } from '../formProfile.ts';

/** Largest share by which a disc or a band may be wider on paper than on the wood. */
const STRETCH = 1.3;
const BAND_RATIO = 1.5;
/** Below this share of the largest radius wood is so small that its stretch does not matter. */
const SMALL_RADIUS = 0.1;
/** Longest chart and widest sector as a share of the side of the square that has the area of the whole skin. */
const CHART_SHARE = 0.33;
const ROW_SHARE = 0.25;
/** Counts of sectors that divide the facets of a full turn. */
const SECTOR_COUNTS = [1, 2, 3, 4, 6, 8, 12] as const;
export const SECTOR_FACETS = 24;

/** Laid out about the axis: distance from the pole along the half-section, and azimuth. */
export interface Disc {
  readonly kind: 'disc';
  readonly pole_mm: number;
}

/** Laid out as azimuth × `radius_mm` by length along the half-section, cut into equal sectors of the turn. */
export interface Band {
  readonly kind: 'band';
  readonly radius_mm: number;
  readonly sectors: number;
}

export interface Unrolling {
  /** Length along the half-section up to each of its vertices, mm. */
  readonly along_mm: Float64Array;
  /** The chart of each segment; null where it lies on the axis. */
  readonly charts: readonly (Disc | Band | null)[];
}

/** Area of the surface swept by a half-section, mm² (Pappus, piece by piece). */
export function sweptArea_mm2({ z_mm: z, r_mm: r }: SweptProfile): number {
  let area = 0;
  for (let i = 1; i < z.length; i++)
    area += Math.PI * (r[i] + r[i - 1]) * Math.hypot(z[i] - z[i - 1], r[i] - r[i - 1]);
  return area;
}

/** The same half-section with vertices added, so that discs and bands can end where they must. */
export function refined(profile: SweptProfile, side_mm: number): SweptProfile {
  const { z_mm, r_mm, corner } = profile;
  const small_mm = SMALL_RADIUS * r_mm.reduce((a, b) => Math.max(a, b), 0);
  const z = [z_mm[0]];
  const r = [r_mm[0]];
  const corners = [corner[0]];
  for (let i = 1; i < z_mm.length; i++) {
    const dz = z_mm[i] - z_mm[i - 1];
    const dr = r_mm[i] - r_mm[i - 1];
    const length = Math.hypot(dz, dr);
    const places: number[] = [];
    const rows = Math.ceil(length / (ROW_SHARE * side_mm));
    for (let k = 1; k < rows; k++) places.push(k / rows);
    const low = Math.min(r_mm[i], r_mm[i - 1]);
    const fitsDisc = low === 0 && length <= STRETCH * Math.abs(dr);
    if (!fitsDisc)
      for (
        let radius = Math.max(r_mm[i], r_mm[i - 1]) / STRETCH;
        radius > Math.max(low, small_mm / STRETCH);
        radius /= STRETCH
      )
        places.push((radius - r_mm[i - 1]) / dr);
    let last = 0;
    for (const t of places.toSorted((a, b) => a - b)) {
      if (t - last < 0.02 || t > 0.98) continue;
      last = t;
      z.push(z_mm[i - 1] + t * dz);
      r.push(r_mm[i - 1] + t * dr);
      corners.push(0);
    }
    z.push(z_mm[i]);
    r.push(r_mm[i]);
    corners.push(corner[i]);
  }
  return { z_mm: Float64Array.from(z), r_mm: Float64Array.from(r), corner: Uint8Array.from(corners) };
}

export function unroll({ z_mm: z, r_mm: r }: SweptProfile, side_mm: number): Unrolling {
  const n = z.length;
  const along_mm = new Float64Array(n);
  for (let i = 1; i < n; i++) along_mm[i] = along_mm[i - 1] + Math.hypot(z[i] - z[i - 1], r[i] - r[i - 1]);
  const charts: (Disc | Band | null)[] = Array.from({ length: n - 1 }, () => null);
  for (let first = 0; first + 1 < n;) {
    let last = first + 1;
    while (last + 1 < n && r[last] > 0) last++;
    unrollRun(first, last);
    first = last;
  }
  return { along_mm, charts };

  /** A run of the half-section between two poles, or from end to end. */
  function unrollRun(first: number, last: number): void {
    let most = 0;
    for (let i = first; i <= last; i++) most = Math.max(most, r[i]);
    if (most === 0) return;
    const start = r[first] === 0 ? discEnd(first, 1, last, most) : first;
    const end = r[last] === 0 ? discEnd(last, -1, start, most) : last;
    for (let i = first; i < start; i++) charts[i] = { kind: 'disc', pole_mm: along_mm[first] };
    for (let i = end; i < last; i++) charts[i] = { kind: 'disc', pole_mm: along_mm[last] };
    for (let from = start; from < end;) from = layBand(from, end);
  }

  /** How far the disc about a pole reaches, going by `step` and not past `limit`. */
  function discEnd(pole: number, step: 1 | -1, limit: number, most: number): number {
    let at = pole;
    while (at !== limit) {
      const next = at + step;
      const fits =
        r[next] > r[at] &&
        (Math.abs(along_mm[next] - along_mm[pole]) <= STRETCH * r[next] ||
          r[next] <= 1.001 * SMALL_RADIUS * most);
      // The first step is taken however steep: no band can lie on the axis.
      if (!fits && at !== pole) break;
      at = next;
    }
    return at;
  }

  function layBand(from: number, end: number): number {
    let to = from + 1;
    let low = Math.min(r[from], r[to]);
    let high = Math.max(r[from], r[to]);
    while (to < end) {
      const lower = Math.min(low, r[to + 1]);
      const higher = Math.max(high, r[to + 1]);
      if (higher > BAND_RATIO * lower || along_mm[to + 1] - along_mm[from] > CHART_SHARE * side_mm) break;
      [low, high] = [lower, higher];
      to++;
    }
    const wanted = (2 * Math.PI * high) / (CHART_SHARE * side_mm);
    const sectors = SECTOR_COUNTS.find((count) => count >= wanted) ?? SECTOR_COUNTS[SECTOR_COUNTS.length - 1];
    for (let i = from; i < to; i++) charts[i] = { kind: 'band', radius_mm: high, sectors };
    // One object for the whole band: segments of one chart are known by it.
    charts.fill(charts[from], from, to);
    return to;
  }
}
