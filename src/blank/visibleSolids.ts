/**
 * What the later slots leave of a region of the blank, as disjoint convex solids in the coordinates of a frame
 * (frames.ts), mm.
 */
import { isBeyond, splitSolid, withoutPiece, type ConvexSolid } from '../geometry/convexSolids.ts';
import { halfSpace, type HalfSpace } from '../geometry/halfspace.ts';
import { scale } from '../geometry/vector.ts';
import { sideIn, type Frame } from './frames.ts';

/** Where there can be wood. */
export interface Bounds {
  readonly zLow_mm: number;
  readonly zHigh_mm: number;
  /** No point is farther from the axis. */
  readonly reach_mm: number;
  /** Flats of the blank that the piece may reach. */
  readonly flats: readonly HalfSpace[];
}

/** The box, within the bounds and the half-spaces to `keep`, without the pieces `taken` (each an intersection of half-spaces). */
export function visibleSolids(
  frame: Frame,
  box: ConvexSolid,
  bounds: Bounds,
  keep: readonly HalfSpace[],
  taken: readonly (readonly HalfSpace[])[],
): readonly ConvexSolid[] {
  let region: ConvexSolid | null = box;
  const limits = [
    halfSpace([0, 0, 1], bounds.zHigh_mm),
    halfSpace([0, 0, -1], -bounds.zLow_mm),
    halfSpace(frame.u, bounds.reach_mm),
    halfSpace(scale(frame.u, -1), bounds.reach_mm),
  ];
  for (const space of [...limits, ...bounds.flats, ...keep]) {
    region = splitSolid(region, sideIn(frame, space)).inside;
    if (!region) return [];
  }
  let solids = [region];
  for (const piece of taken) {
    const sides = piece.map((space) => sideIn(frame, space));
    const whole: ConvexSolid = region;
    if (!sides.some((side) => isBeyond(whole, side))) solids = withoutPiece(solids, sides);
    if (solids.length === 0) break;
  }
  return solids;
}
