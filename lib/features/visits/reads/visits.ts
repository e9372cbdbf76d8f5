import 'server-only';
import { STORED_VISIT_EVENT } from '../../../database/stored/records';
import { STORED_HOURS } from '../../../database/stored/shop';
import { TAKES_VISITS } from '../../people/reads/visiting';
import type { WeeklyWindow } from '../../../core/visits/service-hours';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { Tx } from '../../../database/client';

export const weekly = (json: unknown): WeeklyWindow[] => [...STORED_HOURS.read(json)];

const range = (r: { startsOn: Date; endsOn: Date; reason: string }) => ({
  startsOn: toLocalDate(r.startsOn),
  endsOn: toLocalDate(r.endsOn),
  reason: r.reason,
});

/** Visits touching `[start, end)`, of all or of some technicians, with what a board shows of them. */
export async function visitsBetween(db: Tx, start: Date, end: Date, technicianId?: { in: string[] } | { notIn: string[] }) {
  const rows = await db.visit.findMany({
    where: { startsAt: { lt: end }, endsAt: { gt: start }, technicianId },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
    // By name: a week of a large shop has hundreds, each with its signature, and some twenty tasks.
    select: {
      id: true, version: true, status: true, technicianId: true, startsAt: true, endsAt: true, fixed: true, emergency: true,
      note: true, cancelReason: true, customerReply: true, kitchenId: true,
      kitchen: {
        select: {
          name: true, address: true, timeZone: true, serviceHours: true, lat: true, lng: true,
          customer: { select: { name: true } }, blackouts: true,
        },
      },
      technician: { select: { name: true, timeOff: true } },
      tasks: { select: { unitId: true } },
    },
  }); // prettier-ignore
  return rows.map((v) => ({
    id: v.id,
    version: v.version,
    status: v.status,
    technicianId: v.technicianId,
    technician: v.technician.name,
    timeOff: v.technician.timeOff.map(range),
    blackouts: v.kitchen.blackouts.map(range),
    startsAt: v.startsAt.getTime(),
    endsAt: v.endsAt.getTime(),
    fixed: v.fixed,
    emergency: v.emergency,
    note: v.note,
    cancelReason: v.cancelReason,
    customerReply: v.customerReply,
    kitchenId: v.kitchenId,
    kitchen: v.kitchen.name,
    customer: v.kitchen.customer.name,
    address: v.kitchen.address,
    timeZone: v.kitchen.timeZone,
    serviceHours: weekly(v.kitchen.serviceHours),
    lat: v.kitchen.lat,
    lng: v.kitchen.lng,
    tasks: v.tasks.length,
    units: new Set(v.tasks.map((t) => t.unitId)).size,
  }));
}
export type BoardVisit = Awaited<ReturnType<typeof visitsBetween>>[number];

/** People who do visits, with what booking asks of them. */
export async function bookableTechnicians(db: Tx) {
  const rows = await db.user.findMany({
    where: { active: true, ...TAKES_VISITS },
    orderBy: { name: 'asc' },
    include: { timeOff: true },
  });
  return rows.map((u) => ({ id: u.id, name: u.name, skills: u.skills, shifts: weekly(u.shifts), timeOff: u.timeOff.map(range) }));
}

/** A kitchen as booking sees it, or null. */
export async function bookingKitchen(db: Tx, id: string) {
  const k = await db.kitchen.findUnique({ where: { id }, include: { customer: true, blackouts: true } });
  return (
    k && {
      id: k.id,
      name: k.name,
      customer: k.customer.name,
      address: k.address,
      timeZone: k.timeZone,
      accessNotes: k.accessNotes,
      serviceHours: weekly(k.serviceHours),
      blackouts: k.blackouts.map(range),
      archived: k.archivedAt !== null,
    }
  );
}

