import 'server-only';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { Prisma, Tx } from '../../../database/client';

/** More than a shop has open at once; what is beyond it is said on the page. */
export const MOST_OPEN_JOBS = 500;

const OPEN_FIRST = [{ urgency: 'asc' }, { createdAt: 'asc' }] satisfies Prisma.JobOrderByWithRelationInput[];

/** Every open job with what says on which list it stands, and where on it: hundreds are open, and a page shows some of each list. */
export async function openJobs(db: Tx) {
  const rows = await db.job.findMany({
    where: { closedAt: null },
    orderBy: OPEN_FIRST,
    take: MOST_OPEN_JOBS,
    select: { id: true, number: true, state: true, urgency: true, dueOn: true, needsQuote: true, partsWanted: true },
  });
  return rows.map(({ dueOn, ...j }) => ({ ...j, dueOn: dueOn && toLocalDate(dueOn) }));
}

/** Open jobs, those of a kitchen or some, with what a list shows of each. */
export async function openJobLines(db: Tx, { kitchenId, ids }: { kitchenId?: string; ids?: readonly string[] } = {}) {
  const rows = await db.job.findMany({
    where: { closedAt: null, kitchenId, ...(ids ? { id: { in: [...ids] } } : {}) },
    orderBy: OPEN_FIRST,
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
      include: { kitchen: { select: { id: true, name: true, timeZone: true, customer: { select: { name: true } } } } },
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
