import 'server-only';
import { addDays, instantOf, todayIn } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { quarterBefore } from '../../../core/reports/quarter';
import type { Db } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import { shopTimeZone } from '../../shop/reads/shop';
import { putInOutbox } from './send-quarter';

/** After this, what the last visits of the quarter left on tablets has come in. */
const SETTLED_DAYS = 2;
/** An owner who says so later than this does not mean the quarter before. */
const LATE_DAYS = 30;

/**
 * Sends the summaries that go out by themselves: of the quarter that is over, once, to customers that have it so and had a
 * visit in it. @returns how many
 */
export async function sendDueQuarters({ db, now, baseUrl }: { db: Db; now: Date; baseUrl: string }): Promise<number> {
  const zone = await shopTimeZone(db);
  const today = todayIn(zone, now.getTime());
  const quarter = quarterBefore(today);
  if (today < addDays(quarter.endsBefore, SETTLED_DAYS) || today >= addDays(quarter.endsBefore, LATE_DAYS)) return 0;
  const startsOn = fromLocalDate(quarter.startsOn);
  const at = (on: typeof today) => new Date(instantOf(on, '00:00', zone));
  const due = await db.customer.findMany({
    where: {
      sendsQuarters: true,
      archivedAt: null,
      NOT: { email: '' },
      quartersSent: { none: { startsOn } },
      kitchens: {
        some: {
          archivedAt: null,
          visits: { some: { status: 'done', startsAt: { gte: at(quarter.startsOn), lt: at(quarter.endsBefore) } } },
        },
      },
    },
    select: { id: true, email: true, language: true },
    take: 50,
  });
  let sent = 0;
  for (const { id, email, language } of due)
    sent += await withinTransaction(db, async (tx) => {
      // Two processes may look at the same moment: the row says which was first.
      await tx.$queryRaw`SELECT id FROM "Customer" WHERE id = ${id}::uuid FOR UPDATE`;
      if ((await tx.quarterSent.count({ where: { customerId: id, startsOn } })) > 0) return 0;
      await putInOutbox(tx, id, quarter, { toEmail: email, language }, { by: null, now, baseUrl });
      return 1;
    });
  return sent;
}
