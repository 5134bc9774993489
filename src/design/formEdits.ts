/**
 * Edits of the form's outline: pure functions from a document to the next, as in edits.ts. The first and the
 * last point stay on the axis. Frame (z, r), mm. Whether the outline crosses itself is for checkDesign to say.
 */
import type { Design, Form, OutlinePoint } from './document.ts';
import { MIN_OUTLINE_POINTS } from './limits.ts';

/** Gives the design a form, or leaves the blank as it is (null). */
export function setForm(design: Design, form: Form | null): Design {
  return { ...design, form };
}

/** Puts a point before the point of that index; neither before the first nor after the last. */
export function addOutlinePoint(design: Design, index: number, point: OutlinePoint): Design {
  return withOutline(design, (outline) =>
    index >= 1 && index < outline.length ? outline.toSpliced(index, 0, canonical(point)) : outline,
  );
}

/** Moves a point; r is kept at least 0, and at 0 for the ends. */
export function moveOutlinePoint(design: Design, index: number, z_mm: number, r_mm: number): Design {
  return withOutline(design, (outline) => {
    const point = outline[index];
    if (point === undefined) return outline;
    return outline.with(index, { ...point, z_mm, r_mm: isEnd(outline, index) ? 0 : Math.max(r_mm, 0) });
  });
}

/** Takes a point out, unless it is an end or the outline would have too few points. */
export function removeOutlinePoint(design: Design, index: number): Design {
  return withOutline(design, (outline) =>
    outline[index] === undefined || isEnd(outline, index) || outline.length <= MIN_OUTLINE_POINTS
      ? outline
      : outline.toSpliced(index, 1),
  );
}

/** Turns a corner into a smooth point and back. The ends are always corners. */
export function toggleSmooth(design: Design, index: number): Design {
  return withOutline(design, (outline) => {
    const point = outline[index];
    if (point === undefined || isEnd(outline, index)) return outline;
    return outline.with(index, canonical({ ...point, smooth: !point.smooth }));
  });
}

function isEnd(outline: readonly OutlinePoint[], index: number): boolean {
  return index === 0 || index === outline.length - 1;
}

/** A corner has no `smooth` at all, as a file is read. */
function canonical({ z_mm, r_mm, smooth }: OutlinePoint): OutlinePoint {
  return smooth ? { z_mm, r_mm, smooth } : { z_mm, r_mm };
}

function withOutline(
  design: Design,
  change: (outline: readonly OutlinePoint[]) => readonly OutlinePoint[],
): Design {
  if (!design.form) return design;
  const outline = change(design.form.outline);
  return outline === design.form.outline ? design : { ...design, form: { outline } };
}
