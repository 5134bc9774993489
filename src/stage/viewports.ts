/** How variants share the canvas: in as many columns as show them largest, so tall pieces stand side by side. */
import { sectionGeometry } from '../blank/section.ts';
import type { Design } from '../design/document.ts';

export interface Viewport {
  /** From the lower left, in the unit of the size given. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The part of the canvas that one piece stands in the middle of. */
export interface PieceBox extends Viewport {
  /** From the left of the box, what is drawn of its picture: the last column goes on to the edge of the canvas. */
  readonly drawnWidth: number;
}

/**
 * `pieceAspect`: width of the pieces over their height. `inset`: what stands over the right edge of the canvas; several
 * columns leave it free, so that their pieces stand in an even row beside it. One alone stands in the middle of all.
 */
export function viewportsOf(
  count: number,
  width: number,
  height: number,
  pieceAspect = 1,
  inset = 0,
): PieceBox[] {
  if (count === 0) return [];
  const columns = columnsOf(count, width / height / pieceAspect);
  const rows = count / columns;
  const shared = width - (columns > 1 ? Math.min(inset, width / 3) : 0);
  return Array.from({ length: count }, (_, i) => {
    const column = i % columns;
    const row = Math.floor(i / columns);
    const left = Math.round((column * shared) / columns);
    const right = Math.round(((column + 1) * shared) / columns);
    const drawnTo = column + 1 === columns ? Math.round(width) : right;
    const bottom = Math.round(((rows - 1 - row) * height) / rows);
    const top = Math.round(((rows - row) * height) / rows);
    return {
      x: left,
      y: bottom,
      width: right - left,
      height: top - bottom,
      drawnWidth: drawnTo - left,
    };
  });
}

/** `aspect`: of the canvas, in widths of a piece over heights of a piece. */
function columnsOf(count: number, aspect: number): number {
  let best = count;
  for (let columns = count - 1; columns > 0; columns--) {
    // Full rows only: every part of the canvas is drawn.
    if (count % columns === 0 && scaleOf(columns, count, aspect) > scaleOf(best, count, aspect))
      best = columns;
  }
  return best;
}

/** How large the pieces are drawn: the lesser of what width and height of a cell allow. */
function scaleOf(columns: number, count: number, aspect: number): number {
  return Math.min(aspect / columns, columns / count);
}

/** Width over height of the widest of these blanks. */
export function pieceAspectOf(designs: readonly Design[]): number {
  return Math.max(
    0.1,
    ...designs.map(
      ({ blank }) => (2 * sectionGeometry(blank.section).circumscribedRadius_mm) / blank.length_mm,
    ),
  );
}
