/**
 * Drawings at 1 : 1 that may be larger than the page: cut into tiles that overlap, with crosses to register
 * neighbours by and a plan of which tile goes where. Millimetres, y up.
 */
import { FAINT, INK, INK_FAINT, INK_SOFT, MARK, RULE } from '../../drawing/ink.ts';
import { rectangleSteps, type Pen, type Point } from '../../drawing/pen.ts';
import type { SheetPages } from '../frame.ts';

export interface FullSize {
  /** Stands at the head of its pages. */
  readonly section: string;
  /** What it is for and how to use it; printed on its first page. */
  readonly use: string;
  readonly width_mm: number;
  readonly height_mm: number;
  /** Draws with the lower left corner of the whole at the pen's origin, 1 : 1. */
  readonly draw: (pen: Pen) => void;
}

/** Neighbouring tiles share this much. */
export const OVERLAP_MM = 10;
/** Crosses stand this far from the corners of the shared strips' middles. */
const CROSS_MM = 3;
const TITLE_MM = 17;
/** A drawing of more pages than this is no template any more. */
export const MOST_TILES = 30;

interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly tileWidth: number;
  readonly tileHeight: number;
}

/** How many pages a drawing of this size takes. */
export function tileGrid(pages: SheetPages, width_mm: number, height_mm: number): Grid {
  const { area } = pages;
  const tileWidth = area.right - area.left;
  const tileHeight = area.top - area.bottom - TITLE_MM;
  const count = (whole: number, tile: number) =>
    whole <= tile + 1e-6 ? 1 : Math.ceil((whole - OVERLAP_MM) / (tile - OVERLAP_MM) - 1e-9);
  return {
    columns: count(width_mm, tileWidth),
    rows: count(height_mm, tileHeight),
    tileWidth,
    tileHeight,
  };
}

/** Adds the pages of a drawing at full size, row by row from the top; says so instead where they are too many. */
export function addFullSize(pages: SheetPages, drawing: FullSize): void {
  const grid = tileGrid(pages, drawing.width_mm, drawing.height_mm);
  const { columns, rows } = grid;
  if (columns * rows > MOST_TILES) {
    const pen = pages.add(drawing.section);
    const { area, typeface } = pages;
    const text = `At full size this drawing would take ${columns * rows} pages. Mark the places from the list of cuts instead.`;
    typeface
      .wrap(text, area.right - area.left, 10)
      .forEach((line, i) => pen.text([area.left, area.top - 8 - i * 5], line, { size_pt: 10, colour: INK }));
    return;
  }
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) addTile(pages, drawing, grid, column, row);
}

/** Column letter and row number from the top left. */
function tileName(column: number, row: number): string {
  return `${'ABCDEFGHIJKLMNOPQRSTUVWXYZ'[column] ?? column + 1}${row + 1}`;
}

function addTile(pages: SheetPages, drawing: FullSize, grid: Grid, column: number, row: number): void {
  const { area, typeface } = pages;
  const { columns, rows, tileWidth, tileHeight } = grid;
  const single = columns * rows === 1;
  const pen = pages.add(
    single ? drawing.section : `${drawing.section} · tile ${tileName(column, row)}`,
    drawing.section,
  );
  // Lower left corner of this tile in the drawing; the top row ends at the drawing's top.
  const left = column * (tileWidth - OVERLAP_MM);
  const bottom = rows === 1 ? 0 : drawing.height_mm - tileHeight - row * (tileHeight - OVERLAP_MM);
  const shiftX = single ? Math.max(0, (tileWidth - drawing.width_mm) / 2) : 0;
  const shiftY = rows === 1 ? Math.max(0, (tileHeight - drawing.height_mm) / 2) : 0;
  const origin: Point = [area.left - left + shiftX, area.bottom - bottom + shiftY];
  pen.clipped(rectangleSteps([area.left, area.bottom], tileWidth, tileHeight), (inside) =>
    drawing.draw(inside.within(origin)),
  );

  let y = area.top - 3.4;
  const planWidth = single ? 0 : columns * 7 + 4;
  for (const line of typeface.wrap(drawing.use, area.right - area.left - planWidth, 8.5).slice(0, 3)) {
    pen.text([area.left, y], line, { size_pt: 8.5, colour: INK_SOFT });
    y -= 4;
  }
  if (single) return;
  drawPlan(pen, [area.right - columns * 7, area.top], grid, column, row);
  pen.rectangle([area.left, area.bottom], tileWidth, tileHeight, {
    stroke: { colour: RULE, width_mm: 0.15 },
  });
  const half = OVERLAP_MM / 2;
  const xs = [
    ...(column > 0 ? [area.left + half] : []),
    ...(column + 1 < columns ? [area.left + tileWidth - half] : []),
  ];
  const ys = [
    ...(row > 0 ? [area.bottom + tileHeight - half] : []),
    ...(row + 1 < rows ? [area.bottom + half] : []),
  ];
  for (const x of xs)
    for (const share of [0.12, 0.5, 0.88]) drawCross(pen, [x, area.bottom + share * tileHeight]);
  for (const height of ys)
    for (const share of [0.12, 0.5, 0.88]) drawCross(pen, [area.left + share * tileWidth, height]);
}

function drawCross(pen: Pen, [x, y]: Point): void {
  pen.circle([x, y], CROSS_MM / 2, { stroke: FAINT });
  pen.line([x - CROSS_MM, y], [x + CROSS_MM, y], { colour: INK, width_mm: 0.15 });
  pen.line([x, y - CROSS_MM], [x, y + CROSS_MM], { colour: INK, width_mm: 0.15 });
}

/** Small plan of all tiles, this one marked. */
function drawPlan(pen: Pen, [x, y]: Point, { columns, rows }: Grid, column: number, row: number): void {
  const height = Math.min(5, 15 / rows);
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      const here = r === row && c === column;
      pen.rectangle([x + c * 7, y - (r + 1) * height], 7, height, {
        fill: here ? MARK : '#ffffff',
        stroke: FAINT,
      });
      if (height >= 3)
        pen.text([x + c * 7 + 3.5, y - (r + 0.5) * height - 0.9], tileName(c, r), {
          size_pt: 6.5,
          align: 'center',
          colour: here ? '#ffffff' : INK_FAINT,
        });
    }
}
