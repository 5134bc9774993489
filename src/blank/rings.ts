/**
 * Rings: where the mid-plane of each kerf meets the outside of the turned form (docs/geometry.md, "Rings").
 * Lathe frame, mm, radians.
 */
import { frustaOf, SAME_MM } from '../geometry/frustum.ts';
import type { Profile } from '../geometry/outline.ts';
import type { SlotId } from '../design/document.ts';
import { runsOn, type PathState } from './ringRuns.ts';
import { midSpace, presentOn, slotSpaces } from './slotSpaces.ts';
import type { Slot } from './slots.ts';

export type { PathState };

export interface Ring {
  readonly slot: SlotId;
  /** Of the centreline on the outside, web included; null where the mid-plane misses the outside. */
  readonly zLow_mm: number | null;
  readonly zHigh_mm: number | null;
  readonly span_mm: number | null;
  /** Length of the centreline on the outside, web or not; 0 where it misses. */
  readonly length_mm: number;
  /** The part of it in the web. */
  readonly missing_mm: number;
  /** The part of it inside the slot but covered by later strips. */
  readonly hidden_mm: number;
  /** Whether the centreline closes on itself, web or not (in one loop or several). */
  readonly closed: boolean;
  /** Closed, and nothing missing. */
  readonly whole: boolean;
  /** Whole, and nothing hidden. */
  readonly unbroken: boolean;
  /** Ends of the outside that the centreline runs off, foot first. */
  readonly runsOff: readonly ('foot' | 'head')[];
}

/** A run of the centreline in one state. */
export interface RingPath {
  readonly state: PathState;
  /** Points along it: distance along the outside, azimuth (continuous, may leave [0, 2π)), z and r. */
  readonly along_mm: Float64Array;
  readonly azimuth_rad: Float64Array;
  readonly z_mm: Float64Array;
  readonly r_mm: Float64Array;
}

/** One ring per slot, in cutting order. */
export function ringsOf(slots: readonly Slot[], profile: Profile): Ring[] {
  const spaces = slots.map(slotSpaces);
  const mids = slots.map(midSpace);
  const low = new Float64Array(slots.length).fill(Infinity);
  const high = new Float64Array(slots.length).fill(-Infinity);
  const lengths = {
    shown: new Float64Array(slots.length),
    hidden: new Float64Array(slots.length),
    missing: new Float64Array(slots.length),
  };
  const frusta = frustaOf(profile);
  frusta.forEach((frustum, f) => {
    const present = presentOn(frustum, spaces);
    let firstLater = 0;
    for (let i = 0; i < slots.length; i++) {
      while (firstLater < present.length && present[firstLater] <= i) firstLater++;
      const later = present.slice(firstLater).map((k) => spaces[k]);
      for (const run of runsOn(frustum, mids[i], spaces[i][2], later, f + 1 === frusta.length)) {
        lengths[run.state][i] += run.length_mm;
        for (const end of [run.from, run.to]) {
          const z = frustum.za_mm + run.at(end).t * frustum.dz_mm;
          if (z < low[i]) low[i] = z;
          if (z > high[i]) high[i] = z;
        }
      }
    }
  });
  return slots.map((slot, i) => {
    const found = low[i] <= high[i];
    const missing_mm = pastTouching(lengths.missing[i], slot);
    const hidden_mm = pastTouching(lengths.hidden[i], slot);
    const runsOff = endsMet(slot, profile);
    const closed = found && runsOff.length === 0;
    return {
      slot: slot.id,
      zLow_mm: found ? low[i] : null,
      zHigh_mm: found ? high[i] : null,
      span_mm: found ? high[i] - low[i] : null,
      length_mm: lengths.shown[i] + lengths.hidden[i] + lengths.missing[i],
      missing_mm,
      hidden_mm,
      closed,
      whole: closed && missing_mm === 0,
      unbroken: closed && missing_mm === 0 && hidden_mm === 0,
      runsOff,
    };
  });
}

/**
 * A length, or 0 where it is no more than what rounding makes of a mere touch: a circle that reaches
 * SAME_MM past a line is cut by it over about √(8 r · SAME_MM).
 */
