/**
 * Areas in which a plane cuts a solid of revolution about the z axis, within a polygon of the plane; exact for
 * the outline's polyline.
 *
 * Plane: a point is (s, v) with v horizontal, u = u0 + u1 s its distance from the axis across v, and
 * z = z0 + z1 s; so its distance from the axis is √(u² + v²). The solid is the sum, over the straight pieces
 * of its outline, of the solid between the piece and the axis, positive where the outline rises and negative
 * where it falls. Within one piece the plane cuts |v| ≤ V(s) = √(r(s)² − u(s)²), and the area of a polygon in
 * it is, by Green's theorem, −∮ sign(v) min(|v|, V) ds counter-clockwise along the polygon's sides. V² is a
 * product of two linear functions, so sides are split where they cross the boundary by a quadratic, and what
 * is left is linear or ∫ V ds. Pieces are kept in a binary tree with bounds of r, so that a side meets only
 * those pieces whose boundary it can cross.
 */
import { halfWidthIntegral, pieceIntegral } from './halfWidth.ts';

/** A stretch of the outline along which z rises or falls. */
export interface Stretch {
  readonly sign: 1 | -1;
  /** Ascending. */
  readonly z: readonly number[];
  readonly r: readonly number[];
  /** Least and largest r of each node of the tree; node 1 is the whole stretch, 2n and 2n + 1 the halves of n. */
  readonly least: Float64Array;
  readonly most: Float64Array;
  /** Work space: ∫ V ds over a node, and the number of the plane that it was last found for. */
  readonly wholes: Float64Array;
  readonly wholesOf: Float64Array;
}

export interface Revolution {
  readonly stretches: readonly Stretch[];
  readonly zLow: number;
  readonly zHigh: number;
  readonly rMost: number;
}

/** The solid of a closed outline (from the axis to the axis), no wider than `rLimit`. */
export function revolutionOf(
  outline_z: ArrayLike<number>,
  outline_r: ArrayLike<number>,
  rLimit = Infinity,
): Revolution {
  const stretches: Stretch[] = [];
  let z: number[] = [];
  let r: number[] = [];
  let sign = 0;
  const close = () => {
    if (sign !== 0) stretches.push(stretchOf(sign > 0 ? 1 : -1, z, r));
  };
  for (let i = 0; i + 1 < outline_z.length; i++) {
    const direction = Math.sign(outline_z[i + 1] - outline_z[i]);
    if (direction !== sign) {
      close();
      z = [outline_z[i]];
      r = [Math.min(outline_r[i], rLimit)];
      sign = direction;
    }
    const over = outline_r[i] - rLimit;
    const nextOver = outline_r[i + 1] - rLimit;
    if (over * nextOver < 0) {
      z.push(outline_z[i] + ((outline_z[i + 1] - outline_z[i]) * over) / (over - nextOver));
      r.push(rLimit);
    }
    z.push(outline_z[i + 1]);
    r.push(Math.min(outline_r[i + 1], rLimit));
  }
  close();
  return {
    stretches,
    zLow: Math.min(...stretches.map((stretch) => stretch.z[0])),
    zHigh: Math.max(...stretches.map((stretch) => stretch.z[stretch.z.length - 1])),
    rMost: Math.max(...stretches.map((stretch) => stretch.most[1])),
  };
}

function stretchOf(sign: 1 | -1, z: number[], r: number[]): Stretch {
  if (sign < 0) {
    z.reverse();
    r.reverse();
  }
  const least = new Float64Array(4 * z.length);
  const most = new Float64Array(4 * z.length);
  const fill = (node: number, low: number, high: number) => {
    if (high - low === 1) {
      least[node] = Math.min(r[low], r[high]);
      most[node] = Math.max(r[low], r[high]);
      return;
    }
    const middle = (low + high) >> 1;
    fill(2 * node, low, middle);
    fill(2 * node + 1, middle, high);
    least[node] = Math.min(least[2 * node], least[2 * node + 1]);
    most[node] = Math.max(most[2 * node], most[2 * node + 1]);
  };
  fill(1, 0, z.length - 1);
  return {
    sign,
    z,
    r,
    least,
    most,
    wholes: new Float64Array(least.length),
    wholesOf: new Float64Array(least.length),
  };
}

/** A cylinder about the axis between two heights. */
export interface Bore {
  readonly zLow: number;
  readonly zHigh: number;
  readonly radius: number;
}

