/**
 * Serves the app from this device: every file of the build is stored when this version is installed, and comes
 * from the store from then on, with the network on or off. A new version waits until it is told to take over.
 */
import { cleanupOutdatedCaches, precacheAndRoute } from 'workbox-precaching';

declare const self: ServiceWorkerGlobalScope;
/** Every file of the build; put in by src/offlineBuild.ts. */
declare const KERFWEAVE_FILES: { url: string; revision: string | null }[];

/** What the page says when the maker wants the new version. */
const TAKE_OVER = 'take over';

cleanupOutdatedCaches();
precacheAndRoute(KERFWEAVE_FILES);

self.addEventListener('message', (event) => {
  if (event.data === TAKE_OVER) void self.skipWaiting();
});

// The page of the first visit works offline as well, with what it loads later.
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
