import type { VisitOnFile } from './state';

/** Whether anything has been written down on a visit, of whatever kind. */
export function hasWork(visit: Pick<VisitOnFile, 'entries' | 'tasks'>): boolean {
  const anything = (e: unknown) => (Array.isArray(e) ? e.length > 0 : e !== null);
  return Object.values(visit.entries).some(anything) || visit.tasks.some((t) => t.outcome !== 'planned');
}
