/**
 * Volume that convex solids have in common with a solid of revolution, or with a drilled hole in one. Solids
 * that the surface cannot reach count whole or not at all; the others are integrated along w, between their
 * corners, over exact plane sections (geometry/revolution.ts). Coordinates are those of a frame (frames.ts), mm.
 */
import {
  levelsOf,
  ON_PLANE_MM,
  sidesAt,
  sidesBetween,
  solidVolume,
  type ConvexSolid,
} from '../geometry/convexSolids.ts';
import { integrateNested, type Estimate } from '../geometry/quadrature.ts';
import { radiiBetween, sectionUnder, type Revolution, type Stretch } from '../geometry/revolution.ts';
import { dot } from '../geometry/vector.ts';
import { planeAt, type Frame } from './frames.ts';

/** The nested rule starts to compare levels at 7 nodes, and halves an interval at most this often. */
const FIRST_LEVEL = 2;
const HALVINGS = 8;

const NOTHING: Estimate = { value: 0, error: 0 };

/**
 * `kinksIn`: w at which the sections of a solid change their kind, beyond its own corners. `tolerance_mm2`: error
 * allowed per length along w, in each convex solid.
 */
export function volumeWithin(
  revolution: Revolution,
  solids: readonly ConvexSolid[],
  frame: Frame,
  kinksIn: (solid: ConvexSolid) => readonly number[],
  tolerance_mm2: number,
): Estimate {
  let value = 0;
  let error = 0;
  for (const solid of solids) {
    const extent = extentOf(solid, frame);
    const kinks = kinksIn(solid);
    for (const stretch of revolution.stretches) {
      const part = volumeUnder(stretch, solid, extent, frame, kinks, tolerance_mm2);
      value += stretch.sign * part.value;
      error += part.error;
    }
  }
  return { value, error };
}

interface Extent {
  readonly zLow: number;
  readonly zHigh: number;
  /** Bounds of the distance from the axis; the first may be too small. */
  readonly nearest: number;
  readonly farthest: number;
}

function extentOf({ points }: ConvexSolid, { z0_mm, x, w: across, u }: Frame): Extent {
  const uOfX = dot(x, u);
  const uOfW = dot(across, u);
  let zLow = Infinity;
  let zHigh = -Infinity;
  let uLow = Infinity;
  let uHigh = -Infinity;
  let vLow = Infinity;
  let vHigh = -Infinity;
  let farthest = 0;
  for (let i = 0; i < points.length; i += 3) {
    const ui = uOfX * points[i] + uOfW * points[i + 2];
    const vi = points[i + 1];
    const zi = z0_mm + x[2] * points[i] + across[2] * points[i + 2];
    zLow = Math.min(zLow, zi);
    zHigh = Math.max(zHigh, zi);
    uLow = Math.min(uLow, ui);
    uHigh = Math.max(uHigh, ui);
    vLow = Math.min(vLow, vi);
    vHigh = Math.max(vHigh, vi);
    farthest = Math.max(farthest, ui * ui + vi * vi);
  }
  return {
    zLow,
    zHigh,
    nearest: Math.hypot(Math.max(0, uLow, -uHigh), Math.max(0, vLow, -vHigh)),
    farthest: Math.sqrt(farthest),
  };
}

/** Volume that a convex solid has in common with what lies between a stretch of the outline and the axis. */
function volumeUnder(
  stretch: Stretch,
  solid: ConvexSolid,
  { zLow, zHigh, nearest, farthest }: Extent,
  frame: Frame,
  kinks: readonly number[],
  tolerance_mm2: number,
): Estimate {
  const radii = radiiBetween(stretch, zLow, zHigh);
  if (!radii || nearest >= radii.most) return NOTHING;
  const contained = zLow >= stretch.z[0] && zHigh <= stretch.z[stretch.z.length - 1];
  if (contained && farthest <= radii.least) return { value: solidVolume(solid), error: 0 };
  const area = (w: number) => sectionUnder(stretch, planeAt(frame, w), sidesAt(solid, w));
  const stops = withKinks(levelsOf(solid), kinks);
  let value = 0;
  let error = 0;
  for (let i = 0; i + 1 < stops.length; i++) {
    const height = stops[i + 1] - stops[i];
    if (height <= ON_PLANE_MM) continue;
    const part = integrateNested(area, stops[i], stops[i + 1], tolerance_mm2 * height, HALVINGS, FIRST_LEVEL);
    value += part.value;
    error += part.error;
  }
  return { value, error };
}

function withKinks(levels: readonly number[], kinks: readonly number[]): number[] {
  const inner = kinks.filter((w) => w > levels[0] && w < levels[levels.length - 1]);
  return inner.length === 0 ? [...levels] : [...levels, ...inner].sort((a, b) => a - b);
}

/** A cylinder along X: (y − y0)² + (w − w0)² ≤ radius². */
export interface AlongX {
  readonly y_mm: number;
  readonly w_mm: number;
  readonly radius_mm: number;
}

/** As volumeWithin, of what is also in a cylinder along the frame's X; w = w0 + radius sin τ. */
export function volumeWithinCylinder(
  revolution: Revolution,
  solids: readonly ConvexSolid[],
  frame: Frame,
  cylinder: AlongX,
  kinks: readonly number[],
  tolerance_mm2: number,
): Estimate {
  const { y_mm, w_mm, radius_mm } = cylinder;
  let value = 0;
  let error = 0;
  for (const solid of solids) {
    const slice = (tau: number) => {
      const half = radius_mm * Math.cos(tau);
      const w = w_mm + radius_mm * Math.sin(tau);
      const sides = sidesBetween(sidesAt(solid, w), y_mm - half, y_mm + half);
      let area = 0;
      for (const stretch of revolution.stretches)
        area += stretch.sign * sectionUnder(stretch, planeAt(frame, w), sides);
      return area * half;
    };
    const angles = withKinks(levelsOf(solid), kinks).map((w) =>
      Math.asin(Math.min(1, Math.max(-1, (w - w_mm) / radius_mm))),
    );
    for (let i = 0; i + 1 < angles.length; i++) {
      const width = angles[i + 1] - angles[i];
      if (width <= 1e-9) continue;
      const part = integrateNested(
        slice,
        angles[i],
        angles[i + 1],
        tolerance_mm2 * radius_mm * width,
        HALVINGS,
        FIRST_LEVEL,
      );
      value += part.value;
      error += part.error;
    }
  }
  return { value, error };
}
