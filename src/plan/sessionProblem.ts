/**
 * What a plan of glue-ups must respect, taken from the slots once: which slot waits for which, which may not be
 * open together, which share a fence face, and what has to be set anew at the saw between two cuts. Slots are
 * numbered by their place in the cutting order. Rules: docs/shop-plan.md, "Sessions".
 */
import type { Blank, Saw } from '../design/document.ts';
import { blankSolid, interfere, sawsThroughWeb } from '../blank/interference.ts';
import type { Slot } from '../blank/slots.ts';
import { sameAzimuth } from '../geometry/angle.ts';
import { CUT_FACTS } from './cutFacts.ts';
import { stopSetting } from './setups.ts';

export interface SessionProblem {
  readonly count: number;
  readonly maxOpen: number;
  /** Earlier slots that interfere with slot i: they must be glued before it is cut. */
  readonly before: readonly (readonly number[])[];
  /** Later slots that interfere with slot i. */
  readonly after: readonly (readonly number[])[];
  /** Slots of the same lie that do not interfere with slot i but may not be open together with it. */
  readonly apartFrom: readonly (readonly number[])[];
  /** Number of the fence face (table tilted: of the way the blank lies and is fed); slots of one session have the same. */
  readonly face: Int32Array;
  readonly faces: number;
  /** Longest chain of interfering slots that starts after slot i (0: none waits for it). */
  readonly tail: Int32Array;
  /** Number of the fence angle or tilt and of the stop (which end, what distance): equal numbers need no change. */
  readonly fenceSetting: Int32Array;
  readonly stopSetting: Int32Array;
}

/** Distances and angles closer than this are the same setting: far finer than a scale can be read. */
const SAME_SETTING = 1e-6;

export function sessionProblem(
  slots: readonly Slot[],
  blank: Blank,
  maxOpen: number,
  stopSide: Saw['stop_side'],
): SessionProblem {
  const solid = blankSolid(blank);
  const count = slots.length;
  const before: number[][] = slots.map(() => []);
  const after: number[][] = slots.map(() => []);
  const apartFrom: number[][] = slots.map(() => []);
  const face = numbered(slots, sameLie);
  for (let j = 0; j < count; j++)
    for (let i = 0; i < j; i++) {
      if (interfere(slots[i], slots[j], solid)) {
        before[j].push(i);
        after[i].push(j);
      } else if (
        face[i] === face[j] &&
        (sawsThroughWeb(slots[i], slots[j], solid) || sawsThroughWeb(slots[j], slots[i], solid))
      ) {
        apartFrom[i].push(j);
        apartFrom[j].push(i);
      }
    }
  const tail = new Int32Array(count);
  for (let i = count - 1; i >= 0; i--)
    for (const later of after[i]) tail[i] = Math.max(tail[i], tail[later] + 1);
  const stops = slots.map((slot) => ({
    cut: slot.cut,
    ...stopSetting(slot, blank.length_mm, stopSide),
  }));
  return {
    count,
    maxOpen,
    before,
    after,
    apartFrom,
    face,
    faces: face.reduce((most, n) => Math.max(most, n + 1), 0),
    tail,
    fenceSetting: numbered(
      slots,
      (a, b) => a.cut === b.cut && Math.abs(a.angle_deg - b.angle_deg) < SAME_SETTING,
    ),
    stopSetting: numbered(
      stops,
      (a, b) => a.cut === b.cut && a.end === b.end && Math.abs(a.toKerf_mm - b.toKerf_mm) < SAME_SETTING,
    ),
  };
}

/** Changes of fence angle and stop between two cuts made one after the other: 0, 1 or 2. */
export function changesBetween(problem: SessionProblem, i: number, j: number): number {
  return (
    (problem.fenceSetting[i] === problem.fenceSetting[j] ? 0 : 1) +
    (problem.stopSetting[i] === problem.stopSetting[j] ? 0 : 1)
  );
}

/** Changes of fence angle and stop through a whole plan, the first set-up not counted. */
export function changesOf(problem: SessionProblem, sessions: readonly (readonly number[])[]): number {
  const cuts = sessions.flat();
  let changes = 0;
  for (let n = 1; n < cuts.length; n++) changes += changesBetween(problem, cuts[n - 1], cuts[n]);
  return changes;
}

/** Slots in the longest chain that interfere by volume, each after the one before it in the order. */
export function longestChainOf(problem: SessionProblem): number {
  return problem.tail.reduce((most, tail) => Math.max(most, tail + 1), 0);
}

/**
 * Fewest sessions that the slots not yet done can possibly take: for every t, those with a chain of at least t
 * slots after them must all be done t sessions before the end, and each face takes a session of its own.
 */
export function sessionsLeft(problem: SessionProblem, done: Uint8Array): number {
  const levels = problem.count + 1;
  const waiting = new Int32Array(levels * problem.faces);
  let deepest = -1;
  for (let i = 0; i < problem.count; i++) {
    if (done[i]) continue;
    waiting[problem.tail[i] * problem.faces + problem.face[i]]++;
    deepest = Math.max(deepest, problem.tail[i]);
  }
  let fewest = 0;
  const atLeast = new Int32Array(problem.faces);
  for (let t = deepest; t >= 0; t--) {
    let sessions = t;
    for (let f = 0; f < problem.faces; f++) {
      atLeast[f] += waiting[t * problem.faces + f];
      sessions += Math.ceil(atLeast[f] / problem.maxOpen);
    }
    fewest = Math.max(fewest, sessions);
  }
  return fewest;
}

/** Whether the blank lies alike for two cuts. */
function sameLie(a: Slot, b: Slot): boolean {
  return (
    a.cut === b.cut && sameAzimuth(a.fenceAzimuth_deg, b.fenceAzimuth_deg) && CUT_FACTS[a.cut].liesAlike(a, b)
  );
}

/** Numbers 0, 1, 2 … so that items that are the same get the same number, by first appearance. */
function numbered<T>(items: readonly T[], same: (a: T, b: T) => boolean): Int32Array {
  const found: T[] = [];
  return Int32Array.from(items, (item) => {
    const known = found.findIndex((other) => same(other, item));
    return known >= 0 ? known : found.push(item) - 1;
  });
}
