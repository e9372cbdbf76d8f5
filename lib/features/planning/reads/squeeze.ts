import 'server-only';
import { needsOf } from '../../../core/visits/needs';
import { addDays, instantOf, todayIn } from '../../../core/calendar';
import type { BookedVisit } from '../../../core/planning';
import type { Tx } from '../../../database/client';
import { shopSettings } from '../../shop/reads/settings';
import { weekProblem } from './week-problem';

/** How far ahead a visit may go that gives way, and the emergency at most. */
const SQUEEZE_DAYS = 7;

/** A booked visit as the desk knows it. */
export type StandingVisit = { id: string; version: number; kitchen: string; customer: string; timeZone: string; confirmed: boolean };

/**
 * The seven days from `from` as an emergency finds them: who works when, and every visit on the books, done ones of
 * today included for they still hold their time. Drives to a kitchen without a position are assumed.
 */
export async function squeezeProblem(db: Tx, kitchenId: string, from: Date) {
  const shop = await shopSettings(db);
  const zone = shop?.timeZone ?? 'UTC';
  const first = todayIn(zone, from.getTime());
  const dayStart = new Date(instantOf(first, '00:00', zone));
  const until = new Date(instantOf(addDays(first, SQUEEZE_DAYS), '00:00', zone));
  const { problem, unplaced } = await weekProblem(db, first, dayStart, kitchenId);

  const rows = await db.visit.findMany({
    where: { status: { in: ['booked', 'started', 'done'] }, startsAt: { lt: until }, endsAt: { gt: dayStart } },
    include: {
      kitchen: { include: { customer: { select: { name: true } } } },
      tasks: { where: { open: true }, include: { task: { include: { unit: true } } } },
    },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  });
  const booked: BookedVisit[] = rows.map((v) => ({
    id: v.id,
    technicianId: v.technicianId,
    kitchenId: v.kitchenId,
    hours: { startMs: v.startsAt.getTime(), endMs: v.endsAt.getTime() },
    skills: needsOf(v.tasks.map((t) => t.task.unit)),
    fixed: v.fixed || v.emergency || v.status !== 'booked',
  }));
  const standing = new Map<string, StandingVisit>(
    rows.map((v) => [
      v.id,
      {
        id: v.id,
        version: v.version,
        kitchen: v.kitchen.name,
        customer: v.kitchen.customer.name,
        timeZone: v.kitchen.timeZone,
        confirmed: v.customerReply === 'confirmed',
      },
    ]),
  );
  const names = new Map(problem.technicians.map((t) => [t.id, t.name]));
  const people = await db.user.findMany({ where: { id: { in: [...names.keys()] } }, select: { id: true, phone: true } });
  const phones = new Map(people.map((p) => [p.id, p.phone]));
  return { problem, booked, standing, names, phones, from, until, withoutPlace: unplaced.has(kitchenId) };
}

/** Units on file at a kitchen, by name. */
export const unitsAt = (db: Tx, kitchenId: string) =>
  db.unit.findMany({
    where: { kitchenId, archivedAt: null },
    orderBy: { name: 'asc' },
    select: { id: true, name: true, refrigerant: true, roofWork: true },
  });

/** Kitchens on file to choose from, customers in order. */
export async function kitchenChoices(db: Tx) {
  const rows = await db.kitchen.findMany({
    where: { archivedAt: null, customer: { archivedAt: null } },
    select: { id: true, name: true, customer: { select: { name: true } } },
    orderBy: [{ customer: { name: 'asc' } }, { name: 'asc' }],
  });
  return rows.map((k) => ({ id: k.id, name: k.name, customer: k.customer.name }));
}
