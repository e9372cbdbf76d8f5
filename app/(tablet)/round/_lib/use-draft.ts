import { useCallback, useEffect, useRef, useState } from 'react';
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
  const tablet = useTablet();
  const [draft, set] = useState(empty);
  const [kept, setKept] = useState(true);
  const name = `draft:${key}`;
  /** What is typed before the kept draft has been read is the newer. */
  const touched = useRef(false);
  useEffect(() => {
    let gone = false;
    touched.current = false;
    void tablet.database
      ?.get('meta', name)
      .then((kept) => {
        if (kept !== undefined && !gone && !touched.current) set(kept as T);
      })
      .catch(() => {});
    return () => {
      gone = true;
    };
  }, [tablet, name]);
  const setDraft = useCallback(
    (next: T) => {
      touched.current = true;
      set(next);
      if (!tablet.database) return setKept(false);
      void tablet.database.put('meta', next, name).then(
        () => setKept(true),
        () => setKept(false),
      );
    },
    [tablet, name],
  );
  const clear = useCallback(() => {
    set(empty);
    void tablet.database?.delete('meta', name).catch(() => {});
    // eslint-disable-next-line react-hooks/exhaustive-deps -- `empty` is a constant of its caller
  }, [tablet, name]);
  return { draft, setDraft, clear, kept };
}
