import { counted } from '../../wording/counted';
import { buildRoute, type Route } from '../model/route';
import { inserted } from '../search/insertion';
import type { WeekProblem } from '../types';
import type { CompiledWeek } from '../week/compiled';
import { placeFixed } from '../week/fixed';
import { compileAround, fromHereAndNow } from './around';
import type { BookedVisit, Emergency, MovedVisit, SqueezeOption, SqueezePrices } from './types';

/** A visit moves only if its time changes by more than this. */
const UNNOTICED_MINUTES = 5;

/**
 * Ways to fit an emergency in, least disturbance first, the best for each technician and
 * day. Later visits of a round may slip within their kitchen's hours, or one of them may
 * be rebooked elsewhere in the week; what has begun or is fixed stays. `problem` gives the
 * technicians, kitchens, travel and prices; its tasks play no part.
 */
export function squeezeIn(
  problem: WeekProblem,
  booked: readonly BookedVisit[],
  emergency: Emergency,
  nowMs: number,
  prices: SqueezePrices,
): SqueezeOption[] {
  const around = compileAround(problem, booked, emergency, nowMs, prices);
  const { emergencyJob, fixedJob, looseJob } = around;
  if (emergencyJob < 0) return [];
  const { routes } = placeFixed(around.week).start;
  const week = fromHereAndNow(around.week, routes, emergencyJob, nowMs);
  const { model } = week;
  const visitOf = new Map(booked.map((visit) => [fixedJob.get(visit.id)!, visit]));
  const options: SqueezeOption[] = [];
  const at = (minutes: number): number => week.originMs + minutes * 60_000;

  const consider = (s: number, route: Route, movedTo: { visit: BookedVisit; shift: number; route: Route } | null): void => {
    const p = route.jobs.indexOf(emergencyJob);
    const hours = { startMs: at(route.start[p]!), endMs: at(route.finish[p]!) };
    const moved: MovedVisit[] = [];
    let cost = route.cost - routes[s]!.cost;
    // What the calendar shows must not overlap either, however short the drive.
    let busyUntil = -Infinity;
    route.jobs.forEach((job, q) => {
      const to = { startMs: at(route.start[q]!), endMs: at(route.finish[q]!) };
      const visit = visitOf.get(job);
      const was = routes[s]!.jobs.indexOf(job);
      // A visit that its round reaches late anyway is not moved on the emergency's account.
      const before = visit && was >= 0 ? Math.max(visit.hours.startMs, at(routes[s]!.start[was]!)) : to.startMs;
      const stays = to.startMs - before <= UNNOTICED_MINUTES * 60_000 && (visit?.hours.startMs ?? Infinity) >= busyUntil;
      if (visit && !stays)
        moved.push({
          visitId: visit.id,
          fromTechnicianId: visit.technicianId,
          technicianId: visit.technicianId,
          from: visit.hours,
          to,
        });
      busyUntil = Math.max(busyUntil, visit && stays ? visit.hours.endMs : to.endMs);
    });
    if (movedTo) {
      const { visit, shift, route: other } = movedTo;
      const q = other.jobs.indexOf(looseJob.get(visit.id)!);
      const to = { startMs: at(other.start[q]!), endMs: at(other.finish[q]!) };
      moved.push({
        visitId: visit.id,
        fromTechnicianId: visit.technicianId,
        technicianId: week.shifts[shift]!.technician.id,
        from: visit.hours,
        to,
      });
      cost += other.cost - routes[shift]!.cost + prices.rebooked;
    }
    const waitMinutes = Math.max(0, (hours.startMs - nowMs) / 60_000);
    cost += moved.length * prices.movedVisit + waitMinutes * prices.waitPerMinute;
    const extra =
      driveOf(week, s, route) -
      driveOf(week, s, routes[s]!) +
      (movedTo ? driveOf(week, movedTo.shift, movedTo.route) - driveOf(week, movedTo.shift, routes[movedTo.shift]!) : 0);
    const { technician, shift } = week.shifts[s]!;
    options.push({
      technicianId: technician.id,
      hours,
      waitMinutes,
      moved,
      extraDriveMinutes: extra,
      overtimeMinutes: shift.onCall ? 0 : Math.max(0, route.endArrive - model.shifts[s]!.to),
      onCall: shift.onCall === true || hours.startMs >= shift.hours.endMs,
      cost,
      message: inWords(technician.name, moved, movedTo !== null),
    });
  };

  model.shifts.forEach((_, s) => {
    const route = routes[s]!;
    for (let p = 0; p <= route.jobs.length; p++) {
      const tried = buildRoute(model, s, inserted(route.jobs, p, emergencyJob), inserted(route.sets, p, 1));
      if (tried) consider(s, tried, null);
    }
    route.jobs.forEach((job, q) => {
      const visit = visitOf.get(job);
      if (!visit || visit.fixed || visit.hours.startMs <= nowMs) return;
      const without = { jobs: route.jobs.filter((_, p) => p !== q), sets: route.sets.filter((_, p) => p !== q) };
      let best: Route | null = null;
      for (let p = 0; p <= without.jobs.length; p++) {
        const tried = buildRoute(model, s, inserted(without.jobs, p, emergencyJob), inserted(without.sets, p, 1));
        if (tried && (!best || tried.cost < best.cost)) best = tried;
      }
      const elsewhere = best && rebook(week, routes, looseJob.get(visit.id)!, s);
      if (best && elsewhere) consider(s, best, { visit, ...elsewhere });
    });
  });
  return bestPerRound(
    options.filter((option) => holds(option, booked)),
    week,
  );
}

