/**
 * Asks the worker for cut workpieces and hands on only what is still wanted. One request is at work at a time; while
 * it is, only the newest of the waiting ones is kept, so dragging never builds a queue. An answer whose request has
 * been overtaken or withdrawn is dropped.
 */
import { releaseProxy, wrap, type Remote } from 'comlink';
import type { CutAnswer, CutRequest } from './cut.ts';
import type { CutWorkerApi } from './cutWorker.ts';

export type CutOutcome = { readonly answer: CutAnswer } | { readonly error: string };

type Deliver = (outcome: CutOutcome) => void;

interface Wanted {
  readonly request: CutRequest;
  readonly deliver: Deliver;
  readonly generation: number;
}

export class CutClient {
  private worker: Worker | null = null;
  private remote: Remote<CutWorkerApi> | null = null;
  private generation = 0;
  private waiting: Wanted | null = null;
  private working = false;

  /** Asks for a cut workpiece; every earlier request is overtaken. */
  ask(request: CutRequest, deliver: Deliver): void {
    this.waiting = { request, deliver, generation: ++this.generation };
    void this.work();
  }

  /** Nothing is wanted any more; an answer under way will be dropped. */
  withdraw(): void {
    this.generation++;
    this.waiting = null;
  }

  dispose(): void {
    this.withdraw();
    this.remote?.[releaseProxy]();
    this.worker?.terminate();
    this.worker = null;
    this.remote = null;
  }

  private async work(): Promise<void> {
    if (this.working) return;
    this.working = true;
    while (this.waiting) {
      const wanted = this.waiting;
      this.waiting = null;
      const outcome = await this.answerTo(wanted.request);
      if (wanted.generation === this.generation) wanted.deliver(outcome);
    }
    this.working = false;
  }

  private async answerTo(request: CutRequest): Promise<CutOutcome> {
    try {
      return { answer: await this.connect().cutOut(request) };
    } catch (error) {
      return { error: error instanceof Error ? error.message : String(error) };
    }
  }

  private connect(): Remote<CutWorkerApi> {
    if (this.remote) return this.remote;
    this.worker = new Worker(new URL('./cutWorker.ts', import.meta.url), { type: 'module', name: 'cut' });
    this.remote = wrap<CutWorkerApi>(this.worker);
    return this.remote;
  }
}
