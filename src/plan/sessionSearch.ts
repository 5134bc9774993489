/**
 * The search for the fewest glue-ups. Cutting and filling is scheduling: slots are jobs of one unit, a later
 * interfering slot waits for the earlier one, a session takes at most `maxOpen` slots of one fence face.
 *
 * 1. Plans by simple rules give a first count; `sessionsLeft` gives a bound from below.
 * 2. Between the two, a depth-first search asks for a plan of T sessions, T rising from the bound. It
 *    remembers the states (sets of done slots) that cannot be finished in the sessions left.
 *
 * Two exchanges keep the search small and lose no plan of T sessions: a session may always be filled up with
 * any slot that fits, and of two ready slots that are kept apart from the same slots, the one whose followers
 * include all followers of the other may always go first. The number of sessions looked at is limited by
 * count, not by time, so that the same design gives the same plan on every machine.
 */
import { sessionsLeft, type SessionProblem } from './sessionProblem.ts';

export interface SearchResult {
  /** Slots of each session, by place in the cutting order. */
  readonly sessions: number[][];
  /** No plan can have fewer sessions than this. */
  readonly bound: number;
}

/** A plan with the fewest sessions found by looking at `limit` sessions, and the bound from below. */
export function fewestSessions(problem: SessionProblem, limit: number): SearchResult {
  const none = new Uint8Array(problem.count);
  let bound = sessionsLeft(problem, none);
  let best = planByRules(problem);
  const state: SearchState = {
    problem,
    hopeless: new Map(),
    work: 0,
    limit,
    dominates: dominance(problem),
  };
  while (bound < best.length) {
    const waiting = Int32Array.from(problem.before, (list) => list.length);
    const found = planWithin(state, new Uint8Array(none), waiting, bound);
    if (found === 'limit') break;
    if (found === null) bound++;
    else best = found;
  }
  return { sessions: best, bound };
}

interface SearchState {
  readonly problem: SessionProblem;
  /** Done slots → sessions that are known not to suffice for the rest. */
  readonly hopeless: Map<string, number>;
  /** Sessions looked at so far, and how many may be. */
  work: number;
  readonly limit: number;
  /** dominates[a * count + b]: a may always go before b. */
  readonly dominates: Uint8Array;
}

function planWithin(
  state: SearchState,
  done: Uint8Array,
  waiting: Int32Array,
  sessions: number,
): number[][] | null | 'limit' {
  const { problem } = state;
  const left = sessionsLeft(problem, done);
  if (left === 0) return [];
  if (left > sessions) return null;
  const key = keyOf(done);
  if ((state.hopeless.get(key) ?? -1) >= sessions) return null;
  const tries = fullSessions(state, done, waiting);
  state.work += tries.length;
  if (state.work > state.limit) return 'limit';
  for (const session of tries) {
    mark(problem, done, waiting, session, 1);
    const rest = planWithin(state, done, waiting, sessions - 1);
    mark(problem, done, waiting, session, -1);
    if (rest === 'limit') return rest;
    if (rest) return [session, ...rest];
  }
  state.hopeless.set(key, sessions);
  return null;
}

/** Marks a session's slots as done (+1) or takes them back (−1). */
export function mark(
  problem: SessionProblem,
  done: Uint8Array,
  waiting: Int32Array,
  session: readonly number[],
  step: 1 | -1,
): void {
  for (const slot of session) {
    done[slot] = step === 1 ? 1 : 0;
    for (const later of problem.after[slot]) waiting[later] -= step;
  }
}

/** Slots that can be cut now, for each fence face; the one with the longest chain behind it first, then the most followers. */
export function readyByFace(problem: SessionProblem, done: Uint8Array, waiting: Int32Array): number[][] {
  const ready: number[][] = Array.from({ length: problem.faces }, () => []);
  for (let i = 0; i < problem.count; i++) if (!done[i] && waiting[i] === 0) ready[problem.face[i]].push(i);
  const { tail, after } = problem;
  for (const slots of ready)
    slots.sort((a, b) => tail[b] - tail[a] || after[b].length - after[a].length || a - b);
  return ready;
}

