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
    for (const shareY of rows === 1 ? [0.5] : SHIFTS)
      for (const shareX of columns === 1 ? [0.5] : SHIFTS) {
        const tiles = all.map(([column, row]): Tile => ({
          column,
          row,
          corner: [
            column * (tileWidth - OVERLAP_MM) - shareX * spareX,
            high + shareY * spareY - tileHeight - row * (tileHeight - OVERLAP_MM),
          ],
        }));
        const needed = neededTiles(tiles, places, [tileWidth, tileHeight]);
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

/** Tiles that hold ink which no other printed tile shows; all where what is left would not hang together. */
function neededTiles(tiles: readonly Tile[], ink: readonly Point[], [width, height]: Point): Tile[] {
  // Which tiles show a point, as the list of their indices; each list once.
  const groups = new Map<string, { readonly by: number[]; count: number }>();
  const lefts = tiles.map(({ corner }) => corner[0] - 1e-6);
  const bottoms = tiles.map(({ corner }) => corner[1] - 1e-6);
  for (const [x, y] of ink) {
    const by: number[] = [];
    for (let i = 0; i < lefts.length; i++) {
      const [right, up] = [x - lefts[i], y - bottoms[i]];
      if (right >= 0 && right <= width + 2e-6 && up >= 0 && up <= height + 2e-6) by.push(i);
    }
    const key = by.length === 1 ? `${by[0]}` : by.join(' ');
    const group = groups.get(key);
    if (group) group.count++;
    else groups.set(key, { by, count: 1 });
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
