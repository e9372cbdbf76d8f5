import 'server-only';
import { Prisma, type Tx } from '../../../database/client';

/** Visits `v` of a period, days by the shop's own clock, and `driven`: of each done the minutes from the kitchen before it on that day. */
export const visitsAndWays = (from: string, to: string, zone: string) => Prisma.sql`
  v AS (
    SELECT v.id, v."kitchenId", v."technicianId", v.status, v."nobodyThere", v."startsAt", v."endsAt", v."arrivedAt", v."leftAt", k.lat, k.lng,
      (v."startsAt" AT TIME ZONE ${zone})::date AS day
    FROM "Visit" v JOIN "Kitchen" k ON k.id = v."kitchenId"
    WHERE v."startsAt" >= ${from}::date::timestamp AT TIME ZONE ${zone} AND v."startsAt" < ${to}::date::timestamp AT TIME ZONE ${zone}
  ), legs AS (
    SELECT v.id, lag(v."kitchenId") OVER w AS prior, v."kitchenId", lag(lat) OVER w AS lat1, lag(lng) OVER w AS lng1, lat AS lat2, lng AS lng2
    FROM v WHERE v.status = 'done' WINDOW w AS (PARTITION BY v."technicianId", v.day ORDER BY coalesce(v."arrivedAt", v."startsAt"), v.id)
  ), driven AS (
    -- least() passes over nothing, so a missing position is asked for by name.
    SELECT l.id, coalesce(t.minutes, CASE WHEN l.lat1 + l.lng1 + l.lat2 + l.lng2 IS NOT NULL THEN 60 * s.circuity / s."speedKmh" * 12742 * asin(least(1, sqrt(
      sin(radians(l.lat2 - l.lat1) / 2) ^ 2 + cos(radians(l.lat1)) * cos(radians(l.lat2)) * sin(radians(l.lng2 - l.lng1) / 2) ^ 2))) END) AS minutes
    FROM legs l CROSS JOIN "ShopSettings" s LEFT JOIN "TravelTime" t ON t."fromKitchenId" = l.prior AND t."toKitchenId" = l."kitchenId"
    WHERE l.prior IS NOT NULL AND l.prior <> l."kitchenId"
  )`;

/** So many stand on the page; the others in the file. */
const LISTED = 12;

/** Work of visits of a period that are 30 days past. */
const settled = (from: string, to: string, zone: string, now: Date) => Prisma.sql`
  SELECT v.id, v."kitchenId", v."startsAt", coalesce(v."leftAt", v."endsAt") AS over FROM "Visit" v
  WHERE v.status = 'done' AND v."startsAt" >= ${from}::date::timestamp AT TIME ZONE ${zone}
    AND v."startsAt" < least(${to}::date::timestamp AT TIME ZONE ${zone}, ${now}::timestamptz - interval '30 days')
    -- Minutes of what was done are kept by the database: only where a kind of task has none are its tasks looked at.
    AND (v."doneMinutes" > 0 OR EXISTS (SELECT 1 FROM "VisitTask" vt WHERE vt."visitId" = v.id AND vt.outcome = 'done'))`;
/** Calls of a kitchen within 30 days after a visit `v`, about a unit of that visit. */
const CALLED = Prisma.sql`
  j."kitchenId" = v."kitchenId" AND j.source IN ('call', 'customer') AND j."createdAt" > v.over AND j."createdAt" <= v.over + interval '30 days'
  AND EXISTS (SELECT 1 FROM "JobUnit" ju JOIN "VisitTask" vt ON vt."unitId" = ju."unitId" AND vt."visitId" = v.id WHERE ju."jobId" = j.id)`;

export type CallOut = { visitId: string; day: string; kitchen: string; customer: string; jobId: string; what: string };
export type CallOuts = { visits: number; followed: number; latest: CallOut[] };

/**
 * Visits of a period that are 30 days past, and of how many the kitchen rang about one of their units within 30 days; the
 * latest of those, each with the first such call.
 */
export async function callOuts(db: Tx, from: string, to: string, zone: string, now: Date): Promise<CallOuts> {
  const [row] = await db.$queryRaw<CallOuts[]>(Prisma.sql`
    WITH v AS MATERIALIZED (${settled(from, to, zone, now)}), c AS MATERIALIZED (
      SELECT DISTINCT ON (v.id) v.id, v."startsAt", v."kitchenId", j.id AS job, j.what FROM v JOIN "Job" j ON ${CALLED} ORDER BY v.id, j."createdAt"
    )
    SELECT (SELECT count(*)::int FROM v) AS visits, (SELECT count(*)::int FROM c) AS followed, coalesce((
      SELECT jsonb_agg(jsonb_build_object('visitId', l.id, 'day', (l."startsAt" AT TIME ZONE ${zone})::date, 'kitchen', k.name, 'customer', w.name, 'jobId', l.job, 'what', l.what) ORDER BY l."startsAt" DESC, l.id)
      FROM (SELECT * FROM c ORDER BY "startsAt" DESC, id LIMIT ${LISTED}) l JOIN "Kitchen" k ON k.id = l."kitchenId" JOIN "Customer" w ON w.id = k."customerId"), '[]') AS latest`);
  return row ?? { visits: 0, followed: 0, latest: [] };
}

export type VisitLine = {
  id: string; day: Date; kitchen: string; customer: string; technician: string; status: string; nobodyThere: boolean; startsAt: Date; endsAt: Date;
  arrivedAt: Date | null; leftAt: Date | null;
  /** Minutes between arriving and leaving of one that is done, and on the road to it from the kitchen before; null where not known. */
  there: number | null; road: number | null;
  /** Number of the first job that a call within 30 days opened. */
  job: number | null;
}; // prettier-ignore

/** The visits behind `workDone` and `callOuts`, one row each, by day. */
export const visitLines = (db: Tx, from: string, to: string, zone: string, now: Date) =>
  db.$queryRaw<VisitLine[]>(Prisma.sql`
    WITH ${visitsAndWays(from, to, zone)}, past AS (${settled(from, to, zone, now)}), called AS (
      SELECT v.id, (array_agg(j.number ORDER BY j."createdAt"))[1] AS job FROM past v JOIN "Job" j ON ${CALLED} GROUP BY 1
    )
    SELECT v.id::text, v.day, k.name AS kitchen, c.name AS customer, p.name AS technician, v.status::text AS status, v."nobodyThere", v."startsAt", v."endsAt", v."arrivedAt", v."leftAt",
      CASE WHEN v.status = 'done' AND v."leftAt" > v."arrivedAt" THEN extract(epoch FROM v."leftAt" - v."arrivedAt")::float8 / 60 END AS there, d.minutes::float8 AS road, called.job
    FROM v JOIN "Kitchen" k ON k.id = v."kitchenId" JOIN "Customer" c ON c.id = k."customerId" JOIN "User" p ON p.id = v."technicianId"
      LEFT JOIN driven d ON d.id = v.id LEFT JOIN called ON called.id = v.id
    ORDER BY v."startsAt", v.id`);
