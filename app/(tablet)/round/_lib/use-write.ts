import { useCallback, useState } from 'react';
import type { EntryKind, Payloads } from '@/lib/core/tablet';
import type { KeptPhoto } from '@/lib/tablet/database';
import { useTablet } from './tablet-context';

/** Writes an entry of one visit down. True once it is on the disk; on trouble the bar at the top says what to do. */
export function useWrite(visitId: string) {
  const tablet = useTablet();
  const [busy, setBusy] = useState(false);
  const write = useCallback(
    async <K extends EntryKind>(kind: K, payload: Payloads[K], photo?: Pick<KeptPhoto, 'sha256' | 'mime' | 'bytes'>): Promise<boolean> => {
      setBusy(true);
      try {
        await tablet.write(visitId, kind, payload, photo);
        return true;
      } catch {
        return false;
      } finally {
        setBusy(false);
      }
    },
    [tablet, visitId],
  );
  /** For times named in an entry. */
  const now = useCallback(() => tablet.now(), [tablet]);
  return { write, busy, now };
}
