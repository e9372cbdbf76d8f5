import { aspectWords, unlookedFor } from '../tasks';
import type { VisitOnFile } from './state';

/** What still stands between a visit and its closing. */
export type Missing = {
  code: 'not_arrived' | 'task_open' | 'low_side' | 'no_signature';
  unitId: string | null;
  taskId: string | null;
  message: string;
};

const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** In the order they are met on the way round the kitchen, a unit's tasks in one line. Empty means the visit can be closed. */
export function missingToClose(visit: VisitOnFile): Missing[] {
  const missing: Missing[] = [];
  const order = new Map(visit.units.map((u, place) => [u.id, place]));
  if (!visit.entries.arrivedAt) missing.push({ code: 'not_arrived', unitId: null, taskId: null, message: 'Say when you arrived.' });
  const unitIds = [...new Set(visit.tasks.map((t) => t.unitId))].sort((a, b) => (order.get(a) ?? Infinity) - (order.get(b) ?? Infinity));
  for (const unitId of unitIds) missing.push(...missingOfUnit(visit, unitId));
  if (!visit.entries.signature)
    missing.push({ code: 'no_signature', unitId: null, taskId: null, message: 'Have someone sign, or say that nobody was there.' });
  return missing;
}

function missingOfUnit(visit: VisitOnFile, unitId: string): Missing[] {
  const unit = visit.units.find((u) => u.id === unitId);
  const name = unit?.name ?? 'A unit';
  const tasks = visit.tasks.filter((t) => t.unitId === unitId);
  const open = tasks.filter((t) => t.outcome === 'planned');
  const missing: Missing[] = [];
  if (open.length > 0)
    missing.push({
      code: 'task_open',
      unitId,
      taskId: open[0]?.taskId ?? null,
      message: `${name}: ${listed(open.map((t) => t.label.toLowerCase()))} ${open.length === 1 ? 'is' : 'are'} neither done nor left undone for a reason.`,
    });
  for (const t of tasks.filter((t) => t.outcome === 'done')) {
    const unlooked = unlookedFor(t, unit, visit.entries.findings);
    if (unlooked.length > 0)
      missing.push({
        code: 'low_side',
        unitId,
        taskId: t.taskId,
        message: `${name}: ${t.label.toLowerCase()} is done, but not everything was looked at. Grade ${aspectWords(unlooked)}, or say why not.`,
      });
  }
  return missing;
}
