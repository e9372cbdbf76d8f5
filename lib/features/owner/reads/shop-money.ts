import 'server-only';
import type { JobState } from '../../../core/jobs';
import { toLocalDate } from '../../../core/calendar/date-column';
import { Prisma, type Tx } from '../../../database/client';

export type JobsWaiting = { state: JobState; jobs: number; oldest: Date };
/** Open jobs by state, with the day on which the oldest came. */
export const jobsWaiting = (db: Tx) =>
  db.$queryRaw<JobsWaiting[]>`
    SELECT state::text AS state, count(*)::int AS jobs, min("createdAt") AS oldest FROM "Job" WHERE "closedAt" IS NULL GROUP BY state ORDER BY state`;

export type QuoteMoney = {
  currency: string;
  waiting: number;
  waitingCents: number;
  accepted: number;
  acceptedCents: number;
  declined: number;
};
/** Quotes that wait for an answer, whenever they were sent, and those answered in a period; newest versions only. */
export const quoteMoney = (db: Tx, from: string, to: string, zone: string) =>
  db.$queryRaw<QuoteMoney[]>(Prisma.sql`
    WITH q AS (
      SELECT q.*, q."answeredAt" >= ${from}::date::timestamp AT TIME ZONE ${zone} AND q."answeredAt" < ${to}::date::timestamp AT TIME ZONE ${zone} AS within
      FROM "Quote" q JOIN "Job" j ON j.id = q."jobId" WHERE q."sentAt" IS NOT NULL AND q."supersededAt" IS NULL AND (q.answer IS NOT NULL OR j."closedAt" IS NULL)
    )
    SELECT currency, count(*) FILTER (WHERE answer IS NULL)::int AS waiting, coalesce(sum("totalCents") FILTER (WHERE answer IS NULL), 0)::float8 AS "waitingCents",
      count(*) FILTER (WHERE answer = 'accepted' AND within)::int AS accepted, coalesce(sum("totalCents") FILTER (WHERE answer = 'accepted' AND within), 0)::float8 AS "acceptedCents",
      count(*) FILTER (WHERE answer = 'declined' AND within)::int AS declined
    FROM q GROUP BY currency ORDER BY currency`);

export type GasLost = { refrigerant: string; chargedKg: number; recoveredKg: number; units: number };
/** What went into units and came out of them in a period, by refrigerant; lines taken back are left out. */
export const gasLost = (db: Tx, from: string, to: string, zone: string) =>
  db.$queryRaw<GasLost[]>(Prisma.sql`
    SELECT c.refrigerant, coalesce(-sum(e.kg) FILTER (WHERE e.way = 'charged'), 0)::float8 AS "chargedKg", coalesce(sum(e.kg) FILTER (WHERE e.way = 'recovered'), 0)::float8 AS "recoveredKg",
      count(DISTINCT e."unitId")::int AS units
    FROM "CylinderEntry" e JOIN "Cylinder" c ON c.id = e."cylinderId"
    WHERE e."unitId" IS NOT NULL AND e.way IN ('charged', 'recovered') AND e."correctsId" IS NULL AND NOT EXISTS (SELECT 1 FROM "CylinderEntry" x WHERE x."correctsId" = e.id)
      AND e.at >= ${from}::date::timestamp AT TIME ZONE ${zone} AND e.at < ${to}::date::timestamp AT TIME ZONE ${zone}
    GROUP BY 1 ORDER BY 2 DESC`);

const SHOWN = 12;
/** Warranties that end within so many days of today, soonest first. */
export async function warrantiesEnding(db: Tx, today: Date, until: Date) {
  const where = { until: { gte: today, lte: until }, unit: { archivedAt: null } };
  const rows = await db.warranty.findMany({
    where,
    orderBy: [{ until: 'asc' }, { id: 'asc' }],
    take: SHOWN,
    select: {
      id: true,
      what: true,
      until: true,
      unit: { select: { id: true, name: true, kitchen: { select: { name: true, customer: { select: { name: true } } } } } },
    },
  });
  return { count: await db.warranty.count({ where }), rows: rows.map((r) => ({ ...r, until: toLocalDate(r.until) })) };
}
