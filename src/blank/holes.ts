/**
 * Drilled holes of a turned form: cylinders with a flat bottom that take wood from the finished piece
 * (docs/geometry.md, "Holes"). Lathe frame, mm.
 */
import type { Form, Hole } from '../design/document.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import { flattenOutline, type Profile } from '../geometry/outline.ts';
import type { Plane } from '../geometry/plane.ts';
import { cross, dot, type Vec3 } from '../geometry/vector.ts';

/** Sides of the prism that stands for a hole in the faceted solids. */
export const HOLE_SIDES = 28;

/** A hole as a half-infinite or infinite cylinder: { |p − origin − t · inward| ≤ radius, t ≤ depth }, t along inward. */
export interface HoleCylinder {
  /** Point of the drill's axis where its depth is counted from. */
  readonly origin_mm: Vec3;
  /** Unit direction into the wood. */
  readonly inward: Vec3;
  readonly radius_mm: number;
  /** Distance of the flat bottom from the origin along inward; Infinity for a hole right through. */
  readonly depth_mm: number;
}

/** The cylinder that a hole takes away. `profile`: the form's flattened outline where the caller has it. */
export function holeCylinder(hole: Hole, form: Form, profile?: Profile): HoleCylinder {
  const { offset_mm = 0, azimuth_deg = 0 } = hole;
  const outward: Vec3 = [cosDeg(azimuth_deg), sinDeg(azimuth_deg), 0];
  const sideways: Vec3 = [-outward[1], outward[0], 0];
  const radius_mm = hole.diameter_mm / 2;
  const depth_mm = hole.depth_mm ?? Infinity;
  if (hole.from === 'side') {
    const z_mm = hole.z_mm ?? 0;
    const start_mm = outsideRadius_mm(profile ?? flattenOutline(form.outline, undefined, form.loop), z_mm);
    return {
      origin_mm: [
        outward[0] * start_mm + sideways[0] * offset_mm,
        outward[1] * start_mm + sideways[1] * offset_mm,
        z_mm,
      ],
      inward: [-outward[0], -outward[1], 0],
      radius_mm,
      depth_mm,
    };
  }
  const heights = form.outline.map((point) => point.z_mm);
  const atHead = hole.from === 'head';
  return {
    origin_mm: [
      outward[0] * offset_mm,
      outward[1] * offset_mm,
      atHead ? Math.max(...heights) : Math.min(...heights),
    ],
    inward: [0, 0, atHead ? -1 : 1],
    radius_mm,
    depth_mm,
  };
}

/**
 * The hole as half-spaces n · p ≤ c: a prism of HOLE_SIDES sides with the area of the circle, and the bottom.
 * A through hole has no bottom.
 */
export function holeRegion(hole: Hole, form: Form): Plane[] {
  const { origin_mm, inward, radius_mm, depth_mm } = holeCylinder(hole, form);
  const a: Vec3 = Math.abs(inward[2]) > 0.5 ? [1, 0, 0] : [0, 0, 1];
  const b = cross(inward, a);
  // Area of the polygon about a circle of radius ρ: n ρ² tan(π/n).
  const apothem_mm = radius_mm * Math.sqrt(Math.PI / HOLE_SIDES / Math.tan(Math.PI / HOLE_SIDES));
  const planes: Plane[] = Array.from({ length: HOLE_SIDES }, (_, i) => {
    const angle = ((i + 0.5) * 360) / HOLE_SIDES;
    const normal: Vec3 = [0, 1, 2].map(
      (axis) => cosDeg(angle) * a[axis] + sinDeg(angle) * b[axis],
    ) as unknown as Vec3;
    return { normal, offset_mm: dot(normal, origin_mm) + apothem_mm };
  });
  if (Number.isFinite(depth_mm))
    planes.push({ normal: inward, offset_mm: dot(inward, origin_mm) + depth_mm });
  return planes;
}

/** Radius of the outside at a height, mm; 0 above and below it, the largest where there are several. */
export function outsideRadius_mm(profile: Profile, z_mm: number): number {
  let radius_mm = 0;
  for (let i = profile.outsideStart; i < profile.outsideEnd; i++) {
    const za = profile.z_mm[i];
    const zb = profile.z_mm[i + 1];
    if (z_mm < Math.min(za, zb) || z_mm > Math.max(za, zb)) continue;
    const ra = profile.r_mm[i];
    const rb = profile.r_mm[i + 1];
    radius_mm = Math.max(
      radius_mm,
      za === zb ? Math.max(ra, rb) : ra + ((rb - ra) * (z_mm - za)) / (zb - za),
    );
  }
  return radius_mm;
}
