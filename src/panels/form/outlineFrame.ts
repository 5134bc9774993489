/**
 * Where the outline is drawn, and which of its points a pointer means. Drawing frame: x = r, y down, px; lengths mm.
 */
import type { Design, Form } from '../../design/document.ts';
import { sectionGeometry } from '../../design/section.ts';
import type { DrawingScale } from './outlinePath.ts';

const MARGIN = 24;

/** A point is meant by a pointer up to this far from it, px: a target of 44 px. */
export const GRAB_PX = 22;

export interface Frame {
  readonly scale: DrawingScale;
  readonly height_px: number;
  readonly length_mm: number;
  /** Largest radius that leaves no flats, and the radius to the corners. */
  readonly inscribed_mm: number;
  readonly corners_mm: number;
  /** Radius that stays clear of the widest web. */
  readonly clear_mm: number;
}

/** Everything drawn fits: the blank, and the outline where it reaches beyond it. */
export function frameFor(design: Design, form: Form, width_px: number, height_px: number): Frame {
  const section = sectionGeometry(design.blank.section);
  const length_mm = design.blank.length_mm;
  const [low, high] = shownRange(form, length_mm);
  const reach = Math.max(section.inscribedRadius_mm * 1.04, ...form.outline.map((point) => point.r_mm));
  const pxPerMm = Math.min((width_px - 2 * MARGIN) / (2 * reach), (height_px - 2 * MARGIN) / (high - low));
  const web_mm = Math.max(0, ...design.sets.map((set) => set.web_mm));
  return {
    scale: { pxPerMm, foot_px: MARGIN + high * pxPerMm },
    height_px: (high - low) * pxPerMm + 2 * MARGIN,
    length_mm,
    inscribed_mm: section.inscribedRadius_mm,
    corners_mm: section.circumscribedRadius_mm,
    clear_mm: section.inscribedRadius_mm - web_mm,
  };
}

/** Heights that are drawn: the form, and the ends of the blank unless they are far away. */
function shownRange(form: Form, length_mm: number): [number, number] {
  const foot = Math.min(...form.outline.map((point) => point.z_mm));
  const head = Math.max(...form.outline.map((point) => point.z_mm));
  const near = 0.6 * (head - foot);
  const pad = 0.15 * (head - foot);
  return [
    foot - near <= 0 ? Math.min(0, foot) : foot - pad,
    head + near >= length_mm ? Math.max(length_mm, head) : head + pad,
  ];
}

export function placeOf(point: { z_mm: number; r_mm: number }, scale: DrawingScale): [number, number] {
  return [point.r_mm * scale.pxPerMm, scale.foot_px - point.z_mm * scale.pxPerMm];
}

/**
 * The point nearest to a place in the drawing, or null where none is near. Where two lie on each other, the
 * selected one: so each can be had, by its number first.
 */
export function pointAt(
  places: readonly (readonly [number, number])[],
  [x, y]: readonly [number, number],
  selected: number,
): number | null {
  const away = places.map(([px, py]) => Math.hypot(px - x, py - y));
  const least = Math.min(...away);
  if (least > GRAB_PX) return null;
  return away[selected] <= least + 1.5 ? selected : away.indexOf(least);
}
