/**
 * Drawings at 1 : 1 that may be larger than the page: cut into tiles that overlap (tiling.ts), with crosses to
 * register neighbours by and a plan of which tile goes where. Millimetres, y up.
 */
import { FAINT, INK, INK_FAINT, INK_SOFT, MARK, RULE } from '../../drawing/ink.ts';
import { Pen, placedItems, rectangleSteps, type Item, type Point } from '../../drawing/pen.ts';
import { textBox, textsOf, tracesOf } from '../../drawing/traces.ts';
import type { SheetPages } from '../frame.ts';
import { OVERLAP_MM, tileCount, tilingOf, type Tile, type Tiling } from './tiling.ts';

export interface FullSize {
  /** Stands at the head of its pages. */
  readonly section: string;
  /** What it is for and how to use it; printed on each of its pages. */
  readonly use: string;
  readonly width_mm: number;
  readonly height_mm: number;
  /** Draws with the lower left corner of the whole at the pen's origin, 1 : 1. */
  readonly draw: (pen: Pen) => void;
}

/** Crosses are this long to either side. */
const CROSS_MM = 3;
/** The plan of the tiles takes this much beside the words, and a cell of it no more than this. */
const PLAN_MM = 40;
const PLAN_CELL_MM = 7;
const LINE_MM = 4;
const USE_PT = 8.5;
/** A drawing of more pages than this is no template any more. */
export const MOST_TILES = 30;

/** The part of a page that a tile may fill under a title of so many lines. */
function tileArea(pages: SheetPages, lines: number) {
  const { left, right, top, bottom } = pages.fullSizeArea;
  const title = Math.max(2, lines) * LINE_MM + 2.5;
  return { left, bottom, width: right - left, height: top - bottom - title };
}

/** Adds the pages of a drawing at full size, row by row from the top; says so instead where they are too many. */
export function addFullSize(pages: SheetPages, drawing: FullSize): void {
  const { area, typeface } = pages;
  const width = area.right - area.left;
  const whole = typeface.wrap(drawing.use, width, USE_PT);
  const beside = typeface.wrap(drawing.use, width - PLAN_MM, USE_PT);
  const one = tileArea(pages, whole.length);
  const single = [
    [drawing.width_mm, drawing.height_mm],
    [drawing.height_mm, drawing.width_mm],
  ].some(([w, h]) => w <= one.width + 1e-6 && h <= one.height + 1e-6);
  const lines = single ? whole : beside;
  const room = single ? one : tileArea(pages, beside.length);
  const least = Math.min(
    tileCount(drawing.width_mm, room.width) * tileCount(drawing.height_mm, room.height),
    tileCount(drawing.height_mm, room.width) * tileCount(drawing.width_mm, room.height),
  );
  if (least > 2 * MOST_TILES) {
    addRefusal(pages, drawing, least);
    return;
  }
  const pen = new Pen();
  drawing.draw(pen);
  const size: Point = [drawing.width_mm, drawing.height_mm];
  const tiling = tilingOf(pen.items, size, [room.width, room.height], typeface);
  if (tiling.tiles.length > MOST_TILES) {
    addRefusal(pages, drawing, tiling.tiles.length);
    return;
  }
  const items = placedItems(pen.items, [tiling.turn_deg === 90 ? drawing.height_mm : 0, 0], tiling.turn_deg);
  for (const tile of tiling.tiles) addTile(pages, drawing, lines, items, tiling, tile);
}

function addRefusal(pages: SheetPages, drawing: FullSize, count: number): void {
  const pen = pages.add(drawing.section);
  const { area, typeface } = pages;
  const text = `At full size this drawing would take ${count} pages. Mark the places from the list of cuts instead.`;
  typeface
    .wrap(text, area.right - area.left, 10)
    .forEach((line, i) => pen.text([area.left, area.top - 8 - i * 5], line, { size_pt: 10, colour: INK }));
}

/** Column letter and row number from the top left. */
function tileName({ column, row }: Pick<Tile, 'column' | 'row'>): string {
  return `${'ABCDEFGHIJKLMNOPQRSTUVWXYZ'[column] ?? column + 1}${row + 1}`;
}

