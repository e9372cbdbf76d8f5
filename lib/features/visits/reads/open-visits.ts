import 'server-only';
import { instantOf, type LocalDate } from '../../../core/calendar';
import type { Prisma, Tx } from '../../../database/client';

/** Visits still booked or started, the first `limit` by their end, and how many there are. */
async function openVisits(db: Tx, where: Prisma.VisitWhereInput, limit: number) {
  const open = { ...where, status: { in: ['booked', 'started'] } } satisfies Prisma.VisitWhereInput;
  const total = await db.visit.count({ where: open });
  const rows = await db.visit.findMany({
    where: open,
    // By their ends, which are indexed with the state: by their starts all past visits would be gone through.
    orderBy: [{ endsAt: 'asc' }, { id: 'asc' }],
    take: limit,
    select: {
      id: true,
      startsAt: true,
      status: true,
      technician: { select: { name: true } },
      kitchen: { select: { name: true, timeZone: true, customer: { select: { name: true } } } },
    },
  });
  const visits = rows.map((v) => ({
    id: v.id,
    startsAt: v.startsAt.getTime(),
    started: v.status === 'started',
    technician: v.technician.name,
    kitchen: v.kitchen.name,
    customer: v.kitchen.customer.name,
    timeZone: v.kitchen.timeZone,
  }));
  return { visits, total };
}
export type OpenVisits = Awaited<ReturnType<typeof openVisits>>;

/** Visits whose time is over and that nobody closed: their tasks stand on no other list. */
export const pastNotClosed = (db: Tx, now: Date, limit: number) => openVisits(db, { endsAt: { lte: now } }, limit);

type Whose = { technicianId: string } | { kitchenId: string };

/** Open visits of a technician or a kitchen that begin in `[from, until)`, days of `timeZone`. */
export const openVisitsOn = (db: Tx, whose: Whose, from: LocalDate, until: LocalDate, timeZone: string, limit = 20) =>
  openVisits(
    db,
    { ...whose, startsAt: { gte: new Date(instantOf(from, '00:00', timeZone)), lt: new Date(instantOf(until, '00:00', timeZone)) } },
    limit,
  );
