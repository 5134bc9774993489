/**
 * Makes the 3D files of a design: the solids and the skin in a worker of their own, which ends with the work or when it
 * is given up; the wood on the graphics card, apart from the stage.
 */
import { releaseProxy, wrap } from 'comlink';
import type { Design } from '../../design/document.ts';
import type { ModelRequest, ModelResult } from '../../files/model.ts';
import type { ModelWorkerApi } from './modelWorker.ts';
import type { Making } from './useMaking.ts';

export type WoodenKind = 'glb' | 'usdz';

export interface MakingOptions {
  readonly signal: AbortSignal;
  readonly onProgress: (making: Making) => void;
}

/** Where the bar stands when the surface is there, and when the wood is drawn. */
const SKIN_SHARE = 0.1;
const WOOD_SHARE = 0.95;

const TYPES = {
  glb: 'model/gltf-binary',
  usdz: 'model/vnd.usdz+zip',
  '3mf': 'model/3mf',
  stl: 'model/stl',
} as const;

/** A file with the wood as a picture on it. */
export async function makeWooden(
  design: Design,
  kind: WoodenKind,
  size_px: number,
  { signal, onProgress }: MakingOptions,
): Promise<Blob> {
  onProgress({ share: 0, words: 'Working out the surface …' });
  const [{ bakeSkin }, { jpegOf }, skin] = await Promise.all([
    import('../../stage/bake/bake.ts'),
    import('../../stage/bake/jpeg.ts'),
    inWorker(signal, (worker) => worker.skin(design, size_px)),
  ]);
  const baked = await bakeSkin(design, skin, {
    signal,
    onProgress: (share) =>
      onProgress({ share: SKIN_SHARE + (WOOD_SHARE - SKIN_SHARE) * share, words: 'Drawing the wood …' }),
  });
  onProgress({ share: WOOD_SHARE, words: 'Writing …' });
  const picture = { bytes: await jpegOf(baked), mimeType: 'image/jpeg' } as const;
  const [{ finishOf, SHINE }, { writeSkinGlb }, { writeUsdz }] = await Promise.all([
    import('../../files/look.ts'),
    import('../../files/glbSkin.ts'),
    import('../../files/usdz.ts'),
  ]);
  signal.throwIfAborted();
  const write = kind === 'glb' ? writeSkinGlb : writeUsdz;
  const title = design.name.trim() === '' ? 'Untitled' : design.name;
  return new Blob([write(title, skin, picture, SHINE[finishOf(design)])], { type: TYPES[kind] });
}

/** A file of the exact solids; rejects with the reason where there is none. */
export async function makeSolid(
  design: Design,
  request: ModelRequest,
  { signal, onProgress }: MakingOptions,
): Promise<Blob> {
  onProgress({ share: 0, words: 'Working out the solids …' });
  const result = await inWorker<ModelResult>(signal, async (worker) => worker.model(design, request));
  if ('refusal' in result) throw new Error(result.refusal);
  return new Blob([result.bytes.slice()], { type: TYPES[request.ending] });
}

/** Asks a worker that ends with the answer, or at once when the work is given up. */
function inWorker<T>(
  signal: AbortSignal,
  ask: (worker: ReturnType<typeof wrap<ModelWorkerApi>>) => Promise<T>,
): Promise<T> {
  signal.throwIfAborted();
  const worker = new Worker(new URL('./modelWorker.ts', import.meta.url), { type: 'module', name: 'models' });
  const remote = wrap<ModelWorkerApi>(worker);
  return new Promise<T>((resolve, reject) => {
    const giveUp = (): void => reject(signal.reason as Error);
    signal.addEventListener('abort', giveUp, { once: true });
    worker.addEventListener('error', (event) =>
      reject(new Error(event.message || 'The part of the app that makes solids could not be loaded.')),
    );
    ask(remote)
      .then(resolve, reject)
      .finally(() => signal.removeEventListener('abort', giveUp));
  }).finally(() => {
    remote[releaseProxy]();
    worker.terminate();
  });
}
