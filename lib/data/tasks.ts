import 'server-only';
import type { Tx } from './client';
import { toLocalDate } from './dates';

/** Kinds of task in their order. */
export const taskKinds = (db: Tx, o: { activeOnly?: boolean } = {}) => db.taskKind.findMany({ where: o.activeOnly ? { active: true } : {}, orderBy: [{ sort: 'asc' }, { key: 'asc' }] });

/** A task with what its form shows, or null. */
export async function taskToEdit(db: Tx, id: string) {
  const t = await db.task.findUnique({ where: { id }, include: { kind: true, unit: { include: { kitchen: { include: { customer: true } } } } } });
  return t && { ...t, anchorDate: toLocalDate(t.anchorDate), lastDoneOn: t.lastDoneOn && toLocalDate(t.lastDoneOn), dueOn: toLocalDate(t.dueOn) };
}
