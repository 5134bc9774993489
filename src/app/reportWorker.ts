/** The report of a design, worked out apart from the screen. */
import { expose } from 'comlink';
import type { Design } from '../design/document.ts';
import { workPlanOf, type WorkPlan } from '../panels/plan/workPlan.ts';
import { measuresOf } from '../plan/measures.ts';
import { reportOf, type Report } from '../plan/report.ts';

export type ReportAnswer =
  | { readonly ok: true; readonly report: Report; readonly plan: WorkPlan }
  | { readonly ok: false; readonly reason: string };

export interface ReportWorker {
  readonly report: (design: Design) => ReportAnswer;
}

const worker: ReportWorker = {
  report: (design) => {
    try {
      const measures = measuresOf(design);
      return { ok: true, report: reportOf(design, measures), plan: workPlanOf(design, measures) };
    } catch (error) {
      return { ok: false, reason: error instanceof Error ? error.message : String(error) };
    }
  },
};

expose(worker);
