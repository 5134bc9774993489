/**
 * Sessions (glue-ups): which slots are cut, filled and clamped together. Fewest sessions first, then fewest
 * changes of fence angle and stop; slots that interfere never change their order. Rules and the method are in
 * docs/shop-plan.md, "Sessions"; the searches in sessionSearch.ts and sessionChanges.ts.
 */
import type { Blank, Saw, SlotId } from '../design/document.ts';
import type { Slot } from '../blank/slots.ts';
import { changesOf, longestChainOf, sessionProblem } from './sessionProblem.ts';
import { fewestChanges } from './sessionChanges.ts';
import { fewestSessions } from './sessionSearch.ts';

export interface SessionPlan {
  /** Sessions in working order, slots of each in the order of cutting them. */
  readonly sessions: SlotId[][];
  /** Slots in the longest chain that interfere by volume, each after the one before it in the order. */
  readonly longestChain: number;
  /** No plan can have fewer sessions; at least `longestChain`. */
  readonly bound: number;
  /** Whether the plan is proven to have the fewest sessions possible. */
  readonly exact: boolean;
  /** Changes of fence angle and of stop from the first cut to the last. */
  readonly changes: number;
  /** Whether it is proven that no plan with as many sessions has fewer changes. */
  readonly fewestChanges: boolean;
}

export interface SessionOptions {
  /** Side of the blade on which the stop stands; it decides which cuts share a stop. */
  readonly stopSide?: Saw['stop_side'];
  /**
   * Sessions that the search for the fewest changes may look at; the one for the fewest sessions may look at
   * five times as many. Counted, not timed: the same limit gives the same plan on every machine.
   */
  readonly limit?: number;
}

/** About a second on a small computer for the hardest designs; most end after a few steps. */
export const DEFAULT_LIMIT = 20_000;

/**
 * The plan of glue-ups for slots in cutting order. With one open slot at a time it is the cutting order
 * itself, unless another saves a change. maxOpen is a whole number of at least 1.
 */
export function sessionsOf(
  slots: readonly Slot[],
  blank: Blank,
  maxOpen: number,
  options: SessionOptions = {},
): SessionPlan {
  const { stopSide = 'acute', limit = DEFAULT_LIMIT } = options;
  const problem = sessionProblem(slots, blank, maxOpen, stopSide);
  const named = (plan: readonly (readonly number[])[]) =>
    plan.map((session) => session.map((n) => slots[n].id));
  const longestChain = longestChainOf(problem);
  const { sessions, bound } = maxOpen === 1 ? oneByOne(slots) : fewestSessions(problem, 5 * limit);
  const { plan, proven } = fewestChanges(problem, sessions, limit);
  return {
    sessions: named(plan),
    longestChain,
    bound,
    exact: bound === plan.length,
    changes: changesOf(problem, plan),
    fewestChanges: proven,
  };
}

/** Every order has as many sessions as there are slots; the maker's own goes before others that are as good. */
function oneByOne(slots: readonly Slot[]): { readonly sessions: number[][]; readonly bound: number } {
  return { sessions: slots.map((_, n) => [n]), bound: slots.length };
}
