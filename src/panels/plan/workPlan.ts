/** Everything the Saw plan station shows of a design, as plain data: made in the worker, read by the panels. */
import type { Design } from '../../design/document.ts';
import { cautionsOf, type Caution } from '../../plan/cautions.ts';
import type { Measures } from '../../plan/measures.ts';
import { messagesOf, type Message } from '../../plan/messages.ts';
import { toldOf } from '../../plan/told.ts';
import { sawLimitsOf, type SawLimit } from '../../plan/sawLimits.ts';
import { sessionChoices, type SessionChoice } from '../../plan/sessionChoices.ts';
import type { SessionPlan } from '../../plan/sessions.ts';
import type { Setup } from '../../plan/setups.ts';
import { stripGroups, type StripGroup } from '../../plan/strips.ts';
import type { RingTolerance } from '../../plan/tolerance.ts';

export interface WorkPlan {
  /** In cutting order. */
  readonly setups: readonly Setup[];
  readonly sessions: SessionPlan;
  readonly choices: readonly SessionChoice[];
  readonly strips: readonly StripGroup[];
  readonly limits: readonly SawLimit[];
  readonly cautions: readonly Caution[];
  /** Those that the maker is told (plan/told.ts). */
  readonly messages: readonly Message[];
  /** null when the blank is left square. */
  readonly tolerance: readonly RingTolerance[] | null;
}

/** Kerf of the saw that slices the strips: like that of the cuts, 0.040 in (common practice). */
const SLICE_KERF_MM = 1.016;

export function workPlanOf(design: Design, measures: Measures): WorkPlan {
  return {
    setups: measures.setups,
    sessions: measures.plan,
    choices: sessionChoices(measures.slots, design.blank, design.saw, measures.plan),
    strips: stripGroups(design, { sliceKerf_mm: SLICE_KERF_MM }),
    limits: sawLimitsOf(design),
    cautions: cautionsOf(design, measures),
    messages: toldOf(messagesOf(design, measures)),
    tolerance: measures.form?.tolerance ?? null,
  };
}
