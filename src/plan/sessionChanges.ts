/**
 * Between plans with equally many glue-ups: the one with the fewest changes of fence angle and stop.
 *
 * 1. The better of the plan at hand and one that repeats set-ups (sessionRepeat.ts) is improved step by step:
 *    a session moved to another place, a slot moved to or exchanged with another session, as the rules allow.
 * 2. A branch-and-bound search over (done slots, last set-up) then looks for a better one and, where it ends
 *    within its limit, proves that there is none. Here a session need not be full: leaving a slot for a later
 *    session may save a change.
 */
import { changesOf, sessionsLeft, type SessionProblem } from './sessionProblem.ts';
import { repeatingPlan } from './sessionRepeat.ts';
import { SessionOrders, type CutOrder } from './sessionOrder.ts';
import { fits, keyOf, mark, readyByFace } from './sessionSearch.ts';

export interface ChangesResult {
  readonly plan: number[][];
  /** Whether no plan with as many sessions has fewer changes. */
  readonly proven: boolean;
}

/** The plan with the fewest changes found by looking at `limit` sessions; never more sessions than in `plan`. */
export function fewestChanges(
  problem: SessionProblem,
  plan: readonly (readonly number[])[],
  limit: number,
): ChangesResult {
  const orders = new SessionOrders(problem);
  const repeating = repeatingPlan(problem, plan.length);
  const first = [plan, ...(repeating ? [repeating] : [])].reduce((best, candidate) =>
    orders.best(candidate).changes < orders.best(best).changes ? candidate : best,
  );
  const start = orders.best(improved(problem, orders, first, (1.2 * limit) / problem.count));
  const { plan: found, proven } = searched(problem, orders, start.plan, limit);
  const sessions = found.map((session) => session.toSorted((a, b) => a - b));
  return { plan: orders.best(sessions, true).plan, proven };
}

/** Exchanges and moves as long as one of them saves a change, `tries` of them at most. */
function improved(
  problem: SessionProblem,
  orders: SessionOrders,
  plan: readonly (readonly number[])[],
  tries: number,
): number[][] {
  let best = plan.map((session) => [...session].sort((a, b) => a - b));
  let fewest = orders.best(best).changes;
  let left = tries;
  for (let again = true; again && left > 0;) {
    again = false;
    for (const next of neighbours(problem, best)) {
      if (--left < 0) break;
      const { changes } = orders.best(next);
      if (changes >= fewest) continue;
      best = next;
      fewest = changes;
      again = true;
      break;
    }
  }
  return best;
}

/** Lawful plans one step away from a plan. */
function* neighbours(problem: SessionProblem, plan: readonly number[][]): Generator<number[][]> {
  const place = new Int32Array(problem.count);
  plan.forEach((session, n) => session.forEach((slot) => (place[slot] = n)));
  const earliest = (slots: readonly number[]) =>
    Math.max(0, ...slots.flatMap((slot) => problem.before[slot].map((other) => place[other] + 1)));
  const latest = (slots: readonly number[]) =>
    Math.min(
      plan.length - 1,
      ...slots.flatMap((slot) => problem.after[slot].map((other) => place[other] - 1)),
    );
  for (let from = 0; from < plan.length; from++) {
    const low = earliest(plan[from]);
    const high = latest(plan[from]);
    for (let to = low; to <= high; to++) {
      if (to === from) continue;
      const moved = plan.filter((_, n) => n !== from);
      moved.splice(to, 0, plan[from]);
      yield moved;
    }
  }
  for (let slot = 0; slot < problem.count; slot++) {
    const from = place[slot];
    const low = earliest([slot]);
    const high = latest([slot]);
    for (let to = low; to <= high; to++) {
      if (to === from || problem.face[plan[to][0]] !== problem.face[slot]) continue;
      if (plan[to].length < problem.maxOpen && plan[from].length > 1 && fits(problem, plan[to], slot))
        yield replaced(plan, from, slot, null, to, null, slot);
      for (const other of plan[to]) {
        if (to < from || earliest([other]) > from || problem.before[other].includes(slot)) continue;
        const there = plan[to].filter((s) => s !== other);
        const here = plan[from].filter((s) => s !== slot);
        if (fits(problem, there, slot) && fits(problem, here, other))
          yield replaced(plan, from, slot, other, to, other, slot);
      }
    }
  }
}

