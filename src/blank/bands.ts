/**
 * What a slot holds of the turned outside, as strands: stretches of rows over the length of the outside, each row the
 * azimuths between which the slot holds that circle. Painted in cutting order they show last cut wins. The arcs are the
 * engine's (arcs.ts); rows are halved until the edges between them are straight to what is asked, and down to FINEST_MM
 * where arcs begin, end, split or join. Lathe frame, mm, radians.
 */
import { TURN } from '../geometry/angle.ts';
import { slotArcsAt, type Arc } from './arcs.ts';
import { outsideAt, type OutsideLine } from './outsideLine.ts';
import { layerBounds_mm, type Slot } from './slots.ts';

export interface BandRow {
  /** Distance along the outside from its beginning. */
  readonly along_mm: number;
  readonly z_mm: number;
  readonly r_mm: number;
  /** Continuous along a strand: they may lie beyond a turn. */
  readonly from_rad: number;
  readonly to_rad: number;
}

/** At least two rows, ascending. */
export type BandStrand = readonly BandRow[];

/** Azimuths to keep, from … to (at most a turn). */
export interface Window {
  readonly from_rad: number;
  readonly to_rad: number;
}

export interface BandDetail {
  /** How far an edge may lie from the true one, mm on the wood. */
  readonly true_mm: number;
  /** Rows stand at most so far apart (left out: a third of the kerf, so that no notch is stepped over). */
  readonly step_mm?: number;
  /** Left out: all azimuths, each strand once. */
  readonly window?: Window;
}

/** A point of the outside. */
export interface SurfacePoint {
  readonly azimuth_rad: number;
  readonly along_mm: number;
  readonly z_mm: number;
  readonly r_mm: number;
}

interface Row {
  readonly along_mm: number;
  readonly z_mm: number;
  readonly r_mm: number;
  readonly arcs: readonly Arc[];
}

const FINEST_MM = 0.01;
const COARSEST_MM = 1;
/** The strands of a slot on the outside. */
export function bandStrands(
  slot: Slot,
  line: OutsideLine,
  { true_mm, step_mm, window }: BandDetail,
): BandStrand[] {
  // The narrowest band is a kerf wide along the outside.
  const narrow_mm = Math.min(COARSEST_MM, slot.kerf_mm / 3);
  const across = Math.hypot(slot.normal[0], slot.normal[1]);
  const rowAt = (along_mm: number): Row => {
    const { z_mm, r_mm } = outsideAt(line, along_mm);
    // Most circles lie wholly to one side of the slot.
    const clear = Math.abs(slot.normal[2] * z_mm - slot.offset_mm) > across * r_mm + slot.kerf_mm / 2 + 1e-6;
    const arcs = clear ? [] : slotArcsAt(slot, z_mm, r_mm);
    return { along_mm, z_mm, r_mm, arcs: window ? within(arcs, window) : arcs };
  };
  const weaver = new Weaver();
  const connect = (below: Row, above: Row): void => {
    const gap_mm = above.along_mm - below.along_mm;
    const empty = below.arcs.length === 0 && above.arcs.length === 0;
    if (empty && gap_mm <= narrow_mm + 1e-9) return;
    if (gap_mm > FINEST_MM) {
      const middle = rowAt((below.along_mm + above.along_mm) / 2);
      if (!empty && isStraight(below, middle, above, true_mm)) {
        weaver.join(below, middle);
        weaver.join(middle, above);
      } else {
        connect(below, middle);
        connect(middle, above);
      }
      return;
    }
    weaver.join(below, above);
  };
  const places = rowPlaces(line, step_mm ?? narrow_mm);
  let below = rowAt(places[0]);
  for (const place of places.slice(1)) {
    const above = rowAt(place);
    connect(below, above);
    below = above;
  }
  return weaver.finished();
}

function rowPlaces(line: OutsideLine, step_mm: number): number[] {
  const places = [0];
  for (let i = 0; i + 1 < line.along_mm.length; i++) {
    const from = line.along_mm[i];
    const to = line.along_mm[i + 1];
    const pieces = Math.ceil((to - from) / step_mm);
    for (let k = 1; k <= pieces; k++) places.push(from + ((to - from) * k) / pieces);
  }
  return places;
}

/** Arcs inside the window, ascending. */
function within(arcs: readonly Arc[], window: Window): Arc[] {
  const spans: Arc[] = [];
  for (const arc of arcs) {
    if (arc.to_rad - arc.from_rad >= TURN) return [window];
    const first = Math.ceil((window.from_rad - arc.to_rad) / TURN);
    const last = Math.floor((window.to_rad - arc.from_rad) / TURN);
    for (let turn = first; turn <= last; turn++) {
      const from_rad = Math.max(arc.from_rad + turn * TURN, window.from_rad);
      const to_rad = Math.min(arc.to_rad + turn * TURN, window.to_rad);
      if (to_rad > from_rad) spans.push({ from_rad, to_rad });
    }
  }
  return spans.sort((a, b) => a.from_rad - b.from_rad);
}

