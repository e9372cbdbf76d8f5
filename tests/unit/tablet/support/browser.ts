import { IDBFactory } from 'fake-indexeddb';
import { vi } from 'vitest';

/** A browser that keeps nothing yet. */
export function emptyBrowser(): void {
  globalThis.indexedDB = new IDBFactory();
  const notes = new Map<string, string>();
  vi.stubGlobal('localStorage', {
    getItem: (k: string) => notes.get(k) ?? null,
    setItem: (k: string, v: string) => void notes.set(k, v),
    removeItem: (k: string) => void notes.delete(k),
  });
}
