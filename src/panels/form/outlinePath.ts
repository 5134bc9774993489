/** SVG path of an outline from its exact curves. Drawing frame: x to the right = r, y down = −z; scale in px per mm. */
import { outlineSegment, type OutlinePointLike } from '../../geometry/outline.ts';

export interface DrawingScale {
  readonly pxPerMm: number;
  /** y of z = 0. */
  readonly foot_px: number;
}

export function outlinePath(outline: readonly OutlinePointLike[], scale: DrawingScale, side: 1 | -1): string {
  const at = ([z, r]: readonly [number, number]) =>
    `${(side * r * scale.pxPerMm).toFixed(2)} ${(scale.foot_px - z * scale.pxPerMm).toFixed(2)}`;
  let d = `M${at([outline[0].z_mm, outline[0].r_mm])}`;
  for (let i = 0; i + 1 < outline.length; i++) {
    const straight = !outline[i].smooth && !outline[i + 1].smooth;
    const [, b, c, e] = outlineSegment(outline, i);
    d += straight ? `L${at(e)}` : `C${at(b)} ${at(c)} ${at(e)}`;
  }
  return d;
}

/** A whole silhouette, both sides of the axis. */
export function silhouettePath(outline: readonly OutlinePointLike[], scale: DrawingScale): string {
  return `${outlinePath(outline, scale, 1)}Z${outlinePath(outline, scale, -1)}Z`;
}
