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

  /** The whole plan with its cuts in the best order, and the changes that are left. */
  best(plan: readonly (readonly number[])[]): { plan: number[][]; changes: number } {
    interface Path {
      readonly last: number;
      readonly changes: number;
      readonly cuts: readonly number[];
      readonly from: Path | null;
    }
    let paths: Path[] = [{ last: -1, changes: 0, cuts: [], from: null }];
    for (const session of plan) {
      const next = new Map<number, Path>();
      for (const path of paths)
        for (const { cuts, changes } of this.after(path.last, session)) {
          const last = cuts[cuts.length - 1];
          const total = path.changes + changes;
          const known = next.get(last);
          if (!known || total < known.changes) next.set(last, { last, changes: total, cuts, from: path });
        }
      paths = [...next.values()];
    }
    let end: Path | null = paths.reduce((best, path) => (path.changes < best.changes ? path : best));
    const changes = end.changes;
    const ordered: number[][] = [];
    for (; end && end.from; end = end.from) ordered.push([...end.cuts]);
    return { plan: ordered.reverse(), changes };
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
    const best = new Map<number, CutOrder>();
    const visit = (order: readonly number[][], changes: number): void => {
      if (order.length === groups.length) {
        const key = groups.indexOf(order[0]) * groups.length + groups.indexOf(order[order.length - 1]);
        const known = best.get(key);
        if (!known || changes < known.changes) best.set(key, { cuts: order.flat(), changes });
        return;
      }
      for (const group of groups) {
        if (order.includes(group)) continue;
        const more = order.length === 0 ? 0 : changesBetween(problem, order[order.length - 1][0], group[0]);
        visit([...order, group], changes + more);
      }
    };
    visit([], 0);
    return [...best.values()];
  }
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
