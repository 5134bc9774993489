/**
 * A line parallel or square to the lathe axis through a solid of revolution: the parameters at which it is in
 * the wood, exact for the outline's polyline. Lathe frame, mm.
 */
import type { Intervals } from './intervals.ts';

interface Polyline {
  readonly z_mm: ArrayLike<number>;
  readonly r_mm: ArrayLike<number>;
}

/** Heights at which a line parallel to the axis, at a distance from it, is in the wood. */
export function heightsAt(outline: Polyline, radius_mm: number): Intervals {
  return crossings(outline.r_mm, outline.z_mm, radius_mm);
}

/** Distances from the axis at which there is wood at a height: rings, the innermost from 0 where it is solid. */
export function radiiAt(outline: Polyline, z_mm: number): Intervals {
  const radii = crossings(outline.z_mm, outline.r_mm, z_mm);
  if (radii.length % 2 === 1) radii.unshift(0);
  return radii;
}

/** What a chord at the distance `miss` from the axis has of rings, as distances along it from its middle. */
export function chordOf(rings: Intervals, miss: number): Intervals {
  const half: Intervals = [];
  for (let i = 0; i < rings.length; i += 2) {
    if (rings[i + 1] <= miss) continue;
    half.push(
      rings[i] <= miss ? 0 : Math.sqrt(rings[i] ** 2 - miss ** 2),
      Math.sqrt(rings[i + 1] ** 2 - miss ** 2),
    );
  }
  const chord: Intervals = [];
  for (let i = half.length - 2; i >= 0; i -= 2) if (half[i] > 0) chord.push(-half[i + 1], -half[i]);
  for (let i = 0; i < half.length; i += 2) chord.push(half[i] > 0 ? half[i] : -half[i + 1], half[i + 1]);
  return chord;
}

/** Values of `other` at which the polyline's `level` passes a height, ascending. */
function crossings(level: ArrayLike<number>, other: ArrayLike<number>, at: number): Intervals {
  const found: number[] = [];
  for (let i = 0; i + 1 < level.length; i++) {
    if (level[i] <= at === level[i + 1] <= at) continue;
    const t = (at - level[i]) / (level[i + 1] - level[i]);
    found.push(other[i] + t * (other[i + 1] - other[i]));
  }
  return found.sort((a, b) => a - b);
}
