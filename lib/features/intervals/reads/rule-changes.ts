import 'server-only';
import { STORED_CHANGE_EVIDENCE } from '../../../database/stored/records';
import { todayIn, type LocalDate } from '../../../core/calendar';
import { madeByVisit, type ReadingToEstimate, type TaskOnFile } from '../../../core/evidence';
import { seenAt } from '../../../core/findings/seen';
import { groupBy } from '../../../core/numerics/group-by';
import { fromLocalDate, toLocalDate } from '../../../core/calendar/date-column';
import { visitDate } from '../../evidence/reads/findings-history';
import type { Tx } from '../../../database/client';

const CHANGE_FIELDS = {
  evidence: true,
  at: true,
  kind: true,
  fromRule: true,
  toRule: true,
  visitId: true,
} as const;

/** A closed (or just closing) visit with its kitchen, the looks and the readings that stand; null when it is not on file. */
export async function visitToRevise(db: Tx, visitId: string) {
  const visit = await db.visit.findUnique({
    where: { id: visitId },
    include: {
      kitchen: true,
      tasks: { where: { outcome: 'done' }, select: { taskId: true, unitId: true } },
      findings: { where: { supersededAt: null }, select: { unitId: true, aspect: true, grade: true, phase: true } },
      readings: { where: { supersededAt: null } },
      outcomes: { where: { outcome: { not: 'seen' } }, select: { unitId: true } },
    },
  });
  if (!visit) return null;
  const { kitchen, findings, readings } = visit;
  const missed = new Set(visit.outcomes.map((u) => u.unitId));
  const seen = findings.filter((f) => f.grade !== null && !missed.has(f.unitId));
  return {
    id: visit.id,
    kitchenId: visit.kitchenId,
    kitchen,
    on: visitDate(visit, kitchen.timeZone),
    doneTaskIds: new Set(visit.tasks.map((t) => t.taskId)),
    unitIds: new Set([...visit.tasks, ...findings, ...readings].map((x) => x.unitId)),
    readings: readings.map((r): ReadingToEstimate => ({
      readingId: r.id,
      unitId: r.unitId,
      at: r.at.getTime(),
      phase: r.phase,
      record: r,
      seen: seenAt(
        findings.filter((f) => f.unitId === r.unitId),
        r.phase,
      ),
    })),
    lookedAt: new Map([...groupBy(seen, (f) => f.unitId)].map(([unitId, list]) => [unitId, new Set(list.map((f) => f.aspect))])),
  };
}

/** Days from one day on, on which other work is due in a kitchen than that of the units visited. */
export async function dueElsewhere(db: Tx, kitchenId: string, unitIds: readonly string[], from: LocalDate): Promise<LocalDate[]> {
  const rows = await db.task.findMany({
    where: { active: true, unitId: { notIn: [...unitIds] }, unit: { kitchenId, archivedAt: null }, dueOn: { gte: fromLocalDate(from) } },
    select: { dueOn: true },
    distinct: ['dueOn'],
    orderBy: { dueOn: 'asc' },
  });
  return rows.map((t) => toLocalDate(t.dueOn));
}

/** The tasks of some units as the decision needs them, with the change that this visit already made, if any. */
export async function tasksToRevise(db: Tx, unitIds: readonly string[], visitId: string, timeZone: string): Promise<TaskOnFile[]> {
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
  return rows.map((t): TaskOnFile => {
    const made = t.changes.filter((c) => c.kind === 'evidence');
    const other = made.find((c) => c.visitId !== visitId);
    const held = t.changes.find((c) => c.kind === 'held');
    return {
      taskId: t.id,
      unitId: t.unitId,
      kindKey: t.kindKey,
      rule: t.rule,
      anchor: t.anchor,
      anchorDate: toLocalDate(t.anchorDate),
      locked: t.locked,
      minWeeks: t.minWeeks,
      maxWeeks: t.maxWeeks,
      dueOn: toLocalDate(t.dueOn),
      lastDoneOn: t.lastDoneOn ? toLocalDate(t.lastDoneOn) : null,
      doneOn: t.visitTasks.map((v) => visitDate(v.visit, timeZone)).sort(),
      mine: madeByVisit(made.filter((c) => c.visitId === visitId)),
      lastChangeOn: other ? todayIn(timeZone, other.at.getTime()) : null,
      lastHeldRule: STORED_CHANGE_EVIDENCE.readOrNull(held?.evidence)?.wouldHave ?? null,
    };
  });
}
