/** The sets of a design as a table on the cover: what is set for each, at which faces, with what strip. */
import { cutOf } from '../../design/cuts.ts';
import type { CutKind, Design } from '../../design/document.ts';
import { normalizeDegrees } from '../../geometry/angle.ts';
import { inSentence, timberName } from '../../timber/names.ts';
import { flatsOf } from '../drawing/faces.ts';
import { INK_SOFT } from '../drawing/ink.ts';
import type { Pen } from '../drawing/pen.ts';
import type { SheetPages } from './frame.ts';
import { angle, length, thickness } from './numbers.ts';
import { wallsOf, type SheetSource } from './source.ts';
import { TABLE_ROW_MM, columnsOf, drawTableHead, drawTableRow, rowsOfLines, type CellRow } from './table.ts';

/** Sets shown, and lines that they may take: a cell too long for its column goes on below where there is room. */
const MOST_SETS = 7;
const MOST_LINES = 9;

export interface SetsTable {
  /** Of the rows, without the head. */
  readonly height_mm: number;
  /** Draws it from `top`; returns y below it. */
  readonly draw: (pen: Pen, top: number) => number;
}

export function setsTable({ area, typeface }: SheetPages, source: SheetSource): SetsTable {
  const { design } = source;
  const columns = columnsOf(area.right - area.left, [
    ['Set', 12],
    ['Rings', 10, 'right'],
    ['Fence', 14, 'right'],
    ['Centre from the foot', 26, 'right'],
    ['High side', 16, 'right'],
    ['Kerf', 16, 'right'],
    ['Web', 16, 'right'],
    ['', 4],
    [headOfFaces(design), 26],
    ['Strip', 46],
  ]);
  const whole = design.sets.slice(0, MOST_SETS).map((set) => rowOf(set, source));
  const lines = whole.flatMap((row) => rowsOfLines(typeface, columns, row));
  const rows = lines.length <= MOST_LINES ? lines : whole;
  const more = design.sets.length - MOST_SETS;
  return {
    height_mm: TABLE_ROW_MM * (rows.length + (more > 0 ? 1 : 0)),
    draw: (pen, top) => {
      let y = drawTableHead(pen, area.left, top, columns);
      for (const row of rows) y = drawTableRow(pen, typeface, area.left, y, columns, row);
      if (more <= 0) return y;
      pen.text([area.left, y - 4], `and ${more} more: see the list of cuts`, {
        size_pt: 8,
        colour: INK_SOFT,
      });
      return y - 6;
    },
  };
}

/** Behind the angle of a set: what is set to it, where it is not the fence. */
const ANGLE_OF: Readonly<Record<CutKind, string>> = { fence: '', table: ' table' };

function headOfFaces({ sets }: Design): string {
  const walls = wallsOf(sets);
  return walls.startsWith('the') ? `Faces at ${walls}` : `At ${walls}`;
}

function rowOf(set: Design['sets'][number], { design, section }: SheetSource): CellRow {
  const { unit } = design;
  const faces = set.fence_azimuths_deg.map((azimuth) => {
    const flat = flatsOf(section).find((one) => Math.abs(one.azimuth_deg - normalizeDegrees(azimuth)) < 1e-9);
    return flat ? flat.letter : angle(azimuth);
  });
  const { layers } = set.strip;
  const thick_mm = layers.reduce((sum, layer) => sum + layer.thickness_mm, 0);
  const timbers = layers.map(({ timber }) => inSentence(timberName(timber))).join(' + ');
  return {
    cells: [
      set.id,
      `${set.fence_azimuths_deg.length}`,
      `${angle(set.angle_deg)}${ANGLE_OF[cutOf(set)]}`,
      length(set.center_mm, unit),
      set.high_side,
      thickness(set.kerf_mm, unit),
      thickness(set.web_mm, unit),
      '',
      faces.join(' '),
      `${thickness(thick_mm, unit)} ${timbers}`,
    ],
  };
}
