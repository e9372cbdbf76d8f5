import { useSyncExternalStore } from 'react';

// One for the whole screen: many rows ask.
const query = window.matchMedia('(min-width: 640px)');

function subscribe(look: () => void): () => void {
  query.addEventListener('change', look);
  return () => query.removeEventListener('change', look);
}

/** Whether there is room for two things beside one another: a tablet, not a phone. */
export const useWide = (): boolean => useSyncExternalStore(subscribe, () => query.matches);
