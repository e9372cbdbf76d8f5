import { ASPECT_LABEL, type Aspect } from '../findings/grades';
import type { VisitOnFile } from './state';

/** What still stands between a visit and its closing. */
export type Missing = {
  code: 'not_arrived' | 'task_open' | 'low_side' | 'no_signature';
  unitId: string | null;
  taskId: string | null;
  words: string;
};

export const COIL_CLEANING = 'coil_cleaning';
/** What must be graded, or say why not, before a coil cleaning counts: the iced pan nobody opened is the costly one. */
export const LOW_SIDE_ASPECTS = ['ice', 'drain'] as const satisfies readonly Aspect[];

/** Low-side aspects of a unit that carry neither a grade nor a reason. */
export function lowSideUnlooked(visit: { entries: { findings: readonly { unitId: string; aspect: string }[] } }, unitId: string): Aspect[] {
  return LOW_SIDE_ASPECTS.filter((a) => !visit.entries.findings.some((f) => f.unitId === unitId && f.aspect === a));
}

/** In the order they are met on the way round the kitchen. Empty means the visit can be closed. */
export function missingToClose(visit: VisitOnFile): Missing[] {
  const missing: Missing[] = [];
  const name = (unitId: string) => visit.units.find((u) => u.id === unitId)?.name ?? 'A unit';
  if (!visit.entries.arrivedAt) missing.push({ code: 'not_arrived', unitId: null, taskId: null, words: 'Say when you arrived.' });
  for (const t of visit.tasks) {
    const place = { unitId: t.unitId, taskId: t.taskId };
    if (t.outcome === 'planned')
      missing.push({
        code: 'task_open',
        ...place,
        words: `${name(t.unitId)}: ${t.label.toLowerCase()} is neither done nor left undone for a reason.`,
      });
    if (t.outcome !== 'done' || t.kindKey !== COIL_CLEANING) continue;
    const unlooked = lowSideUnlooked(visit, t.unitId);
    if (unlooked.length > 0)
      missing.push({
        code: 'low_side',
        ...place,
        words: `${name(t.unitId)}: the coil was cleaned but the low side was not looked at. Grade ${unlooked.map((a) => ASPECT_LABEL[a].toLowerCase()).join(' and ')}, or say why not.`,
      });
  }
  if (!visit.entries.signature)
    missing.push({ code: 'no_signature', unitId: null, taskId: null, words: 'Have someone sign, or say that nobody was there.' });
  return missing;
}
