/**
 * A region of the plane as disjoint convex cells, from which convex pieces are taken away one after the
 * other. A cell is a flat list [x0, y0, x1, y1 …] of corners, counter-clockwise. Cells are only ever split by
 * lines, so coincident and nearly coincident lines leave slivers at worst, never a wrong region.
 */

export type Cell = number[];

/** The side a x + b y ≤ c of a line. */
export interface HalfPlane {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

export function rectangleCell(xLow: number, xHigh: number, yLow: number, yHigh: number): Cell {
  return [xLow, yLow, xHigh, yLow, xHigh, yHigh, xLow, yHigh];
}

export function cellArea(cell: Cell): number {
  let twice = 0;
  const x0 = cell[0];
  const y0 = cell[1];
  for (let i = 2; i + 3 < cell.length; i += 2)
    twice += (cell[i] - x0) * (cell[i + 3] - y0) - (cell[i + 2] - x0) * (cell[i + 1] - y0);
  return twice / 2;
}

/** The part of a cell within the half-plane (side 1) or beyond it (side −1); empty where there is none. */
export function clipped(cell: Cell, { a, b, c }: HalfPlane, side: 1 | -1): Cell {
  const out: Cell = [];
  let x = cell[cell.length - 2];
  let y = cell[cell.length - 1];
  let past = side * (a * x + b * y - c);
  for (let i = 0; i < cell.length; i += 2) {
    const nextX = cell[i];
    const nextY = cell[i + 1];
    const nextPast = side * (a * nextX + b * nextY - c);
    if (past < 0 !== nextPast < 0 && past !== nextPast) {
      const t = past / (past - nextPast);
      out.push(x + t * (nextX - x), y + t * (nextY - y));
    }
    if (nextPast < 0) out.push(nextX, nextY);
    x = nextX;
    y = nextY;
    past = nextPast;
  }
  return out.length < 6 ? [] : out;
}

/** The cells without the convex piece that the half-planes have in common; cells smaller than `least` are dropped. */
export function withoutPiece(
  cells: readonly Cell[],
  piece: readonly HalfPlane[],
  least: number,
): readonly Cell[] {
  let out: Cell[] | null = null;
  cells.forEach((cell, index) => {
    if (piece.some((half) => isBeyond(cell, half))) {
      out?.push(cell);
      return;
    }
    out ??= cells.slice(0, index);
    let inside = cell;
    for (const half of piece) {
      const beyond = clipped(inside, half, -1);
      if (beyond.length > 0 && cellArea(beyond) > least) out.push(beyond);
      inside = clipped(inside, half, 1);
      if (inside.length === 0) break;
    }
  });
  return out ?? cells;
}

/** Whether the whole cell lies beyond the half-plane. */
export function isBeyond(cell: Cell, { a, b, c }: HalfPlane): boolean {
  for (let i = 0; i < cell.length; i += 2) if (a * cell[i] + b * cell[i + 1] < c) return false;
  return true;
}
