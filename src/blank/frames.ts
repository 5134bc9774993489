/**
 * Axes in which a part is cut into convex solids and measured plane by plane. Lathe frame, mm: a point is
 * (0, 0, z0) + x · X + y · Y + w · W with X, Y, W square to each other and Y horizontal, so that every plane
 * w = const meets surfaces of revolution as geometry/revolution.ts needs it.
 */
import type { ConvexSolid, Side } from '../geometry/convexSolids.ts';
import type { HalfSpace } from '../geometry/halfspace.ts';
import type { CuttingPlane } from '../geometry/revolution.ts';
import { dot, type Vec3 } from '../geometry/vector.ts';
import type { Slot } from './slots.ts';

export interface Frame {
  readonly z0_mm: number;
  readonly x: Vec3;
  readonly y: Vec3;
  readonly w: Vec3;
  /** Horizontal, square to Y: the distance from the axis is √((p · U)² + (p · Y)²). */
  readonly u: Vec3;
}

/** A slot's own axes: X up the slope (toward the fence), Y along the blade, W across the kerf; w = f. */
export function slotFrame(slot: Slot): Frame {
  const across = slot.normal[2];
  const rise = -dot(slot.normal, slot.fenceDirection);
  const [ux, uy] = slot.fenceDirection;
  return {
    z0_mm: slot.offset_mm / across,
    x: [across * ux, across * uy, rise],
    y: slot.bladeDirection,
    w: slot.normal,
    u: slot.fenceDirection,
  };
}

/** A half-space in the frame's coordinates. */
export function sideIn(frame: Frame, space: HalfSpace): Side {
  const normal: Vec3 = [space.nx, space.ny, space.nz];
  return {
    a: dot(normal, frame.x),
    b: dot(normal, frame.y),
    c: dot(normal, frame.w),
    d: space.c_mm - space.nz * frame.z0_mm,
  };
}

/** The plane w = const, with s = x and v = y. */
export function planeAt({ z0_mm, x, w: across, u }: Frame, w: number): CuttingPlane {
  return { u0: w * dot(across, u), u1: dot(x, u), z0: z0_mm + w * across[2], z1: x[2] };
}

/** w of the planes that touch a circle about the axis, for circles [radius, z]. */
export function touchesOf(
  { z0_mm, w }: Frame,
  circles: readonly (readonly [r: number, z: number])[],
): number[] {
  const horizontal = Math.hypot(w[0], w[1]);
  return circles.flatMap(([r, z]) => [-r, r].map((reach) => w[2] * (z - z0_mm) + horizontal * reach));
}

/** w of the points in which the solid's edges meet the planes of circles about the axis, and its faces the circles. */
export function crossingsOf(
  frame: Frame,
  circles: readonly (readonly [r: number, z: number])[],
  { points, faces }: ConvexSolid,
): number[] {
  const { z0_mm, x, w, u } = frame;
  const at = (i: number) => points.slice(3 * i, 3 * i + 3) as unknown as Vec3;
  const heightOf = ([a, , c]: Vec3) => z0_mm + a * x[2] + c * w[2];
  const crossings: number[] = [];
  for (const face of faces) {
    face.forEach((to, k) => {
      const from = face.at(k - 1) as number;
      // Every edge has two faces, which run along it in opposite directions.
      if (from > to) return;
      const [a, b] = [at(from), at(to)];
      const [za, zb] = [heightOf(a), heightOf(b)];
      for (const [, z] of circles)
        if ((z - za) * (z - zb) < 0) crossings.push(a[2] + ((b[2] - a[2]) * (z - za)) / (zb - za));
    });
    const normal = faceNormal(face.map(at));
    if (!normal) continue;
    const [a, b, c] = normal;
    // The face's plane in the axes (u, y, z): p · n = distance.
    const alongU = a * dot(x, u) + c * dot(w, u);
    const alongZ = a * x[2] + c * w[2];
    const distance = dot(normal, at(face[0])) + alongZ * z0_mm;
    const reach = Math.hypot(alongU, b);
    for (const [r, z] of circles) {
      // r reach cos(azimuth − towards) = distance − alongZ z
      const share = (distance - alongZ * z) / (r * reach);
      if (!(Math.abs(share) < 1)) continue;
      const towards = Math.atan2(b, alongU);
      for (const azimuth of [towards - Math.acos(share), towards + Math.acos(share)])
        crossings.push(w[2] * (z - z0_mm) + dot(w, u) * r * Math.cos(azimuth));
    }
  }
  return crossings;
}

/** Newell's sum over the corners; null of a face without area. */
function faceNormal(corners: readonly Vec3[]): Vec3 | null {
  const sum: [number, number, number] = [0, 0, 0];
  corners.forEach((to, i) => {
    const from = corners.at(i - 1) as Vec3;
    for (let k = 0; k < 3; k++) {
      const [m, n] = [(k + 1) % 3, (k + 2) % 3];
      sum[k] += (from[m] - to[m]) * (from[n] + to[n]);
    }
  });
  const length = Math.hypot(...sum);
  return length === 0 ? null : [sum[0] / length, sum[1] / length, sum[2] / length];
}
