import { useEffect, useState } from 'react';
import type { WorkStep } from '@/lib/core/findings/cautions';
import type { VisitOnFile } from '@/lib/core/tablet';
import { useTablet } from './tablet-context';
import { to } from './use-place';

/** Where something typed waits, and what it is. */
export type Unsaved = { href: string; message: string };

const hasText = (value: unknown): boolean =>
  typeof value === 'string' ? value.trim() !== '' : typeof value === 'object' && value !== null && Object.values(value).some(hasText);

type Typed = { text?: unknown; what?: unknown; note?: unknown; degrees?: unknown; toldTo?: unknown; name?: unknown };
/** What of a draft is typed, by the end of its name; the rest are choices. */
const OF_UNIT: Record<string, { step: WorkStep; what: string; typed: (d: Typed) => unknown }> = {
  before: { step: 'read', what: 'readings before cleaning were', typed: (d) => d.text },
  after: { step: 'restore', what: 'readings after cleaning were', typed: (d) => d.text },
  'follow-up': { step: 'leave', what: 'work that is wanted was', typed: (d) => d.what },
  event: { step: 'leave', what: 'something that happened was', typed: (d) => d.note },
  food: { step: 'leave', what: 'a food temperature was', typed: (d) => [d.degrees, d.toldTo] },
};
const OF_VISIT: Record<string, { page: 'visit' | 'addUnit'; what: string; typed: (d: Typed) => unknown }> = {
  part: { page: 'visit', what: 'A part was', typed: (d) => d.what },
  ':food': { page: 'visit', what: 'A food temperature was', typed: (d) => [d.degrees, d.toldTo] },
  'new-unit': { page: 'addUnit', what: 'A unit not on file was', typed: (d) => d },
};

/** What one draft of a visit says that was never saved; null where nothing was typed, or it belongs to an answer. */
export function unsavedOf(visit: VisitOnFile, name: string, value: unknown): Unsaved | null {
  const draft = (typeof value === 'object' && value !== null ? value : {}) as Typed;
  const ofVisit = OF_VISIT[name];
  if (ofVisit)
    return hasText(ofVisit.typed(draft)) ? { href: to[ofVisit.page](visit.id), message: `${ofVisit.what} typed and not saved.` } : null;
  const [unitId, what = '', ...more] = name.split(':');
  const unit = visit.units.find((u) => u.id === unitId);
  const of = OF_UNIT[what];
  if (!unit || !of || more.length > 0 || !hasText(of.typed(draft))) return null;
  return { href: to.unit(visit.id, unit.id, of.step), message: `${unit.name}: ${of.what} typed and not saved.` };
}

/** What was typed on a visit and never saved: nobody leaves it behind without a word. */
export function useUnsaved(visit: VisitOnFile): Unsaved[] {
  const tablet = useTablet();
  const [list, set] = useState<Unsaved[]>([]);
  useEffect(() => {
    let gone = false;
    const look = async () => {
      const db = tablet.database;
      const prefix = `draft:${visit.id}:`;
      const found: Unsaved[] = [];
      for (const key of (await db?.getAllKeys('meta', IDBKeyRange.bound(prefix, `${prefix}\uffff`))) ?? []) {
        const unsaved = unsavedOf(visit, key.slice(prefix.length), await db?.get('meta', key));
        if (unsaved) found.push(unsaved);
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
