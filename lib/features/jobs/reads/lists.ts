import 'server-only';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { Tx } from '../../../database/client';

/** More than a shop has open at once; what is beyond it is said on the page. */
export const MOST_OPEN_JOBS = 500;

/** Every open job with what a list shows of it. */
export async function openJobLines(db: Tx, where: { kitchenId?: string } = {}) {
  const rows = await db.job.findMany({
    where: { closedAt: null, ...where },
    orderBy: [{ urgency: 'asc' }, { createdAt: 'asc' }],
    take: MOST_OPEN_JOBS,
    include: {
      kitchen: { select: { id: true, name: true, timeZone: true, customer: { select: { name: true } } } },
      units: { select: { unit: { select: { id: true, name: true } } } },
      visit: { select: { id: true, startsAt: true, technician: { select: { name: true } } } },
      quotes: { where: { sentAt: { not: null }, supersededAt: null }, orderBy: { version: 'desc' }, take: 1 },
    },
  });
  return rows.map(({ dueOn, units, visit, quotes, ...j }) => ({
    ...j,
    dueOn: dueOn && toLocalDate(dueOn),
    createdAt: j.createdAt.getTime(),
    units: units.map((u) => u.unit),
    visit: j.state === 'booked' && visit ? { id: visit.id, startsAt: visit.startsAt.getTime(), technician: visit.technician.name } : null,
    quote: quotes.map((q) => ({ totalCents: q.totalCents, currency: q.currency, validUntil: toLocalDate(q.validUntil) }))[0] ?? null,
  }));
}

export const closedLately = async (db: Tx, since: Date) =>
  (
    await db.job.findMany({
      where: { closedAt: { gte: since } },
      orderBy: { closedAt: 'desc' },
      take: 25,
      include: { kitchen: { select: { id: true, name: true, timeZone: true } } },
    })
  ).map((j) => ({
    id: j.id,
    number: j.number,
    what: j.what,
    state: j.state,
    note: j.closedNote,
    kitchen: j.kitchen,
    at: (j.closedAt ?? j.createdAt).getTime(),
  }));
