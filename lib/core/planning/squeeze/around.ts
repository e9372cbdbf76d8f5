import type { StopView } from '../model/model';
import type { Route } from '../model/route';
import type { FixedVisit, Kitchen, PlanTask, TimeRange, WeekProblem } from '../types';
import { compileWeek } from '../week/compile';
import type { CompiledWeek } from '../week/compiled';
import type { BookedVisit, Emergency, SqueezePrices } from './types';

/** Price of another trip that keeps every loose visit worth doing now. */
const DEAR = 1e6;

/** The week with every booked visit in its place, a loose copy of each that may go elsewhere, and the emergency. */
export function compileAround(
  problem: WeekProblem,
  booked: readonly BookedVisit[],
  emergency: Emergency,
  nowMs: number,
  prices: SqueezePrices,
) {
  const byId = new Map(problem.kitchens.map((kitchen) => [kitchen.id, kitchen]));
  const later = (ranges: readonly TimeRange[]): TimeRange[] =>
    ranges.filter((range) => range.endMs > nowMs).map((range) => ({ startMs: Math.max(range.startMs, nowMs), endMs: range.endMs }));
  const copy = (id: string, of: string, open: readonly TimeRange[]): Kitchen[] => {
    const kitchen = byId.get(of);
    return kitchen
      ? [
          {
            ...kitchen,
            id,
            open: later(open),
            accessMinutes: 0,
            durationFactor: 1,
            anotherTrip: DEAR,
            skills: kitchen.skills,
          },
        ]
      : [];
  };
  const loose = booked.filter((visit) => !visit.fixed && visit.hours.startMs > nowMs);
  const looseId = (visit: BookedVisit): string => `loose ${visit.id}`;
  const task = (id: string, name: string, minutes: number, skills: readonly string[]): PlanTask => ({
    id,
    kitchenId: id,
    name,
    minutes,
    skills,
    dueDay: problem.nextDay - 1,
    intervalDays: 1,
    worth: 0,
    overduePerDay: 0,
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
    tasks: [
      task('emergency', emergency.name, emergency.minutes, emergency.skills),
      ...loose.map((visit) => task(looseId(visit), visit.id, minutesOf(visit.hours), visit.skills)),
    ],
    fixed: booked.map((visit): FixedVisit => ({
      id: visit.id,
      technicianId: visit.technicianId,
      kitchenId: visit.kitchenId,
      hours: visit.hours,
      taskIds: [],
      mayRunLateMinutes: loose.includes(visit) ? slipOf(byId.get(visit.kitchenId), visit.hours) : 0,
    })),
  });
  // A visit booked on a round minute moves to a round minute.
  const step = Math.max(1, Math.floor(problem.startsEveryMinutes ?? 1));
  const onStep: CompiledWeek = {
    ...week,
    model: {
      ...week.model,
      views: week.model.views.map((row, s) =>
        row.map((view, j) => {
          if (!view) return view;
          if (week.jobs[j]!.fixed) return view.promised % step === 0 ? { ...view, step } : view;
          return week.jobs[j]!.kitchen.id === 'emergency' ? view : withinWork(view, week, s);
        }),
      ),
    },
  };
  const jobAt = (kitchenId: string): number => week.jobs.findIndex((job) => job.kitchen.id === kitchenId && !job.fixed);
  return {
    week: onStep,
    emergencyJob: jobAt('emergency'),
    fixedJob: new Map(booked.map((visit) => [visit.id, week.jobs.findIndex((job) => job.fixed?.id === visit.id)])),
    looseJob: new Map(loose.map((visit) => [visit.id, jobAt(looseId(visit))])),
  };
}

/** Hours on call are for the emergency: a visit that gives way goes into working time. */
function withinWork(view: StopView, { model, shifts }: CompiledWeek, s: number): StopView | null {
  const { shift } = shifts[s]!;
  if (shift.onCall) return null;
  const until = model.shifts[s]!.to + Math.max(0, (shift.overtimeMinutes ?? 0) - (shift.onCallMinutes ?? 0));
  const windows = view.opens.map((open, i) => ({ open, close: Math.min(view.closes[i]!, until) })).filter((w) => w.close > w.open);
  return windows.length === 0 ? null : { ...view, opens: windows.map((w) => w.open), closes: windows.map((w) => w.close) };
}

/** Nobody can set out for the emergency before now, nor from anywhere but where they are now. */
export function fromHereAndNow(week: CompiledWeek, routes: readonly Route[], job: number, nowMs: number): CompiledWeek {
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
