import 'server-only';
import { addDays, instantOf, todayIn, wallClock, weekdayOf, type LocalDate } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { groupChanges } from '../../../core/intervals/change-groups';
import { judgeGrades, judgeMatted } from '../../../core/owner/judged';
import { weeklyLetter, type WeekFacts } from '../../../core/owner/weekly';
import type { Db, Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import { dueCounts, zonesOnFile } from '../../due/reads';
import { ruleChanges } from '../reads/changes';
import { coilsPastSaving, deadFans, recurrentDrains, unitsIn } from '../reads/decisions';
import { judgedForesights } from '../reads/foresights';
import { quoteMoney } from '../reads/shop-money';
import { workDone } from '../reads/shop-work';

/** From this minute of Monday, by the shop's clock. */
const FROM_MINUTES = 7 * 60;
const JUDGED_DAYS = 180;
const CHANGES_DAYS = 3650;

type At = { now: Date; baseUrl: string };
type Shop = { name: string; timeZone: string; overdueLimitDays: number };

async function factsOf(db: Tx, shop: Shop, monday: LocalDate, { now, baseUrl }: At): Promise<Omit<WeekFacts, 'name'>> {
  const [last, next] = [addDays(monday, -7), addDays(monday, 7)];
  const zones = await zonesOnFile(db, now);
  const all = await dueCounts(db, zones, { booked: true }, shop.overdueLimitDays);
  const toBook = await dueCounts(db, zones, {}, shop.overdueLimitDays);
  const changes = await ruleChanges(db, { since: new Date(now.getTime() - CHANGES_DAYS * 86_400_000), unreadOnly: true, take: 500 });
  const { groups, odd } = groupChanges(changes);
  const judged = (await judgedForesights(db, addDays(monday, -JUDGED_DAYS), monday)).find((r) => r.by === 'all');
  const failing = unitsIn(await coilsPastSaving(db), await deadFans(db), await recurrentDrains(db, now));
  const midnight = (day: LocalDate) => new Date(instantOf(day, '00:00', shop.timeZone));
  const distrust = [
    judged && judgeGrades(judged).verdict === 'too_sure'
      ? 'Distrust: grades were among the likely ones less often than promised in the last half year.'
      : '',
    judged && judgeMatted(judged).verdict === 'more'
      ? 'Distrust long intervals: in the last half year more coils had matted than was expected.'
      : '',
  ].filter(Boolean);
  return {
    shop: shop.name, monday, baseUrl,
    last: await workDone(db, last, monday, shop.timeZone, now),
    next: await workDone(db, monday, next, shop.timeZone, now),
    overdue: { tasks: all.overdue.tasks, toBook: toBook.overdue.tasks, pastLimit: all.pastLimit.tasks, limitDays: shop.overdueLimitDays },
    callsLastWeek: await db.job.count({ where: { source: 'call', createdAt: { gte: midnight(last), lt: midnight(monday) } } }),
    failing,
    changes: { groups: groups.length, odd: odd.length, all: changes.length },
    quotes: await quoteMoney(db, last, monday, shop.timeZone),
    distrust,
  }; // prettier-ignore
}

/**
 * The letter of this Monday into the outbox, one for each owner, where the shop wants it: once, however often and by however
 * many processes this is run, and not before the morning. @returns how many were written
 */
export async function writeWeekly({ db, ...at }: { db: Db } & At): Promise<number> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, omit: { logoPng: true } });
  if (!shop?.weeklyLetter) return 0;
  const today = todayIn(shop.timeZone, at.now.getTime());
  if (weekdayOf(today) !== 0 || wallClock(shop.timeZone, at.now.getTime()).minutes < FROM_MINUTES) return 0;
  const monday = fromLocalDate(today);
  if (shop.weeklyLetterOn?.getTime() === monday.getTime()) return 0;
  const facts = await factsOf(db, shop, today, at);
  return withinTransaction(db, async (tx) => {
    const { count } = await tx.shopSettings.updateMany({
      where: { id: 1, weeklyLetter: true, OR: [{ weeklyLetterOn: null }, { weeklyLetterOn: { lt: monday } }] },
      data: { weeklyLetterOn: monday },
    });
    if (count === 0) return 0;
    const owners = await tx.user.findMany({
      where: { role: 'owner', active: true },
      orderBy: { name: 'asc' },
      select: { name: true, email: true },
    });
    await tx.outboxMessage.createMany({
      data: owners.map((o) => ({
        kind: 'weekly_owner' as const,
        toEmail: o.email,
        ...weeklyLetter({ ...facts, name: o.name }),
        createdAt: at.now,
      })),
    });
    return owners.length;
  });
}
