import { useCallback, useSyncExternalStore } from 'react';
import { draftsOf } from './drafts';
import { useTablet } from './tablet-context';

/** What is typed and not yet saved survives going back, and the tablet falling down. Kept on the tablet only. */
export function useDraft<T>(
  key: string,
  empty: T,
): {
  draft: T;
  setDraft: (next: T) => void;
  clear: () => void;
  /** Whether the tablet could keep it; nobody is promised what it can't. */
  kept: boolean;
} {
  const drafts = draftsOf(useTablet().database);
  const name = `draft:${key}`;
  const slot = useSyncExternalStore(drafts.subscribe, () => drafts.read(name));
  const setDraft = useCallback((next: T) => drafts.write(name, next), [drafts, name]);
  const clear = useCallback(() => drafts.clear(name), [drafts, name]);
  return { draft: slot.value === undefined ? empty : (slot.value as T), setDraft, clear, kept: slot.kept };
}
