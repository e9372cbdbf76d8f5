import 'server-only';
import type { Bucket } from '../../../core/due/buckets';
import { Prisma, type Tx } from '../../../database/client';
import { narrowed, type DueFilter, type Zones } from './where';

export type DueCounts = Record<Bucket, { tasks: number; kitchens: number }> & {
  /** More than the shop's limit of days past due. */
  pastLimit: { tasks: number; kitchens: number };
};

const none = () => ({ tasks: 0, kitchens: 0 });

/** How many tasks and kitchens each part of the list holds under a filter. */
export async function dueCounts(db: Tx, zones: Zones, filter: DueFilter, limitDays: number): Promise<DueCounts> {
  const counts: DueCounts = { overdue: none(), week: none(), month: none(), pastLimit: none() };
  const [first] = zones;
  if (!first) return counts;
  const table = Prisma.join(
    zones.map(({ zone, dates }) => Prisma.sql`(${zone}, ${dates.today}::date, ${dates.week.to}::date, ${dates.month.to}::date)`),
  );
  const most = zones.reduce((a, z) => (z.dates.month.to > a ? z.dates.month.to : a), first.dates.month.to);
  const rows = await db.$queryRaw<{ part: 0 | 1 | 2; late: boolean; tasks: number; kitchens: number }[]>`
    WITH z(zone, today, monday, hi) AS (VALUES ${table}),
    hit AS (
      SELECT t."kitchenId", CASE WHEN t."dueOn" < z.today THEN 0 WHEN t."dueOn" < z.monday THEN 1 ELSE 2 END AS part, z.today - t."dueOn" > ${limitDays}::int AS late
      FROM "Task" t JOIN "Kitchen" k ON k.id = t."kitchenId" JOIN z ON z.zone = k."timeZone"
      WHERE t.active AND k."archivedAt" IS NULL AND t."dueOn" < ${most}::date AND t."dueOn" < z.hi ${narrowed(filter)}
    ),
    each AS (SELECT "kitchenId", part, count(*) AS n, count(*) FILTER (WHERE late) AS late FROM hit GROUP BY 1, 2)
    SELECT part, false AS late, sum(n)::int AS tasks, count(*)::int AS kitchens FROM each GROUP BY part
    UNION ALL SELECT 0, true, coalesce(sum(late), 0)::int, count(*)::int FROM each WHERE late > 0`;
  for (const r of rows) {
    const part = r.late ? 'pastLimit' : (['overdue', 'week', 'month'] as const)[r.part];
    counts[part] = { tasks: r.tasks, kitchens: r.kitchens };
  }
  return counts;
}

export type OverdueNow = { tasks: number; kitchens: number; toBook: number; pastLimit: number };

/** What is late today by each kitchen's clock: in all, on no visit yet, and later than so many days. */
export async function overdueNow(db: Tx, now: Date, limitDays: number): Promise<OverdueNow> {
  const [row] = await db.$queryRaw<OverdueNow[]>`
    WITH here AS MATERIALIZED (SELECT id, (${now}::timestamptz AT TIME ZONE "timeZone")::date AS today FROM "Kitchen" WHERE "archivedAt" IS NULL),
    each AS (
      SELECT k.id, count(*) AS tasks, count(*) FILTER (WHERE vt.id IS NULL) AS "toBook", count(*) FILTER (WHERE k.today - t."dueOn" > ${limitDays}::int) AS "pastLimit"
      FROM "Task" t JOIN here k ON k.id = t."kitchenId" LEFT JOIN "VisitTask" vt ON vt."taskId" = t.id AND vt.open
      WHERE t.active AND t."dueOn" <= ${now}::date AND t."dueOn" < k.today GROUP BY k.id
    )
    SELECT coalesce(sum(tasks), 0)::int AS tasks, count(*)::int AS kitchens, coalesce(sum("toBook"), 0)::int AS "toBook", coalesce(sum("pastLimit"), 0)::int AS "pastLimit" FROM each`;
  return row ?? { tasks: 0, kitchens: 0, toBook: 0, pastLimit: 0 };
}
