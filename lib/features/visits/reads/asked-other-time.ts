import 'server-only';
import { freeSlotsForVisit } from './free-slots';
import type { Tx } from '../../../database/client';

/** Booked visits whose kitchen asked for another time and has no answer yet, the nearest first. */
export async function askedOtherTime(db: Tx, now: Date) {
  const rows = await db.visit.findMany({
    where: { status: 'booked', customerReply: 'other_time', endsAt: { gt: now } },
    orderBy: { startsAt: 'asc' },
    select: {
      id: true,
      startsAt: true,
      replyStartsAt: true,
      replyNote: true,
      kitchen: { select: { name: true, timeZone: true, customer: { select: { name: true } } } },
    },
  });
  return rows.map((v) => ({
    id: v.id,
    kitchen: v.kitchen.name,
    customer: v.kitchen.customer.name,
    timeZone: v.kitchen.timeZone,
    startsAt: v.startsAt.getTime(),
    asksFor: v.replyStartsAt?.getTime() ?? null,
    note: v.replyNote,
  }));
}

/** As good as all free times: the one asked for need not be among the first few offered. */
const MANY = 2000;

/** Whoever is free at the time a kitchen asked for, its own technician first; null when nobody is. */
export async function freeAtAskedTime(db: Tx, visitId: string, askedMs: number, now: Date): Promise<string | null> {
  const slots = await freeSlotsForVisit(db, visitId, now, { limit: MANY, noticeMs: 0 });
  return slots.find((s) => s.start === askedMs)?.technicianId ?? null;
}
