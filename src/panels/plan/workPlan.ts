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
import { accuracyOf, type Accuracy } from '../../plan/accuracy.ts';
import type { AsMade } from '../../plan/made.ts';
import { preparationsOf } from '../../plan/preparations.ts';
import { weightsOf, type Weights } from '../../plan/woodWords.ts';
import type { Wording } from '../../plan/wording.ts';
import { sliceKerfOf_mm, stripGroups, type StripGroup } from '../../plan/strips.ts';

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
  readonly accuracy: Accuracy | null;
  readonly weights: Weights;
  /** What to do before the first cut, in order. */
  readonly preparations: readonly Wording[];
  /** In cutting order. */
  readonly made: readonly AsMade[];
}

export function workPlanOf(design: Design, measures: Measures): WorkPlan {
  return {
    setups: measures.setups,
    sessions: measures.plan,
    choices: sessionChoices(measures.slots, design.blank, design.saw, measures.plan),
    strips: stripGroups(design, { sliceKerf_mm: sliceKerfOf_mm(design) }),
    limits: sawLimitsOf(design),
    cautions: cautionsOf(design, measures),
    messages: toldOf(messagesOf(design, measures)),
    accuracy: accuracyOf(design, measures),
    weights: weightsOf(design, measures),
    preparations: preparationsOf(design, measures),
    made: measures.made,
  };
}
