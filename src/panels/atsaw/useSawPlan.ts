/**
 * The plan that the steps are made from. A tick or a measure makes a new document of which no plan is ready yet,
 * but changes nothing that the set-ups and glue-ups follow from: then the last plan holds. At a saw no number of
 * another design may stand for a moment, so after any other change there is none until the new one is ready.
 */
import type { Design, Saw } from '../../design/document.ts';
import { useReport } from '../useReport.ts';
import type { WorkPlan } from '../plan/workPlan.ts';

export interface SawPlan {
  readonly plan: WorkPlan | null;
  /** Why there is none and none will come. */
  readonly fault: string | null;
}

export function useSawPlan(design: Design): SawPlan {
  const { plan, planDesign, fault } = useReport();
  return { plan: plan && planDesign && samePlan(design, planDesign) ? plan : null, fault };
}

/** Whether two documents have the same set-ups and glue-ups. Edits leave untouched parts as they are. */
export function samePlan(a: Design, b: Design): boolean {
  return (
    a.blank === b.blank &&
    a.sets === b.sets &&
    a.order === b.order &&
    a.form === b.form &&
    sameSaw(a.saw, b.saw)
  );
}

/** The blade's own kerf changes passes and strips, which the steps work out themselves. */
function sameSaw(a: Saw, b: Saw): boolean {
  const { blade_kerf_mm: _, ...rest } = a;
  return (Object.keys(rest) as (keyof typeof rest)[]).every((key) => a[key] === b[key]);
}
