import 'server-only';
import { isLocalDate, todayIn, type LocalDate } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import { quarterOf, type Quarter } from '../../../core/reports/quarter';
import type { Tx } from '../../../database/client';
import { quoteById } from '../../jobs/reads/quotes';
import { kitchenIds, type OpenPage } from './page-link';

/** More than anybody reads on a telephone; older reports are with the shop. */
const MOST = 30;

/** What a customer's page shows: next visits, open work, quotes that wait, reports that were sent. Of its kitchens alone. */
export async function onPage(db: Tx, page: OpenPage, now: Date) {
  const kitchenId = { in: kitchenIds(page) };
  const [visits, jobs, quotes, reports, units, quarters] = await Promise.all([
    db.visit.findMany({
      where: { kitchenId, status: 'booked', endsAt: { gt: now } },
      orderBy: { startsAt: 'asc' },
      take: MOST,
      include: { kitchen: { select: { name: true, timeZone: true } }, technician: { select: { name: true } } },
    }),
    db.job.findMany({
      where: { kitchenId, closedAt: null },
      orderBy: [{ urgency: 'asc' }, { createdAt: 'desc' }],
      take: MOST,
      include: {
        kitchen: { select: { name: true, timeZone: true } },
        units: { select: { unit: { select: { name: true } } } },
        visit: { select: { startsAt: true } },
      },
    }),
    db.quote.findMany({
      where: {
        sentAt: { not: null },
        supersededAt: null,
        job: { kitchenId, closedAt: null },
        // One that was accepted waits for the customer again once a time can be chosen.
        OR: [{ answeredAt: null }, { answer: 'accepted', job: { state: 'agreed', partsWanted: false } }],
      },
      orderBy: { sentAt: 'desc' },
      take: MOST,
      include: { job: { select: { number: true, what: true, kitchen: { select: { name: true, timeZone: true } } } } },
    }),
    db.visit.findMany({
      where: { kitchenId, reportsSent: { some: { revokedAt: null } } },
      orderBy: { startsAt: 'desc' },
      take: MOST,
      select: { id: true, startsAt: true, arrivedAt: true, kitchen: { select: { name: true, timeZone: true } } },
    }),
    db.unit.findMany({
      where: { kitchenId, archivedAt: null },
      orderBy: { name: 'asc' },
      select: { id: true, name: true, kitchenId: true },
    }),
    quartersOnPage(db, page),
  ]);
  return {
    visits,
    jobs: jobs.map(({ units: of, ...j }) => ({ ...j, units: of.map((u) => u.unit.name) })),
    quotes: quotes.filter((q) => q.answeredAt !== null || toLocalDate(q.validUntil) >= todayIn(q.job.kitchen.timeZone, now.getTime())),
    reports,
    units,
    quarters,
  };
}

/** First days of the quarters whose summary was sent and stands: of all the customer's kitchens, so only where the page has them all. */
async function quartersOnPage(db: Tx, page: OpenPage): Promise<LocalDate[]> {
  if (!page.all) return [];
  const sent = await db.quarterSent.findMany({
    where: { customerId: page.customer.id, revokedAt: null },
    distinct: ['startsOn'],
    orderBy: { startsOn: 'desc' },
    take: MOST,
    select: { startsOn: true },
  });
  return sent.map((q) => toLocalDate(q.startsOn));
}

/** The quarter of this day, where its summary was sent and stands on the page; else null. */
export async function quarterOnPage(db: Tx, page: OpenPage, on: string | undefined): Promise<Quarter | null> {
  if (on === undefined || !isLocalDate(on)) return null;
  return (await quartersOnPage(db, page)).includes(on) ? quarterOf(on) : null;
}

/** A booked visit of the page's kitchens, or null. */
export const visitOnPage = (db: Tx, page: OpenPage, visitId: string, now: Date) =>
  db.visit.findFirst({
    where: { id: visitId, kitchenId: { in: kitchenIds(page) }, status: 'booked', endsAt: { gt: now } },
    include: { kitchen: { select: { name: true, timeZone: true } } },
  });

/** Whether the report of this visit was sent, and stands. */
export const reportOnPage = async (db: Tx, page: OpenPage, visitId: string): Promise<boolean> =>
  (await db.visit.count({
    where: { id: visitId, kitchenId: { in: kitchenIds(page) }, reportsSent: { some: { revokedAt: null } } },
  })) > 0;

/** A picture of a report that stands on the page. */
export const pictureOnPage = (db: Tx, page: OpenPage, fileId: string) =>
  db.storedFile.findFirst({
    where: {
      id: fileId,
      photos: { some: { visit: { kitchenId: { in: kitchenIds(page) }, reportsSent: { some: { revokedAt: null } } } } },
    },
    select: { mime: true, content: true },
  });

/** A quote for one of the page's kitchens that was sent and holds, or was answered; else null. */
export async function quoteOnPage(db: Tx, page: OpenPage, quoteId: string, now: Date) {
  const mine = await db.quote.count({
    where: { id: quoteId, sentAt: { not: null }, supersededAt: null, job: { kitchenId: { in: kitchenIds(page) } } },
  });
  const quote = mine > 0 ? await quoteById(db, quoteId) : null;
  if (!quote) return null;
  const over = toLocalDate(quote.validUntil) < todayIn(quote.job.kitchen.timeZone, now.getTime());
  return over && !quote.answeredAt ? null : quote;
}
