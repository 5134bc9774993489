/**
 * Serves the app from this device: every file of the build is stored when this version is installed, and comes
 * from the store from then on, with the network on or off. A new version waits until it is told to take over.
 */
import {
  cleanupOutdatedCaches,
  getCacheKeyForURL,
  precacheAndRoute,
  PrecacheController,
} from 'workbox-precaching';
import { OPENED, TAKE_OVER } from './app/workerWords.ts';

declare const self: ServiceWorkerGlobalScope;
/** Every file of the build; put in by src/offlineBuild.ts. */
declare const KERFWEAVE_FILES: { url: string; revision: string | null }[];

cleanupOutdatedCaches();
precacheAndRoute(KERFWEAVE_FILES);

self.addEventListener('message', (event) => {
  if (event.data === TAKE_OVER) void self.skipWaiting();
  if (event.data === OPENED) event.waitUntil(fillGaps());
});

/**
 * Fetches again what the browser has cleared from the store, so that the app works offline as before. A file that
 * is another one on the server by now belongs to a newer version, and is left to that.
 */
async function fillGaps(): Promise<void> {
  const store = await caches.open(new PrecacheController().strategy.cacheName);
  const there = new Set((await store.keys()).map(({ url }) => url));
  for (const { url, revision } of KERFWEAVE_FILES) {
    const key = getCacheKeyForURL(url);
    if (key === undefined || there.has(key)) continue;
    try {
      const response = await fetch(url, { cache: 'no-cache' });
      if (response.ok && (revision === null || (await revisionOf(response.clone())) === revision))
        await store.put(key, response);
    } catch {
      // Without a network, or without room, the gap stays; the next opening tries again.
      return;
    }
  }
}

/** As src/offlineBuild.ts reckons it. */
async function revisionOf(response: Response): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', await response.arrayBuffer());
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0'))
    .join('')
    .slice(0, 16);
}

// The page of the first visit works offline as well, with what it loads later.
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
