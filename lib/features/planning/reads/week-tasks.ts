import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { BRINGING_KINDS } from '../../../core/tasks';
import { Prisma, type Tx } from '../../../database/client';

/** A task as the planner needs it. A week of a large shop has some ten thousand, so no more than that is read of each. */
export type WeekTask = {
  id: string; kitchenId: string; unitId: string; kindKey: string; rule: string; dueOn: LocalDate;
  unit: string; refrigerant: string; roofWork: boolean; label: string; minutes: number; lowSide: boolean;
}; // prettier-ignore

const TASKS = Prisma.sql`
  SELECT t.id, t."kitchenId", t."unitId", t."kindKey", t.rule, t."dueOn"::text AS "dueOn",
    u.name AS unit, u.refrigerant, u."roofWork", k.label, k.minutes, k."lowSide"
  FROM "Task" t JOIN "Unit" u ON u.id = t."unitId" JOIN "TaskKind" k ON k.key = t."kindKey"`;

/**
 * Tasks of some kitchens that fall due before `until` and stand on no open visit, and what rides along with them, whenever that
 * is due: booked, it takes its time on the visit.
 */
export const freeTasks = (db: Tx, kitchenIds: readonly string[], until: LocalDate) =>
  db.$queryRaw<WeekTask[]>`
    WITH due AS MATERIALIZED (
      SELECT t.id, t."unitId", t."kindKey" FROM "Task" t
      WHERE t.active AND t."kitchenId" = ANY(${[...kitchenIds]}::uuid[]) AND t."dueOn" < ${until}::date
        AND NOT EXISTS (SELECT 1 FROM "VisitTask" vt WHERE vt."taskId" = t.id AND vt.open)
    ), open AS (
      SELECT DISTINCT "unitId" FROM due WHERE "kindKey" = ANY(${BRINGING_KINDS}::text[])
    )
    ${TASKS} WHERE t.active AND u."archivedAt" IS NULL AND t."kitchenId" = ANY(${[...kitchenIds]}::uuid[])
      AND (t.id IN (SELECT id FROM due) OR (k."lowSide" AND t."unitId" IN (SELECT "unitId" FROM open)
        AND NOT EXISTS (SELECT 1 FROM "VisitTask" vt WHERE vt."taskId" = t.id AND vt.open)))
    ORDER BY t.id`;

/** Tasks that stand open on some visits. */
export const tasksOnVisits = (db: Tx, visitIds: readonly string[]) =>
  db.$queryRaw<WeekTask[]>`
    ${TASKS} WHERE t.id IN (SELECT vt."taskId" FROM "VisitTask" vt WHERE vt."visitId" = ANY(${[...visitIds]}::uuid[]) AND vt.open)
    ORDER BY t.id`;

export type BookedVisit = { id: string; technicianId: string; kitchenId: string; startsAt: Date; endsAt: Date; taskIds: string[] };

/** Visits that hold their time between two instants, with the tasks that stand open on them. */
export const bookedVisits = (db: Tx, { before, after, evenDone }: { before: Date; after: Date; evenDone: boolean }) =>
  db.$queryRaw<BookedVisit[]>`
    SELECT v.id, v."technicianId", v."kitchenId", v."startsAt", v."endsAt",
      ARRAY(SELECT vt."taskId" FROM "VisitTask" vt WHERE vt."visitId" = v.id AND vt.open ORDER BY vt."taskId") AS "taskIds"
    FROM "Visit" v
    WHERE (v.status IN ('booked', 'started') OR (${evenDone} AND v.status = 'done')) AND v."startsAt" < ${before} AND v."endsAt" > ${after}
    ORDER BY v."startsAt", v.id`;
