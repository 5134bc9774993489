/** The report of the design being edited, as far as it is known. */
import type { Report } from '../plan/report.ts';
import { useBench } from './bench.ts';

export interface KnownReport {
  /** Of this design, or of the one before it while `computing`; null before the first is ready. */
  readonly report: Report | null;
  readonly computing: boolean;
  /** Why there is none. */
  readonly fault: string | null;
}

export function useReport(): KnownReport {
  const state = useBench((bench) => bench.reports.get(bench.design));
  const last = useBench((bench) => bench.lastReport);
  if (state === undefined) return { report: last, computing: true, fault: null };
  if (state.state === 'failed') return { report: null, computing: false, fault: state.reason };
  return { report: state.report, computing: false, fault: null };
}
