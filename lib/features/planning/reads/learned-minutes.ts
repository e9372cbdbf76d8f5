import 'server-only';
import { learnSiteTimes, type SiteTimes } from '../../../core/planning';
import type { Tx } from '../../../database/client';

/** Older visits were another crew in another kitchen. */
const LOOK_BACK_DAYS = 730;

/**
 * What finished visits teach about time on site. Emergencies, and visits where nobody was there or nothing was done,
 * took their time for other reasons and are left out.
 */
export async function learnedMinutes(db: Tx, now: Date): Promise<SiteTimes> {
  const since = new Date(now.getTime() - LOOK_BACK_DAYS * 86_400_000);
  const visits = await db.$queryRaw<{ kitchenId: string; taskMinutes: number; minutes: number }[]>`
    SELECT v."kitchenId", sum(k.minutes)::float8 AS "taskMinutes",
           extract(epoch FROM v."leftAt" - v."arrivedAt")::float8 / 60 AS minutes
    FROM "Visit" v
    JOIN "VisitTask" vt ON vt."visitId" = v.id AND vt.outcome = 'done'
    JOIN "Task" t ON t.id = vt."taskId"
    JOIN "TaskKind" k ON k.key = t."kindKey"
    WHERE v.status = 'done' AND NOT v.emergency AND NOT v."nobodyThere" AND v."leftAt" > ${since} AND v."leftAt" > v."arrivedAt"
    GROUP BY v.id
    ORDER BY v."startsAt", v.id`;
  return learnSiteTimes(visits);
}
