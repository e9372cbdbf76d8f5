/// <reference lib="webworker" />
import { Serwist, type PrecacheEntry } from 'serwist';

declare const self: ServiceWorkerGlobalScope & { __SW_MANIFEST: (PrecacheEntry | string)[] | undefined };

/**
 * Serves the round's shell from the tablet, signal or not. Everything else goes to the network as if it were not here:
 * entries are kept in IndexedDB, not in a cache.
 */
const serwist = new Serwist({
  precacheEntries: self.__SW_MANIFEST,
  precacheOptions: { cleanupOutdatedCaches: true },
  // A new version waits until no window shows the old one: a half-typed reading is never reloaded away.
  skipWaiting: false,
  clientsClaim: true,
});

serwist.addEventListeners();
