import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import type { TaskFile } from '../../../core/evidence';
import { fromLocalDate, toLocalDate } from '../../../core/calendar/date-column';
import { visitDate } from '../../evidence/reads/findings-history';
import type { Prisma, Tx } from '../../../database/client';

const CHANGE_FIELDS = {
  evidence: true,
  id: true,
  at: true,
  kind: true,
  fromRule: true,
  toRule: true,
  fromDueOn: true,
  review: true,
  visitId: true,
} as const;

/** A closed (or just closing) visit with its kitchen, or null. */
export async function visitToRevise(db: Tx, visitId: string) {
  const visit = await db.visit.findUnique({
    where: { id: visitId },
    include: {
      kitchen: true,
      tasks: { where: { outcome: 'done' }, select: { taskId: true, unitId: true } },
      findings: { where: { supersededAt: null }, select: { unitId: true } },
      readings: { where: { supersededAt: null }, select: { unitId: true } },
    },
  });
  if (!visit) return null;
  const unitIds = new Set([...visit.tasks, ...visit.findings, ...visit.readings].map((x) => x.unitId));
  return {
    id: visit.id,
    kitchenId: visit.kitchenId,
    kitchen: visit.kitchen,
    on: visitDate(visit, visit.kitchen.timeZone),
    doneTaskIds: new Set(visit.tasks.map((t) => t.taskId)),
    unitIds,
  };
}

/**
 * The tasks of some units as the revision needs them, with the change that this visit already made, if any.
 * `lastDoneOn` is what it was before; the caller moves it on.
 */
export async function tasksToRevise(db: Tx, unitIds: readonly string[], visitId: string, timeZone: string) {
  const rows = await db.task.findMany({
    where: { unitId: { in: [...unitIds] }, active: true },
    orderBy: [{ unitId: 'asc' }, { kind: { sort: 'asc' } }, { id: 'asc' }],
    include: {
      changes: { where: { kind: { in: ['evidence', 'held'] } }, orderBy: { at: 'desc' }, take: 8, select: CHANGE_FIELDS },
      visitTasks: {
        where: { outcome: 'done', visitId: { not: visitId }, visit: { status: 'done' } },
        select: { visit: { select: { arrivedAt: true, startsAt: true } } },
      },
    },
  });
  return rows.map((t) => {
    const made = t.changes.filter((c) => c.kind === 'evidence');
    const mine = made.find((c) => c.visitId === visitId) ?? null;
    const other = made.find((c) => c.visitId !== visitId) ?? null;
    const held = t.changes.find((c) => c.kind === 'held');
    const done = t.visitTasks.map((v) => visitDate(v.visit, timeZone)).sort();
    return {
      row: t,
      mine,
      /** Dates of other visits that did it, oldest first. */
      doneOn: done,
      /** What it was last said that the rule would have become, while it was held. */
      lastHeldRule: (held?.evidence as { wouldHave?: string } | null | undefined)?.wouldHave ?? null,
      lastChangeOn: other ? (other.at.toISOString().slice(0, 10) as LocalDate) : null,
      dueOn: toLocalDate(t.dueOn),
      lastDoneOn: t.lastDoneOn ? toLocalDate(t.lastDoneOn) : null,
      anchorDate: toLocalDate(t.anchorDate),
    };
  });
}
export type TaskToRevise = Awaited<ReturnType<typeof tasksToRevise>>[number];

export type NewRule = Pick<TaskFile, 'taskId' | 'rule'> & { dueOn: LocalDate; lastDoneOn: LocalDate | null };

/** Writes a task's rule, last date and due date; only if something differs. */
export async function saveTaskRule(db: Tx, { taskId, rule, dueOn, lastDoneOn }: NewRule): Promise<void> {
  await db.task.update({
    where: { id: taskId },
    data: { rule, dueOn: fromLocalDate(dueOn), lastDoneOn: lastDoneOn && fromLocalDate(lastDoneOn), version: { increment: 1 } },
  });
}

export type NewChange = {
  taskId: string; at: Date; kind: 'evidence' | 'held' | 'overruled' | 'locked' | 'unlocked' | 'edited' | 'ended'; fromRule: string; toRule: string; fromDueOn: LocalDate | null; toDueOn: LocalDate | null;
  reason: string; evidence: unknown; modelVersion: string; byUserId: string | null; visitId: string | null;
}; // prettier-ignore

export const changeRow = (c: NewChange): Prisma.RuleChangeUncheckedCreateInput => ({
  ...c,
  fromDueOn: c.fromDueOn && fromLocalDate(c.fromDueOn),
  toDueOn: c.toDueOn && fromLocalDate(c.toDueOn),
  evidence: c.evidence as Prisma.InputJsonValue,
});

export const saveChange = (db: Tx, change: NewChange) => db.ruleChange.create({ data: changeRow(change) });
