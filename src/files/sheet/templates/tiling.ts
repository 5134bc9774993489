/**
 * How a drawing at 1 : 1 is cut into pages: upright or turned, the grid of tiles shifted over it, tiles without ink of
 * their own left out; the way that needs the fewest pages. Millimetres, y up; tiles in the frame of the drawing as it
 * lies on paper (turned or not, its lower left corner at the origin).
 */
import type { Item, Point } from '../../drawing/pen.ts';
import { textBox, textsOf, tracesOf } from '../../drawing/traces.ts';
import type { Typeface } from '../typeface.ts';

/** Neighbouring tiles share this much. */
export const OVERLAP_MM = 10;
/** Ink is looked at every so far. */
const STEP_MM = 2;
/** Shares of the room to spare by which the grid is moved, those that look best first. */
const SHIFTS = [1 / 2, 0, 1, 1 / 4, 3 / 4, 1 / 8, 3 / 8, 5 / 8, 7 / 8];

export interface Tile {
  readonly column: number;
  /** From the top. */
  readonly row: number;
  /** Its lower left corner. */
  readonly corner: Point;
}

export interface Tiling {
  readonly turn_deg: 0 | 90;
  readonly columns: number;
  readonly rows: number;
  /** Those that are printed, row by row from the top. */
  readonly tiles: readonly Tile[];
}

/** How many tiles of a size a length takes. */
export function tileCount(whole_mm: number, tile_mm: number): number {
  return whole_mm <= tile_mm + 1e-6 ? 1 : Math.ceil((whole_mm - OVERLAP_MM) / (tile_mm - OVERLAP_MM) - 1e-9);
}

/** The way with the fewest pages; of equal ones the upright, the centred one. */
export function tilingOf(
  items: readonly Item[],
  [width_mm, height_mm]: Point,
  [tileWidth, tileHeight]: Point,
  typeface: Typeface,
): Tiling {
  const ink = inkOf(items, typeface);
  let best: Tiling | null = null;
  for (const turn_deg of [0, 90] as const) {
    const [wide, high] = turn_deg === 0 ? [width_mm, height_mm] : [height_mm, width_mm];
    const places = turn_deg === 0 ? ink : ink.map(([x, y]): Point => [height_mm - y, x]);
    const columns = tileCount(wide, tileWidth);
    const rows = tileCount(high, tileHeight);
    const spareX = columns * (tileWidth - OVERLAP_MM) + OVERLAP_MM - wide;
    const spareY = rows * (tileHeight - OVERLAP_MM) + OVERLAP_MM - high;
    const all = Array.from({ length: columns * rows }, (_, i) => [i % columns, Math.floor(i / columns)]);
    const grids = (rows === 1 ? [0.5] : SHIFTS).flatMap((shareY) =>
      (columns === 1 ? [0.5] : SHIFTS).map((shareX) =>
        all.map(([column, row]): Tile => ({
          column,
          row,
          corner: [
            column * (tileWidth - OVERLAP_MM) - shareX * spareX,
            high + shareY * spareY - tileHeight - row * (tileHeight - OVERLAP_MM),
          ],
        })),
      ),
    );
    const spots = spotsOf(places, grids, [tileWidth, tileHeight]);
    for (const tiles of grids) {
      const needed = neededTiles(tiles, spots, [tileWidth, tileHeight]);
      if (best === null || needed.length < best.tiles.length)
        best = { turn_deg, columns, rows, tiles: needed };
      if (best.tiles.length === 1) return best;
    }
  }
  if (best === null) throw new Error('a drawing has one way of tiling at least');
  return best;
}

/** Points along the lines and texts of a drawing. */
export function inkOf(items: readonly Item[], typeface: Typeface): Point[] {
  const points: Point[] = [];
  const along = (from: Point, to: Point) => {
    const pieces = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / STEP_MM));
    for (let k = 0; k <= pieces; k++)
      points.push([from[0] + ((to[0] - from[0]) * k) / pieces, from[1] + ((to[1] - from[1]) * k) / pieces]);
  };
  for (const { from, to } of tracesOf(items)) along(from, to);
  for (const text of textsOf(items)) {
    const width = typeface.width_mm(text.text, text.style.size_pt, text.style.weight ?? 'regular');
    const box = textBox(text, width);
    box.forEach((corner, i) => along(corner, box[(i + 1) % box.length]));
  }
  return points;
}

/** Points that every tile of every grid shows alike, as one of them and their number. */
interface Spot {
  readonly at: Point;
  count: number;
}

function spotsOf(
  points: readonly Point[],
  grids: readonly (readonly Tile[])[],
  [width, height]: Point,
): Spot[] {
  const edges = (axis: 0 | 1, size: number) =>
    Float64Array.from(
      new Set(
        grids.flatMap((tiles) =>
          tiles.flatMap(({ corner }) => [corner[axis] - EDGE_MM, corner[axis] + size + EDGE_MM]),
        ),
      ),
    ).sort();
  const [xs, ys] = [edges(0, width), edges(1, height)];
  const spots = new Map<number, Spot>();
  for (const at of points) {
    const key = placeAmong(xs, at[0]) * (2 * ys.length + 2) + placeAmong(ys, at[1]);
    const spot = spots.get(key);
    if (spot) spot.count++;
    else spots.set(key, { at, count: 1 });
  }
  return [...spots.values()];
}

/** A tile shows what lies on its edge. */
const EDGE_MM = 1e-6;

/** Between which ascending values a number lies, or on which. */
function placeAmong(values: Float64Array, value: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle] < value) low = middle + 1;
    else high = middle;
  }
  return 2 * low + (values[low] === value ? 1 : 0);
}

/** Tiles that hold ink which no other printed tile shows; all where what is left would not hang together. */
function neededTiles(tiles: readonly Tile[], ink: readonly Spot[], [width, height]: Point): Tile[] {
  // Which tiles show a point, as the list of their indices; each list once.
  const groups = new Map<string, { readonly by: number[]; count: number }>();
  for (const { at, count } of ink) {
    const [x, y] = at;
    const by: number[] = [];
    tiles.forEach(({ corner }, i) => {
      if (x >= corner[0] - EDGE_MM && x <= corner[0] + width + EDGE_MM)
        if (y >= corner[1] - EDGE_MM && y <= corner[1] + height + EDGE_MM) by.push(i);
    });
    const key = by.join(' ');
    const group = groups.get(key);
    if (group) group.count += count;
    else groups.set(key, { by, count });
  }
  const weight = tiles.map((_, i) =>
    [...groups.values()].reduce((sum, { by, count }) => sum + (by.includes(i) ? count : 0), 0),
  );
  const kept = new Set(tiles.keys());
  for (const i of [...tiles.keys()].sort((a, b) => weight[a] - weight[b] || b - a)) {
    const others = [...groups.values()].every(
      ({ by }) => !by.includes(i) || by.some((one) => one !== i && kept.has(one)),
    );
    if (others && kept.size > 1) kept.delete(i);
  }
  const left = tiles.filter((_, i) => kept.has(i));
  return hangTogether(left) ? left : [...tiles];
}

function hangTogether(tiles: readonly Tile[]): boolean {
  const reached = new Set<Tile>(tiles.slice(0, 1));
  for (const tile of reached)
    for (const other of tiles)
      if (Math.abs(other.column - tile.column) + Math.abs(other.row - tile.row) === 1) reached.add(other);
  return reached.size === tiles.length;
}
