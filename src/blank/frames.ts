/**
 * Axes in which a part is cut into convex solids and measured plane by plane. Lathe frame, mm: a point is
 * (0, 0, z0) + x · X + y · Y + w · W with X, Y, W square to each other and Y horizontal, so that every plane
 * w = const meets surfaces of revolution as geometry/revolution.ts needs it.
 */
import type { Side } from '../geometry/convexSolids.ts';
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