/** Active tasks of a kitchen with the open visit each already stands on, soonest due first. */
export async function kitchenTasks(db: Tx, kitchenId: string) {
  const rows = await db.task.findMany({
    where: { kitchenId, active: true, unit: { archivedAt: null } },
    orderBy: [{ dueOn: 'asc' }, { unit: { name: 'asc' } }],
    include: {
      unit: true,
      kind: true,
      visitTasks: { where: { open: true }, include: { visit: { select: { id: true, startsAt: true } } } },
    },
  });
  return rows.map((t) => ({
    id: t.id,
    unitId: t.unitId,
    unit: t.unit.name,
    refrigerant: t.unit.refrigerant,
    roofWork: t.unit.roofWork,
    placement: t.unit.placement,
    kindKey: t.kindKey,
    kind: t.kind.label,
    lowSide: t.kind.lowSide,
    minutes: t.kind.minutes,
    dueOn: toLocalDate(t.dueOn),
    onVisit: t.visitTasks[0] ? { id: t.visitTasks[0].visit.id, startsAt: t.visitTasks[0].visit.startsAt.getTime() } : null,
  }));
}
/** The visit that holds a technician in `[start, end)`, if one does. */
export async function visitInTheWay(db: Tx, technicianId: string, start: Date, end: Date, notVisitId?: string) {
  return db.visit.findFirst({
    where: {
      technicianId,
      status: { not: 'cancelled' },
      startsAt: { lt: end },
      endsAt: { gt: start },
      id: notVisitId ? { not: notVisitId } : undefined,
    },
    orderBy: { startsAt: 'asc' },
    include: {
      kitchen: { select: { name: true, timeZone: true, customer: { select: { name: true } } } },
      technician: { select: { name: true } },
    },
  });
}

/** One visit with its tasks and history, or null. */
export async function visitToManage(db: Tx, id: string) {
  const v = await db.visit.findUnique({
    where: { id },
    include: {
      kitchen: { include: { customer: true } },
      technician: { select: { id: true, name: true } },
      tasks: { include: { task: { include: { kind: true, unit: { select: { id: true, name: true } } } } } },
      events: { orderBy: { at: 'desc' } },
    },
  });
  if (!v) return null;
  const people = await db.user.findMany({
    where: { id: { in: v.events.flatMap((e) => (e.byUserId ? [e.byUserId] : [])) } },
    select: { id: true, name: true },
  });
  const nameOf = new Map(people.map((p) => [p.id, p.name]));
  return {
    id: v.id,
    version: v.version,
    status: v.status,
    startsAt: v.startsAt.getTime(),
    endsAt: v.endsAt.getTime(),
    note: v.note,
    fixed: v.fixed,
    emergency: v.emergency,
    cancelReason: v.cancelReason,
    customerReply: v.customerReply,
    replyNote: v.replyNote,
    asksFor: v.customerReply === 'other_time' ? (v.replyStartsAt?.getTime() ?? null) : null,
    kitchen: {
      id: v.kitchen.id,
      name: v.kitchen.name,
      customer: v.kitchen.customer.name,
      contact: v.kitchen.contactName || v.kitchen.customer.contactName,
      phone: v.kitchen.contactPhone || v.kitchen.customer.phone,
      email: v.kitchen.contactEmail || v.kitchen.customer.email,
      address: v.kitchen.address,
      timeZone: v.kitchen.timeZone,
      accessNotes: v.kitchen.accessNotes,
      serviceHours: weekly(v.kitchen.serviceHours),
    },
    technician: v.technician,
    tasks: v.tasks
      .map((t) => ({
        id: t.id,
        taskId: t.taskId,
        unitId: t.unitId,
        unit: t.task.unit.name,
        kind: t.task.kind.label,
        outcome: t.outcome,
        reason: t.reason,
      }))
      .sort((a, b) => a.unit.localeCompare(b.unit)),
    events: v.events.map((e) => ({
      id: e.id,
      at: e.at.getTime(),
      kind: e.kind,
      movedFrom: movedFrom(e.kind, e.detail),
      reason: e.reason,
      by: (e.byUserId && nameOf.get(e.byUserId)) || 'The system',
    })),
  };
}

/** Where a moved visit came from, as its event kept it. */
function movedFrom(kind: string, detail: unknown): { startsAt: number; endsAt: number; technicianId: string } | null {
  const { startsAt, endsAt, technicianId } = (kind === 'moved' && STORED_VISIT_EVENT.read(detail).from) || {};
  return startsAt && endsAt && technicianId ? { startsAt: Date.parse(startsAt), endsAt: Date.parse(endsAt), technicianId } : null;
}

/** The next booked visit to a kitchen, if one stands. */
export async function nextVisit(db: Tx, kitchenId: string, now: Date) {
  const v = await db.visit.findFirst({
    where: { kitchenId, status: 'booked', startsAt: { gte: now } },
    orderBy: { startsAt: 'asc' },
    include: { technician: { select: { name: true } } },
  });
  return v && { id: v.id, startsAt: v.startsAt.getTime(), technician: v.technician.name };
}
