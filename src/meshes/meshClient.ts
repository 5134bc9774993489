/**
 * Asks the worker for meshes and hands on only what is still wanted. In each line of requests one is at work at a time;
 * while it is, only the newest of the waiting ones is kept, so dragging never builds a queue. An answer whose request
 * has been overtaken or withdrawn is dropped.
 */
import { releaseProxy, wrap, type Remote } from 'comlink';
import type { CutAnswer, CutRequest } from './cut.ts';
import type { MeshWorkerApi } from './meshWorker.ts';
import type { PartMesh, PartsRequest } from './parts.ts';

export type Outcome<Answer> = { readonly answer: Answer } | { readonly error: string };

/** One line of requests of a kind. */
export class RequestLine<Request, Answer> {
  private readonly call: (request: Request) => Promise<Answer>;
  private generation = 0;
  private waiting: {
    request: Request;
    deliver: (outcome: Outcome<Answer>) => void;
    generation: number;
  } | null = null;
  private working = false;

  constructor(call: (request: Request) => Promise<Answer>) {
    this.call = call;
  }

  /** Asks; every earlier request of this line is overtaken. */
  ask(request: Request, deliver: (outcome: Outcome<Answer>) => void): void {
    this.waiting = { request, deliver, generation: ++this.generation };
    void this.work();
  }

  /** Nothing is wanted any more; an answer under way will be dropped. */
  withdraw(): void {
    this.generation++;
    this.waiting = null;
  }

  private async work(): Promise<void> {
    if (this.working) return;
    this.working = true;
    while (this.waiting) {
      const { request, deliver, generation } = this.waiting;
      this.waiting = null;
      const outcome = await this.call(request).then(
        (answer) => ({ answer }),
        (error: unknown) => ({ error: error instanceof Error ? error.message : String(error) }),
      );
      if (generation === this.generation) deliver(outcome);
    }
    this.working = false;
  }
}

/** The worker, started with the first request, and its lines. */
export class MeshClient {
  private worker: Worker | null = null;
  private remote: Remote<MeshWorkerApi> | null = null;
  readonly cuts = new RequestLine<CutRequest, CutAnswer>((request) => this.connect().cutOut(request));
  readonly parts = new RequestLine<PartsRequest, PartMesh[]>((request) => this.connect().partMeshes(request));

  dispose(): void {
    this.cuts.withdraw();
    this.parts.withdraw();
    this.remote?.[releaseProxy]();
    this.worker?.terminate();
    this.worker = null;
    this.remote = null;
  }

  private connect(): Remote<MeshWorkerApi> {
    if (this.remote) return this.remote;
    this.worker = new Worker(new URL('./meshWorker.ts', import.meta.url), { type: 'module', name: 'meshes' });
    this.remote = wrap<MeshWorkerApi>(this.worker);
    return this.remote;
  }
}
