/**
 * What a drawing leaves on paper, for those who have to find room in it: the straight pieces of its lines and the
 * boxes of its texts. Paper coordinates, millimetres.
 */
import { DEG } from '../../geometry/angle.ts';
import { MM_PER_POINT, type Item, type PathItem, type PathStep, type Point, type TextItem } from './pen.ts';

export interface Trace {
  readonly from: Point;
  readonly to: Point;
  readonly item: PathItem;
}

/** Pieces that a curve is measured by. */
const CURVE_PIECES = 6;
/** Heights of a letter over the type size: below and above the baseline. */
const BELOW = 0.22;
const ABOVE = 0.74;

/** Straight pieces of every line that is stroked or bounds a filled area; those inside a clip as they are drawn. */
export function tracesOf(items: readonly Item[]): Trace[] {
  const traces: Trace[] = [];
  const visit = (list: readonly Item[]) => {
    for (const item of list) {
      if (item.kind === 'clip') visit(item.items);
      if (item.kind === 'path')
        for (const [from, to] of piecesOf(item.steps)) traces.push({ from, to, item });
    }
  };
  visit(items);
  return traces;
}

/** The texts of a drawing, those inside a clip too. */
export function textsOf(items: readonly Item[]): TextItem[] {
  return items.flatMap((item) =>
    item.kind === 'text' ? [item] : item.kind === 'clip' ? textsOf(item.items) : [],
  );
}

function piecesOf(steps: readonly PathStep[]): [Point, Point][] {
  const pieces: [Point, Point][] = [];
  let start: Point = [0, 0];
  let at: Point = [0, 0];
  for (const step of steps)
    switch (step[0]) {
      case 'move':
        start = at = step[1];
        break;
      case 'line':
        pieces.push([at, step[1]]);
        at = step[1];
        break;
      case 'curve': {
        const [a, b, c] = [step[1], step[2], step[3]];
        let last = at;
        for (let k = 1; k <= CURVE_PIECES; k++) {
          const t = k / CURVE_PIECES;
          const next: Point = [bezier(at[0], a[0], b[0], c[0], t), bezier(at[1], a[1], b[1], c[1], t)];
          pieces.push([last, next]);
          last = next;
        }
        at = c;
        break;
      }
      case 'close':
        pieces.push([at, start]);
        at = start;
        break;
    }
  return pieces;
}

function bezier(a: number, b: number, c: number, d: number, t: number): number {
  const s = 1 - t;
  return s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d;
}

/** Corners of a text's box, counter-clockwise from where its baseline begins. */
export function textBox({ at, style }: TextItem, width_mm: number, pad_mm = 0): Point[] {
  const { size_pt, align = 'left', angle_deg = 0 } = style;
  const back = align === 'left' ? 0 : align === 'right' ? width_mm : width_mm / 2;
  const low = -BELOW * size_pt * MM_PER_POINT - pad_mm;
  const high = ABOVE * size_pt * MM_PER_POINT + pad_mm;
  const cos = Math.cos(angle_deg * DEG);
  const sin = Math.sin(angle_deg * DEG);
  const place = (x: number, y: number): Point => [at[0] + cos * x - sin * y, at[1] + sin * x + cos * y];
  const [left, right] = [-back - pad_mm, width_mm - back + pad_mm];
  return [place(left, low), place(right, low), place(right, high), place(left, high)];
}

/** How much of a straight piece lies inside a convex polygon with its corners counter-clockwise, mm. */
export function lengthInside(from: Point, to: Point, polygon: readonly Point[]): number {
  let low = 0;
  let high = 1;
  for (let i = 0; i < polygon.length; i++) {
    const [ax, ay] = polygon[i];
    const [bx, by] = polygon[i + 1 === polygon.length ? 0 : i + 1];
    // Twice the areas of the side with either end: negative outside.
    const a = (bx - ax) * (from[1] - ay) - (by - ay) * (from[0] - ax);
    const b = (bx - ax) * (to[1] - ay) - (by - ay) * (to[0] - ax);
    if (a < 0 && b < 0) return 0;
    if (a < 0) low = Math.max(low, a / (a - b));
    else if (b < 0) high = Math.min(high, a / (a - b));
  }
  return high <= low ? 0 : (high - low) * Math.hypot(to[0] - from[0], to[1] - from[1]);
}
