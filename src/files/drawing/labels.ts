/**
 * Room for labels: places for a text that lie inside the drawing's box and on no other ink, found among what is drawn
 * already. Paper coordinates, millimetres.
 */
import { INK, MARK } from './ink.ts';
import { MM_PER_POINT, type Item, type Pen, type Point, type TextStyle } from './pen.ts';
import type { Extent } from './scales.ts';
import { lengthInside, textBox, textsOf, tracesOf } from './traces.ts';

/** Left free about a label. */
const CLEAR_MM = 0.5;
/** To lie on another text is so much worse than on a line. */
const TEXT_WEIGHT = 20;

/** Advances of the typeface over its size, semibold and rounded up: drawings are made without its files. */
const NARROW = new Set(Array.from("ijlrtfI.,:;'′″/⁄()|1 "));
const WIDE = new Set(Array.from('mwMW@%—'));

/** At least as wide as the text is printed. */
export function roomyWidth_mm(text: string, size_pt: number): number {
  const em = Array.from(text).reduce((sum, letter) => {
    if (letter === ' ') return sum + 0.22;
    if (letter === '1') return sum + 0.58;
    if (NARROW.has(letter)) return sum + 0.37;
    if (WIDE.has(letter)) return sum + 0.95;
    return sum + (letter >= 'A' && letter <= 'Z' ? 0.76 : 0.64);
  }, 0);
  return em * size_pt * MM_PER_POINT;
}

export interface Spot {
  readonly at: Point;
  readonly align?: TextStyle['align'];
  readonly angle_deg?: number;
}

interface Piece extends Extent {
  readonly from: Point;
  readonly to: Point;
}

export class Room {
  readonly #pieces: Piece[] = [];
  readonly #texts: { readonly box: Point[]; readonly extent: Extent }[] = [];
  readonly #bounds: Extent;

  /** Room among the items, inside the bounds. Pale areas without an outline are no ink. */
  constructor(items: readonly Item[], bounds: Extent) {
    this.#bounds = bounds;
    for (const { from, to, item } of tracesOf(items))
      if (item.stroke !== undefined || isDark(item.fill))
        this.#pieces.push({ from, to, ...extentOfBox([from, to]) });
    for (const item of textsOf(items)) {
      const box = textBox(item, roomyWidth_mm(item.text, item.style.size_pt));
      this.#texts.push({ box, extent: extentOfBox(box) });
    }
  }