/** Puts rows together to strands. */
class Weaver {
  readonly #strands: BandRow[][] = [];
  #open: BandRow[][] = [];
  #top: Row | null = null;

  /** From the top row so far, or a fresh one, to the next. */
  join(below: Row, above: Row): void {
    if (this.#top?.along_mm !== below.along_mm) this.#begin(below, below.arcs);
    const last = this.#open.map((rows): Arc => rows[rows.length - 1]);
    const pairs = pairArcs(last, above.arcs);
    if (pairs) this.#open.forEach((rows, i) => rows.push(rowOf(above, pairs[i])));
    else if (last.length >= above.arcs.length) {
      // Within FINEST_MM an arc begins, ends, splits or joins: the fuller row stands for the gap.
      this.#open.forEach((rows, i) => rows.push(rowOf(above, last[i])));
      this.#begin(above, above.arcs);
    } else {
      this.#begin(below, above.arcs);
      this.#open.forEach((rows, i) => rows.push(rowOf(above, above.arcs[i])));
    }
    this.#top = above;
  }

  finished(): BandStrand[] {
    this.#close();
    return this.#strands;
  }

  #begin(row: Row, arcs: readonly Arc[]): void {
    this.#close();
    this.#open = arcs.map((arc) => [rowOf(row, arc)]);
  }

  #close(): void {
    this.#strands.push(...this.#open.filter((rows) => rows.length > 1));
    this.#open = [];
  }
}

function rowOf({ along_mm, z_mm, r_mm }: Row, { from_rad, to_rad }: Arc): BandRow {
  return { along_mm, z_mm, r_mm, from_rad, to_rad };
}

function isStraight(below: Row, middle: Row, above: Row, true_mm: number): boolean {
  const up = pairArcs(below.arcs, middle.arcs);
  const on = up && pairArcs(up, above.arcs);
  if (!on) return false;
  return up.every((arc, i) =>
    (['from_rad', 'to_rad'] as const).every(
      (end) => Math.abs(arc[end] - (below.arcs[i][end] + on[i][end]) / 2) * middle.r_mm <= true_mm,
    ),
  );
}

/** For each arc of a row the one of the next that overlaps it, one to one, shifted to the same turn; null where they do not pair off. */
function pairArcs(below: readonly Arc[], above: readonly Arc[]): Arc[] | null {
  if (below.length !== above.length) return null;
  const free = [...above];
  const pairs: Arc[] = [];
  for (const low of below) {
    const found = free.findIndex((high) => overlapTurn(low, high) !== null);
    if (found < 0) return null;
    const [high] = free.splice(found, 1);
    const turn = (overlapTurn(low, high) ?? 0) * TURN;
    pairs.push({ from_rad: high.from_rad + turn, to_rad: high.to_rad + turn });
  }
  return pairs;
}

/** Whole turns by which b must move to overlap a best; null where it does not overlap. */
function overlapTurn(a: Arc, b: Arc): number | null {
  let best: number | null = null;
  let bestOverlap = 0;
  const nearest = Math.round((a.from_rad + a.to_rad - b.from_rad - b.to_rad) / 2 / TURN);
  for (const turn of [nearest, nearest - 1, nearest + 1]) {
    const overlap =
      Math.min(a.to_rad, b.to_rad + turn * TURN) - Math.max(a.from_rad, b.from_rad + turn * TURN);
    if (overlap > bestOverlap) {
      bestOverlap = overlap;
      best = turn;
    }
  }
  return best;
}

/** The strand once round: up its one edge, down its other. */
export function outlineOf(strand: BandStrand): SurfacePoint[] {
  const edge = (end: 'from_rad' | 'to_rad') =>
    strand.map((row): SurfacePoint => ({
      azimuth_rad: row[end],
      along_mm: row.along_mm,
      z_mm: row.z_mm,
      r_mm: row.r_mm,
    }));
  return [...edge('from_rad'), ...edge('to_rad').reverse()];
}

/** The layers of a strip as slots of their own, foot side first. */
export function layersAsSlots(slot: Slot): Slot[] {
  const bounds = layerBounds_mm(slot);
  return slot.layers.map((layer, i) => ({
    ...slot,
    offset_mm: slot.offset_mm + (bounds[i] + bounds[i + 1]) / 2,
    kerf_mm: bounds[i + 1] - bounds[i],
    layers: [layer],
  }));
}
