/**
 * Area common to a disc about the origin and a convex polygon that contains the origin, in closed form, and
 * the volume common to a solid of revolution about the z axis and the prism over such a polygon.
 *
 * Source: each side of the polygon and the centre make a triangle; its part within the disc is a triangle
 * between the side's crossings of the circle and sectors beyond them (elementary).
 */
import { gaussLegendre } from './quadrature.ts';

type Corners = readonly (readonly [x: number, y: number])[];

export function discPolygonArea(radius: number, corners: Corners): number {
  let area = 0;
  corners.forEach((a, i) => {
    area += sideArea(radius, a, corners[(i + 1) % corners.length]);
  });
  return area;
}

function sideArea(
  radius: number,
  [ax, ay]: readonly [number, number],
  [bx, by]: readonly [number, number],
): number {
  const length = Math.hypot(bx - ax, by - ay);
  const distance = (ax * by - ay * bx) / length;
  const from = (ax * (bx - ax) + ay * (by - ay)) / length;
  const to = from + length;
  if (distance >= radius)
    return (radius * radius * (Math.atan2(to, distance) - Math.atan2(from, distance))) / 2;
  const half = Math.sqrt(radius * radius - distance * distance);
  const low = Math.min(Math.max(from, -half), to);
  const high = Math.max(Math.min(to, half), from);
  const sector =
    Math.atan2(low, distance) -
    Math.atan2(from, distance) +
    Math.atan2(to, distance) -
    Math.atan2(high, distance);
  return (radius * radius * sector + distance * (high - low)) / 2;
}

export interface Prism {
  /** Corners counter-clockwise; the prism is a cylinder of radius `inscribed` if there are none. */
  readonly corners: Corners;
  readonly faceDistances: readonly number[];
  readonly inscribed: number;
  readonly circumscribed: number;
  readonly zLow: number;
  readonly zHigh: number;
}

/**
 * Volume common to the prism and the solid under one straight piece (za, ra)–(zb, rb) of an outline, positive
 * where the outline rises and negative where it falls; over a closed outline the pieces add up to the solid.
 * Exact where the radius is inside or outside the whole section, else Gauss–Legendre between the radii at
 * which the circle reaches a face or a corner, where the area behaves like (r − r0)^(3/2).
 */
export function prismVolumeUnder(za: number, ra: number, zb: number, rb: number, prism: Prism): number {
  if (za === zb) return 0;
  if (zb < za) return -prismVolumeUnder(zb, rb, za, ra, prism);
  const m = (rb - ra) / (zb - za);
  const radiusAt = (z: number) => ra + m * (z - za);
  const low = Math.max(za, prism.zLow);
  const high = Math.min(zb, prism.zHigh);
  if (!(low < high)) return 0;
  const stops = [low, high];
  if (m !== 0)
    for (const r of [
      ...prism.faceDistances,
      ...prism.corners.map(([x, y]) => Math.hypot(x, y)),
      prism.inscribed,
    ])
      stops.push(za + (r - ra) / m);
  const within = stops.filter((z) => z >= low && z <= high).sort((a, b) => a - b);
  let volume = 0;
  for (let i = 0; i + 1 < within.length; i++)
    volume += sliceVolume(within[i], within[i + 1], radiusAt, prism);
  return volume;
}

function sliceVolume(low: number, high: number, radiusAt: (z: number) => number, prism: Prism): number {
  const height = high - low;
  const r0 = radiusAt(low);
  const r1 = radiusAt(high);
  const middle = (r0 + r1) / 2;
  if (middle <= prism.inscribed) return (Math.PI * height * (r0 * r0 + r0 * r1 + r1 * r1)) / 3;
  if (prism.corners.length === 0) return Math.PI * prism.inscribed * prism.inscribed * height;
  if (middle >= prism.circumscribed) return discPolygonArea(prism.circumscribed, prism.corners) * height;
  if (r0 === r1) return discPolygonArea(r0, prism.corners) * height;
  // z = low + height (3y² − 2y³) smooths the powers 3/2 at both ends.
  const { nodes, weights } = gaussLegendre(16);
  let sum = 0;
  for (let i = 0; i < nodes.length; i++) {
    const y = (1 + nodes[i]) / 2;
    sum +=
      weights[i] *
      3 *
      y *
      (1 - y) *
      discPolygonArea(radiusAt(low + height * y * y * (3 - 2 * y)), prism.corners);
  }
  return sum * height;
}
