import 'server-only';
import type { OverdueAge, OverdueGroup } from '../../../core/owner/overdue';
import { TAKES_VISITS } from '../../people/reads/visiting';
import { STORED_HOURS } from '../../../database/stored/shop';
import { Prisma, type Tx } from '../../../database/client';
import { visitsAndWays } from './visit-lines';

export type WorkDone = {
  planned: number; done: number; cancelled: number; unclosed: number; nobodyThere: number;
  /** Hours between arriving and leaving, and of how many visits both are known. */
  hours: number; timed: number;
  /** Driving between one kitchen and the next of a day, from imported minutes or from positions; legs of which neither is known. */
  roadHours: number; legs: number; unknownLegs: number;
}; // prettier-ignore

/** Visits of a period, days by the shop's own calendar, and what they took. Each of them: `visitLines`. */
export async function workDone(db: Tx, from: string, to: string, zone: string, now: Date): Promise<WorkDone> {
  const [row] = await db.$queryRaw<WorkDone[]>(Prisma.sql`
    WITH ${visitsAndWays(from, to, zone)}
    SELECT count(*) FILTER (WHERE status <> 'cancelled')::int AS planned, count(*) FILTER (WHERE status = 'done')::int AS done,
      count(*) FILTER (WHERE status = 'cancelled')::int AS cancelled, count(*) FILTER (WHERE status IN ('booked', 'started') AND "endsAt" < ${now})::int AS unclosed,
      count(*) FILTER (WHERE status = 'done' AND "nobodyThere")::int AS "nobodyThere",
      coalesce(sum(extract(epoch FROM "leftAt" - "arrivedAt")) FILTER (WHERE status = 'done' AND "leftAt" > "arrivedAt"), 0)::float8 / 3600 AS hours,
      count(*) FILTER (WHERE status = 'done' AND "leftAt" > "arrivedAt")::int AS timed,
      (SELECT coalesce(sum(minutes), 0)::float8 / 60 FROM driven) AS "roadHours", (SELECT count(minutes)::int FROM driven) AS legs,
      (SELECT count(*)::int FROM driven WHERE minutes IS NULL) AS "unknownLegs"
    FROM v`);
  return (
    row ?? { planned: 0, done: 0, cancelled: 0, unclosed: 0, nobodyThere: 0, hours: 0, timed: 0, roadHours: 0, legs: 0, unknownLegs: 0 }
  );
}

/** Overdue tasks in groups alike in everything that could be the reason, and the people who could be sent. */
export async function overdueGroups(
  db: Tx,
  now: Date,
): Promise<{ groups: OverdueGroup[]; crew: { skills: ('flammable' | 'roof')[]; shifts: ReturnType<typeof STORED_HOURS.read> }[] }> {
  const rows = await db.$queryRaw<(Omit<OverdueGroup, 'hours'> & { age: OverdueAge; hours: unknown })[]>(Prisma.sql`
    WITH here AS MATERIALIZED (
      SELECT id, (${now}::timestamptz AT TIME ZONE "timeZone")::date AS today FROM "Kitchen" WHERE "archivedAt" IS NULL
    ), late AS (
      SELECT t.id, t."unitId", t."kitchenId", k.today - t."dueOn" AS days FROM "Task" t JOIN here k ON k.id = t."kitchenId"
      WHERE t.active AND t."dueOn" <= ${now}::date AND t."dueOn" < k.today
    ), counted AS MATERIALIZED (
      SELECT l."kitchenId", CASE WHEN days <= 7 THEN 'week' WHEN days <= 30 THEN 'month' WHEN days <= 90 THEN 'quarter' ELSE 'older' END AS age, u.refrigerant, u."roofWork",
        vt.id IS NOT NULL AS booked, coalesce(v."customerReply" = 'other_time', false) AS "otherTime", count(*) AS tasks
      FROM late l JOIN "Unit" u ON u.id = l."unitId" AND u."archivedAt" IS NULL
        LEFT JOIN "VisitTask" vt ON vt."taskId" = l.id AND vt.open LEFT JOIN "Visit" v ON v.id = vt."visitId"
      GROUP BY 1, 2, 3, 4, 5, 6
    ), kitchens AS MATERIALIZED (
      -- What is large or asked for elsewhere, once for each kitchen and not for each task.
      SELECT k.id, k."serviceHours" AS hours,
        coalesce((SELECT v."nobodyThere" FROM "Visit" v WHERE v."kitchenId" = k.id AND v.status = 'done' ORDER BY v."startsAt" DESC LIMIT 1), false) AS "nobodyThere"
      FROM "Kitchen" k WHERE k.id IN (SELECT c."kitchenId" FROM counted c)
    )
    SELECT c.age, sum(c.tasks)::int AS tasks, c.refrigerant, c."roofWork", k.hours, c.booked, c."otherTime", k."nobodyThere"
    FROM counted c JOIN kitchens k ON k.id = c."kitchenId" GROUP BY 1, 3, 4, 5, 6, 7, 8`);
  const people = await db.user.findMany({
    where: { active: true, ...TAKES_VISITS },
    select: { skills: true, shifts: true },
  });
  return {
    groups: rows.map((r) => ({ ...r, hours: STORED_HOURS.read(r.hours) })),
    crew: people.map((p) => ({ skills: p.skills, shifts: STORED_HOURS.read(p.shifts) })),
  };
}
