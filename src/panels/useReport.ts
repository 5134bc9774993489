/** The report of the design being edited, as far as it is known. */
import type { Design } from '../design/document.ts';
import type { Report } from '../plan/report.ts';
import type { WorkPlan } from './plan/workPlan.ts';
import { useBench } from './bench.ts';

export interface KnownReport {
  /** Of this design, or of the one before it while `computing`; null before the first is ready. */
  readonly report: Report | null;
  readonly plan: WorkPlan | null;
  /** The document that report and plan are of. */
  readonly planDesign: Design | null;
  readonly computing: boolean;
  /** Why there is none. */
  readonly fault: string | null;
}

const NONE = { report: null, plan: null, planDesign: null } as const;

export function useReport(): KnownReport {
  const design = useBench((bench) => bench.design);
  const state = useBench((bench) => bench.reports.get(bench.design));
  const last = useBench((bench) => bench.lastReady);
  if (state === undefined) {
    if (!last) return { ...NONE, computing: true, fault: null };
    return { report: last.report, plan: last.plan, planDesign: last.design, computing: true, fault: null };
  }
  if (state.state === 'failed') return { ...NONE, computing: false, fault: state.reason };
  return { report: state.report, plan: state.plan, planDesign: design, computing: false, fault: null };
}