function addTile(
  pages: SheetPages,
  drawing: FullSize,
  lines: readonly string[],
  items: readonly Item[],
  tiling: Tiling,
  tile: Tile,
): void {
  const room = tileArea(pages, lines.length);
  const single = tiling.tiles.length === 1;
  const pen = pages.add(
    single ? drawing.section : `${drawing.section} · tile ${tileName(tile)}`,
    drawing.section,
  );
  const window: Point = [tile.corner[0], tile.corner[1]];
  const here = placedItems(
    items.filter((item) => reaches(pages, item, window, [room.width, room.height])),
    [room.left - window[0], room.bottom - window[1]],
  );
  if (single) pen.items.push(...here);
  else
    pen.items.push({
      kind: 'clip',
      steps: rectangleSteps([room.left, room.bottom], room.width, room.height),
      items: here,
    });

  const { top } = pages.fullSizeArea;
  lines.forEach((line, i) =>
    pen.text([room.left, top - 3 - i * LINE_MM], line, { size_pt: USE_PT, colour: INK_SOFT }),
  );
  if (single) return;
  drawPlan(pen, [room.left + room.width, top], Math.max(2, lines.length) * LINE_MM + 1, tiling, tile);
  pen.rectangle([room.left, room.bottom], room.width, room.height, {
    stroke: { colour: RULE, width_mm: 0.15 },
  });
  drawCrosses(pen, tiling, tile, [room.left, room.bottom], [room.width, room.height]);
}

/** Whether an item comes within a tile, or so near that its ink does. */
function reaches({ typeface }: SheetPages, item: Item, [x, y]: Point, [width, height]: Point): boolean {
  const points =
    item.kind === 'text'
      ? textBox(item, typeface.width_mm(item.text, item.style.size_pt, item.style.weight ?? 'regular'), 1)
      : item.kind === 'clip'
        ? tracesOf([{ kind: 'path', steps: item.steps }]).map(({ from }) => from)
        : tracesOf([item]).flatMap(({ from, to }) => [from, to]);
  if (points.length === 0) return textsOf([item]).length > 0;
  const spare = 3;
  return (
    points.some(([px]) => px >= x - spare) &&
    points.some(([px]) => px <= x + width + spare) &&
    points.some(([, py]) => py >= y - spare) &&
    points.some(([, py]) => py <= y + height + spare)
  );
}

/** In the middle of each strip that is shared with a printed neighbour. */
function drawCrosses(
  pen: Pen,
  { tiles }: Tiling,
  { column, row }: Tile,
  [left, bottom]: Point,
  [width, height]: Point,
): void {
  const half = OVERLAP_MM / 2;
  const printed = (c: number, r: number) => tiles.some((one) => one.column === c && one.row === r);
  const shares = [0.12, 0.5, 0.88];
  for (const [c, x] of [
    [column - 1, left + half],
    [column + 1, left + width - half],
  ])
    if (printed(c, row)) for (const share of shares) drawCross(pen, [x, bottom + share * height]);
  for (const [r, y] of [
    [row - 1, bottom + height - half],
    [row + 1, bottom + half],
  ])
    if (printed(column, r)) for (const share of shares) drawCross(pen, [left + share * width, y]);
}

function drawCross(pen: Pen, [x, y]: Point): void {
  pen.circle([x, y], CROSS_MM / 2, { stroke: FAINT });
  pen.line([x - CROSS_MM, y], [x + CROSS_MM, y], { colour: INK, width_mm: 0.15 });
  pen.line([x, y - CROSS_MM], [x, y + CROSS_MM], { colour: INK, width_mm: 0.15 });
}

/** Small plan of the tiles that are printed, this one marked; its upper right corner as given. */
function drawPlan(
  pen: Pen,
  [right, top]: Point,
  room: number,
  { columns, rows, tiles }: Tiling,
  here: Tile,
): void {
  const width = Math.min(PLAN_CELL_MM, (PLAN_MM - 4) / columns);
  const height = Math.min(5, room / rows);
  for (const tile of tiles) {
    const marked = tile === here;
    const [x, y] = [right - (columns - tile.column) * width, top - (tile.row + 1) * height];
    pen.rectangle([x, y], width, height, { fill: marked ? MARK : '#ffffff', stroke: FAINT });
    if (height >= 3 && width >= 5)
      pen.text([x + width / 2, y + height / 2 - 0.9], tileName(tile), {
        size_pt: 6.5,
        align: 'center',
        colour: marked ? '#ffffff' : INK_FAINT,
      });
  }
}
