import 'server-only';
import { Z80 } from '../../../core/condenser/bands';
import { GRADES } from '../../../core/findings/grades';
import type { JudgedCounts } from '../../../core/owner/judged';
import { Prisma, type Tx } from '../../../database/client';

export type JudgedBy = 'all' | 'month' | 'kind' | 'who';
export type JudgedRow = JudgedCounts & {
  by: JudgedBy;
  /** The month (yyyy-mm), kind of unit or id of the person; empty for all. */
  of: string;
  name: string;
  /** Grades that were worse than expected, in steps of the list: sum, and sum of squares. */
  worse: number;
  worseSquares: number;
};

const RANK = Prisma.sql`array_position(${GRADES.coil.map((g) => g.grade as string)}::text[], f.found::text) - 1`;
const MATTED = GRADES.coil.findIndex((g) => g.grade === 'matted');
const EXPECTED_RANK = Prisma.sql`(f.chances[2] + 2 * f.chances[3] + 3 * f.chances[4] + 4 * f.chances[5])`;

/**
 * What was expected beside what was met, of looks from `from` to before `to` (dates): all together and by month, kind of unit and
 * technician, in one statement. Only what was written down before anybody looked.
 */
export function judgedForesights(db: Tx, from: string, to: string): Promise<JudgedRow[]> {
  return db.$queryRaw<JudgedRow[]>(Prisma.sql`
    WITH f AS (
      SELECT to_char(f."on", 'YYYY-MM') AS month, u.kind::text AS kind, f."foundById" AS who, f.found IS NOT NULL AS graded, f."readLnK" IS NOT NULL AS was_read,
        ${RANK} = ANY(f.likely) AS hit, f."likelyChance" AS likely, ${RANK} >= ${MATTED} AS matted, f.chances[4] + f.chances[5] AS chance,
        ${RANK} >= ${MATTED} AND f."on" < f."mattedFrom" AS early, ${RANK} < ${MATTED} AND f."on" > f."mattedTo" AS late,
        abs(f."readLnK" - f."lnK") <= ${Z80} * sqrt(f."lnKSd" ^ 2 + f."readLnKSd" ^ 2) AS within, ${RANK} - ${EXPECTED_RANK} AS worse
      FROM "Foresight" f JOIN "Unit" u ON u.id = f."unitId"
      WHERE f."on" >= ${from}::date AND f."on" < ${to}::date AND f.evidence > 0
    ), g AS (
      SELECT CASE WHEN grouping(month) = 0 THEN 'month' WHEN grouping(kind) = 0 THEN 'kind' WHEN grouping(who) = 0 THEN 'who' ELSE 'all' END AS by,
        coalesce(month, kind, who::text, '') AS of,
        count(*) FILTER (WHERE graded)::int AS graded, count(*) FILTER (WHERE hit)::int AS "gradeHits", coalesce(sum(likely) FILTER (WHERE graded), 0) AS "gradeExpected",
        count(*) FILTER (WHERE matted)::int AS matted, coalesce(sum(chance) FILTER (WHERE graded), 0) AS "mattedExpected", coalesce(sum(chance * (1 - chance)) FILTER (WHERE graded), 0) AS "mattedVariance",
        count(*) FILTER (WHERE early)::int AS "tooEarly", count(*) FILTER (WHERE late)::int AS "tooLate",
        count(*) FILTER (WHERE was_read)::int AS read, count(*) FILTER (WHERE within)::int AS "readHits",
        coalesce(sum(worse), 0) AS worse, coalesce(sum(worse ^ 2), 0) AS "worseSquares"
      FROM f GROUP BY GROUPING SETS ((), (month), (kind), (who))
    )
    SELECT g.*, coalesce(p.name, g.of) AS name FROM g LEFT JOIN "User" p ON g.by = 'who' AND p.id::text = g.of
    WHERE NOT (g.by = 'who' AND g.of = '') ORDER BY g.by, g.of`);
}

/** Since when what is expected is written down, or null. */
export async function foresightsSince(db: Tx): Promise<Date | null> {
  return (await db.foresight.findFirst({ orderBy: { on: 'asc' }, select: { on: true } }))?.on ?? null;
}

/** Looks at which what was met was least expected, worst first: the evidence behind a page of shares. */
export const surprises = (db: Tx, from: string, to: string, take = 12) =>
  db.$queryRaw<Surprise[]>(Prisma.sql`
    SELECT f."visitId", f."unitId", f."on", f.found::text AS found, f.chances[${RANK} + 1] AS chance, f."mattedFrom", f."mattedTo", u.name AS unit, k.name AS kitchen
    FROM "Foresight" f JOIN "Unit" u ON u.id = f."unitId" JOIN "Kitchen" k ON k.id = u."kitchenId"
    WHERE f."on" >= ${from}::date AND f."on" < ${to}::date AND f.evidence > 0 AND f.found IS NOT NULL
    ORDER BY f.chances[${RANK} + 1], f."on" DESC LIMIT ${take}`);
export type Surprise = {
  visitId: string; unitId: string; on: Date; found: string; chance: number; mattedFrom: Date | null; mattedTo: Date | null; unit: string; kitchen: string;
}; // prettier-ignore
