import 'server-only';
import { addDays, instantOf, todayIn, wallClock } from '../../../core/calendar';
import type { Db } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import { composeVisitMessage } from './compose-visit-message';

/** From this hour of the kitchen's day before: late enough for changes of the morning, early enough for an answer. */
const FROM_MINUTES = 12 * 60;

/**
 * Reminders of tomorrow's visits into the outbox, where the shop wants them: once for each time a visit stands at, however
 * often and by however many processes this is run. @returns how many were written
 */
export async function remindOfTomorrow({ db, now, baseUrl }: { db: Db; now: Date; baseUrl: string }): Promise<number> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { remindDayBefore: true } });
  if (!shop?.remindDayBefore) return 0;
  const soon = await db.visit.findMany({
    where: { status: 'booked', startsAt: { gt: now, lt: new Date(now.getTime() + 48 * 3_600_000) } },
    select: {
      id: true,
      startsAt: true,
      remindedOf: true,
      createdAt: true,
      kitchen: { select: { timeZone: true } },
      events: { where: { kind: 'moved' }, orderBy: { at: 'desc' }, take: 1, select: { at: true } },
    },
    orderBy: { startsAt: 'asc' },
  });
  let written = 0;
  for (const { id, startsAt, remindedOf, createdAt, kitchen, events } of soon) {
    if (remindedOf?.getTime() === startsAt.getTime()) continue;
    const { date, minutes } = wallClock(kitchen.timeZone, now.getTime());
    if (todayIn(kitchen.timeZone, startsAt.getTime()) !== addDays(date, 1) || minutes < FROM_MINUTES) continue;
    // Whoever was told today needs no reminder tomorrow's eve.
    const lastSaid = Math.max(createdAt.getTime(), ...events.map((e) => e.at.getTime()));
    const toldToday = lastSaid >= instantOf(date, '00:00', kitchen.timeZone);
    written += await withinTransaction(db, async (tx) => {
      const { count } = await tx.visit.updateMany({
        where: { id, startsAt, status: 'booked', OR: [{ remindedOf: null }, { remindedOf: { not: startsAt } }] },
        data: { remindedOf: startsAt },
      });
      if (count === 0 || toldToday) return 0;
      return (await composeVisitMessage(tx, id, 'reminder', { now, baseUrl })) ? 1 : 0;
    });
  }
  return written;
}
