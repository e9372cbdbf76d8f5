import { createContext, useContext, useSyncExternalStore } from 'react';
import type { Snapshot } from '@/lib/tablet/snapshot';
import type { Tablet } from '@/lib/tablet/tablet';

const Held = createContext<Tablet | null>(null);
export const TabletProvider = Held.Provider;

export function useTablet(): Tablet {
  const tablet = useContext(Held);
  if (!tablet) throw new Error('The tablet is not ready.');
  return tablet;
}

/** The part of the snapshot that a screen shows. `of` returns what is in the snapshot, or a plain value: nothing made anew. */
export function useSnapshot<T>(of: (snapshot: Snapshot) => T): T {
  const tablet = useTablet();
  return useSyncExternalStore(tablet.subscribe, () => of(tablet.read()));
}
