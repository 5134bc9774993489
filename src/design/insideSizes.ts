/** How thick an inside that is there leaves the wall and the floor. Frame (z, r), mm; see forms.ts. */
import { flattenOutline } from '../geometry/outline.ts';
import type { OutlinePoint } from './document.ts';
import { isHollow } from './hollowing.ts';

export interface InsideSizes {
  /** Least distance from the inside to the outside. */
  readonly wall_mm: number;
  /** From the foot to the inside's lowest point. */
  readonly floor_mm: number;
}

/** Null for an outline without an inside. */
export function insideSizes(outline: readonly OutlinePoint[]): InsideSizes | null {
  if (!isHollow(outline)) return null;
  const { z_mm, r_mm, outsideStart, outsideEnd } = flattenOutline(outline);
  const places = Array.from(z_mm, (z, i): Place => [z, r_mm[i]]);
  const outside = places.slice(outsideStart, outsideEnd + 1);
  // The land of the rim, from the outside's end to the inside's beginning, belongs to neither.
  const inside = places.slice(outsideEnd + 1);
  return {
    wall_mm: Math.min(leastDistance(inside, outside), leastDistance(outside, inside)),
    floor_mm: Math.min(...inside.map(([z]) => z)) - Math.min(...z_mm),
  };
}

type Place = readonly [z: number, r: number];

/** Of points from a course of straight pieces. */
function leastDistance(points: readonly Place[], course: readonly Place[]): number {
  let least = Infinity;
  for (const [z, r] of points)
    for (let k = 0; k + 1 < course.length; k++) {
      const [fromZ, fromR] = course[k];
      const dz = course[k + 1][0] - fromZ;
      const dr = course[k + 1][1] - fromR;
      const length2 = dz * dz + dr * dr;
      const t = length2 > 0 ? Math.min(Math.max(((z - fromZ) * dz + (r - fromR) * dr) / length2, 0), 1) : 0;
      least = Math.min(least, Math.hypot(z - fromZ - t * dz, r - fromR - t * dr));
    }
  return least;
}
