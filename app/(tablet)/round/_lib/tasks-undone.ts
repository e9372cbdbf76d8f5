import type { VisitOnFile } from '@/lib/core/tablet';

/** What is still planned of a unit, left undone for a reason. */
export const tasksUndone = (visit: VisitOnFile, unitId: string, reason: string) =>
  visit.tasks
    .filter((t) => t.unitId === unitId && t.outcome === 'planned')
    .map(({ taskId }) => ({ kind: 'task.not_done' as const, payload: { taskId, reason } }));
