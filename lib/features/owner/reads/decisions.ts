import 'server-only';
import { Prisma, type Tx } from '../../../database/client';

/** What waits for the owner's word, each with the unit that its evidence stands on. The database keeps which there are (unit_matters). */
export type Matter = { unitId: string; unit: string; kitchen: string; customer: string };
/** How far the quote for it is: sent and not answered, or wanted and not written. */
export type QuoteFor = 'sent' | 'wanted' | null;
export type PastSaving = Matter & { dates: Date[]; grade: string; quote: QuoteFor };
export type DeadFan = Matter & { since: Date; quote: QuoteFor };
export type RecurrentDrain = Matter & { times: number; dates: Date[] };

const MOST = 25;
const PLACE = Prisma.sql`u.id AS "unitId", u.name AS unit, k.name AS kitchen, c.name AS customer`;
/** Unit by unit (that is what OFFSET 0 is for): left to itself the database goes through every unit of the shop for a few hundred. */
const JOINED = Prisma.sql`CROSS JOIN LATERAL (SELECT u.id, u.name, u."kitchenId" FROM "Unit" u WHERE u.id = s."unitId" AND u."archivedAt" IS NULL OFFSET 0) u JOIN "Kitchen" k ON k.id = u."kitchenId" JOIN "Customer" c ON c.id = k."customerId"`;
const quoteFor = (what: string) =>
  Prisma.sql`(SELECT CASE WHEN bool_or(w.state = 'quoted') THEN 'sent' WHEN bool_or(w."needsQuote") THEN 'wanted' END
    FROM "Job" w JOIN "JobUnit" wu ON wu."jobId" = w.id WHERE wu."unitId" = u.id AND w."closedAt" IS NULL AND w.what ILIKE ${`%${what}%`})`;

/** Coils left matted or packed after each of the last two cleanings: no cleaning brings them back. */
export const coilsPastSaving = (db: Tx) =>
  db.$queryRaw<PastSaving[]>(Prisma.sql`
    SELECT ${PLACE}, s.dates, s.grade::text AS grade, ${quoteFor('coil')} AS quote FROM "UnitMatter" s ${JOINED}
    WHERE s.kind = 'past_saving' ORDER BY c.name, k.name, u.name LIMIT ${MOST}`);

/** Condenser fans found dead at the last look, and not replaced then or since. */
export const deadFans = (db: Tx) =>
  db.$queryRaw<DeadFan[]>(Prisma.sql`
    SELECT ${PLACE}, s.at AS since, ${quoteFor('fan')} AS quote FROM "UnitMatter" s ${JOINED} WHERE s.kind = 'dead_fan' ORDER BY s.at LIMIT ${MOST}`);

/** Drains that stopped three times or more within a year: look at the line, not only at the blockage. */
export const recurrentDrains = (db: Tx, now: Date) =>
  db.$queryRaw<RecurrentDrain[]>(Prisma.sql`
    SELECT ${PLACE}, cardinality(within.dates) AS times, within.dates FROM "UnitMatter" s ${JOINED}
      CROSS JOIN LATERAL (SELECT ARRAY(SELECT d FROM unnest(s.dates) d WHERE d > ${now}::timestamptz - interval '365 days' ORDER BY d) AS dates) within
    WHERE s.kind = 'drain_again' AND s.at > ${now}::timestamptz - interval '365 days' ORDER BY times DESC, c.name, k.name, u.name LIMIT ${MOST}`);

/** How many units such matters are of: one may have several. */
export const unitsIn = (...matters: readonly (readonly Matter[])[]): number => new Set(matters.flat().map((m) => m.unitId)).size;

/** Jobs that should have been done by today, quotes that wait for an answer, and jobs that wait for a quote. */
export async function openWork(db: Tx, today: Date) {
  const [late, quotes, unquoted] = [
    await db.job.findMany({
      where: { closedAt: null, dueOn: { lt: today }, kitchen: { archivedAt: null }, units: { some: { unit: { archivedAt: null } } } },
      orderBy: { dueOn: 'asc' },
      take: MOST,
      select: {
        id: true,
        what: true,
        dueOn: true,
        units: {
          take: 1,
          select: { unit: { select: { id: true, name: true, kitchen: { select: { name: true, customer: { select: { name: true } } } } } } },
        },
      },
    }),
    await db.job.count({ where: { state: 'quoted', kitchen: { archivedAt: null } } }),
    await db.job.count({ where: { state: { in: ['asked', 'looked_at'] }, needsQuote: true, kitchen: { archivedAt: null } } }),
  ];
  return {
    late: late.flatMap(({ units, ...job }) => units.slice(0, 1).map(({ unit }) => ({ ...job, unitId: unit.id, unit }))),
    quotes,
    unquoted,
  };
}
