/** Oriented planes and half-spaces in the lathe frame: n · p = c, with |n| = 1 and c in millimetres. */
import type { Vec3 } from './vector.ts';

export interface Plane {
  /** Unit normal. */
  readonly normal: Vec3;
  /** Signed distance of the plane from the origin along the normal, mm. */
  readonly offset_mm: number;
}
