import { useEffect, useState } from 'react';
import type { VisitOnFile } from '@/lib/core/tablet';
import type { ReadingDraft } from './reading-draft';
import { useTablet } from './tablet-context';

export type Unsaved = { unitId: string; phase: 'before' | 'after'; words: string };

/** Readings of a visit that were typed and never saved: nobody leaves them behind without a word. */
export function useUnsavedReadings(visit: VisitOnFile): Unsaved[] {
  const tablet = useTablet();
  const [list, set] = useState<Unsaved[]>([]);
  useEffect(() => {
    let gone = false;
    const look = async () => {
      const found: Unsaved[] = [];
      for (const unit of visit.units)
        for (const phase of ['before', 'after'] as const) {
          const kept = (await tablet.database?.get('meta', `draft:${visit.id}:${unit.id}:${phase}`)) as ReadingDraft | undefined;
          if (kept && Object.values(kept.text).some(Boolean))
            found.push({ unitId: unit.id, phase, words: `${unit.name}: readings ${phase} cleaning were typed and not saved.` });
        }
      if (!gone) set(found);
    };
    void look().catch(() => {});
    return () => {
      gone = true;
    };
  }, [tablet, visit]);
  return list;
}
