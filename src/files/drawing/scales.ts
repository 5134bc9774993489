/** The scale at which a drawing fits its box. Millimetres on paper. */
import type { Point } from './pen.ts';

const SCALES = [1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100];

export interface Extent {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

export function extentOf(points: readonly Point[]): Extent {
  return {
    left: Math.min(...points.map(([x]) => x)),
    right: Math.max(...points.map(([x]) => x)),
    bottom: Math.min(...points.map(([, y]) => y)),
    top: Math.max(...points.map(([, y]) => y)),
  };
}

/** The largest scale 1 : n at which the drawing fits; the smallest there is where none does. */
export function bestScale(width: number, height: number, extent: (n: number) => Extent): number {
  for (const n of SCALES) {
    const { left, right, bottom, top } = extent(n);
    if (right - left <= width && top - bottom <= height) return n;
  }
  return SCALES[SCALES.length - 1];
}