/** Nobody in two places by the calendar, visits included that no round could be made of; nothing fixed moved. */
function holds(option: SqueezeOption, booked: readonly BookedVisit[]): boolean {
  const to = new Map(option.moved.map((move) => [move.visitId, move]));
  if (booked.some((visit) => visit.fixed && to.has(visit.id))) return false;
  const fresh = [option, ...option.moved.map((move) => ({ technicianId: move.technicianId, hours: move.to }))];
  const all = [...fresh, ...booked.filter((visit) => !to.has(visit.id))];
  return fresh.every((one, i) =>
    all.every(
      (other, j) =>
        j <= i ||
        one.technicianId !== other.technicianId ||
        one.hours.endMs <= other.hours.startMs ||
        other.hours.endMs <= one.hours.startMs,
    ),
  );
}

/** The cheapest other place in the week for a visit that has to give way. */
function rebook({ model }: CompiledWeek, routes: readonly Route[], job: number, not: number): { shift: number; route: Route } | null {
  let best: { shift: number; route: Route } | null = null;
  let least = Infinity;
  routes.forEach((route, s) => {
    if (s === not) return;
    for (let p = 0; p <= route.jobs.length; p++) {
      const tried = buildRoute(model, s, inserted(route.jobs, p, job), inserted(route.sets, p, 1));
      // One disturbance is enough: it must not make anyone else late.
      if (!tried || tried.late > route.late || tried.cost - route.cost >= least) continue;
      least = tried.cost - route.cost;
      best = { shift: s, route: tried };
    }
  });
  return best;
}

function driveOf({ model }: CompiledWeek, s: number, route: Route): number {
  if (route.jobs.length === 0) return 0;
  const { startPlace, endPlace } = model.shifts[s]!;
  const stops = [startPlace, ...route.jobs.map((job) => model.jobs[job]!.place), endPlace];
  return stops.slice(1).reduce((sum, place, i) => sum + model.time[stops[i]! * model.places + place]!, 0);
}

function bestPerRound(options: readonly SqueezeOption[], week: CompiledWeek): SqueezeOption[] {
  const dayOf = (option: SqueezeOption): number | undefined =>
    week.shifts.find(
      ({ technician, shift }) =>
        technician.id === option.technicianId &&
        option.hours.startMs < shift.hours.endMs + 86_400_000 / 2 &&
        option.hours.startMs >= shift.hours.startMs,
    )?.shift.day;
  const best = new Map<string, SqueezeOption>();
  for (const option of [...options].sort((a, b) => a.cost - b.cost)) {
    const key = `${option.technicianId} ${dayOf(option)}`;
    if (!best.has(key)) best.set(key, option);
  }
  return [...best.values()];
}

function inWords(name: string, moved: readonly MovedVisit[], rebooked: boolean): string {
  const slip = moved.length - (rebooked ? 1 : 0);
  const parts = [
    slip === 0 ? null : `${counted(slip, 'visit starts', 'visits start')} later`,
    rebooked ? '1 visit is rebooked' : null,
  ].filter((part) => part !== null);
  return parts.length === 0 ? `${name}: nothing else moves.` : `${name}: ${parts.join(', ')}.`;
}