function replaced(
  plan: readonly number[][],
  from: number,
  outOfFrom: number,
  intoFrom: number | null,
  to: number,
  outOfTo: number | null,
  intoTo: number,
): number[][] {
  const changed = (session: readonly number[], out: number | null, into: number | null) =>
    [...session.filter((slot) => slot !== out), ...(into === null ? [] : [into])].sort((a, b) => a - b);
  return plan.map((session, n) =>
    n === from
      ? changed(session, outOfFrom, intoFrom)
      : n === to
        ? changed(session, outOfTo, intoTo)
        : session,
  );
}

function searched(
  problem: SessionProblem,
  orders: SessionOrders,
  plan: number[][],
  limit: number,
): ChangesResult {
  let best = plan;
  let fewest = changesOf(problem, plan);
  const seen = new Map<string, { used: number; changes: number }[]>();
  const done = new Uint8Array(problem.count);
  const waiting = Int32Array.from(problem.before, (list) => list.length);
  const path: (readonly number[])[] = [];
  let work = 0;

  const search = (last: number, changes: number): void => {
    const left = sessionsLeft(problem, done);
    if (left === 0) {
      if (changes < fewest) {
        best = path.map((session) => [...session]);
        fewest = changes;
      }
      return;
    }
    if (left > plan.length - path.length) return;
    if (changes + changesLeft(problem, done, last) >= fewest) return;
    const key = last < 0 ? '' : keyOf(done) + problem.fenceSetting[last] + '/' + problem.stopSetting[last];
    const met = seen.get(key) ?? [];
    if (met.some((m) => m.used <= path.length && m.changes <= changes)) return;
    met.push({ used: path.length, changes });
    seen.set(key, met);
    const options: CutOrder[] = [];
    for (const session of sessionsToTry(problem, done, waiting)) {
      if (++work > limit) return;
      options.push(...orders.after(last, session));
    }
    options.sort((a, b) => a.changes - b.changes || b.cuts.length - a.cuts.length);
    for (const { cuts, changes: more } of options) {
      mark(problem, done, waiting, cuts, 1);
      path.push(cuts);
      search(cuts[cuts.length - 1], changes + more);
      path.pop();
      mark(problem, done, waiting, cuts, -1);
      if (work > limit) return;
    }
  };
  search(-1, 0);
  return { plan: best, proven: work <= limit && orders.exact };
}

/** Settings that the slots not done still ask for and that are not set now. */
function changesLeft(problem: SessionProblem, done: Uint8Array, last: number): number {
  const fences = new Set<number>();
  const stops = new Set<number>();
  for (let i = 0; i < problem.count; i++)
    if (!done[i]) {
      fences.add(problem.fenceSetting[i]);
      stops.add(problem.stopSetting[i]);
    }
  if (last < 0) return fences.size - 1 + stops.size - 1;
  fences.delete(problem.fenceSetting[last]);
  stops.delete(problem.stopSetting[last]);
  return fences.size + stops.size;
}

/** Sets of ready slots of one face that may be open together, for every face, the fuller ones first. */
function* sessionsToTry(problem: SessionProblem, done: Uint8Array, waiting: Int32Array): Generator<number[]> {
  for (const ready of readyByFace(problem, done, waiting)) yield* choices(problem, ready, [], 0);
}

function* choices(
  problem: SessionProblem,
  ready: readonly number[],
  chosen: readonly number[],
  from: number,
): Generator<number[]> {
  if (chosen.length < problem.maxOpen)
    for (let n = from; n < ready.length; n++)
      if (fits(problem, chosen, ready[n])) yield* choices(problem, ready, [...chosen, ready[n]], n + 1);
  if (chosen.length > 0) yield [...chosen].sort((a, b) => a - b);
}
