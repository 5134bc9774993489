/** Set-ups and glue-ups of a design, worked out once per document. */
import type { Design } from '../../design/document.ts';
import { sessionsOf, type SessionPlan } from '../../plan/sessions.ts';
import { setupsOf, type Setup } from '../../plan/setups.ts';
import { slotsFor } from '../derived.ts';

export interface Plan {
  /** In cutting order. */
  readonly setups: readonly Setup[];
  readonly sessions: SessionPlan;
}

const known = new WeakMap<Design, Plan>();

export function planFor(design: Design): Plan {
  const found = known.get(design);
  if (found) return found;
  const plan: Plan = {
    setups: setupsOf(design),
    sessions: sessionsOf(slotsFor(design), design.blank, design.saw.max_open_slots, {
      stopSide: design.saw.stop_side,
    }),
  };
  known.set(design, plan);
  return plan;
}