/** Set of done slots as a string, 16 slots a character. */
export function keyOf(done: Uint8Array): string {
  let key = '';
  for (let i = 0; i < done.length; i += 16) {
    let bits = 0;
    for (let k = 0; k < 16 && i + k < done.length; k++) bits |= done[i + k] << k;
    key += String.fromCharCode(bits);
  }
  return key;
}

/** Every session worth trying next: full, and closed under the second exchange. */
function fullSessions(state: SearchState, done: Uint8Array, waiting: Int32Array): number[][] {
  const { problem, dominates } = state;
  const all: number[][] = [];
  for (const ready of readyByFace(problem, done, waiting)) {
    const chosen: number[] = [];
    const passed: number[] = [];
    const choose = (from: number): void => {
      if (chosen.length === problem.maxOpen || from === ready.length) {
        const full = chosen.length === problem.maxOpen;
        if (chosen.length > 0 && (full || !passed.some((slot) => fits(problem, chosen, slot))))
          all.push([...chosen].sort((a, b) => a - b));
        return;
      }
      const slot = ready[from];
      const mayGo =
        fits(problem, chosen, slot) && !passed.some((other) => dominates[other * problem.count + slot] === 1);
      if (mayGo) {
        chosen.push(slot);
        choose(from + 1);
        chosen.pop();
      }
      if (chosen.length + ready.length - from - 1 > 0) {
        passed.push(slot);
        choose(from + 1);
        passed.pop();
      }
    };
    choose(0);
  }
  const weight = (session: readonly number[]) =>
    session.reduce((sum, slot) => sum + 1 + problem.tail[slot] * problem.count, 0);
  return all.sort((a, b) => weight(b) - weight(a));
}

/** Whether a slot may be open together with those chosen. */
export function fits(problem: SessionProblem, chosen: readonly number[], slot: number): boolean {
  return !problem.apartFrom[slot].some((other) => chosen.includes(other));
}

function dominance(problem: SessionProblem): Uint8Array {
  const { count } = problem;
  const followers = problem.after.map((list) => new Set(list));
  const result = new Uint8Array(count * count);
  for (let a = 0; a < count; a++)
    for (let b = 0; b < count; b++) {
      if (a === b || problem.face[a] !== problem.face[b]) continue;
      if (!sameOthers(problem.apartFrom[a], problem.apartFrom[b], a, b)) continue;
      if (!problem.after[b].every((later) => followers[a].has(later))) continue;
      // Of two with the same followers the earlier one goes first.
      if (problem.after[a].length > problem.after[b].length || a < b) result[a * count + b] = 1;
    }
  return result;
}

function sameOthers(ofA: readonly number[], ofB: readonly number[], a: number, b: number): boolean {
  const left = ofA.filter((slot) => slot !== b);
  const right = ofB.filter((slot) => slot !== a);
  return left.length === right.length && left.every((slot, n) => slot === right[n]);
}

/** The best of a few plans made step by step: the next session is the one with the most behind it. */
function planByRules(problem: SessionProblem): number[][] {
  const rules: ((session: readonly number[]) => number)[] = [
    (session) => Math.max(...session.map((slot) => problem.tail[slot])) * problem.count + session.length,
    (session) => session.length * problem.count + Math.max(...session.map((slot) => problem.tail[slot])),
    (session) => session.reduce((sum, slot) => sum + 1 + problem.tail[slot], 0),
    (session) => session.reduce((sum, slot) => sum + 1 + problem.after[slot].length, 0),
  ];
  const plans = rules.map((worth) => {
    const done = new Uint8Array(problem.count);
    const waiting = Int32Array.from(problem.before, (list) => list.length);
    const plan: number[][] = [];
    for (let left = problem.count; left > 0;) {
      const candidates = readyByFace(problem, done, waiting)
        .map((ready) => {
          const session: number[] = [];
          for (const slot of ready)
            if (session.length < problem.maxOpen && fits(problem, session, slot)) session.push(slot);
          return session.sort((a, b) => a - b);
        })
        .filter((session) => session.length > 0);
      const next = candidates.reduce((best, session) => (worth(session) > worth(best) ? session : best));
      mark(problem, done, waiting, next, 1);
      plan.push(next);
      left -= next.length;
    }
    return plan;
  });
  return plans.reduce((best, plan) => (plan.length < best.length ? plan : best));
}
