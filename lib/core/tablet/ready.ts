import { aspectWords, unlookedFor } from '../tasks';
import type { VisitOnFile } from './state';

/** What still stands between a visit and its closing. */
export type Missing = {
  code: 'not_arrived' | 'task_open' | 'low_side' | 'no_signature';
  unitId: string | null;
  taskId: string | null;
  message: string;
};

/** In the order they are met on the way round the kitchen. Empty means the visit can be closed. */
export function missingToClose(visit: VisitOnFile): Missing[] {
  const missing: Missing[] = [];
  const name = (unitId: string) => visit.units.find((u) => u.id === unitId)?.name ?? 'A unit';
  if (!visit.entries.arrivedAt) missing.push({ code: 'not_arrived', unitId: null, taskId: null, message: 'Say when you arrived.' });
  for (const t of visit.tasks) {
    const place = { unitId: t.unitId, taskId: t.taskId };
    if (t.outcome === 'planned')
      missing.push({
        code: 'task_open',
        ...place,
        message: `${name(t.unitId)}: ${t.label.toLowerCase()} is neither done nor left undone for a reason.`,
      });
    if (t.outcome !== 'done') continue;
    const unit = visit.units.find((u) => u.id === t.unitId);
    const unlooked = unlookedFor(t, unit, visit.entries.findings);
    if (unlooked.length > 0)
      missing.push({
        code: 'low_side',
        ...place,
        message: `${name(t.unitId)}: ${t.label.toLowerCase()} is done, but not everything was looked at. Grade ${aspectWords(unlooked)}, or say why not.`,
      });
  }
  if (!visit.entries.signature)
    missing.push({ code: 'no_signature', unitId: null, taskId: null, message: 'Have someone sign, or say that nobody was there.' });
  return missing;
}
