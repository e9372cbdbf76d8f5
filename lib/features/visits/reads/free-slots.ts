import 'server-only';
import { addDays, todayIn } from '../../../core/calendar';
import type { Skill } from '../../../core/people/skills';
import { travelMinutes } from '../../../core/planning';
import { freeSlots, type FreeSlot } from '../../../core/visits/free-slots';
import { needsOf } from '../../../core/visits/needs';
import { detourMinutes, type PricedSlot } from '../../../core/visits/offered-times';
import type { Tx } from '../../../database/client';
import { travelBetween } from '../../planning/reads/travel';
import { bookableTechnicians, bookingKitchen } from './visits';

const SLOTS_OFFERED = 12;
const DAYS_AHEAD = 14;
/** Assumed on the road where a place has no coordinates. */
const UNKNOWN_DRIVE_MINUTES = 20;
const NOTICE_MS = 12 * 3_600_000;

type Work = {
  kitchenId: string;
  minutes: number;
  needs: readonly Skill[];
  /** Whose times come first. */
  technicianId?: string;
  /** A booked visit whose own time counts as free. */
  visitId?: string;
};
type Within = { limit?: number; noticeMs?: number };

/** Real free times for some work at a kitchen in the next two weeks, each with the minutes on the road that it adds to its day. */
export async function freeTimes(
  db: Tx,
  { kitchenId, minutes, needs, technicianId, visitId }: Work,
  now: Date,
  { limit = SLOTS_OFFERED, noticeMs = NOTICE_MS }: Within = {},
): Promise<PricedSlot[]> {
  const kitchen = await bookingKitchen(db, kitchenId);
  const row = await db.kitchen.findUnique({ where: { id: kitchenId }, select: { id: true, lat: true, lng: true } });
  if (!kitchen || !row) return [];
  const shop = await db.shopSettings.findUnique({ where: { id: 1 } });
  const technicians = (await bookableTechnicians(db)).filter((t) => needs.every((n) => t.skills.includes(n)));
  technicians.sort((a, b) => Number(b.id === technicianId) - Number(a.id === technicianId));
  const held = await db.visit.findMany({
    where: {
      ...(visitId ? { id: { not: visitId } } : {}),
      status: { in: ['booked', 'started'] },
      endsAt: { gt: now },
      startsAt: { lt: new Date(now.getTime() + (DAYS_AHEAD + 2) * 86_400_000) },
    },
    include: { kitchen: { select: { id: true, lat: true, lng: true } } },
  });
  const { travel, placeOf } = await travelBetween(db, [kitchenId, ...held.map((v) => v.kitchenId)]);
  const drive = (from: typeof row, to: typeof row) =>
    travelMinutes(placeOf(from) ?? {}, placeOf(to) ?? {}, travel) ?? UNKNOWN_DRIVE_MINUTES;
  const shopTimeZone = shop?.timeZone ?? kitchen.timeZone;
  const today = todayIn(kitchen.timeZone, now.getTime());
  const slots = freeSlots({
    from: today,
    until: addDays(today, DAYS_AHEAD),
    notBefore: now.getTime() + noticeMs,
    minutes,
    stepMinutes: 30,
    kitchen,
    shopTimeZone,
    technicians: technicians.map((t) => ({
      id: t.id,
      shifts: t.shifts,
      timeOff: t.timeOff,
      busy: held
        .filter((v) => v.technicianId === t.id)
        .map((v) => ({ start: v.startsAt.getTime(), end: v.endsAt.getTime(), driveMinutes: drive(row, v.kitchen) })),
    })),
    limit,
  });
  const stops = held.map((v) => ({
    technicianId: v.technicianId,
    start: v.startsAt.getTime(),
    end: v.endsAt.getTime(),
    at: v.kitchen,
  }));
  return slots.map((s) => ({ ...s, detourMinutes: detourMinutes(s, stops, row, drive, shopTimeZone) }));
}

/** Real free times for a visit in the next two weeks, its own time left out; its technician first. */
export async function freeSlotsForVisit(
  db: Tx,
  visitId: string,
  now: Date,
  { limit = SLOTS_OFFERED, noticeMs = NOTICE_MS }: Within = {},
): Promise<FreeSlot[]> {
  const visit = await db.visit.findUnique({
    where: { id: visitId },
    include: { tasks: { include: { task: { include: { unit: true } } } } },
  });
  if (!visit) return [];
  const { kitchenId, technicianId, startsAt, endsAt } = visit;
  const minutes = Math.round((endsAt.getTime() - startsAt.getTime()) / 60_000);
  const needs = needsOf(visit.tasks.map((t) => t.task.unit));
  const slots = await freeTimes(db, { kitchenId, minutes, needs, technicianId, visitId }, now, { limit: limit + 1, noticeMs });
  return slots.filter((s) => s.start !== startsAt.getTime()).slice(0, limit);
}