  /**
   * How much other ink a label would lie on, mm of line; what reaches out of the bounds weighs most. It is not summed
   * further than to `enough`.
   */
  overlap(text: string, style: TextStyle, spot: Spot, enough = Infinity): number {
    const box = boxOf(text, style, spot);
    const extent = extentOfBox(box);
    const outside =
      Math.max(0, this.#bounds.left - extent.left) +
      Math.max(0, extent.right - this.#bounds.right) +
      Math.max(0, this.#bounds.bottom - extent.bottom) +
      Math.max(0, extent.top - this.#bounds.top);
    return this.#inkIn(box, extent, 100 * outside, enough);
  }

  #inkIn(box: readonly Point[], extent: Extent, before = 0, enough = Infinity): number {
    let ink = before;
    if (ink > 0 && ink >= enough) return ink;
    const { left, right, bottom, top } = extent;
    for (const piece of this.#pieces) {
      if (piece.right < left || piece.left > right || piece.top < bottom || piece.bottom > top) continue;
      ink += lengthInside(piece.from, piece.to, box);
      if (ink > 0 && ink >= enough) return ink;
    }
    for (const { box: other, extent: theirs } of this.#texts) {
      if (theirs.left > extent.right || theirs.right < extent.left) continue;
      if (theirs.bottom > extent.top || theirs.top < extent.bottom) continue;
      for (let i = 0; i < other.length; i++) {
        ink += TEXT_WEIGHT * lengthInside(other[i], other[(i + 1) % 4], box);
        ink += TEXT_WEIGHT * lengthInside(box[i % box.length], box[(i + 1) % box.length], other);
      }
    }
    return ink;
  }

  /** The first spot that is free; null where none is. */
  free(text: string, style: TextStyle, spots: readonly Spot[]): Spot | null {
    return spots.find((spot) => this.overlap(text, style, spot, 0) === 0) ?? null;
  }

  /** The spot with the least other ink, the first of those that are equal. */
  best(text: string, style: TextStyle, spots: readonly Spot[]): Spot {
    return leastOf(spots, (spot, least) => this.overlap(text, style, spot, least));
  }

  /** Line and text inside a convex polygon with its corners counter-clockwise, mm. */
  ink(polygon: readonly Point[]): number {
    return this.#inkIn(polygon, extentOfBox(polygon));
  }

  /** How many lines and texts a leader crosses, a text counting for many; not counted further than to `enough`. */
  crossings(from: Point, to: Point, enough = Infinity): number {
    let count = 0;
    for (const piece of this.#pieces) {
      if (count >= enough) return count;
      if (crosses(from, to, piece.from, piece.to)) count++;
    }
    for (const { box } of this.#texts) if (lengthInside(from, to, box) > 0) count += 20;
    return count;
  }
}

/** The first of the values for which the measure is least; zero is as good as it gets. More than the least so far is no matter. */
export function leastOf<T>(values: readonly T[], measure: (value: T, least: number) => number): T {
  let best = values[0];
  let least = Infinity;
  for (const value of values) {
    const measured = measure(value, least);
    if (measured >= least) continue;
    best = value;
    least = measured;
    if (least <= 0) break;
  }
  return best;
}

function isDark(fill: string | undefined): boolean {
  if (fill === undefined) return false;
  return fill === MARK || Number.parseInt(fill.slice(1, 3), 16) < 0x60;
}

function boxOf(text: string, style: TextStyle, spot: Spot): Point[] {
  return textBox(
    { kind: 'text', at: spot.at, text, style: { ...style, ...spot } },
    roomyWidth_mm(text, style.size_pt),
    CLEAR_MM,
  );
}

function extentOfBox(box: readonly Point[]): Extent {
  const extent = { left: Infinity, right: -Infinity, bottom: Infinity, top: -Infinity };
  for (const [x, y] of box) {
    extent.left = Math.min(extent.left, x);
    extent.right = Math.max(extent.right, x);
    extent.bottom = Math.min(extent.bottom, y);
    extent.top = Math.max(extent.top, y);
  }
  return extent;
}

function crosses(a: Point, b: Point, c: Point, d: Point): boolean {
  return side(a, b, c) !== side(a, b, d) && side(c, d, a) !== side(c, d, b);
}

function side(p: Point, q: Point, r: Point): number {
  return Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
}

/** Puts a label at the first free of some spots, else wherever there is room, with a leader from what it names. */
export function drawLabel(
  pen: Pen,
  room: Room,
  text: string,
  style: TextStyle,
  spots: readonly Spot[],
  named: Point,
): void {
  const free = room.free(text, style, spots);
  if (free === null) drawLedLabel(pen, room, named, text, style);
  else {
    const { at, ...place } = free;
    pen.text(at, text, { ...style, ...place });
  }
}

/** A millimetre that a leader is longer weighs as much as this share of a line crossed. */
const CROSSING_MM = 5;
const NEAREST_MM = 3;
const FARTHEST_MM = 60;
const STEP_MM = 1.5;
const DIRECTIONS = 24;

/** A level label with a leader from the point that it names, where it is free and the leader short. */
export function drawLedLabel(paper: Pen, room: Room, from: Point, text: string, style: TextStyle): void {
  const wide = roomyWidth_mm(text, style.size_pt);
  const high = 0.72 * style.size_pt * MM_PER_POINT;
  const level: TextStyle = { ...style, align: 'left', angle_deg: 0 };
  let best: { at: Point; end: Point } | null = null;
  let least = Infinity;
  let fallback: { at: Point; end: Point; ink: number } | null = null;
  for (let reach = NEAREST_MM; reach <= FARTHEST_MM && reach < least; reach += STEP_MM)
    for (let k = 0; k < DIRECTIONS; k++) {
      const turn = (2 * Math.PI * (k + 0.5)) / DIRECTIONS;
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      const end: Point = [from[0] + reach * c, from[1] + reach * s];
      // The label lies beyond the leader's end: beside it, or above or below where the leader is steep.
      const beside = Math.abs(c) > 0.5;
      const at: Point = beside
        ? [end[0] + (c > 0 ? 0.8 : -0.8 - wide), end[1] - high / 2]
        : [end[0] - wide / 2, s > 0 ? end[1] + 0.9 : end[1] - 0.7 - high];
      const ink = room.overlap(text, level, { at }, fallback?.ink);
      if (ink > 0) {
        if (fallback === null || ink < fallback.ink) fallback = { at, end, ink };
        continue;
      }
      const enough = (least - reach) / CROSSING_MM;
      const cost = reach + CROSSING_MM * room.crossings([from[0] + 0.3 * c, from[1] + 0.3 * s], end, enough);
      if (cost < least) {
        least = cost;
        best = { at, end };
      }
    }
  const place = best ?? fallback;
  if (place === null) return;
  const { colour = INK } = style;
  paper.circle(from, 0.45, { fill: colour });
  paper.line(from, place.end, { colour, width_mm: 0.15 });
  paper.text(place.at, text, level);
}
