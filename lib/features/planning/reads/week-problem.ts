import 'server-only';
import { TAKES_VISITS } from '../../people/reads/visiting';
import { bringsLowSide } from '../../../core/tasks';
import { addDays, approximateWeeks, fromDay, instantOf, toDay, type LocalDate } from '../../../core/calendar';
import { needsOf } from '../../../core/visits/needs';
import { assumedDrive, openings, pricesFrom, siteTimeOf, withOnCall, type InputFacts, type WeekProblem } from '../../../core/planning';
import { fromLocalDate, toLocalDate } from '../../../core/calendar/date-column';
import { groupBy } from '../../../core/numerics/group-by';
import { mustGet } from '../../../core/numerics/must-get';
import type { Tx } from '../../../database/client';
import { learnedMinutes } from './learned-minutes';
import { bookedVisits, freeTasks, tasksOnVisits } from './week-tasks';
import { travelBetween } from './travel';
import { USUAL_KITCHEN_HOURS } from '../../../core/visits/service-hours';
import { weekly } from '../../visits/reads/visits';
import { REGIONS } from '../../../core/measures/region';
import { costsSet, shopSettings } from '../../shop/reads/settings';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

/** Days past the week from which work may be brought forward to save a trip. */
const LOOK_AHEAD_DAYS = 21;
const MAX_KITCHENS = 120;

/**
 * Everything the planner needs to propose the rest of a week: due work that stands on no visit, who works when, when
 * kitchens can spare their equipment, and how long work takes there. Booked visits stay where they are. `notBefore` is
 * an instant. With `emergencyAt`, a kitchen, no due work comes in, and visits that are over still hold their time.
 */
