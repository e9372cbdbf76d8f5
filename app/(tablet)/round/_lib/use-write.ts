import { useCallback, useState } from 'react';
import type { EntryKind, Payloads } from '@/lib/core/tablet';
import type { Said, TakenPhoto } from '@/lib/tablet/journal';
import { useTablet } from './tablet-context';

/** Writes entries of one visit down. True once they are on the disk; on trouble the bar at the top says what to do. */
export function useWrite(visitId: string) {
  const tablet = useTablet();
  const [busy, setBusy] = useState(false);
  const during = useCallback(async (work: () => Promise<unknown>): Promise<boolean> => {
    setBusy(true);
    try {
      await work();
      return true;
    } catch {
      return false;
    } finally {
      setBusy(false);
    }
  }, []);
  const write = useCallback(
    <K extends EntryKind>(kind: K, payload: Payloads[K], photo?: TakenPhoto) => during(() => tablet.write(visitId, kind, payload, photo)),
    [during, tablet, visitId],
  );
  /** All that one tap says goes down at once: a tablet that falls keeps all of it or nothing. */
  const writeAll = useCallback((said: readonly Said[]) => during(() => tablet.writeAll(visitId, said)), [during, tablet, visitId]);
  /** For times named in an entry. */
  const now = useCallback(() => tablet.now(), [tablet]);
  return { write, writeAll, busy, now };
}
