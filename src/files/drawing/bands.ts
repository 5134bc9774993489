/**
 * What a slot holds of the turned outside, as closed outlines in azimuth and length (for the unrolled map) that
 * project to any view. Painted in cutting order they show last cut wins. The arcs are the engine's
 * (blank/arcs.ts); rows are halved until the outline between them is straight to TRUE_MM on the wood.
 * Lathe frame, mm, radians.
 */
import { slotArcsAt } from '../../blank/arcs.ts';
import type { Slot } from '../../blank/slots.ts';
import type { Profile } from '../../geometry/outline.ts';

export interface SurfacePoint {
  readonly azimuth_rad: number;
  /** Distance along the outside from its beginning. */
  readonly along_mm: number;
  readonly z_mm: number;
  readonly r_mm: number;
}

/** Azimuths to keep, from … to (at most a turn). */
export interface Window {
  readonly from_rad: number;
  readonly to_rad: number;
}

interface Row {
  readonly along_mm: number;
  readonly z_mm: number;
  readonly r_mm: number;
  /** Ascending, inside the window, disjoint. */
  readonly spans: readonly (readonly [from_rad: number, to_rad: number])[];
}

/** How far an outline may lie from the true one, mm on the wood. */
const TRUE_MM = 0.03;
const FINEST_MM = 0.01;
const COARSEST_MM = 1;
const TURN = 2 * Math.PI;

/** Closed outlines of the slot's band inside the window, each once round. */
export function bandOutlines(slot: Slot, profile: Profile, window: Window): SurfacePoint[][] {
  const step_mm = Math.min(COARSEST_MM, slot.kerf_mm / 3);
  const outlines: SurfacePoint[][] = [];
  const open: { rows: Row[]; which: number[] }[] = [];
  let previous: Row | null = null;

  const close = (strand: { rows: Row[]; which: number[] }) => {
    if (strand.rows.length < 2) return;
    const side = (end: 0 | 1) =>
      strand.rows.map(({ along_mm, z_mm, r_mm, spans }, i) => ({
        azimuth_rad: spans[strand.which[i]][end],
        along_mm,
        z_mm,
        r_mm,
      }));
    outlines.push([...side(0), ...side(1).reverse()]);
  };
  const take = (row: Row) => {
    if (previous && continues(previous, row))
      open.forEach((strand, i) => {
        strand.rows.push(row);
        strand.which.push(i);
      });
    else {
      open.splice(0).forEach(close);
      row.spans.forEach((_, i) => open.push({ rows: [row], which: [i] }));
    }
    previous = row;
  };

  eachOutsideStep(profile, step_mm, (rowAt, from_mm, to_mm) => {
    if (!mayReach(slot, rowAt(from_mm), rowAt(to_mm))) {
      take({ along_mm: to_mm, ...rowAt(to_mm), spans: [] });
      return;
    }
    const at = (along_mm: number): Row => {
      const { z_mm, r_mm } = rowAt(along_mm);
      return { along_mm, z_mm, r_mm, spans: spansAt(slot, z_mm, r_mm, window) };
    };
    const refine = (a: Row, b: Row) => {
      const gap = b.along_mm - a.along_mm;
      const empty = a.spans.length === 0 && b.spans.length === 0;
      if (empty || gap <= FINEST_MM) {
        take(b);
        return;
      }
      const middle = at((a.along_mm + b.along_mm) / 2);
      if (isStraight(a, middle, b)) {
        take(middle);
        take(b);
      } else {
        refine(a, middle);
        refine(middle, b);
      }
    };
    const first = at(from_mm);
    take(first);
    refine(first, at(to_mm));
  });
  open.splice(0).forEach(close);
  return outlines;
}

/** Whether a slot can reach the outside anywhere between two rows: |f| ≤ k/2 at some azimuth, whatever its web. */
function mayReach(slot: Slot, a: { z_mm: number; r_mm: number }, b: { z_mm: number; r_mm: number }): boolean {
  const [x, y, up] = slot.normal;
  const half_mm = Math.hypot(x, y) * Math.max(a.r_mm, b.r_mm) + slot.kerf_mm / 2 + FINEST_MM;
  const low = up * a.z_mm - slot.offset_mm;
  const high = up * b.z_mm - slot.offset_mm;
  return Math.min(low, high) <= half_mm && Math.max(low, high) >= -half_mm;
}

/** Calls `visit` for the pieces of the outside, each at most step_mm long and on one segment of the profile. */
function eachOutsideStep(
  profile: Profile,
  step_mm: number,
  visit: (at: (along_mm: number) => { z_mm: number; r_mm: number }, from_mm: number, to_mm: number) => void,
): void {
  let along_mm = 0;
  for (let i = profile.outsideStart; i < profile.outsideEnd; i++) {
    const dz = profile.z_mm[i + 1] - profile.z_mm[i];
    const dr = profile.r_mm[i + 1] - profile.r_mm[i];
    const length = Math.hypot(dz, dr);
    const start = along_mm;
    const at = (along: number) => ({
      z_mm: profile.z_mm[i] + ((along - start) / length) * dz,
      r_mm: profile.r_mm[i] + ((along - start) / length) * dr,
    });
    const pieces = Math.max(1, Math.ceil(length / step_mm));
    for (let k = 0; k < pieces; k++)
      visit(at, start + (k / pieces) * length, start + ((k + 1) / pieces) * length);
    along_mm += length;
  }
}

function spansAt(slot: Slot, z_mm: number, r_mm: number, window: Window): [number, number][] {
  const spans: [number, number][] = [];
  for (const arc of slotArcsAt(slot, z_mm, r_mm)) {
    if (arc.to_rad - arc.from_rad >= TURN) return [[window.from_rad, window.to_rad]];
    const first = Math.ceil((window.from_rad - arc.to_rad) / TURN);
    const last = Math.floor((window.to_rad - arc.from_rad) / TURN);
    for (let turn = first; turn <= last; turn++) {
      const from = Math.max(arc.from_rad + turn * TURN, window.from_rad);
      const to = Math.min(arc.to_rad + turn * TURN, window.to_rad);
      if (to > from) spans.push([from, to]);
    }
  }
  return spans.sort((a, b) => a[0] - b[0]);
}

/** Whether the spans of two rows pair off one by one. */
function continues(a: Row, b: Row): boolean {
  return (
    a.spans.length === b.spans.length &&
    a.spans.every(([from, to], i) => from <= b.spans[i][1] && b.spans[i][0] <= to)
  );
}

function isStraight(a: Row, middle: Row, b: Row): boolean {
  return (
    continues(a, middle) &&
    continues(middle, b) &&
    middle.spans.every((span, i) =>
      ([0, 1] as const).every(
        (end) => Math.abs(span[end] - (a.spans[i][end] + b.spans[i][end]) / 2) * middle.r_mm <= TRUE_MM,
      ),
    )
  );
}
