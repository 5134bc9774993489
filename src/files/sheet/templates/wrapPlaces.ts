/**
 * The numbers on the layout of the marks: where the mid-plane of every kerf meets the faces. Against the fence it meets the
 * fence face and the entry face at a height each. With the table tilted it meets the ends of the blank in lines along the
 * feed: they are told where they leave the faces of entry and web, from the nearer edge of the face (round: by their
 * azimuth); where it meets the side of the ledge or the one opposite first, by the height. Frame of the layout, mm.
 */
import type { Slot } from '../../../blank/slots.ts';
import { normalizeDegrees } from '../../../geometry/angle.ts';
import type { Setup } from '../../../plan/setups.ts';
import { webSide } from '../../../plan/tableSetup.ts';
import { midlineOnFlat, type Flat } from '../../drawing/faces.ts';
import { INK } from '../../drawing/ink.ts';
import type { Pen, TextStyle } from '../../drawing/pen.ts';
import { spread } from '../../drawing/spread.ts';
import { angle, length } from '../numbers.ts';
import type { SheetSource } from '../source.ts';
import { MM_PER_PT, type Typeface } from '../typeface.ts';

interface Place {
  readonly x: number;
  /** Height, or the end whose edge it stands on. */
  readonly at: number | 'foot' | 'head';
  /** `12.34 mm`, `51.3°`. */
  readonly number: string;
  readonly name: string;
  /** Room beside it on its face. */
  readonly narrow: boolean;
}

/** Where two heights or distances are the same on paper. */
const LEVEL_MM = 1e-6;

export function placesOnFlats({ measures, design }: SheetSource, flats: readonly Flat[]): Place[] {
  const { slots, setups } = measures;
  const L = design.blank.length_mm;
  const { unit } = design;
  const places: Place[] = [];
  let left = 0;
  for (const flat of flats) {
    const width = flat.to_mm - flat.from_mm;
    const onFace = { narrow: width <= 45 };
    setups.forEach((setup, i) => {
      const add = (at: number, what: string) => {
        if (at < 0 || at > L) return;
        places.push({ ...onFace, x: left, at, number: length(at, unit), name: `${setup.slot} ${what}` });
      };
      if (setup.cut === 'fence') {
        if (setup.face === flat.letter) add(setup.mark_fence_mm, 'fence');
        if (setup.entry_face === flat.letter) add(setup.mark_entry_mm, 'entry');
        return;
      }
      const line = midlineOnFlat(slots[i], flat, L);
      if (line === null) return;
      const sides = sidesOf(setup, slots[i]);
      const what = sides.find(({ azimuth_deg }) => azimuth_deg === normalizeDegrees(flat.azimuth_deg))?.name;
      // Along the ledge the line is level: one height.
      if (Math.abs(line[0][1] - line[1][1]) < LEVEL_MM) {
        if (what === 'ledge' || what === 'far') add(line[0][1], what);
        return;
      }
      for (const [t, z] of line) {
        const end = z < LEVEL_MM ? 'foot' : z > L - LEVEL_MM ? 'head' : null;
        if (end === null) continue;
        const fromEdge = Math.min(t - flat.from_mm, flat.to_mm - t);
        places.push({
          ...onFace,
          x: left + t - flat.from_mm,
          at: end,
          number: length(fromEdge, unit),
          name: what === undefined ? setup.slot : `${setup.slot} ${what}`,
        });
      }
    });
    left += width;
  }
  return places;
}

/** The four sides of a cut with the table tilted. */
function sidesOf({ fence_azimuth_deg }: Setup, slot: Slot) {
  const side = webSide(slot);
  return [
    { name: 'ledge', turn: 0 },
    { name: 'far', turn: 180 },
    { name: 'entry', turn: -90 * side },
    { name: 'web', turn: 90 * side },
  ].map(({ name, turn }) => ({ name, azimuth_deg: normalizeDegrees(fence_azimuth_deg + turn) }));
}

export function placesRound({ measures, design, section }: SheetSource): Place[] {
  const R = section.inscribedRadius_mm;
  const L = design.blank.length_mm;
  const { unit } = design;
  const xOf = (azimuth_deg: number) => (normalizeDegrees(azimuth_deg) / 360) * 2 * Math.PI * R;
  return measures.setups.flatMap((setup, i): Place[] => {
    const slot = measures.slots[i];
    const azimuth = setup.fence_azimuth_deg;
    const heights = [
      { turn: 0, at: setup.mark_fence_mm, what: setup.cut === 'table' ? 'ledge' : 'fence' },
      { turn: 180, at: setup.mark_entry_mm, what: setup.cut === 'table' ? 'far' : 'entry' },
    ]
      .filter(({ at }) => at >= 0 && at <= L)
      .map(({ turn, at, what }): Place => ({
        x: xOf(azimuth + turn),
        at,
        number: length(at, unit),
        name: `${setup.slot} ${what}`,
        narrow: true,
      }));
    if (setup.cut === 'fence') return heights;
    const ends = (['foot', 'head'] as const).flatMap((end): Place[] => {
      const mark = end === 'foot' ? setup.table.mark_foot : setup.table.mark_head;
      if (!mark) return [];
      const open_deg = (Math.acos(Math.min(1, Math.max(-1, mark.from_axis_mm / R))) * 180) / Math.PI;
      return [
        { what: 'entry', turn: -webSide(slot) * open_deg },
        { what: 'web', turn: webSide(slot) * open_deg },
      ].map(({ what, turn }) => ({
        x: xOf(azimuth + turn),
        at: end,
        number: angle(normalizeDegrees(azimuth + turn)),
        name: `${setup.slot} ${what}`,
        narrow: true,
      }));
    });
    return [...heights, ...ends];
  });
}

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
export function drawPlaces(
  pen: Pen,
  typeface: Typeface,
  { design }: SheetSource,
  places: readonly Place[],
): void {
  const labels = labelsOf(typeface, places);
  const L = design.blank.length_mm;
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
    APART_EM * size_pt * MM_PER_PT + HALO_MM,
    room,
  );
  const moved = column.some(({ at }, i) => Math.abs(baselines[i] - at - OVER_MM) > UNMOVED_MM);
  for (const [i, { x, at, style }] of column.entries()) {
    pen.line([x, at], [x + TICK_MM, at], { colour: INK, width_mm: 0.3 });
    const middle = baselines[i] + 0.26 * style.size_pt * MM_PER_PT;
    if (moved)
      pen.line([x + TICK_MM, at], [x + TICK_MM + LEADER_MM, middle], { colour: INK, width_mm: 0.15 });
  }
  for (const [i, { x, text, style }] of column.entries())
    pen.text([x + TICK_MM + (moved ? LEADER_MM : 0) + BESIDE_MM, baselines[i]], text, style);
}
