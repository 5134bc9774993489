/**
 * The best order of the cuts inside the sessions of a plan whose sessions and their sequence are given: the
 * one with the fewest changes of fence angle and stop from the first cut to the last. Slots of one session may
 * be cut in any order; those with the same set-up stay together.
 */
import { changesBetween, type SessionProblem } from './sessionProblem.ts';

/** A session with more set-ups than this is ordered by nearest set-up, not by trying every order. */
const MAX_SETUPS_TRIED = 5;

/** One order of a session's cuts: the best of those that begin and end with these set-ups. */
export interface CutOrder {
  readonly cuts: readonly number[];
  readonly changes: number;
}

/** A way through the sessions so far, one link per session. */
interface Path {
  readonly last: number;
  readonly changes: number;
  readonly cuts: readonly number[];
  readonly from: Path | null;
}

function better(a: Path, b: Path, nearCuttingOrder: boolean): boolean {
  if (a.changes !== b.changes || !nearCuttingOrder) return a.changes < b.changes;
  const second = sessionsAlong(b).flat();
  const differing = sessionsAlong(a)
    .flat()
    .map((slot, n) => slot - second[n])
    .find((difference) => difference !== 0);
  return differing !== undefined && differing < 0;
}

function sessionsAlong(path: Path): number[][] {
  const sessions: number[][] = [];
  for (let at: Path | null = path; at && at.from; at = at.from) sessions.push([...at.cuts]);
  return sessions.reverse();
}

export class SessionOrders {
  readonly #problem: SessionProblem;
  readonly #known = new Map<string, readonly CutOrder[]>();
  #exact = true;

  constructor(problem: SessionProblem) {
    this.#problem = problem;
  }

  /** Whether every order given so far is the best there is. */
  get exact(): boolean {
    return this.#exact;
  }

  /** Best orders of a session for every pair of first and last set-up. The session is in cutting order. */
  of(session: readonly number[]): readonly CutOrder[] {
    const key = session.join();
    const known = this.#known.get(key);
    if (known) return known;
    const orders = this.#make(session);
    this.#known.set(key, orders);
    return orders;
  }

  /** For every set-up to end with, the best order after the cut `last` (−1: none before it). */
  after(last: number, session: readonly number[]): CutOrder[] {
    const best = new Map<number, CutOrder>();
    for (const order of this.of(session)) {
      const changes = order.changes + (last < 0 ? 0 : changesBetween(this.#problem, last, order.cuts[0]));
      const end = order.cuts[order.cuts.length - 1];
      const known = best.get(end);
      if (!known || changes < known.changes) best.set(end, { cuts: order.cuts, changes });
    }
    return [...best.values()];
  }

  /**
   * The whole plan with its cuts in the best order, and the changes that are left. Of equally good orders any
   * one, or the one nearest to the cutting order (the first to differ has the earlier slot) where asked.
   */
  best(
    plan: readonly (readonly number[])[],
    nearCuttingOrder = false,
  ): { plan: number[][]; changes: number } {
    let paths: Path[] = [{ last: -1, changes: 0, cuts: [], from: null }];
    for (const session of plan) {
      const next = new Map<number, Path>();
      for (const from of paths)
        for (const { cuts, changes } of this.after(from.last, session)) {
          const last = cuts[cuts.length - 1];
          const path = { last, changes: from.changes + changes, cuts, from };
          const known = next.get(last);
          if (!known || better(path, known, nearCuttingOrder)) next.set(last, path);
        }
      paths = [...next.values()];
    }
    const end = paths.reduce((best, path) => (better(path, best, nearCuttingOrder) ? path : best));
    return { plan: sessionsAlong(end), changes: end.changes };
  }

  #make(session: readonly number[]): readonly CutOrder[] {
    const problem = this.#problem;
    const groups: number[][] = [];
    for (const slot of session) {
      const group = groups.find((g) => changesBetween(problem, g[0], slot) === 0);
      if (group) group.push(slot);
      else groups.push([slot]);
    }
    if (groups.length > MAX_SETUPS_TRIED) {
      this.#exact = false;
      return groups.map((_, first) => nearest(problem, groups, first));
    }
    const between = groups.map((a) => groups.map((b) => changesBetween(problem, a[0], b[0])));
    const best = new Map<number, { order: readonly number[]; changes: number }>();
    for (const order of permutations(groups.length)) {
      let changes = 0;
      for (let n = 1; n < order.length; n++) changes += between[order[n - 1]][order[n]];
      const key = order[0] * groups.length + order[order.length - 1];
      const known = best.get(key);
      if (!known || changes < known.changes) best.set(key, { order, changes });
    }
    return [...best.values()].map(({ order, changes }) => ({
      cuts: order.flatMap((group) => groups[group]),
      changes,
    }));
  }
}

const PERMUTATIONS: number[][][] = [[[]]];

/** All orders of 0 … count − 1, in the order of a dictionary. */
function permutations(count: number): number[][] {
  const known = PERMUTATIONS[count];
  if (known) return known;
  const all = Array.from({ length: count }, (_, first) => first).flatMap((first) =>
    permutations(count - 1).map((rest) => [first, ...rest.map((n) => (n < first ? n : n + 1))]),
  );
  PERMUTATIONS[count] = all;
  return all;
}

function nearest(problem: SessionProblem, groups: readonly number[][], first: number): CutOrder {
  const left = groups.filter((_, n) => n !== first);
  const cuts = [...groups[first]];
  let changes = 0;
  while (left.length > 0) {
    const at = cuts[cuts.length - 1];
    const distances = left.map((group) => changesBetween(problem, at, group[0]));
    const least = Math.min(...distances);
    changes += least;
    cuts.push(...left.splice(distances.indexOf(least), 1)[0]);
  }
  return { cuts, changes };
}
