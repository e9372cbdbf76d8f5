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

const RANKS = Prisma.join(
  GRADES.coil.map((g, i) => Prisma.sql`WHEN ${g.grade}::"Grade" THEN ${i}::int`),
  ' ',
);
/** Place of the grade that was found, bare 0; of a row `f`. */
const RANK = Prisma.sql`CASE f.found ${RANKS} END`;
const MATTED = GRADES.coil.findIndex((g) => g.grade === 'matted');

/** Sums of one look each, of rows `f` with `rank`. */
const SUMS = Prisma.sql`
  count(rank)::int AS graded, count(*) FILTER (WHERE rank = ANY(likely))::int AS "gradeHits", coalesce(sum("likelyChance") FILTER (WHERE rank IS NOT NULL), 0) AS "gradeExpected",
  count(*) FILTER (WHERE rank >= ${MATTED}::int)::int AS matted, coalesce(sum(chance) FILTER (WHERE rank IS NOT NULL), 0) AS "mattedExpected", coalesce(sum(chance * (1 - chance)) FILTER (WHERE rank IS NOT NULL), 0) AS "mattedVariance",
  count(*) FILTER (WHERE rank >= ${MATTED}::int AND "on" < "mattedFrom")::int AS "tooEarly", count(*) FILTER (WHERE rank < ${MATTED}::int AND "on" > "mattedTo")::int AS "tooLate",
  count("readLnK")::int AS read, count(*) FILTER (WHERE abs("readLnK" - "lnK") <= ${Z80} * sqrt("lnKSd" ^ 2 + "readLnKSd" ^ 2))::int AS "readHits",
  coalesce(sum(rank - expected), 0) AS worse, coalesce(sum((rank - expected) ^ 2), 0) AS "worseSquares"`;
const COUNTED = ['graded', 'gradeHits', 'matted', 'tooEarly', 'tooLate', 'read', 'readHits'];
const SUMMED = ['gradeExpected', 'mattedExpected', 'mattedVariance', 'worse', 'worseSquares'];
const TOGETHER = Prisma.raw(
  [...COUNTED.map((c) => `sum("${c}")::int AS "${c}"`), ...SUMMED.map((c) => `sum("${c}") AS "${c}"`)].join(', '),
);

/**
 * What was expected beside what was met, of looks from `from` to before `to` (dates): all together and by month, kind of unit and
 * technician, in one statement. Only what was written down before anybody looked. A large shop has some hundred thousand looks
 * a year: they are gone through once, and only their sums are put together in several ways.
 */
export function judgedForesights(db: Tx, from: string, to: string): Promise<JudgedRow[]> {
  return db.$queryRaw<JudgedRow[]>(Prisma.sql`
    WITH f AS MATERIALIZED (
      SELECT u.kind, f."foundById" AS who, date_trunc('month', f."on")::date AS month, ${SUMS}
      FROM (
        SELECT f.*, ${RANK} AS rank, f.chances[4] + f.chances[5] AS chance, f.chances[2] + 2 * f.chances[3] + 3 * f.chances[4] + 4 * f.chances[5] AS expected
        FROM "Foresight" f WHERE f."on" >= ${from}::date AND f."on" < ${to}::date AND f.evidence > 0
      ) f JOIN "Unit" u ON u.id = f."unitId" GROUP BY 1, 2, 3
    ), g AS (
      SELECT CASE WHEN grouping(month) = 0 THEN 'month' WHEN grouping(kind) = 0 THEN 'kind' WHEN grouping(who) = 0 THEN 'who' ELSE 'all' END AS by,
        coalesce(to_char(month, 'YYYY-MM'), kind::text, who::text, '') AS of, ${TOGETHER}
      FROM f GROUP BY GROUPING SETS ((), (month), (kind), (who))
    )
    SELECT g.*, coalesce(p.name, g.of) AS name FROM g LEFT JOIN "User" p ON g.by = 'who' AND p.id::text = g.of
    WHERE g.graded IS NOT NULL AND NOT (g.by = 'who' AND g.of = '') ORDER BY g.by, g.of`);
}

/** Since when what is expected is written down, or null. */
export async function foresightsSince(db: Tx): Promise<Date | null> {
  return (await db.foresight.findFirst({ orderBy: { on: 'asc' }, select: { on: true } }))?.on ?? null;
}

/** Looks at which what was met was least expected, worst first: the evidence behind a page of shares. */
export const surprises = (db: Tx, from: string, to: string, take = 12) =>
  db.$queryRaw<Surprise[]>(Prisma.sql`
    WITH f AS (
      SELECT f.*, f.chances[${RANK} + 1] AS chance FROM "Foresight" f
      WHERE f."on" >= ${from}::date AND f."on" < ${to}::date AND f.evidence > 0 AND f.found IS NOT NULL
      ORDER BY f.chances[${RANK} + 1], f."on" DESC LIMIT ${take}
    )
    SELECT f."visitId", f."unitId", f."on", f.found::text AS found, f.chance, f."mattedFrom", f."mattedTo", u.name AS unit, k.name AS kitchen
    FROM f JOIN "Unit" u ON u.id = f."unitId" JOIN "Kitchen" k ON k.id = u."kitchenId" ORDER BY f.chance, f."on" DESC`);
export type Surprise = {
  visitId: string; unitId: string; on: Date; found: string; chance: number; mattedFrom: Date | null; mattedTo: Date | null; unit: string; kitchen: string;
}; // prettier-ignore
