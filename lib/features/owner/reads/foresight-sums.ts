import 'server-only';
import { Z80 } from '../../../core/condenser/bands';
import { GRADES } from '../../../core/findings/grades';
import { Prisma } from '../../../database/client';

const RANKS = Prisma.join(
  GRADES.coil.map((g, i) => Prisma.sql`WHEN ${g.grade}::"Grade" THEN ${i}::int`),
  ' ',
);
/** Place of the grade that was found, bare 0; of a row `f`. */
const RANK = Prisma.sql`CASE f.found ${RANKS} END`;
const MATTED = GRADES.coil.findIndex((g) => g.grade === 'matted');

/** Sums of one look each, of rows `f` with `rank`, in the order of the columns of `ForesightDay`. */
const SUMS = Prisma.sql`
  count(rank)::int AS graded, count(*) FILTER (WHERE rank = ANY(likely))::int AS "gradeHits", coalesce(sum("likelyChance") FILTER (WHERE rank IS NOT NULL), 0) AS "gradeExpected",
  count(*) FILTER (WHERE rank >= ${MATTED}::int)::int AS matted, coalesce(sum(chance) FILTER (WHERE rank IS NOT NULL), 0) AS "mattedExpected", coalesce(sum(chance * (1 - chance)) FILTER (WHERE rank IS NOT NULL), 0) AS "mattedVariance",
  count(*) FILTER (WHERE rank >= ${MATTED}::int AND "on" < "mattedFrom")::int AS "tooEarly", count(*) FILTER (WHERE rank < ${MATTED}::int AND "on" > "mattedTo")::int AS "tooLate",
  count("readLnK")::int AS read, count(*) FILTER (WHERE abs("readLnK" - "lnK") <= ${Z80} * sqrt("lnKSd" ^ 2 + "readLnKSd" ^ 2))::int AS "readHits",
  coalesce(sum(rank - expected), 0) AS worse, coalesce(sum((rank - expected) ^ 2), 0) AS "worseSquares"`;
export const COUNTED = ['graded', 'gradeHits', 'matted', 'tooEarly', 'tooLate', 'read', 'readHits'];
export const SUMMED = ['gradeExpected', 'mattedExpected', 'mattedVariance', 'worse', 'worseSquares'];

/** Looks that rested on something, summed up by day and kind of unit, and by day and person: rows as `ForesightDay` holds them. */
export const sumsByDay = (which: Prisma.Sql) => Prisma.sql`
  SELECT f."on", CASE WHEN grouping(f.kind) = 0 THEN 'kind' ELSE 'who' END::"ForesightBy" AS by, coalesce(f.kind::text, f."foundById"::text) AS of, ${SUMS}
  FROM (
    SELECT f.*, u.kind, ${RANK} AS rank, f.chances[4] + f.chances[5] AS chance, f.chances[2] + 2 * f.chances[3] + 3 * f.chances[4] + 4 * f.chances[5] AS expected
    FROM "Foresight" f JOIN "Unit" u ON u.id = f."unitId" WHERE f.evidence > 0 AND ${which}
  ) f GROUP BY GROUPING SETS ((f."on", f.kind), (f."on", f."foundById")) HAVING grouping(f.kind) = 0 OR f."foundById" IS NOT NULL`;
