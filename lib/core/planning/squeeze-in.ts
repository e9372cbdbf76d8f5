import { buildRoute, type Route } from './model/route';
import { inserted } from './search/insertion';
import type { FixedVisit, Kitchen, PlanTask, TimeRange, WeekProblem } from './types';
import { compileWeek } from './week/compile';
import type { CompiledWeek } from './week/compiled';
import { placeFixed } from './week/fixed';

/** A visit on the books, as far as an emergency has to respect it. */
export interface BookedVisit {
  readonly id: string;
  readonly technicianId: string;
  readonly kitchenId: string;
  readonly hours: TimeRange;
  /** Skills its work needs, should it go to someone else. */
  readonly skills: readonly string[];
  /** Begun, or promised to the minute: it does not move. */
  readonly fixed: boolean;
}

export interface Emergency {
  readonly kitchenId: string;
  readonly name: string;
  readonly minutes: number;
  readonly skills: readonly string[];
  /** When someone may be let in; the kitchen's own hours if not given. */
  readonly open?: readonly TimeRange[];
}

export interface SqueezePrices {
  /** Each minute the emergency waits. */
  readonly waitPerMinute: number;
  /** Each visit that has to be told of another time, and each minute it moves. */
  readonly movedVisit: number;
  readonly movedPerMinute: number;
  /** On top, for a visit that goes to another day or technician. */
  readonly rebooked: number;
}

export interface MovedVisit {
  readonly visitId: string;
  readonly fromTechnicianId: string;
  readonly technicianId: string;
  readonly from: TimeRange;
  readonly to: TimeRange;
}

export interface SqueezeOption {
  readonly technicianId: string;
  readonly hours: TimeRange;
  readonly waitMinutes: number;
  readonly moved: readonly MovedVisit[];
  readonly extraDriveMinutes: number;
  readonly overtimeMinutes: number;
  readonly cost: number;
  readonly words: string;
}

/** A visit moves only if its time changes by more than this. */
const UNNOTICED_MINUTES = 5;
const DEAR = 1e6;

/**
 * Ways to fit an emergency in, least disturbance first, the best for each technician and
 * day. Later visits of a round may slip within their kitchen's hours, or one of them may
 * be rebooked elsewhere in the week; what has begun or is fixed stays. `problem` gives the
 * technicians, kitchens, travel and prices; its tasks play no part.
 */
