import 'server-only';
import type { JudgedBy, JudgedCounts } from '../../../core/owner/judged';
import { Prisma, type Tx } from '../../../database/client';
import { COUNTED, SUMMED, sumsByDay } from './foresight-sums';

export type JudgedRow = JudgedCounts & {
  by: JudgedBy;
  /** The month (yyyy-mm), kind of unit or id of the person; empty for all. */
  of: string;
  name: string;
  /** Grades that were worse than expected, in steps of the list: sum, and sum of squares. */
  worse: number;
  worseSquares: number;
};

const TOGETHER = Prisma.raw(
  [...COUNTED.map((c) => `sum("${c}")::int AS "${c}"`), ...SUMMED.map((c) => `sum("${c}") AS "${c}"`)].join(', '),
);

/**
 * What was expected beside what was met, of looks from `from` to before `to` (dates): all together and by month, kind of unit and
 * technician, in one statement. Only what was written down before anybody looked. A large shop has some hundred thousand looks
 * a year: they stand summed up by day, but for days of which a look changed since (`ForesightMark`), which are gone through here.
 */
export function judgedForesights(db: Tx, from: string, to: string): Promise<JudgedRow[]> {
  const within = Prisma.sql`"on" >= ${from}::date AND "on" < ${to}::date`;
  return db.$queryRaw<JudgedRow[]>(Prisma.sql`
    WITH marked AS MATERIALIZED (SELECT DISTINCT "on" FROM "ForesightMark" WHERE ${within}),
    anew AS MATERIALIZED (${sumsByDay(Prisma.sql`f."on" IN (SELECT "on" FROM marked)`)}),
    days AS NOT MATERIALIZED (
      SELECT * FROM "ForesightDay" d WHERE ${within} AND NOT EXISTS (SELECT 1 FROM marked m WHERE m."on" = d."on")
      UNION ALL SELECT * FROM anew
    ), g AS (
      SELECT CASE WHEN grouping(month) = 0 THEN 'month' WHEN grouping(of) = 0 THEN 'kind' ELSE 'all' END AS by, coalesce(to_char(month, 'YYYY-MM'), of, '') AS of, ${TOGETHER}
      FROM (SELECT d.*, date_trunc('month', d."on")::date AS month FROM days d WHERE d.by = 'kind') k GROUP BY GROUPING SETS ((), (month), (of))
      UNION ALL SELECT 'who', of, ${TOGETHER} FROM days d WHERE d.by = 'who' GROUP BY of
    )
    SELECT g.*, coalesce(p.name, g.of) AS name FROM g LEFT JOIN "User" p ON g.by = 'who' AND p.id::text = g.of
    WHERE g.graded IS NOT NULL ORDER BY g.by, g.of`);
}

/** Since when what is expected is written down, or null. */
export async function foresightsSince(db: Tx): Promise<Date | null> {
  return (await db.foresight.findFirst({ orderBy: { on: 'asc' }, select: { on: true } }))?.on ?? null;
}

/** Looks at which what was met was least expected, worst first: the evidence behind a page of shares. */
export const surprises = (db: Tx, from: string, to: string, take = 12) =>
  db.$queryRaw<Surprise[]>(Prisma.sql`
    WITH f AS (
      SELECT f.*, foresight_met(f.found, f.chances) AS chance FROM "Foresight" f
      WHERE f."on" >= ${from}::date AND f."on" < ${to}::date AND f.evidence > 0 AND f.found IS NOT NULL
      ORDER BY foresight_met(f.found, f.chances), f."on" DESC LIMIT ${take}
    )
    SELECT f."visitId", f."unitId", f."on", f.found::text AS found, f.chance, f."mattedFrom", f."mattedTo", u.name AS unit, k.name AS kitchen, c.name AS customer
    FROM f JOIN "Unit" u ON u.id = f."unitId" JOIN "Kitchen" k ON k.id = u."kitchenId" JOIN "Customer" c ON c.id = k."customerId" ORDER BY f.chance, f."on" DESC`);
export type Surprise = {
  visitId: string; unitId: string; on: Date; found: string; chance: number; mattedFrom: Date | null; mattedTo: Date | null; unit: string; kitchen: string; customer: string;
}; // prettier-ignore

export type Look = {
  visitId: string; on: Date; madeAt: Date; evidence: number; chances: number[]; likely: number[]; likelyChance: number; mattedFrom: Date | null; mattedTo: Date | null;
  lnK: number; lnKSd: number; readLnK: number | null; readLnKSd: number | null; found: string | null; unit: string; kind: string; kitchen: string; customer: string; who: string | null;
}; // prettier-ignore
/** Every look behind the sums, the newest first. */
export const looksOf = (db: Tx, from: string, to: string, take: number) =>
  db.$queryRaw<Look[]>(Prisma.sql`
    SELECT f."visitId", f."on", f."madeAt", f.evidence, f.chances, f.likely, f."likelyChance", f."mattedFrom", f."mattedTo", f."lnK", f."lnKSd", f."readLnK", f."readLnKSd",
      f.found::text AS found, u.name AS unit, u.kind::text AS kind, k.name AS kitchen, c.name AS customer, p.name AS who
    FROM "Foresight" f JOIN "Unit" u ON u.id = f."unitId" JOIN "Kitchen" k ON k.id = u."kitchenId" JOIN "Customer" c ON c.id = k."customerId"
    LEFT JOIN "User" p ON p.id = f."foundById"
    WHERE f."on" >= ${from}::date AND f."on" < ${to}::date AND f.evidence > 0 AND (f.found IS NOT NULL OR f."readLnK" IS NOT NULL)
    ORDER BY f."on" DESC, f."visitId", f."unitId" LIMIT ${take}`);
