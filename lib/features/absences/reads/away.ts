import 'server-only';
import { addDays, instantOf, type LocalDate } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import { travelMinutes } from '../../../core/planning';
import { handRound, type Handed } from '../../../core/visits/hand-round';
import { needsOf } from '../../../core/visits/needs';
import type { Tx } from '../../../database/client';
import { travelBetween } from '../../planning/reads/travel';
import { shopTimeZone } from '../../shop/reads/shop';
import { bookableTechnicians, weekly } from '../../visits/reads/visits';

const DAYS_AHEAD = 10;
/** Assumed on the road where a place has no position. */
const UNKNOWN_DRIVE_MINUTES = 20;

export type AwayAsk = { userId: string; from: LocalDate; to: LocalDate };

/** What stands on the days somebody is away, and to whom and when each visit could go. Writes nothing. */
export async function awayOffers(db: Tx, { userId, from, to }: AwayAsk, now: Date) {
  const zone = await shopTimeZone(db);
  const until = addDays(to, 1);
  const range = { startsOn: from, endsOn: until, reason: '' };
  const start = new Date(Math.max(now.getTime(), instantOf(from, '00:00', zone)));
  const rows = await db.visit.findMany({
    where: {
      technicianId: userId,
      OR: [{ status: 'booked', startsAt: { gte: start } }, { status: 'started' }],
      startsAt: { lt: new Date(instantOf(until, '00:00', zone)) },
    },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
    include: {
      kitchen: { include: { customer: true, blackouts: true } },
      tasks: { where: { open: true }, include: { task: { include: { unit: true } } } },
    },
  });
  const technicians = (await bookableTechnicians(db)).map((t) => (t.id === userId ? { ...t, timeOff: [...t.timeOff, range] } : t));
  const ids = new Set(rows.map((v) => v.id));
  const held = await db.visit.findMany({
    where: {
      id: { notIn: [...ids] },
      status: { in: ['booked', 'started'] },
      endsAt: { gt: start },
      startsAt: { lt: new Date(instantOf(addDays(until, DAYS_AHEAD + 2), '00:00', zone)) },
    },
    select: { technicianId: true, kitchenId: true, startsAt: true, endsAt: true, kitchen: { select: { id: true, lat: true, lng: true } } },
  });
  const places = new Map([...rows, ...held].map((v) => [v.kitchenId, v.kitchen]));
  const { travel, placeOf } = await travelBetween(db, [...places.keys()]);
  const place = (id: string) => {
    const k = places.get(id);
    return (k && placeOf(k)) ?? {};
  };
  const booked = rows.filter((v) => v.status === 'booked');
  const handed = handRound({
    visits: booked.map((v) => ({
      id: v.id,
      start: v.startsAt.getTime(),
      end: v.endsAt.getTime(),
      kitchenId: v.kitchenId,
      kitchen: {
        timeZone: v.kitchen.timeZone,
        serviceHours: weekly(v.kitchen.serviceHours),
        blackouts: v.kitchen.blackouts.map((b) => ({ startsOn: toLocalDate(b.startsOn), endsOn: toLocalDate(b.endsOn), reason: b.reason })),
      },
      needs: needsOf(v.tasks.map((t) => t.task.unit)),
      fixed: v.fixed,
      emergency: v.emergency,
    })),
    technicians,
    held: held.map((h) => ({ technicianId: h.technicianId, kitchenId: h.kitchenId, start: h.startsAt.getTime(), end: h.endsAt.getTime() })),
    shopTimeZone: zone,
    notBefore: now.getTime(),
    daysAhead: DAYS_AHEAD,
    drive: (a, b) => travelMinutes(place(a), place(b), travel) ?? UNKNOWN_DRIVE_MINUTES,
  });
  const byId = new Map(handed.map((h): [string, Handed] => [h.visitId, h]));
  const nameOf = new Map(technicians.map((t) => [t.id, t.name]));
  return rows.map((v) => {
    const h = byId.get(v.id);
    return {
      id: v.id,
      version: v.version,
      startMs: v.startsAt.getTime(),
      endMs: v.endsAt.getTime(),
      timeZone: v.kitchen.timeZone,
      kitchen: v.kitchen.name,
      customer: v.kitchen.customer.name,
      confirmed: v.customerReply === 'confirmed',
      emergency: v.emergency,
      tasks: v.tasks.length,
      contact: v.kitchen.contactName || v.kitchen.customer.contactName,
      phone: v.kitchen.contactPhone || v.kitchen.customer.phone,
      email: v.kitchen.contactEmail || v.kitchen.customer.email,
      to:
        h && 'start' in h
          ? {
              technicianId: h.technicianId,
              technician: nameOf.get(h.technicianId) ?? '',
              startMs: h.start,
              endMs: h.end,
              changes: h.changes,
            }
          : null,
      why: v.status === 'started' ? ('started' as const) : h && 'why' in h ? h.why : null,
    };
  });
}

/** Those away now or soon at short notice, with how many visits were handed round for each. */
export async function absences(db: Tx, today: Date) {
  const rows = await db.absence.findMany({
    where: { undoneAt: null, endsOn: { gt: today } },
    orderBy: [{ startsOn: 'asc' }, { id: 'asc' }],
    include: { user: { select: { name: true } }, _count: { select: { moves: true } } },
  });
  return rows.map((a) => ({
    id: a.id,
    name: a.user.name,
    from: toLocalDate(a.startsOn),
    to: addDays(toLocalDate(a.endsOn), -1),
    moves: a._count.moves,
  }));
}