export function squeezeIn(
  problem: WeekProblem, booked: readonly BookedVisit[], emergency: Emergency, nowMs: number, prices: SqueezePrices,
): SqueezeOption[] {
  const around = compileAround(problem, booked, emergency, nowMs, prices);
  const { emergencyJob, fixedJob, looseJob } = around;
  if (emergencyJob < 0) return [];
  const { routes } = placeFixed(around.week).start;
  const week = fromHereAndNow(around.week, routes, emergencyJob, nowMs);
  const { model } = week;
  const options: SqueezeOption[] = [];
  const at = (minutes: number): number => week.originMs + minutes * 60_000;

  const consider = (s: number, route: Route, movedTo: { visit: BookedVisit; shift: number; route: Route } | null): void => {
    const p = route.jobs.indexOf(emergencyJob);
    const hours = { startMs: at(route.start[p]!), endMs: at(route.finish[p]!) };
    const moved: MovedVisit[] = [];
    let cost = route.cost - routes[s]!.cost;
    route.jobs.forEach((job, q) => {
      const visit = booked.find(({ id }) => fixedJob.get(id) === job);
      if (!visit) return;
      const to = { startMs: at(route.start[q]!), endMs: at(route.finish[q]!) };
      if (Math.abs(to.startMs - visit.hours.startMs) <= UNNOTICED_MINUTES * 60_000) return;
      moved.push({ visitId: visit.id, fromTechnicianId: visit.technicianId, technicianId: visit.technicianId, from: visit.hours, to });
    });
    if (movedTo) {
      const { visit, shift, route: other } = movedTo;
      const q = other.jobs.indexOf(looseJob.get(visit.id)!);
      const to = { startMs: at(other.start[q]!), endMs: at(other.finish[q]!) };
      moved.push({ visitId: visit.id, fromTechnicianId: visit.technicianId, technicianId: week.shifts[shift]!.technician.id, from: visit.hours, to });
      cost += other.cost - routes[shift]!.cost + prices.rebooked;
    }
    const waitMinutes = Math.max(0, (hours.startMs - nowMs) / 60_000);
    cost += moved.length * prices.movedVisit + waitMinutes * prices.waitPerMinute;
    const extra = driveOf(week, s, route) - driveOf(week, s, routes[s]!) + (movedTo ? driveOf(week, movedTo.shift, movedTo.route) - driveOf(week, movedTo.shift, routes[movedTo.shift]!) : 0);
    const technician = week.shifts[s]!.technician;
    options.push({
      technicianId: technician.id, hours, waitMinutes, moved, extraDriveMinutes: extra,
      overtimeMinutes: Math.max(0, route.endArrive - model.shifts[s]!.to), cost, words: inWords(technician.name, moved, movedTo !== null),
    });
  };

  model.shifts.forEach((_, s) => {
    const route = routes[s]!;
    for (let p = 0; p <= route.jobs.length; p++) {
      const tried = buildRoute(model, s, inserted(route.jobs, p, emergencyJob), inserted(route.sets, p, 1));
      if (tried) consider(s, tried, null);
    }
    route.jobs.forEach((job, q) => {
      const visit = booked.find(({ id }) => fixedJob.get(id) === job);
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
  return bestPerRound(options, week);
}

/** The week with every booked visit in its place, a loose copy of each that may go elsewhere, and the emergency. */
function compileAround(problem: WeekProblem, booked: readonly BookedVisit[], emergency: Emergency, nowMs: number, prices: SqueezePrices) {
  const byId = new Map(problem.kitchens.map((kitchen) => [kitchen.id, kitchen]));
  const later = (ranges: readonly TimeRange[]): TimeRange[] =>
    ranges.filter((range) => range.endMs > nowMs).map((range) => ({ startMs: Math.max(range.startMs, nowMs), endMs: range.endMs }));
  const copy = (id: string, of: string, open: readonly TimeRange[]): Kitchen[] => {
    const kitchen = byId.get(of);
    return kitchen ? [{ ...kitchen, id, open: later(open), accessMinutes: 0, durationFactor: 1, anotherTrip: DEAR, skills: kitchen.skills }] : [];
  };
  const loose = booked.filter((visit) => !visit.fixed && visit.hours.startMs > nowMs);
  const looseId = (visit: BookedVisit): string => `loose ${visit.id}`;
  const task = (id: string, name: string, minutes: number, skills: readonly string[]): PlanTask => ({
    id, kitchenId: id, name, minutes, skills, dueDay: problem.nextDay - 1, intervalDays: 1, worth: 0, overduePerDay: 0,
  });
  const minutesOf = (hours: TimeRange): number => Math.max(1, (hours.endMs - hours.startMs) / 60_000);
  const week = compileWeek({
    ...problem,
    prices: { ...problem.prices, latePerMinute: prices.movedPerMinute },
    kitchens: [
      ...problem.kitchens,
      ...copy('emergency', emergency.kitchenId, emergency.open ?? byId.get(emergency.kitchenId)?.open ?? []),
      ...loose.flatMap((visit) => copy(looseId(visit), visit.kitchenId, byId.get(visit.kitchenId)?.open ?? [])),
    ],
    tasks: [task('emergency', emergency.name, emergency.minutes, emergency.skills), ...loose.map((visit) => task(looseId(visit), visit.id, minutesOf(visit.hours), visit.skills))],
    fixed: booked.map((visit): FixedVisit => ({
      id: visit.id, technicianId: visit.technicianId, kitchenId: visit.kitchenId, hours: visit.hours, taskIds: [],
      mayRunLateMinutes: loose.includes(visit) ? slipOf(byId.get(visit.kitchenId), visit.hours) : 0,
    })),
  });
  const jobAt = (kitchenId: string): number => week.jobs.findIndex((job) => job.kitchen.id === kitchenId && !job.fixed);
  return {
    week,
    emergencyJob: jobAt('emergency'),
    fixedJob: new Map(booked.map((visit) => [visit.id, week.jobs.findIndex((job) => job.fixed?.id === visit.id)])),
    looseJob: new Map(loose.map((visit) => [visit.id, jobAt(looseId(visit))])),
  };
}

/** Nobody can set out for the emergency before now, nor from anywhere but where they are now. */
function fromHereAndNow(week: CompiledWeek, routes: readonly Route[], job: number, nowMs: number): CompiledWeek {
  const { model } = week;
  const now = (nowMs - week.originMs) / 60_000;
  const views = model.views.map((row, s) => {
    const view = row[job];
    if (!view) return row;
    const route = routes[s]!;
    const begun = route.jobs.filter((_, p) => route.start[p]! <= now);
    const here = begun.length > 0 ? model.jobs[begun[begun.length - 1]!]!.place : model.shifts[s]!.startPlace;
    const soonest = Math.ceil(now) + model.time[here * model.places + model.jobs[job]!.place]!;
    const opens = view.opens.map((open) => Math.max(open, soonest));
    return row.map((other, j) => (j === job ? { ...view, opens } : other));
  });
  return { ...week, model: { ...model, views } };
}

/** Minutes a visit may slip before its kitchen closes. */
function slipOf(kitchen: Kitchen | undefined, hours: TimeRange): number {
  const opening = kitchen?.open.find((range) => range.startMs <= hours.startMs && range.endMs >= hours.endMs);
  return opening ? Math.floor((opening.endMs - hours.endMs) / 60_000) : 0;
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
    week.shifts.find(({ technician, shift }) => technician.id === option.technicianId && option.hours.startMs < shift.hours.endMs + 86_400_000 / 2 && option.hours.startMs >= shift.hours.startMs)?.shift.day;
  const best = new Map<string, SqueezeOption>();
  for (const option of [...options].sort((a, b) => a.cost - b.cost)) {
    const key = `${option.technicianId} ${dayOf(option)}`;
    if (!best.has(key)) best.set(key, option);
  }
  return [...best.values()];
}

function inWords(name: string, moved: readonly MovedVisit[], rebooked: boolean): string {
  const slip = moved.length - (rebooked ? 1 : 0);
  const parts = [slip === 0 ? null : `${slip} visit${slip === 1 ? '' : 's'} start${slip === 1 ? 's' : ''} later`, rebooked ? '1 visit is rebooked' : null].filter((part) => part !== null);
  return parts.length === 0 ? `${name}: nothing else moves.` : `${name}: ${parts.join(', ')}.`;
}