export async function weekProblem(db: Tx, monday: LocalDate, notBefore: Date, emergencyAt?: string) {
  const shop = await shopSettings(db);
  const zone = shop?.timeZone ?? 'UTC';
  const first = toDay(monday);
  const days = Array.from({ length: 7 }, (_, i) => first + i);
  const until = addDays(monday, 7);

  const due = emergencyAt
    ? []
    : await db.$queryRaw<{ kitchenId: string }[]>`
    SELECT t."kitchenId" FROM "Task" t JOIN "Kitchen" k ON k.id = t."kitchenId" AND k."archivedAt" IS NULL
    WHERE t.active AND t."dueOn" < ${fromLocalDate(until)}::date AND NOT EXISTS (SELECT 1 FROM "VisitTask" vt WHERE vt."taskId" = t.id AND vt.open)
    GROUP BY t."kitchenId" ORDER BY min(t."dueOn") LIMIT ${MAX_KITCHENS}`;
  const fixed = await bookedVisits(db, {
    evenDone: emergencyAt !== undefined,
    before: new Date(instantOf(until, '00:00', zone)),
    after: new Date(Math.max(notBefore.getTime(), instantOf(monday, '00:00', zone))),
  });
  const kitchenIds = [
    ...new Set([...due.map((d) => d.kitchenId), ...fixed.map((v) => v.kitchenId), ...(emergencyAt ? [emergencyAt] : [])]),
  ];
  const kitchens = await db.kitchen.findMany({ where: { id: { in: kitchenIds } }, include: { customer: true, blackouts: true } });
  const tasks = await freeTasks(
    db,
    due.map((d) => d.kitchenId),
    addDays(until, LOOK_AHEAD_DAYS),
  );
  const fixedTasks = await tasksOnVisits(
    db,
    fixed.map((v) => v.id),
  );
  const technicians = await db.user.findMany({
    where: { active: true, ...TAKES_VISITS },
    include: { timeOff: true },
    orderBy: { name: 'asc' },
  });

  const { travel, placeOf } = await travelBetween(db, kitchenIds);
  const times = await learnedMinutes(db, notBefore);

  const covered = (ranges: { startsOn: Date; endsOn: Date }[]) =>
    new Set(days.filter((d) => ranges.some((r) => toLocalDate(r.startsOn) <= fromDay(d) && fromDay(d) < toLocalDate(r.endsOn))));
  const clip = <T extends { startMs: number; endMs: number }>(ranges: T[]) =>
    ranges.map((r) => ({ ...r, startMs: Math.max(r.startMs, notBefore.getTime()) })).filter((r) => r.endMs > r.startMs);
  const drive = assumedDrive(
    kitchens.flatMap((k) => placeOf(k) ?? []),
    travel,
  );
  const intervals = new Map<string, number>();
  const intervalOf = (rule: string) =>
    intervals.get(rule) ?? mustGet(intervals.set(rule, Math.max(1, Math.round(approximateWeeks(rule) * 7))), rule);
  const nowhere = (id: string) => ({ unknown: { id, minutes: drive.minutes } });
  const shopPlaced = typeof shop?.lat === 'number' && typeof shop.lng === 'number';
  const base = shopPlaced ? { lat: shop.lat, lng: shop.lng } : nowhere('shop');

  const problem: WeekProblem = {
    technicians: technicians.map((t) => {
      const home = t.homeLat !== null ? { lat: t.homeLat, lng: t.homeLng } : base;
      const off = covered(t.timeOff);
      const at = (day: number, time: string) => instantOf(fromDay(day), time, zone);
      const on = (hours: unknown) =>
        days
          .filter((d) => !off.has(d))
          .flatMap((day) =>
            clip(openings(weekly(hours), [day], new Set(), at)).map((range) => ({ day, hours: range, startPlace: home, endPlace: home })),
          );
      const shifts = on(t.shifts).map((s) => ({ ...s, overtimeMinutes: shop?.overShiftMinutes ?? 0 }));
      return { id: t.id, name: t.name, skills: t.skills, shifts: emergencyAt ? withOnCall(shifts, on(t.onCall)) : shifts };
    }),
    kitchens: kitchens.map((k) => {
      const hours = weekly(k.serviceHours);
      const at = (day: number, time: string) => instantOf(fromDay(day), time, k.timeZone);
      return {
        id: k.id,
        name: fullKitchenName(k),
        place: placeOf(k) ?? nowhere(k.id),
        accessMinutes: siteTimeOf(times, k.id).accessMinutes,
        durationFactor: siteTimeOf(times, k.id).durationFactor,
        open: clip(openings(hours.length ? hours : USUAL_KITCHEN_HOURS, days, covered(k.blackouts), at)),
      };
    }),
    tasks: [...tasks, ...fixedTasks].map((t) => ({
      id: t.id,
      kitchenId: t.kitchenId,
      unitId: t.unitId,
      name: `${t.unit}: ${t.label.toLowerCase()}`,
      minutes: t.minutes,
      role: bringsLowSide(t.kindKey) ? 'coil_cleaning' : t.lowSide ? 'low_side_inspection' : 'other',
      dueDay: toDay(t.dueOn),
      intervalDays: intervalOf(t.rule),
      skills: needsOf([t]),
    })),
    fixed: fixed.map((v) => ({
      id: v.id,
      technicianId: v.technicianId,
      kitchenId: v.kitchenId,
      hours: { startMs: v.startsAt.getTime(), endMs: v.endsAt.getTime() },
      taskIds: v.taskIds,
    })),
    travel,
    prices: pricesFrom(shop),
    startsEveryMinutes: 5,
    nextDay: first + 7,
  };
  const names = {
    kitchens: new Map(kitchens.map((k) => [k.id, { name: k.name, customer: k.customer.name, timeZone: k.timeZone }])),
    technicians: new Map(technicians.map((t) => [t.id, t.name])),
    tasks: new Map(
      tasks.map((t) => [
        t.id,
        {
          what: `${t.unit}: ${t.label.toLowerCase()}`,
          kitchenId: t.kitchenId,
          unitId: t.unitId,
          dueDay: toDay(t.dueOn),
        },
      ]),
    ),
  };
  const unplaced = new Set(kitchens.filter((k) => placeOf(k) === null).map((k) => k.id));
  return { problem, names, unplaced, input: () => inputFacts() };

  /** What the search is given, as the dispatcher would judge it. */
  async function inputFacts(): Promise<InputFacts> {
    const [dueNow] = await db.$queryRaw<{ tasks: bigint; kitchens: bigint; booked: bigint }[]>`
      SELECT count(*) FILTER (WHERE NOT b.open) AS tasks, count(DISTINCT t."kitchenId") FILTER (WHERE NOT b.open) AS kitchens,
        count(*) FILTER (WHERE b.open) AS booked
      FROM "Task" t JOIN "Kitchen" k ON k.id = t."kitchenId" AND k."archivedAt" IS NULL
      JOIN "Unit" u ON u.id = t."unitId" AND u."archivedAt" IS NULL
      CROSS JOIN LATERAL (SELECT EXISTS (SELECT 1 FROM "VisitTask" vt WHERE vt."taskId" = t.id AND vt.open) AS open) b
      WHERE t.active AND t."dueOn" < ${fromLocalDate(until)}::date`;
    const access = new Map(problem.kitchens.map((k) => [k.id, k]));
    const fixedOf = groupBy(fixed, (v) => v.technicianId);
    const shiftsOf = new Map(problem.technicians.map((t) => [t.id, t.shifts]));
    const standing = new Set(fixedTasks.map((t) => t.id));
    return {
      technicians: technicians.map((t) => ({
        id: t.id,
        name: t.name,
        skills: t.skills,
        hasShift: weekly(t.shifts).length > 0,
        hours: shiftsOf.get(t.id)?.map((s) => s.hours) ?? [],
        booked: (fixedOf.get(t.id) ?? []).map((v) => ({ startMs: v.startsAt.getTime(), endMs: v.endsAt.getTime() })),
      })),
      kitchens: kitchens.map((k) => ({
        id: k.id,
        name: fullKitchenName(k),
        placed: !unplaced.has(k.id),
        open: access.get(k.id)?.open ?? [],
        closedToUs: covered(k.blackouts).size > 0,
      })),
      tasks: problem.tasks
        .filter((t) => t.dueDay < problem.nextDay && !standing.has(t.id))
        .map((t) => ({
          kitchenId: t.kitchenId,
          minutes: t.minutes * (access.get(t.kitchenId)?.durationFactor ?? 1),
          accessMinutes: access.get(t.kitchenId)?.accessMinutes ?? 0,
          skills: t.skills ?? [],
        })),
      due: { tasks: Number(dueNow?.tasks ?? 0), kitchens: Number(dueNow?.kitchens ?? 0), onVisits: Number(dueNow?.booked ?? 0) },
      unitsOnFile: await db.unit.count({ where: { archivedAt: null } }),
      weekIsOver: notBefore.getTime() >= instantOf(until, '00:00', zone),
      shopPlaced,
      fromShop: technicians.filter((t) => t.homeLat === null).length,
      drive,
      costsSet: costsSet(shop),
      distance: REGIONS[shop?.region ?? 'us'].distance,
    };
  }
}
export type WeekNames = Awaited<ReturnType<typeof weekProblem>>['names'];