/** The solid without the bores: where several overlap, without the widest. */
export function withoutBores(solid: Revolution, bores: readonly Bore[]): Revolution {
  const heights = bores.flatMap((bore) => [bore.zLow, bore.zHigh]);
  const stops = [...new Set([...heights, solid.zLow, solid.zHigh])]
    .filter((z) => z >= solid.zLow && z <= solid.zHigh)
    .sort((a, b) => a - b);
  const stretches = [...solid.stretches];
  for (let i = 0; i + 1 < stops.length; i++) {
    const middle = (stops[i] + stops[i + 1]) / 2;
    const radius = Math.max(
      0,
      ...bores.filter((bore) => bore.zLow < middle && middle < bore.zHigh).map((bore) => bore.radius),
    );
    if (radius === 0) continue;
    for (const stretch of solid.stretches) {
      const cut = within(stretch, stops[i], stops[i + 1], radius);
      if (cut) stretches.push(cut);
    }
  }
  return { ...solid, stretches };
}

/** What lies under a stretch between two heights and within a radius, to be taken away. */
function within(stretch: Stretch, zLow: number, zHigh: number, radius: number): Stretch | null {
  const z: number[] = [];
  const r: number[] = [];
  const add = (height: number, distance: number) => {
    if (z.length > 0 && height <= z[z.length - 1]) return;
    z.push(height);
    r.push(Math.min(distance, radius));
  };
  for (let i = 0; i + 1 < stretch.z.length; i++) {
    const [za, zb, ra, rb] = [stretch.z[i], stretch.z[i + 1], stretch.r[i], stretch.r[i + 1]];
    const at = (height: number) => ra + ((rb - ra) * (height - za)) / (zb - za);
    const from = Math.max(za, zLow);
    const to = Math.min(zb, zHigh);
    if (!(from < to)) continue;
    add(from, at(from));
    const crossing = za + ((radius - ra) * (zb - za)) / (rb - ra);
    if (crossing > from && crossing < to) add(crossing, radius);
    add(to, at(to));
  }
  if (z.length < 2) return null;
  return stretch.sign > 0 ? stretchOf(-1, z.reverse(), r.reverse()) : stretchOf(1, z, r);
}

export interface CuttingPlane {
  readonly u0: number;
  readonly u1: number;
  readonly z0: number;
  /** 0 for a plane square to the axis. */
  readonly z1: number;
}

/**
 * Area, within a polygon of the plane, of the solid between a stretch of the outline and the axis. `sides` are
 * the polygon's, counter-clockwise in (s, v) and in any order: s, v of start and end of each.
 */
export function sectionUnder(stretch: Stretch, plane: CuttingPlane, sides: readonly number[]): number {
  const along = plane.z1 === 0 ? discSide(stretch, plane) : stretchSide(stretch, plane);
  if (!along) return 0;
  let area = 0;
  for (let i = 0; i < sides.length; i += 4) {
    const [s1, v1, s2, v2] = [sides[i], sides[i + 1], sides[i + 2], sides[i + 3]];
    if (s2 > s1) area -= along(s1, v1, s2, v2);
    else if (s2 < s1) area += along(s2, v2, s1, v1);
  }
  return area;
}

/** Least and largest radius of a stretch between two heights, or null where it does not reach between them. */
export function radiiBetween(
  stretch: Stretch,
  zLow: number,
  zHigh: number,
): { least: number; most: number } | null {
  const { z } = stretch;
  if (zHigh <= z[0] || zLow >= z[z.length - 1]) return null;
  let least = Infinity;
  let most = -Infinity;
  const visit = (node: number, low: number, high: number) => {
    if (z[high] <= zLow || z[low] >= zHigh) return;
    if (stretch.least[node] >= least && stretch.most[node] <= most) return;
    if (high - low === 1 || (z[low] >= zLow && z[high] <= zHigh)) {
      least = Math.min(least, stretch.least[node]);
      most = Math.max(most, stretch.most[node]);
      return;
    }
    const middle = (low + high) >> 1;
    visit(2 * node, low, middle);
    visit(2 * node + 1, middle, high);
  };
  visit(1, 0, z.length - 1);
  return { least, most };
}

/** ∫ sign(v) min(|v|, V) ds along a side from (s1, v1) to (s2, v2), s1 < s2. */
type SideIntegral = (s1: number, v1: number, s2: number, v2: number) => number;

