import 'server-only';
import { learnSiteTimes, type SiteTimes } from '../../../core/planning';
import { Prisma, type Tx } from '../../../database/client';

/** Older visits were another crew in another kitchen. */
const LOOK_BACK_DAYS = 730;

/** Of one kitchen: how the shop's visits go is known from so many of the latest. */
const LATEST = 4000;

/**
 * What finished visits teach about time on site. Emergencies, and visits where nobody was there or nothing was done,
 * took their time for other reasons and are left out. Asked of one kitchen, all of its own count and the shop's latest.
 */
export async function learnedMinutes(db: Tx, now: Date, kitchenId?: string | null): Promise<SiteTimes> {
  const since = new Date(now.getTime() - LOOK_BACK_DAYS * 86_400_000);
  const counts = Prisma.sql`v.status = 'done' AND NOT v.emergency AND NOT v."nobodyThere" AND v."doneMinutes" > 0 AND v."leftAt" > ${since} AND v."leftAt" > v."arrivedAt"`;
  const latest = Prisma.sql`SELECT v.id, v."startsAt", v."kitchenId", v."doneMinutes", v."leftAt" - v."arrivedAt" AS took FROM "Visit" v WHERE ${counts}`;
  const which =
    kitchenId === undefined
      ? latest
      : Prisma.sql`(${latest} ORDER BY v."startsAt" DESC LIMIT ${LATEST}) UNION (${latest} AND v."kitchenId" = ${kitchenId}::uuid)`;
  // Columns as lists: thousands of rows would each be made anew.
  const [row] = await db.$queryRaw<{ kitchens: string[] | null; work: number[] | null; took: number[] | null }[]>`
    SELECT json_agg(w."kitchenId" ORDER BY w."startsAt", w.id) AS kitchens, json_agg(w."doneMinutes" ORDER BY w."startsAt", w.id) AS work,
      json_agg(extract(epoch FROM w.took)::float8 / 60 ORDER BY w."startsAt", w.id) AS took FROM (${which}) w`;
  const { kitchens, work, took } = row ?? {};
  return learnSiteTimes((kitchens ?? []).map((id, i) => ({ kitchenId: id, taskMinutes: work?.[i] ?? 0, minutes: took?.[i] ?? 0 })));
}