function pastTouching(length_mm: number, slot: Slot): number {
  return length_mm <= 2 * Math.sqrt(8 * slot.fenceSupport_mm * SAME_MM) ? 0 : length_mm;
}

/** Ends of the outside whose circle the mid-plane crosses. */
function endsMet(slot: Slot, profile: Profile): ('foot' | 'head')[] {
  const mid = midSpace(slot);
  const crosses = (vertex: number) =>
    Math.abs(mid.nz * profile.z_mm[vertex] - mid.c_mm) < mid.horizontal * profile.r_mm[vertex] - SAME_MM;
  const ends: ('foot' | 'head')[] = [];
  if (crosses(profile.outsideStart)) ends.push('foot');
  if (crosses(profile.outsideEnd)) ends.push('head');
  return ends;
}

interface Points {
  state: PathState;
  along: number[];
  azimuth: number[];
  z: number[];
  r: number[];
}

/** The centreline of slot `index` on the outside, for drawing: runs of points at most `step_rad` of azimuth apart. */
export function ringPaths(
  slots: readonly Slot[],
  profile: Profile,
  index: number,
  step_rad = 0.05,
): RingPath[] {
  const mid = midSpace(slots[index]);
  const zeroAzimuth = Math.atan2(mid.hy, mid.hx);
  const spaces = slots.map(slotSpaces);
  const paths: Points[] = [];
  const frusta = frustaOf(profile);
  frusta.forEach((frustum, f) => {
    const later = presentOn(frustum, spaces).flatMap((i) => (i > index ? [spaces[i]] : []));
    for (const run of runsOn(frustum, mid, spaces[index][2], later, f + 1 === frusta.length)) {
      const path: Points = { state: run.state, along: [], azimuth: [], z: [], r: [] };
      const steps = run.turns ? Math.max(2, Math.ceil((run.to - run.from) / step_rad)) : 1;
      for (let k = 0; k <= steps; k++) {
        const { t, psi_rad } = run.at(run.from + ((run.to - run.from) * k) / steps);
        path.along.push(frustum.along_mm + t * frustum.alongStep_mm);
        path.azimuth.push(zeroAzimuth + psi_rad);
        path.z.push(frustum.za_mm + t * frustum.dz_mm);
        path.r.push(frustum.ra_mm + t * frustum.dr_mm);
      }
      attach(paths, path);
    }
  });
  return paths.map((path) => ({
    state: path.state,
    along_mm: Float64Array.from(path.along),
    azimuth_rad: Float64Array.from(path.azimuth),
    z_mm: Float64Array.from(path.z),
    r_mm: Float64Array.from(path.r),
  }));
}

/** Adds a path to those whose end it continues in the same state, or as a new one. */
function attach(paths: Points[], added: Points): void {
  const near = (a: Points, i: number, b: Points, j: number) =>
    Math.abs(a.along[i] - b.along[j]) < 1e-6 && Math.abs(a.azimuth[i] - b.azimuth[j]) < 1e-6;
  let path = added;
  for (let k = paths.length - 1; k >= 0; k--) {
    const known = paths[k];
    if (known.state !== path.state) continue;
    const end = known.along.length - 1;
    const last = path.along.length - 1;
    if (near(known, 0, path, 0) || near(known, end, path, last)) reverse(path);
    if (near(known, end, path, 0)) path = joined(known, path);
    else if (near(known, 0, path, last)) path = joined(path, known);
    else continue;
    paths.splice(k, 1);
  }
  paths.push(path);
}

function reverse(path: Points): void {
  for (const list of [path.along, path.azimuth, path.z, path.r]) list.reverse();
}

function joined(a: Points, b: Points): Points {
  return {
    state: a.state,
    along: [...a.along, ...b.along.slice(1)],
    azimuth: [...a.azimuth, ...b.azimuth.slice(1)],
    z: [...a.z, ...b.z.slice(1)],
    r: [...a.r, ...b.r.slice(1)],
  };
}