/** In a plane square to the axis the stretch has one radius, or none. */
function discSide(stretch: Stretch, plane: CuttingPlane): SideIntegral | null {
  const { z, r } = stretch;
  const i = z.findIndex((_, k) => k + 1 < z.length && z[k] <= plane.z0 && plane.z0 < z[k + 1]);
  if (i < 0) return null;
  const radius = r[i] + ((r[i + 1] - r[i]) * (plane.z0 - z[i])) / (z[i + 1] - z[i]);
  return (s1, v1, s2, v2) =>
    (s2 - s1) * pieceIntegral(radius, radius, plane.u0 + plane.u1 * s1, plane.u0 + plane.u1 * s2, v1, v2);
}

/** Numbers the planes, so that what is kept of one is not taken for another's. */
let planesCut = 0;

function stretchSide(stretch: Stretch, plane: CuttingPlane): SideIntegral {
  const { z, r, least, most, wholes, wholesOf } = stretch;
  const { u0, u1, z0, z1 } = plane;
  const sOf = (index: number) => (z[index] - z0) / z1;
  const planeNumber = ++planesCut;
  const radiusIn = (low: number, sLow: number, sHigh: number, s: number) => {
    const t = (s - sLow) / (sHigh - sLow);
    return r[low] + (r[low + 1] - r[low]) * (t < 0 ? 0 : t > 1 ? 1 : t);
  };

  /** ∫ V ds over all of a node. */
  const wholeOf = (node: number, low: number, high: number): number => {
    if (wholesOf[node] !== planeNumber) {
      wholesOf[node] = planeNumber;
      if (high - low === 1) {
        const a = sOf(low);
        const b = sOf(high);
        wholes[node] = Math.abs(b - a) * halfWidthIntegral(r[low], r[high], u0 + u1 * a, u0 + u1 * b);
      } else {
        const middle = (low + high) >> 1;
        wholes[node] = wholeOf(2 * node, low, middle) + wholeOf(2 * node + 1, middle, high);
      }
    }
    return wholes[node];
  };

  const along = (
    node: number,
    low: number,
    high: number,
    s1: number,
    v1: number,
    s2: number,
    v2: number,
  ): number => {
    const first = sOf(low);
    const last = sOf(high);
    const sLow = Math.min(first, last);
    const sHigh = Math.max(first, last);
    const from = Math.max(s1, sLow);
    const to = Math.min(s2, sHigh);
    if (!(from < to)) return 0;
    const slope = (v2 - v1) / (s2 - s1);
    const vFrom = from === s1 ? v1 : v1 + slope * (from - s1);
    const vTo = to === s2 ? v2 : v1 + slope * (to - s1);
    const uFrom = u0 + u1 * from;
    const uTo = u0 + u1 * to;
    const farthest = Math.max(uFrom * uFrom + vFrom * vFrom, uTo * uTo + vTo * vTo);
    if (farthest <= least[node] * least[node]) return ((to - from) * (vFrom + vTo)) / 2;
    if (uFrom * uTo > 0 && Math.min(Math.abs(uFrom), Math.abs(uTo)) >= most[node]) return 0;
    if (from === sLow && to === sHigh && vFrom * vTo > 0 && isClear(uFrom, vFrom, uTo, vTo, most[node]))
      return Math.sign(vFrom) * wholeOf(node, low, high);
    if (high - low === 1) {
      const rFrom = radiusIn(low, first, last, from);
      const rTo = radiusIn(low, first, last, to);
      return (to - from) * pieceIntegral(rFrom, rTo, uFrom, uTo, vFrom, vTo);
    }
    const middle = (low + high) >> 1;
    return (
      along(2 * node, low, middle, from, vFrom, to, vTo) +
      along(2 * node + 1, middle, high, from, vFrom, to, vTo)
    );
  };
  return (s1, v1, s2, v2) => along(1, 0, z.length - 1, s1, v1, s2, v2);
}

/** Whether the segment between two points (u, v) keeps at least `radius` from the origin. */
function isClear(u1: number, v1: number, u2: number, v2: number, radius: number): boolean {
  const du = u2 - u1;
  const dv = v2 - v1;
  const square = du * du + dv * dv;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, -(u1 * du + v1 * dv) / square));
  const u = u1 + t * du;
  const v = v1 + t * dv;
  return u * u + v * v >= radius * radius;
}
