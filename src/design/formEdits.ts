/**
 * Edits of the form's outline: pure functions from a document to the next, as in edits.ts. The first and the
 * last point stay on the axis; those of a loop stay off it. Frame (z, r), mm. Whether the outline crosses itself
 * is for checkDesign to say.
 */
import { flattenOutline } from '../geometry/outline.ts';
import type { Design, Form, OutlinePoint } from './document.ts';
import { filled, outsideOf } from './hollowing.ts';
import { MIN_LENGTH_MM, MIN_OUTLINE_POINTS } from './limits.ts';

type Outline = readonly OutlinePoint[];

/** Gives the design a form, or leaves the blank as it is (null). */
export function setForm(design: Design, form: Form | null): Design {
  return { ...design, form };
}

/**
 * Puts a point before the point of that index; neither before the first nor after the last, save that a loop has
 * room between its last point and its first.
 */
export function addOutlinePoint(design: Design, index: number, point: OutlinePoint): Design {
  return withOutline(design, (outline, loop) =>
    index >= 1 && index < outline.length + (loop ? 1 : 0)
      ? outline.toSpliced(index, 0, canonical(point))
      : outline,
  );
}

/** Moves a point; r is kept at least 0, at 0 for the ends, and above 0 in a loop. */
export function moveOutlinePoint(design: Design, index: number, z_mm: number, r_mm: number): Design {
  return withOutline(design, (outline, loop) => {
    const point = outline[index];
    if (point === undefined) return outline;
    const r = Math.max(r_mm, loop ? MIN_LENGTH_MM : 0);
    return outline.with(index, { ...point, z_mm, r_mm: isEnd(outline, index, loop) ? 0 : r });
  });
}

/** Takes a point out, unless it is an end or the outline would have too few points. */
export function removeOutlinePoint(design: Design, index: number): Design {
  return withOutline(design, (outline, loop) =>
    outline[index] === undefined || isEnd(outline, index, loop) || outline.length <= MIN_OUTLINE_POINTS
      ? outline
      : outline.toSpliced(index, 1),
  );
}

/** Turns a corner into a smooth point and back. The ends are always corners. */
export function toggleSmooth(design: Design, index: number): Design {
  return withOutline(design, (outline, loop) => {
    const point = outline[index];
    if (point === undefined || isEnd(outline, index, loop)) return outline;
    return outline.with(index, canonical({ ...point, smooth: !point.smooth }));
  });
}

/** Bore of a new loop, as a share of the outside's smallest radius. */
const BORE = 0.7;

/**
 * Bores the form right through, so that its outline is a loop, or makes it solid again. The outside stays, save
 * that a point on the axis goes. An outside of a single point cannot be bored and stays as it is.
 */
export function setLoop(design: Design, loop: boolean): Design {
  const { form } = design;
  if (!form || (form.loop === true) === loop) return design;
  const { loop: _, ...rest } = form;
  if (loop) {
    const outline = bored(form.outline);
    return outline ? { ...design, form: { ...rest, outline, loop } } : design;
  }
  return { ...design, form: { ...rest, outline: closed(form.outline) } };
}

function bored(outline: Outline): OutlinePoint[] | null {
  const wood = outsideOf(outline).filter((point) => point.r_mm > 0);
  const foot_mm = Math.min(...wood.map((point) => point.z_mm));
  const outside = wood.slice(wood.findLastIndex((point) => point.z_mm === foot_mm));
  const first = outside.at(0);
  const last = outside.at(-1);
  if (!first || !last || last.z_mm <= first.z_mm) return null;
  const bore_mm = BORE * thinnest_mm(outline, first.z_mm, last.z_mm);
  return [
    corner(first),
    ...outside.slice(1, -1),
    corner(last),
    { z_mm: last.z_mm, r_mm: bore_mm },
    { z_mm: first.z_mm, r_mm: bore_mm },
  ];
}

/** Smallest radius of the outside, curve included, between two of its heights. */
function thinnest_mm(outline: Outline, from_mm: number, to_mm: number): number {
  const { z_mm, r_mm, outsideStart, outsideEnd } = flattenOutline(outline);
  let least = Infinity;
  for (let i = outsideStart; i <= outsideEnd; i++)
    if (r_mm[i] > 0 && z_mm[i] >= from_mm && z_mm[i] <= to_mm) least = Math.min(least, r_mm[i]);
  return least;
}

/** The outside of a loop, from the axis to the axis. */
function closed(loop: Outline): OutlinePoint[] {
  const lowest = Math.min(...loop.map((point) => point.z_mm));
  const first = loop.findIndex((point) => point.z_mm === lowest);
  const outline = [...loop.slice(first), ...loop.slice(0, first)];
  return filled([{ z_mm: lowest, r_mm: 0 }, corner(outline[0]), ...outline.slice(1)]);
}

/** The form with heights and radii scaled; holes keep their diameters and depths. */
export function scaledForm(form: Form, along: number, across: number): Form {
  const scaled = (value: number, by: number): number => Math.round(value * by * 1e4) / 1e4;
  return {
    ...form,
    outline: form.outline.map((point) => ({
      ...point,
      z_mm: scaled(point.z_mm, along),
      r_mm: scaled(point.r_mm, across),
    })),
    ...(form.holes
      ? {
          holes: form.holes.map((hole) => ({
            ...hole,
            ...(hole.offset_mm === undefined ? {} : { offset_mm: scaled(hole.offset_mm, across) }),
            ...(hole.z_mm === undefined ? {} : { z_mm: scaled(hole.z_mm, along) }),
          })),
        }
      : {}),
  };
}

function corner({ z_mm, r_mm }: OutlinePoint): OutlinePoint {
  return { z_mm, r_mm };
}

function isEnd(outline: Outline, index: number, loop: boolean): boolean {
  return !loop && (index === 0 || index === outline.length - 1);
}

/** A corner has no `smooth` at all, as a file is read. */
function canonical({ z_mm, r_mm, smooth }: OutlinePoint): OutlinePoint {
  return smooth ? { z_mm, r_mm, smooth } : { z_mm, r_mm };
}

function withOutline(design: Design, change: (outline: Outline, loop: boolean) => Outline): Design {
  const { form } = design;
  if (!form) return design;
  const outline = change(form.outline, form.loop === true);
  return outline === form.outline ? design : { ...design, form: { ...form, outline } };
}
