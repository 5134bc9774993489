/**
 * The service worker, from the page's side: registered once the page has loaded; a new version is announced and
 * takes over when the maker says so, in every tab at once.
 */
import type { Keeping } from './keep.ts';
import type { AppStore } from './store.ts';
import { OPENED, TAKE_OVER } from './workerWords.ts';

export function workOffline(store: AppStore, keeping: Pick<Keeping, 'keepNow' | 'safe'>): void {
  // The types say that it is always there; over plain http it is not.
  const workers = navigator.serviceWorker as ServiceWorkerContainer | undefined;
  if (!import.meta.env.PROD || !workers) return;

  // Every tab is served by the new version from here on, and its own files may be gone.
  let served = workers.controller !== null;
  const reload = async () => {
    if (await keeping.safe()) window.location.reload();
    else
      store
        .getState()
        .say(
          'A new version of Kerfweave is in use, but what you did last cannot be kept: save it to a file, then load this page again.',
        );
  };
  workers.addEventListener('controllerchange', () => {
    if (served) void reload();
    served = true;
  });

  const announce = (waiting: ServiceWorker) =>
    store.setState({
      update: () => {
        keeping.keepNow();
        waiting.postMessage(TAKE_OVER, []);
      },
    });
  const follow = (registration: ServiceWorkerRegistration) => {
    workers.controller?.postMessage(OPENED, []);
    if (registration.waiting && workers.controller) announce(registration.waiting);
    registration.addEventListener('updatefound', () => {
      const worker = registration.installing;
      worker?.addEventListener('statechange', () => {
        if (worker.state === 'installed' && workers.controller) announce(worker);
      });
    });
    document.addEventListener('visibilitychange', () => {
      // Looking for a new version fails while there is no network, which is as good as finding none.
      if (document.visibilityState === 'visible') void registration.update().catch(() => undefined);
    });
  };
  const register = () => {
    workers
      .register(new URL('service-worker.js', document.baseURI))
      .then(follow, (error: unknown) =>
        store
          .getState()
          .say(
            `Kerfweave will not open without the network: ${error instanceof Error ? error.message : String(error)}`,
          ),
      );
  };
  if (document.readyState === 'complete') register();
  else window.addEventListener('load', register);
}
