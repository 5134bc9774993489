/** What it would bring to allow more open slots at once: glue-ups and clamp time for each choice. */
import type { Blank, Saw } from '../design/document.ts';
import type { Slot } from '../blank/slots.ts';
import { sessionProblem } from './sessionProblem.ts';
import { fewestSessions } from './sessionSearch.ts';
import type { SessionPlan } from './sessions.ts';

export interface SessionChoice {
  readonly maxOpen: number;
  readonly glueUps: number;
  readonly exact: boolean;
  /** Glue-ups × clamp minutes; work and cure come on top. */
  readonly clampMinutes: number;
}

/**
 * One choice per number of open slots, ascending, the saw's own among them as its plan has it; the numbers are whole and
 * at least 1. A plan for fewer open slots is one for more, so no choice takes more glue-ups than the one before it.
 */
export function sessionChoices(
  slots: readonly Slot[],
  blank: Blank,
  saw: Pick<Saw, 'stop_side' | 'clamp_minutes' | 'max_open_slots'>,
  own: Pick<SessionPlan, 'sessions' | 'exact'>,
  maxOpens: readonly number[] = [1, 2, 3, 4, 6],
): SessionChoice[] {
  const asked = [...new Set([...maxOpens, saw.max_open_slots])].sort((a, b) => a - b);
  const problem = sessionProblem(slots, blank, 1, saw.stop_side);
  let least = Infinity;
  return asked.map((maxOpen) => {
    const found =
      maxOpen === saw.max_open_slots
        ? { glueUps: own.sessions.length, exact: own.exact }
        : counted({ ...problem, maxOpen });
    const glueUps = maxOpen === saw.max_open_slots ? found.glueUps : Math.min(found.glueUps, least);
    least = Math.min(least, glueUps);
    return {
      maxOpen,
      glueUps,
      exact: found.exact && glueUps === found.glueUps,
      clampMinutes: glueUps * saw.clamp_minutes,
    };
  });
}

function counted(problem: ReturnType<typeof sessionProblem>): { glueUps: number; exact: boolean } {
  if (problem.maxOpen === 1) return { glueUps: problem.count, exact: true };
  const { sessions, bound } = fewestSessions(problem, LIMIT);
  return { glueUps: sessions.length, exact: bound === sessions.length };
}

/** Sessions that the search may look at for a choice that is not the plan itself. */
const LIMIT = 20_000;
