/**
 * The numbers on the layout of the marks (wrapPlaces.ts): a tick at every mark with its number beside it, moved apart and
 * led to where marks crowd; in rows where marks stand on the edge of an end. Frame of the layout, mm.
 */
import { INK } from '../../drawing/ink.ts';
import { MM_PER_POINT, type Pen, type TextStyle } from '../../drawing/pen.ts';
import { spread } from '../../drawing/spread.ts';
import type { Typeface } from '../typeface.ts';
import type { Place } from './wrapPlaces.ts';

const TICK_MM = 3;
/** From a tick to its number; more where the numbers of a column stand apart from their ticks. */
const BESIDE_MM = 0.6;
const LEADER_MM = 3;
/** A number that is moved by less stands beside its tick still. */
const UNMOVED_MM = 0.3;
/** Baselines of numbers over their ticks, and from one number to the next above it: its letters and the halo about them. */
const OVER_MM = 1;
const APART_EM = 1;
const HALO_MM = 0.5;
/** Rows of numbers at an end: from the edge to the first (clear of the letters at the head), and from row to row. */
const FIRST_MM = { foot: 4, head: 13 };
const ROW_MM = 3.3;
/** Left free for the letters of the faces, or the degrees round a blank. */
const LETTERS_MM = 10;

interface Label {
  readonly x: number;
  readonly at: Place['at'];
  readonly text: string;
  readonly style: TextStyle;
  readonly width_mm: number;
}

/** Ticks with their numbers; places that fall together share one. */
export function drawPlaces(pen: Pen, typeface: Typeface, length_mm: number, places: readonly Place[]): void {
  const labels = labelsOf(typeface, places);
  const L = length_mm;
  const rows = { foot: drawRows(pen, labels, 'foot', 0, 1), head: drawRows(pen, labels, 'head', L, -1) };
  const room = {
    low: rows.foot === 0 ? OVER_MM : rowInward('foot', rows.foot),
    high: L - (rows.head === 0 ? LETTERS_MM : rowInward('head', rows.head)),
  };
  for (const column of columnsOfLabels(labels)) drawColumn(pen, column, room);
}

function labelsOf(typeface: Typeface, places: readonly Place[]): Label[] {
  const together = new Map<string, { place: Place; names: string[] }>();
  for (const place of places) {
    const key = `${place.x.toFixed(2)} ${typeof place.at === 'number' ? place.at.toFixed(3) : place.at}`;
    const entry = together.get(key) ?? { place, names: [] };
    entry.names.push(place.name);
    together.set(key, entry);
  }
  return [...together.values()].map(({ place: { x, at, number, narrow }, names }): Label => {
    const text = `${number}  ${names.slice(0, 3).join(', ')}${names.length > 3 ? ' …' : ''}`;
    const size_pt = narrow ? 5.5 : 7;
    const width_mm = typeface.width_mm(text, size_pt);
    return { x, at, text, style: { size_pt, colour: INK, halo: '#ffffff' }, width_mm };
  });
}

const rowInward = (end: 'foot' | 'head', row: number) => FIRST_MM[end] + row * ROW_MM;

/** The numbers at an end of the blank, in as many rows as they take side by side; returns how many those are. */
function drawRows(
  pen: Pen,
  labels: readonly Label[],
  end: 'foot' | 'head',
  edge: number,
  inward: 1 | -1,
): number {
  const rows: { from: number; to: number }[][] = [];
  for (const { x, at, text, style, width_mm } of labels) {
    if (at !== end) continue;
    const y = edge + inward * rowInward(end, freeRow(rows, x, x + width_mm + 1.6));
    pen.line([x, edge], [x, y], { colour: INK, width_mm: 0.3 });
    pen.text([x + 0.8, y - (end === 'foot' ? 0.6 : 0)], text, style);
  }
  return rows.length;
}

/** The first row in which a stretch is free; it is taken. */
function freeRow(rows: { from: number; to: number }[][], from: number, to: number): number {
  let row = 0;
  while (rows[row]?.some((taken) => taken.from < to && from < taken.to)) row++;
  (rows[row] ??= []).push({ from, to });
  return row;
}

/** A number beside its tick, at a height. */
interface LevelLabel extends Label {
  readonly at: number;
}

/** Numbers that could meet, because one begins before another ends, stand in one column. */
function columnsOfLabels(labels: readonly Label[]): LevelLabel[][] {
  const level = labels.filter((label): label is LevelLabel => typeof label.at === 'number');
  const columns: { labels: LevelLabel[]; end: number }[] = [];
  for (const label of level.toSorted((a, b) => a.x - b.x)) {
    const end = label.x + TICK_MM + LEADER_MM + label.width_mm + 2 * HALO_MM;
    const last = columns.at(-1);
    if (last && label.x + TICK_MM < last.end) {
      last.labels.push(label);
      last.end = Math.max(last.end, end);
    } else columns.push({ labels: [label], end });
  }
  return columns.map((column) => column.labels.toSorted((a, b) => a.at - b.at));
}

/** The numbers of a column moved apart where their ticks stand closer than they are high, each led to from its tick. */
function drawColumn(
  pen: Pen,
  column: readonly LevelLabel[],
  room: { readonly low: number; readonly high: number },
): void {
  const size_pt = Math.max(...column.map(({ style }) => style.size_pt));
  const baselines = spread(
    column.map(({ at }) => at + OVER_MM),
    APART_EM * size_pt * MM_PER_POINT + HALO_MM,
    room,
  );
  const moved = column.some(({ at }, i) => Math.abs(baselines[i] - at - OVER_MM) > UNMOVED_MM);
  for (const [i, { x, at, style }] of column.entries()) {
    pen.line([x, at], [x + TICK_MM, at], { colour: INK, width_mm: 0.3 });
    const middle = baselines[i] + 0.26 * style.size_pt * MM_PER_POINT;
    if (moved)
      pen.line([x + TICK_MM, at], [x + TICK_MM + LEADER_MM, middle], { colour: INK, width_mm: 0.15 });
  }
  for (const [i, { x, text, style }] of column.entries())
    pen.text([x + TICK_MM + (moved ? LEADER_MM : 0) + BESIDE_MM, baselines[i]], text, style);
}
