/**
 * The bands of the unrolled map: for each slot the part of the outside that it holds, as a path. Painted in
 * cutting order they show last cut wins. Azimuth across (radians, continuous), distance along the outside up
 * (mm). The arcs are the engine's (blank/arcs.ts); rows stand at most ROW_MM apart and are halved where arcs
 * begin, end, split or join, down to FINEST_MM.
 */
import { slotArcsAt, type Arc } from '../../blank/arcs.ts';
import type { Slot } from '../../blank/slots.ts';
import { outsideAt, type OutsideLine } from '../../blank/outsideLine.ts';

const ROW_MM = 1;
const FINEST_MM = 0.01;

interface Row {
  readonly along_mm: number;
  readonly arcs: readonly Arc[];
}

/** One quadrilateral of a band: its lower and its upper edge. Azimuths may pass 2π. */
export interface BandCell {
  readonly low_mm: number;
  readonly lowFrom_rad: number;
  readonly lowTo_rad: number;
  readonly high_mm: number;
  readonly highFrom_rad: number;
  readonly highTo_rad: number;
}

/** What a slot holds of the outside, as cells between neighbouring rows. */
export function bandCells(slot: Slot, line: OutsideLine): BandCell[] {
  const rowAt = (along_mm: number): Row => {
    const { z_mm, r_mm } = outsideAt(line, along_mm);
    return { along_mm, arcs: slotArcsAt(slot, z_mm, r_mm) };
  };
  const cells: BandCell[] = [];
  const places = rowPlaces(line);
  let below = rowAt(places[0]);
  for (const place of places.slice(1)) {
    const above = rowAt(place);
    connect(below, above, rowAt, cells);
    below = above;
  }
  return cells;
}

function rowPlaces(line: OutsideLine): number[] {
  const places = [0];
  for (let i = 0; i + 1 < line.along_mm.length; i++) {
    const from = line.along_mm[i];
    const to = line.along_mm[i + 1];
    const pieces = Math.ceil((to - from) / ROW_MM);
    for (let k = 1; k <= pieces; k++) places.push(from + ((to - from) * k) / pieces);
  }
  return places;
}

function connect(below: Row, above: Row, rowAt: (along_mm: number) => Row, cells: BandCell[]): void {
  if (below.arcs.length === 0 && above.arcs.length === 0) return;
  const pairs = pairArcs(below.arcs, above.arcs);
  const gap = above.along_mm - below.along_mm;
  if (gap > FINEST_MM && (pairs === null || pairs.some(bends))) {
    const middle = rowAt((below.along_mm + above.along_mm) / 2);
    connect(below, middle, rowAt, cells);
    connect(middle, above, rowAt, cells);
    return;
  }
  if (pairs === null) {
    // Within FINEST_MM an arc begins, ends, splits or joins: the fuller row stands for the gap.
    const fuller = below.arcs.length >= above.arcs.length ? below : above;
    for (const arc of fuller.arcs) cells.push(cell(below.along_mm, arc, above.along_mm, arc));
    return;
  }
  for (const [low, high] of pairs) cells.push(cell(below.along_mm, low, above.along_mm, high));
}

/** Azimuth by which an edge may move from row to row before the rows are halved. */
const BEND_RAD = 0.06;

function bends([low, high]: readonly [Arc, Arc]): boolean {
  return Math.abs(low.from_rad - high.from_rad) > BEND_RAD || Math.abs(low.to_rad - high.to_rad) > BEND_RAD;
}

function cell(low_mm: number, low: Arc, high_mm: number, high: Arc): BandCell {
  return {
    low_mm,
    lowFrom_rad: low.from_rad,
    lowTo_rad: low.to_rad,
    high_mm,
    highFrom_rad: high.from_rad,
    highTo_rad: high.to_rad,
  };
}

const TURN = 2 * Math.PI;

/** Arcs of two rows that overlap, one to one and shifted to the same turn; null where they do not pair off. */
function pairArcs(below: readonly Arc[], above: readonly Arc[]): [Arc, Arc][] | null {
  if (below.length !== above.length) return null;
  const free = [...above];
  const pairs: [Arc, Arc][] = [];
  for (const low of below) {
    const found = free.findIndex((high) => overlapTurn(low, high) !== null);
    if (found < 0) return null;
    const [high] = free.splice(found, 1);
    const turn = (overlapTurn(low, high) ?? 0) * TURN;
    pairs.push([low, { from_rad: high.from_rad + turn, to_rad: high.to_rad + turn }]);
  }
  return pairs;
}

/** Whole turns by which b must move to overlap a best; null where it does not overlap. */
function overlapTurn(a: Arc, b: Arc): number | null {
  let best: number | null = null;
  let bestOverlap = 0;
  for (const turn of [-1, 0, 1]) {
    const overlap =
      Math.min(a.to_rad, b.to_rad + turn * TURN) - Math.max(a.from_rad, b.from_rad + turn * TURN);
    if (overlap > bestOverlap) {
      bestOverlap = overlap;
      best = turn;
    }
  }
  return best;
}
