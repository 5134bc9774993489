/** SVG path of an outline from its exact curves. Drawing frame: x to the right = r, y down = −z; scale in px per mm. */
import { isSmooth, outlineSegment, segmentCount, type OutlinePointLike } from '../../geometry/outline.ts';

interface OutlineLike {
  readonly outline: readonly OutlinePointLike[];
  readonly loop?: boolean;
}

export interface DrawingScale {
  readonly pxPerMm: number;
  /** y of z = 0. */
  readonly foot_px: number;
}

export function outlinePath(
  { outline, loop = false }: OutlineLike,
  scale: DrawingScale,
  side: 1 | -1,
): string {
  const at = ([z, r]: readonly [number, number]) =>
    `${(side * r * scale.pxPerMm).toFixed(2)} ${(scale.foot_px - z * scale.pxPerMm).toFixed(2)}`;
  let d = `M${at([outline[0].z_mm, outline[0].r_mm])}`;
  for (let i = 0; i < segmentCount(outline, loop); i++) {
    const next = (i + 1) % outline.length;
    const straight = !isSmooth(outline, i, loop) && !isSmooth(outline, next, loop);
    const [, b, c, e] = outlineSegment(outline, i, loop);
    d += straight ? `L${at(e)}` : `C${at(b)} ${at(c)} ${at(e)}`;
  }
  return d;
}

/** A whole silhouette, both sides of the axis. */
export function silhouettePath(form: OutlineLike, scale: DrawingScale): string {
  return `${outlinePath(form, scale, 1)}Z${outlinePath(form, scale, -1)}Z`;
}
