import 'server-only';
import { addDays, type LocalDate } from '../../../core/calendar';
import type { Bucket } from '../../../core/due/buckets';
import { Prisma, type Tx } from '../../../database/client';
import { toLocalDate } from '../../../core/calendar/date-column';
import { narrowed, rangeOf, type DueFilter, type Zones } from './where';

export type GoBack = {
  id: string;
  what: string;
  note: string;
  dueOn: LocalDate;
  today: LocalDate;
  unitId: string;
  unit: string;
  kitchenId: string;
  kitchen: string;
  customer: string;
  timeZone: string;
  /** The unit's tasks that nobody has booked, for the visit that goes back. */
  taskIds: string[];
  /** The kitchen's next visit, whatever it is for. */
  next: { visitId: string; startsAt: number; technician: string } | null;
};

type Row = Omit<GoBack, 'dueOn' | 'today' | 'next'> & {
  dueOn: Date;
  today: Date;
  visitId: string | null;
  startsAt: Date | null;
  technician: string | null;
};

/** Open jobs whose day has come, or comes within the part of the list that is shown; the longest overdue first. */
export async function toGoBackTo(db: Tx, zones: Zones, bucket: Bucket, filter: DueFilter, o: { now: Date; limit: number }) {
  if (zones.length === 0) return [];
  const ends = zones.map(({ zone, dates }) => {
    const [tomorrow, end] = [addDays(dates.today, 1), rangeOf(dates, bucket).to];
    return Prisma.sql`(${zone}, ${dates.today}::date, ${end > tomorrow ? end : tomorrow}::date)`;
  });
  // A job is of no kind of task, and stands until it is settled, booked or not.
  const where = narrowed({ ...filter, kindKey: undefined, booked: true });
  const rows = await db.$queryRaw<Row[]>`
    WITH z(zone, today, hi) AS (VALUES ${Prisma.join(ends)}),
    t AS (
      SELECT j.id, j.what, j.note, j."dueOn", u.id AS "unitId", u.name AS unit, u."kitchenId"
      FROM "Job" j JOIN LATERAL (
        SELECT u.* FROM "JobUnit" ju JOIN "Unit" u ON u.id = ju."unitId" AND u."archivedAt" IS NULL WHERE ju."jobId" = j.id ORDER BY u.name LIMIT 1
      ) u ON true
      WHERE j."closedAt" IS NULL AND j."dueOn" IS NOT NULL
    )
    SELECT t.id, t.what, t.note, t."dueOn", z.today, t."unitId", t.unit, k.id AS "kitchenId", k.name AS kitchen, c.name AS customer, k."timeZone",
      ARRAY(
        SELECT a.id FROM "Task" a WHERE a."unitId" = t."unitId" AND a.active
          AND NOT EXISTS (SELECT 1 FROM "VisitTask" vt WHERE vt."taskId" = a.id AND vt.open) ORDER BY a."dueOn", a.id
      ) AS "taskIds",
      n.id AS "visitId", n."startsAt", n.name AS technician
    FROM t JOIN "Kitchen" k ON k.id = t."kitchenId" JOIN "Customer" c ON c.id = k."customerId" JOIN z ON z.zone = k."timeZone"
    LEFT JOIN LATERAL (
      SELECT v.id, v."startsAt", p.name FROM "Visit" v JOIN "User" p ON p.id = v."technicianId"
      WHERE v."kitchenId" = k.id AND v.status = 'booked' AND v."startsAt" >= ${o.now}::timestamptz ORDER BY v."startsAt" LIMIT 1
    ) n ON true
    WHERE k."archivedAt" IS NULL AND t."dueOn" < z.hi ${where}
    ORDER BY t."dueOn", c.name, k.name, t.unit, t.id LIMIT ${o.limit}`;
  return rows.map(({ visitId, startsAt, technician, dueOn, today, ...r }): GoBack => ({
    ...r,
    dueOn: toLocalDate(dueOn),
    today: toLocalDate(today),
    next: visitId && startsAt && technician ? { visitId, startsAt: startsAt.getTime(), technician } : null,
  }));
}
