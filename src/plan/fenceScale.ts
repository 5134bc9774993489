/**
 * Setting the fence without a protractor: for each angle the distances to measure on a pivoting fence. The fence
 * turns about its pivot; a point of it at the distance `radius_mm` from the pivot stands on the square line
 * (90° to the blade) when the fence is square. Elementary trigonometry; degrees and millimetres.
 */
import { cosDeg, sinDeg } from '../geometry/angle.ts';

export interface ScaleMark {
  /** Between blade and fence. */
  readonly angle_deg: number;
  /** Square off the square line to the fence at the radius (a sine bar's gauge): R sin(90° − θ). */
  readonly offset_mm: number;
  /** Straight from the point's square place to its place now: 2 R sin((90° − θ)/2). */
  readonly chord_mm: number;
}

/** The marks for one angle. */
export function scaleMark(angle_deg: number, radius_mm: number): ScaleMark {
  return {
    angle_deg,
    offset_mm: radius_mm * cosDeg(angle_deg),
    chord_mm: 2 * radius_mm * sinDeg((90 - angle_deg) / 2),
  };
}

/** Marks from 90° down to 30° in steps of 5° (common practice), or as asked. */
export function fenceScale(radius_mm: number, from_deg = 90, to_deg = 30, step_deg = 5): ScaleMark[] {
  const count = Math.floor((from_deg - to_deg) / step_deg + 1e-9);
  return Array.from({ length: count + 1 }, (_, n) => scaleMark(from_deg - n * step_deg, radius_mm));
}
