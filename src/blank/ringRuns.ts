/**
 * The centreline of a ring on one frustum of the outside, split into runs that show, that later strips cover
 * and that lie in the web. Lathe frame, mm, radians; formulas in geometry/frustum.ts.
 */
import {
  alongCut,
  alongGenerator,
  cutLength_mm,
  cutOf,
  cutParameter,
  generatorsOf,
  type Cut,
  type Frustum,
} from '../geometry/frustum.ts';
import type { HalfSpace } from '../geometry/halfspace.ts';
import { intersect, subtract, withinHalfAngle, type Intervals } from '../geometry/intervals.ts';
import type { SlotSpaces } from './slotSpaces.ts';

export type PathState = 'shown' | 'hidden' | 'missing';

/** Point of a run at one of its parameters: t along the frustum, ψ about the axis from the kerf's normal. */
export interface RunPoint {
  readonly t: number;
  readonly psi_rad: number;
}

export interface Run {
  readonly state: PathState;
  readonly from: number;
  readonly to: number;
  readonly length_mm: number;
  /** Whether the parameter is ψ itself; on a straight run along a generator it is t. */
  readonly turns: boolean;
  at(parameter: number): RunPoint;
}

/**
 * Runs of the mid-plane's curve on the frustum; `later` are the slots cut after this one. `isLast`: the
 * frustum at the end of the outside (a circle at a joint belongs to the frustum that begins there).
 */
export function runsOn(
  frustum: Frustum,
  mid: HalfSpace,
  stop: HalfSpace,
  later: readonly SlotSpaces[],
  isLast: boolean,
): Run[] {
  const generators = generatorsOf(frustum, mid);
  if (generators) return generators.flatMap((psi) => straightRuns(frustum, mid, psi, stop, later));
  const cut = cutOf(frustum, mid);
  if (!cut || (mid.horizontal === 0 && !isLast && outlineParameter(cut) === 1)) return [];
  const whole: Intervals = [-cut.high_rad, -cut.low_rad, cut.low_rad, cut.high_rad];
  const inSlot = heldOnCut(cut, [stop], whole);
  let shown = inSlot;
  for (const slot of later) {
    if (shown.length === 0) break;
    shown = subtract(shown, heldOnCut(cut, slot, shown));
  }
  const at = (psi_rad: number) => ({ t: cutParameter(cut, psi_rad), psi_rad });
  return byState(whole, inSlot, shown, (state, from, to) => ({
    state,
    from,
    to,
    length_mm: from < 0 ? cutLength_mm(cut, -to, -from) : cutLength_mm(cut, from, to),
    turns: true,
    at,
  }));
}

/** Where a circle square to the axis lies along the frustum, 0 to 1 in the outline's direction. */
function outlineParameter(cut: Cut): number {
  const t = cutParameter(cut, 0);
  return cut.frustum.alongStep_mm < 0 ? 1 - t : t;
}

function straightRuns(
  frustum: Frustum,
  mid: HalfSpace,
  psi: number,
  stop: HalfSpace,
  later: readonly SlotSpaces[],
): Run[] {
  const mirrored = psi === 0 || psi === Math.PI ? [psi] : [-psi, psi];
  return mirrored.flatMap((psi_rad) => {
    const inSlot = alongGenerator(frustum, mid, psi_rad, stop);
    let shown = inSlot;
    for (const slot of later) {
      let held = shown;
      for (const space of slot) held = intersect(held, alongGenerator(frustum, mid, psi_rad, space));
      shown = subtract(shown, held);
    }
    const at = (t: number) => ({ t, psi_rad });
    return byState([0, 1], inSlot, shown, (state, from, to) => ({
      state,
      from,
      to,
      length_mm: (to - from) * frustum.slant_mm,
      turns: false,
      at,
    }));
  });
}

function byState(
  whole: Intervals,
  inSlot: Intervals,
  shown: Intervals,
  make: (state: PathState, from: number, to: number) => Run,
): Run[] {
  const runs: Run[] = [];
  const add = (state: PathState, set: Intervals) => {
    for (let i = 0; i < set.length; i += 2) runs.push(make(state, set[i], set[i + 1]));
  };
  add('shown', shown);
  add('hidden', subtract(inSlot, shown));
  add('missing', subtract(whole, inSlot));
  return runs;
}

/** The part of `among` that all the half-spaces hold. */
function heldOnCut(cut: Cut, spaces: readonly HalfSpace[], among: Intervals): Intervals {
  let held = among;
  for (const space of spaces) {
    const along = alongCut(cut, space);
    if (along.kind === 'none') return [];
    if (along.kind === 'arc')
      held = intersect(held, withinHalfAngle(along.center_rad, along.half_rad, -Math.PI, Math.PI));
    if (held.length === 0) return held;
  }
  return held;
}
