import 'server-only';
import { todayIn } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import { countsAgainst } from '../../../core/jobs';
import type { Tx } from '../../../database/client';
import { STORED_QUOTE } from '../../../database/stored/quotes';
import { pastWorkBefore } from './past-work';
import { workDoneFor } from './work-done';

/** One job with all that is known of it, or null. */
export async function jobPage(db: Tx, id: string) {
  const job = await db.job.findUnique({
    where: { id },
    include: {
      kitchen: { include: { customer: { select: { id: true, name: true, email: true } } } },
      units: {
        include: { unit: { select: { id: true, name: true, tag: true, archivedAt: true, warranties: { orderBy: { until: 'asc' } } } } },
      },
      events: { orderBy: { seq: 'asc' } },
      quotes: { orderBy: { version: 'desc' } },
      visit: { select: { id: true, startsAt: true, endsAt: true, status: true, technician: { select: { name: true } } } },
      foundVisit: { select: { id: true, startsAt: true, technician: { select: { name: true } } } },
    },
  });
  if (!job) return null;
  const { kitchen } = job;
  const people = await db.user.findMany({
    where: { id: { in: job.events.flatMap((e) => e.byUserId ?? []) } },
    select: { id: true, name: true },
  });
  const nameOf = new Map(people.map((p) => [p.id, p.name]));
  const calledOn = todayIn(kitchen.timeZone, job.createdAt.getTime());
  const past = await pastWorkBefore(db, kitchen, calledOn);
  const units = job.units.map((u) => u.unit);
  return {
    ...job,
    dueOn: job.dueOn && toLocalDate(job.dueOn),
    units: units.map((u) => ({ ...u, warranties: u.warranties.map((w) => ({ ...w, until: toLocalDate(w.until) })) })),
    events: job.events.map((e) => ({ ...e, by: e.byName || (e.byUserId ? (nameOf.get(e.byUserId) ?? 'someone') : 'the program') })),
    quotes: job.quotes.map((q) => ({ ...q, ...STORED_QUOTE.read(q.lines), validUntil: toLocalDate(q.validUntil) })),
    coming: await db.visit.findMany({
      where: { kitchenId: job.kitchenId, status: { in: ['booked', 'started'] } },
      orderBy: { startsAt: 'asc' },
      take: 6,
      select: { id: true, startsAt: true, technician: { select: { name: true } } },
    }),
    kitchenUnits: await db.unit.findMany({
      where: { kitchenId: job.kitchenId, OR: [{ archivedAt: null }, { id: { in: units.map((u) => u.id) } }] },
      orderBy: { name: 'asc' },
      select: { id: true, name: true },
    }),
    against:
      job.source === 'call'
        ? countsAgainst(
            calledOn,
            units.map((u) => u.id),
            past.filter((p) => p.visitId === null || p.visitId !== job.visitId),
          )
        : [],
    calledOn,
    work: await workDoneFor(db, job),
  };
}
