import 'server-only';
import { stoppedGrades } from '../../../core/findings/grades';
import { Prisma, type Tx } from '../../../database/client';

/** What waits for the owner's word, each with the unit that its evidence stands on. */
export type Matter = { unitId: string; unit: string; kitchen: string; customer: string };
export type PastSaving = Matter & { dates: Date[]; grade: string; quoted: boolean };
export type DeadFan = Matter & { since: Date; quoted: boolean };
export type RecurrentDrain = Matter & { times: number; dates: Date[] };

const MOST = 25;
const DEAD = Prisma.join(stoppedGrades('condenser_fan'));
const PLACE = Prisma.sql`u.id AS "unitId", u.name AS unit, k.name AS kitchen, c.name AS customer`;
const JOINED = Prisma.sql`JOIN "Unit" u ON u.id = s."unitId" AND u."archivedAt" IS NULL JOIN "Kitchen" k ON k.id = u."kitchenId" JOIN "Customer" c ON c.id = k."customerId"`;
const quoted = (what: string) =>
  Prisma.sql`EXISTS (SELECT 1 FROM "Job" w JOIN "JobUnit" wu ON wu."jobId" = w.id WHERE wu."unitId" = u.id AND w."closedAt" IS NULL AND w."needsQuote" AND w.what ILIKE ${`%${what}%`})`;

/** Coils left matted or packed after each of the last two cleanings: no cleaning brings them back. */
export const coilsPastSaving = (db: Tx) =>
  db.$queryRaw<PastSaving[]>(Prisma.sql`
    WITH looks AS (
      SELECT f."unitId", f.grade, f.at, row_number() OVER (PARTITION BY f."unitId" ORDER BY f.at DESC) AS n
      FROM "Finding" f WHERE f.aspect = 'coil' AND f.phase = 'left' AND f.grade IS NOT NULL AND f."supersededAt" IS NULL
    ), s AS (
      SELECT "unitId", array_agg(at ORDER BY at) AS dates, (array_agg(grade ORDER BY at DESC))[1] AS grade
      FROM looks WHERE n <= 2 GROUP BY 1 HAVING count(*) = 2 AND bool_and(grade::text IN (${Prisma.join(stoppedGrades('coil'))}))
    )
    SELECT ${PLACE}, s.dates, s.grade, ${quoted('coil')} AS quoted FROM s ${JOINED} ORDER BY k.name, u.name LIMIT ${MOST}`);

/** Condenser fans found dead at the last look, and not replaced then or since. */
export const deadFans = (db: Tx) =>
  db.$queryRaw<DeadFan[]>(Prisma.sql`
    WITH last AS (
      SELECT DISTINCT ON (f."unitId") f."unitId", f.grade, f.at, f.phase, f."visitId" FROM "Finding" f
      WHERE f.aspect = 'condenser_fan' AND f.grade IS NOT NULL AND f."supersededAt" IS NULL ORDER BY f."unitId", f.at DESC
    ), s AS (
      SELECT l."unitId", (
        SELECT min(f.at) FROM "Finding" f WHERE f."unitId" = l."unitId" AND f.aspect = 'condenser_fan' AND f.grade::text IN (${DEAD}) AND f."supersededAt" IS NULL
          AND f.at > coalesce((SELECT max(g.at) FROM "Finding" g WHERE g."unitId" = l."unitId" AND g.aspect = 'condenser_fan' AND g.grade::text NOT IN (${DEAD}) AND g."supersededAt" IS NULL), '-infinity')
      ) AS since FROM last l WHERE l.grade::text IN (${DEAD}) AND NOT EXISTS (
        SELECT 1 FROM "UnitEvent" e
        WHERE e."unitId" = l."unitId" AND e.kind = 'fan_replaced' AND (e.at >= l.at OR (e."visitId" = l."visitId" AND l.phase = 'found'))
      )
    )
    SELECT ${PLACE}, s.since, ${quoted('fan')} AS quoted FROM s ${JOINED} ORDER BY s.since LIMIT ${MOST}`);

/** Drains that stopped three times or more within a year: look at the line, not only at the blockage. */
export const recurrentDrains = (db: Tx, now: Date) =>
  db.$queryRaw<RecurrentDrain[]>(Prisma.sql`
    WITH s AS (
      SELECT f."unitId", count(*)::int AS times, array_agg(f.at ORDER BY f.at) AS dates FROM "Finding" f
      WHERE f.aspect = 'drain' AND f.phase = 'found' AND f.grade::text IN (${Prisma.join(stoppedGrades('drain'))}) AND f."supersededAt" IS NULL
        AND f.at > ${now}::timestamptz - interval '365 days'
      GROUP BY 1 HAVING count(*) >= 3
    )
    SELECT ${PLACE}, s.times, s.dates FROM s ${JOINED} ORDER BY s.times DESC, k.name, u.name LIMIT ${MOST}`);

/** Jobs that should have been done by today, and quotes that wait. */
export async function openWork(db: Tx, today: Date) {
  const [late, quotes] = [
    await db.job.findMany({
      where: { closedAt: null, dueOn: { lt: today }, kitchen: { archivedAt: null }, units: { some: { unit: { archivedAt: null } } } },
      orderBy: { dueOn: 'asc' },
      take: MOST,
      select: {
        id: true,
        what: true,
        dueOn: true,
        units: { take: 1, select: { unit: { select: { id: true, name: true, kitchen: { select: { name: true } } } } } },
      },
    }),
    await db.job.count({ where: { closedAt: null, needsQuote: true, kitchen: { archivedAt: null } } }),
  ];
  return { late: late.flatMap(({ units, ...job }) => units.slice(0, 1).map(({ unit }) => ({ ...job, unitId: unit.id, unit }))), quotes };
}
