import 'server-only';
import { addDays, todayIn } from '../../../core/calendar';
import { travelMinutes } from '../../../core/planning';
import { freeSlots, type FreeSlot } from '../../../core/visits/free-slots';
import { needsOf } from '../../../core/visits/needs';
import type { Tx } from '../../../database/client';
import { travelBetween } from '../../planning/reads/travel';
import { bookableTechnicians, bookingKitchen } from './visits';

const SLOTS_OFFERED = 12;
const DAYS_AHEAD = 14;
/** Assumed on the road where a place has no coordinates. */
const UNKNOWN_DRIVE_MINUTES = 20;
const NOTICE_MS = 12 * 3_600_000;

/** Real free times for a visit in the next two weeks, its own time left out; its technician first. */
export async function freeSlotsForVisit(
  db: Tx,
  visitId: string,
  now: Date,
  { limit = SLOTS_OFFERED, noticeMs = NOTICE_MS } = {},
): Promise<FreeSlot[]> {
  const visit = await db.visit.findUnique({
    where: { id: visitId },
    include: { kitchen: true, tasks: { include: { task: { include: { unit: true } } } } },
  });
  const kitchen = visit && (await bookingKitchen(db, visit.kitchenId));
  if (!visit || !kitchen) return [];
  const shop = await db.shopSettings.findUnique({ where: { id: 1 } });
  const needs = needsOf(visit.tasks.map((t) => t.task.unit));
  const technicians = (await bookableTechnicians(db)).filter((t) => needs.every((n) => t.skills.includes(n)));
  technicians.sort((a, b) => Number(b.id === visit.technicianId) - Number(a.id === visit.technicianId));
  const held = await db.visit.findMany({
    where: {
      id: { not: visitId },
      status: { in: ['booked', 'started'] },
      endsAt: { gt: now },
      startsAt: { lt: new Date(now.getTime() + (DAYS_AHEAD + 2) * 86_400_000) },
    },
    include: { kitchen: { select: { id: true, lat: true, lng: true } } },
  });
  const { travel, placeOf } = await travelBetween(db, [visit.kitchenId, ...held.map((v) => v.kitchenId)]);
  const drive = (to: (typeof held)[number]['kitchen']) =>
    travelMinutes(placeOf(visit.kitchen) ?? {}, placeOf(to) ?? {}, travel) ?? UNKNOWN_DRIVE_MINUTES;
  const today = todayIn(kitchen.timeZone, now.getTime());
  const slots = freeSlots({
    from: today,
    until: addDays(today, DAYS_AHEAD),
    notBefore: now.getTime() + noticeMs,
    minutes: Math.round((visit.endsAt.getTime() - visit.startsAt.getTime()) / 60_000),
    stepMinutes: 30,
    kitchen,
    shopTimeZone: shop?.timeZone ?? kitchen.timeZone,
    technicians: technicians.map((t) => ({
      id: t.id,
      shifts: t.shifts,
      timeOff: t.timeOff,
      busy: held
        .filter((v) => v.technicianId === t.id)
        .map((v) => ({ start: v.startsAt.getTime(), end: v.endsAt.getTime(), driveMinutes: drive(v.kitchen) })),
    })),
    limit: limit + 1,
  });
  return slots.filter((s) => s.start !== visit.startsAt.getTime()).slice(0, limit);
}
