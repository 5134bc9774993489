/**
 * Keeps the reports of all variants up to date: one worker, one design at a time, always the newest. While the
 * design changes faster than its report is worked out, only the latest one is asked for.
 */
import { wrap, type Remote } from 'comlink';
import type { Design } from '../design/document.ts';
import { differsInOfferAlone } from '../design/offerEdits.ts';
import type { ReportState } from '../panels/bench.ts';
import type { ReportWorker } from './reportWorker.ts';
import type { AppStore } from './store.ts';

/** Rest after a change before its report is begun, ms: a drag does not start one for every pixel. */
const REST_MS = 60;

export function followReports(store: AppStore): void {
  let worker: Remote<ReportWorker> | null = null;
  let busy = false;
  let timer: ReturnType<typeof setTimeout> | null = null;

  const remember = (design: Design, state: ReportState) => {
    const { work, reports } = store.getState();
    const next = new Map<Design, ReportState>([[design, state]]);
    for (const variant of work.variants) {
      const known = reports.get(variant.design);
      if (known && variant.design !== design) next.set(variant.design, known);
    }
    store
      .getState()
      .setReports(next, state.state === 'ready' ? { design, report: state.report, plan: state.plan } : null);
  };
  const advance = async () => {
    timer = null;
    if (busy) return;
    const { work, design, reports } = store.getState();
    const wanted = [design, ...work.variants.map((variant) => variant.design)];
    const next = wanted.find((candidate) => !reports.has(candidate));
    if (!next) return;
    // What is said to a client changes nothing that is measured.
    const known = Array.from(reports).find(([reported]) => differsInOfferAlone(reported, next));
    if (known) {
      remember(next, known[1]);
      schedule();
      return;
    }
    busy = true;
    try {
      worker ??= wrap<ReportWorker>(
        new Worker(new URL('./reportWorker.ts', import.meta.url), { type: 'module' }),
      );
      const answer = await worker.report(next);
      remember(
        next,
        answer.ok
          ? { state: 'ready', report: answer.report, plan: answer.plan }
          : { state: 'failed', reason: answer.reason },
      );
    } catch (error) {
      remember(next, { state: 'failed', reason: error instanceof Error ? error.message : String(error) });
    }
    busy = false;
    schedule();
  };
  const schedule = () => {
    timer ??= setTimeout(() => void advance(), REST_MS);
  };
  schedule();
  store.subscribe((state, before) => {
    if (state.work !== before.work) schedule();
  });
}
