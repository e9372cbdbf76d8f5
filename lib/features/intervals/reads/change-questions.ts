import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import { can, type Actor } from '../../../core/people/access';
import { GRADES } from '../../../core/findings/grades';
import type { DayOfLooks, FoundChange } from '../../../core/intervals/change-question';
import { Prisma, type Tx } from '../../../database/client';

const RANK = Prisma.sql`array_position(ARRAY[${Prisma.join(GRADES.coil.map((g) => g.grade))}]::"Grade"[], f.found) - 1`;

/** Looks, readings and cleanings that an expectation must rest on: before, the coils of a kitchen are all unknown together. */
const KNOWN = 6;

/**
 * A kitchen's coils by day, oldest first: how many steps worse than expected they were found. From the day after the last change
 * that somebody told of, and the last question that was answered.
 */
export async function surprisesOfKitchen(db: Tx, kitchenId: string, from: LocalDate): Promise<DayOfLooks[]> {
  const rows = await db.$queryRaw<{ on: Date; looks: number; worse: number; variance: number }[]>`
    SELECT l."on", count(*)::int AS looks, sum(l.rank - l.mean) AS worse, sum(l.square - l.mean ^ 2) AS variance
    FROM (
      SELECT f."on", ${RANK} AS rank,
        f.chances[2] + 2 * f.chances[3] + 3 * f.chances[4] + 4 * f.chances[5] AS mean,
        f.chances[2] + 4 * f.chances[3] + 9 * f.chances[4] + 16 * f.chances[5] AS square
      FROM "Foresight" f JOIN "Unit" u ON u.id = f."unitId"
      WHERE u."kitchenId" = ${kitchenId}::uuid AND f.found IS NOT NULL AND f.evidence >= ${KNOWN} AND f."on" >= ${from}::date
        AND f."on" > coalesce((SELECT max(e.at)::date FROM "UnitEvent" e WHERE e."unitId" = u.id AND e.kind IN ('fouls_more', 'fouls_less')), '-infinity')
        AND f."on" > coalesce((SELECT max(q."answeredAt")::date FROM "ChangeQuestion" q WHERE q."kitchenId" = ${kitchenId}::uuid), '-infinity')
    ) l GROUP BY l."on" ORDER BY l."on"`;
  return rows.map((r) => ({ ...r, on: toLocalDate(r.on) }));
}

export type OpenQuestion = FoundChange & { id: string; kitchenId: string; kitchen: string; customer: string };

/** Kitchens of which the office is asked what changed, the longest first; nothing is asked of whoever may not answer. */
export async function openChangeQuestions(db: Tx, actor: Pick<Actor, 'role' | 'userId'>, take: number): Promise<OpenQuestion[]> {
  if (!can(actor, 'write:equipment')) return [];
  const rows = await db.changeQuestion.findMany({
    where: { answeredAt: null, kitchen: { archivedAt: null } },
    orderBy: [{ askedAt: 'asc' }, { id: 'asc' }],
    take,
    select: { id: true, since: true, breathes: true, looks: true, kitchenId: true, kitchen: { select: { name: true, customer: { select: { name: true } } } } },
  }); // prettier-ignore
  return rows.map(({ kitchen, since, ...r }) => ({
    ...r,
    since: toLocalDate(since),
    kitchen: kitchen.name,
    customer: kitchen.customer.name,
  }));
}
