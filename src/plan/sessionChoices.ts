/** What it would bring to allow more open slots at once: glue-ups and clamp time for each choice. */
import type { Blank, Saw } from '../design/document.ts';
import type { Slot } from '../blank/slots.ts';
import { sessionsOf } from './sessions.ts';

export interface SessionChoice {
  readonly maxOpen: number;
  readonly glueUps: number;
  readonly exact: boolean;
  /** Glue-ups × clamp minutes; work and cure come on top. */
  readonly clampMinutes: number;
}

/** One choice per number of open slots, as asked; the numbers are whole and at least 1. */
export function sessionChoices(
  slots: readonly Slot[],
  blank: Blank,
  saw: Pick<Saw, 'stop_side' | 'clamp_minutes'>,
  maxOpens: readonly number[] = [1, 2, 3, 4, 6],
): SessionChoice[] {
  return maxOpens.map((maxOpen) => {
    const plan = sessionsOf(slots, blank, maxOpen, { stopSide: saw.stop_side, limit: COUNT_ONLY_LIMIT });
    return {
      maxOpen,
      glueUps: plan.sessions.length,
      exact: plan.exact,
      clampMinutes: plan.sessions.length * saw.clamp_minutes,
    };
  });
}

/** Only the number of sessions is wanted, so the search for fewer changes gets little. */
const COUNT_ONLY_LIMIT = 4_000;
