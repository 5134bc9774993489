/**
 * Half-spaces n · p ≤ c in the lathe frame, mm, with the horizontal part of the normal split off: the form in
 * which slots meet surfaces of revolution. On the circle (z, r) the half-space reads
 * horizontal · r · cos(φ − azimuth of the normal) + nz · z ≤ c.
 */
import type { Vec3 } from './vector.ts';

export interface HalfSpace {
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  readonly c_mm: number;
  /** Length of the normal's part across the axis. */
  readonly horizontal: number;
  /** Unit direction of that part; along +x where there is none. */
  readonly hx: number;
  readonly hy: number;
}

/** n · p ≤ c; |n| = 1. */
export function halfSpace(normal: Vec3, c_mm: number): HalfSpace {
  const [nx, ny, nz] = normal;
  const horizontal = Math.hypot(nx, ny);
  return {
    nx,
    ny,
    nz,
    c_mm,
    horizontal,
    hx: horizontal === 0 ? 1 : nx / horizontal,
    hy: horizontal === 0 ? 0 : ny / horizontal,
  };
}
