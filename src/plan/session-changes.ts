/**
 * Between plans with equally many glue-ups: the one with the fewest changes of fence angle and stop. A
 * branch-and-bound search over (done slots, last set-up) that starts from a plan already found, keeps to its
 * number of sessions, and looks at a limited number of states. Here a session need not be full: leaving a slot
 * for a later session may save a change.
 */
import { changesBetween, changesOf, sessionsLeft, type SessionProblem } from './session-problem.ts';
import { fits, keyOf, mark, readyByFace } from './session-search.ts';

/** Sessions of more slots than this are ordered by a simple rule, not by trying all orders of set-ups. */
const MAX_SETUPS_TRIED = 6;

/** Sessions of one face and moment offered to the search at most; the fuller ones first. */
const MAX_SESSIONS_TRIED = 4000;

/** The plan with the fewest changes found; never more sessions than in `plan`, never more changes. */
export function fewestChanges(
  problem: SessionProblem,
  plan: readonly (readonly number[])[],
  nodeLimit: number,
): number[][] {
  let best = inWorkingOrder(problem, plan);
  let fewest = changesOf(problem, best);
  const seen = new Map<string, { used: number; changes: number }[]>();
  const done = new Uint8Array(problem.count);
  const waiting = Int32Array.from(problem.before, (list) => list.length);
  const path: number[][] = [];
  let nodes = 0;

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
    if (nodes >= nodeLimit) return;
    nodes++;
    const key = last < 0 ? '' : keyOf(done) + problem.fenceSetting[last] + '/' + problem.stopSetting[last];
    const met = seen.get(key) ?? [];
    if (met.some((m) => m.used <= path.length && m.changes <= changes)) return;
    met.push({ used: path.length, changes });
    seen.set(key, met);
    const options = sessionsToTry(problem, done, waiting)
      .flatMap((session) => orders(problem, session, last))
      .sort((a, b) => a.changes - b.changes || b.cuts.length - a.cuts.length);
    for (const { cuts, changes: more } of options) {
      mark(problem, done, waiting, cuts, 1);
      path.push(cuts);
      search(cuts[cuts.length - 1], changes + more);
      path.pop();
      mark(problem, done, waiting, cuts, -1);
      if (nodes >= nodeLimit) return;
    }
  };
  search(-1, 0);
  return best;
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

/** Sets of ready slots of one face that may be open together, for every face. */
function sessionsToTry(problem: SessionProblem, done: Uint8Array, waiting: Int32Array): number[][] {
  const all: number[][] = [];
  for (const ready of readyByFace(problem, done, waiting)) {
    const first = all.length;
    const chosen: number[] = [];
    const choose = (from: number): void => {
      if (all.length - first >= MAX_SESSIONS_TRIED) return;
      if (chosen.length < problem.maxOpen)
        for (let n = from; n < ready.length; n++) {
          if (!fits(problem, chosen, ready[n])) continue;
          chosen.push(ready[n]);
          choose(n + 1);
          chosen.pop();
        }
      if (chosen.length > 0) all.push([...chosen].sort((a, b) => a - b));
    };
    choose(0);
  }
  return all;
}

interface Order {
  readonly cuts: number[];
  readonly changes: number;
}

/** Orders of a session's cuts after the cut `last` (−1: none): for each set-up to end with, the best one. */
function orders(problem: SessionProblem, session: readonly number[], last: number): Order[] {
  const groups = setupGroups(problem, session);
  if (groups.length > MAX_SETUPS_TRIED) return [byNearest(problem, groups, last)];
  const best = new Map<number, Order>();
  const visit = (order: number[][], left: number[][]): void => {
    if (left.length === 0) {
      const cuts = order.flat();
      const changes = changesOf(problem, [last < 0 ? cuts : [last, ...cuts]]);
      const end = cuts[cuts.length - 1];
      const known = best.get(end);
      if (!known || changes < known.changes) best.set(end, { cuts, changes });
      return;
    }
    left.forEach((group, n) =>
      visit(
        [...order, group],
        left.filter((_, k) => k !== n),
      ),
    );
  };
  visit([], groups);
  return [...best.values()];
}

/** A session's slots grouped by equal set-up, groups and slots in cutting order. */
function setupGroups(problem: SessionProblem, session: readonly number[]): number[][] {
  const groups: number[][] = [];
  for (const slot of session) {
    const group = groups.find((g) => changesBetween(problem, g[0], slot) === 0);
    if (group) group.push(slot);
    else groups.push([slot]);
  }
  return groups;
}

function byNearest(problem: SessionProblem, groups: readonly number[][], last: number): Order {
  const left = [...groups];
  const cuts: number[] = [];
  let at = last;
  while (left.length > 0) {
    let next = 0;
    if (at >= 0)
      for (let n = 1; n < left.length; n++)
        if (changesBetween(problem, at, left[n][0]) < changesBetween(problem, at, left[next][0])) next = n;
    cuts.push(...left.splice(next, 1)[0]);
    at = cuts[cuts.length - 1];
  }
  return { cuts, changes: changesOf(problem, [last < 0 ? cuts : [last, ...cuts]]) };
}

/** The same sessions with the cuts inside each in the order of fewest changes. */
function inWorkingOrder(problem: SessionProblem, plan: readonly (readonly number[])[]): number[][] {
  let last = -1;
  return plan.map((session) => {
    const choices = orders(problem, session, last);
    const { cuts } = choices.reduce((best, order) => (order.changes < best.changes ? order : best));
    last = cuts[cuts.length - 1];
    return cuts;
  });
}
