import { firstVisitFree, fixedPrice } from '../model/leave';
import { hasTriangle } from '../model/triangle';
import type { Job, Model, ShiftModel, StopView } from '../model/model';
import type { FixedVisit, PlanTask, TimeRange, WeekProblem } from '../types';
import type { CompiledJob, CompiledWeek } from './compiled';
import { dayCost } from './costs';
import { canDo, itemsOf, type KitchenItems } from './items';
import { placeTable } from './places';
import { shiftsOf } from './shifts';
import { sift } from './sift';

const MINUTE = 60_000;
/** Dearer than any plan: a fixed visit is never left out if it can be kept at all. */
const KEEP_FIXED = 1e5;

/**
 * Turns a week into the solver's model. Whole minutes throughout: starts rounded up, ends down.
 * `kept` are visits that the model does not hold and whose technicians are busy then all the same.
 */
export function compileWeek(problem: WeekProblem, kept: readonly FixedVisit[] = []): CompiledWeek {
  const sifted = sift(problem);
  const busy = [...kept, ...(problem.fixed ?? []).filter((visit) => !sifted.fixed.includes(visit))];
  const { prices } = problem;
  const shifts = shiftsOf(problem, sifted);
  const starts = [...shifts.map(({ shift }) => shift.hours.startMs), ...sifted.fixed.map((visit) => visit.hours.startMs)];
  // Starts on round minutes are counted from here.
  const startsEvery = Math.max(1, Math.floor(problem.startsEveryMinutes ?? 1));
  const grain = startsEvery * MINUTE;
  const originMs = starts.length === 0 ? 0 : Math.floor(starts.reduce((a, b) => Math.min(a, b)) / grain) * grain;
  const up = (ms: number): number => Math.ceil((ms - originMs) / MINUTE);
  const down = (ms: number): number => Math.floor((ms - originMs) / MINUTE);

  const table = placeTable(problem.travel);
  const promised = new Set(sifted.fixed.map((f) => f.kitchenId));
  const placeOf = new Map(
    [...sifted.kitchens.values()].filter((k) => sifted.tasks.has(k.id) || promised.has(k.id)).map((k) => [k.id, table.indexOf(k.place!)]),
  );
  const ends = shifts.map(({ shift }) => [table.indexOf(shift.startPlace), table.indexOf(shift.endPlace)] as const);
  const time = table.minutes();
  const places = table.count;
  const drive = time.map((minutes) => minutes * prices.drivingPerMinute);

  const days = [...new Set(shifts.map(({ shift }) => shift.day))];
  const skillSets = shifts.map(({ technician }) => new Set(technician.skills));
  const busyIn = shifts.map(({ technician, shift }) =>
    busy
      .filter((visit) => visit.technicianId === technician.id && overlap(visit.hours, shift.hours, (shift.overtimeMinutes ?? 0) * MINUTE))
      .map(({ hours }) => ({ open: down(hours.startMs), close: up(hours.endMs) })),
  );
  const kinds = new Map<string, number>();
  const shiftModels: ShiftModel[] = shifts.map(({ technician, shift, fixed }, s) => {
    const [startPlace, endPlace] = ends[s]!;
    const to = down(shift.hours.endMs);
    let from = up(shift.hours.startMs);
    let hardTo = to + Math.floor(shift.overtimeMinutes ?? 0);
    // What was promised outside the shift lengthens that day.
    for (const visit of fixed) {
      const place = placeOf.get(visit.kitchenId)!;
      from = Math.min(from, up(visit.hours.startMs) - time[startPlace * places + place]!);
      hardTo = Math.max(hardTo, up(visit.hours.endMs) + (visit.mayRunLateMinutes ?? 0) + time[place * places + endPlace]!);
    }
    const key =
      fixed.length > 0 || busyIn[s]!.length > 0
        ? `own ${s}`
        : [shift.day, from, to, hardTo, startPlace, endPlace, ...[...technician.skills].sort()].join(' ');
    if (!kinds.has(key)) kinds.set(key, kinds.size);
    return {
      startPlace,
      endPlace,
      from,
      to,
      hardTo,
      overtimePrice: prices.overtimePerMinute,
      capacity: Infinity,
      kind: kinds.get(key)!,
    };
  });

  const jobs: Job[] = [];
  const compiled: CompiledJob[] = [];
  const views: (StopView | null)[][] = shifts.map(() => []);
  const always: PlanTask[] = [];
  const second = prices.secondVisit ?? 0;
  // Where a visit is booked already, any other is a second one; also beside one that the model does not hold.
  const booked = new Set([...kept, ...(problem.fixed ?? [])].map((visit) => visit.kitchenId));
  let rows = 0;
  for (const [kitchenId, tasks] of sifted.tasks) {
    const kitchen = sifted.kitchens.get(kitchenId)!;
    const place = placeOf.get(kitchenId)!;
    const access = Math.ceil(kitchen.accessMinutes ?? 0) * prices.workPerMinute;
    const trip = kitchen.anotherTrip ?? access + nearbyDetour(place, time, places) * prices.drivingPerMinute;
    const items: KitchenItems = itemsOf(problem, kitchen, tasks, trip, days, skillSets);
    always.push(...items.always);
    if (items.tasks.length === 0) continue;
    // One list a day, shared by all shifts of that day.
    const itemCost = new Map(days.map((day) => [day, items.tasks.map((task) => dayCost(task, day, prices))]));
    const open = sifted.open
      .get(kitchenId)!
      .map((range) => ({ open: up(range.startMs), close: down(range.endMs) }))
      .sort((a, b) => a.open - b.open);
    shifts.forEach(({ shift, promisedOnly }, s) => {
      const allowed = items.tasks.reduce(
        (set, task, i) => (canDo(skillSets[s]!, task, kitchen) && shift.day >= (task.notBeforeDay ?? -Infinity) ? set | (1 << i) : set),
        0,
      );
      // A fixed visit outside the shift lengthens the day for itself, not for other work.
      const from = up(shift.hours.startMs);
      const hardTo = down(shift.hours.endMs) + Math.floor(shift.overtimeMinutes ?? 0);
      const usable = without(
        busyIn[s]!,
        merged(open.map((w) => ({ open: Math.max(w.open, from), close: Math.min(w.close, hardTo) })).filter((w) => w.close > w.open)),
      );
      views[s]!.push(
        promisedOnly || allowed === 0 || usable.length === 0
          ? null
          : {
              allowed,
              opens: usable.map((w) => w.open),
              closes: usable.map((w) => w.close),
              itemCost: itemCost.get(shift.day)!,
              visitCost: access + second,
              promised: Infinity,
              latePrice: 0,
              step: startsEvery > 1 ? startsEvery : 0,
            },
      );
    });
    const firstVisit = booked.has(kitchenId) ? 0 : second;
    jobs.push({ ...items.job, leave: firstVisitFree(items.job.leave, items.job.all, firstVisit), place, firstRow: rows });
    compiled.push({ kitchen, tasks: items.tasks, fixed: null, firstVisit });
    rows += items.tasks.length;
  }
  const taskById = new Map(problem.tasks.map((task) => [task.id, task]));
  for (const visit of sifted.fixed) {
    const kitchen = sifted.kitchens.get(visit.kitchenId)!;
    const start = up(visit.hours.startMs);
    const end = Math.max(start, up(visit.hours.endMs));
    shifts.forEach(({ fixed }, s) =>
      views[s]!.push(
        !fixed.includes(visit)
          ? null
          : {
              allowed: 1,
              opens: [start],
              closes: [end + Math.floor(visit.mayRunLateMinutes ?? 0)],
              itemCost: [0],
              visitCost: 0,
              promised: start,
              latePrice: prices.latePerMinute,
              step: 0,
            },
      ),
    );
    jobs.push({
      place: placeOf.get(visit.kitchenId)!,
      items: 1,
      all: 1,
      setup: 0,
      minutes: [end - start],
      demand: 0,
      brings: [1],
      bundles: [1],
      leave: fixedPrice(KEEP_FIXED),
      firstRow: rows,
      pinned: true,
    });
    compiled.push({ kitchen, tasks: visit.taskIds.flatMap((id) => taskById.get(id) ?? []), fixed: visit, firstVisit: 0 });
    rows++;
  }
  const triangle = hasTriangle(time, places);
  const model: Model = { places, time, drive, jobs, shifts: shiftModels, views, rows, triangle, wholeCosts: false };
  return { problem, sifted, model, originMs, shifts, jobs: compiled, always };
}

type Window = { open: number; close: number };

/** What is left of the openings beside the busy times. */
const without = (busy: readonly Window[], windows: Window[]): Window[] =>
  busy.reduce(
    (left, b) =>
      left
        .flatMap((w) =>
          b.close <= w.open || w.close <= b.open
            ? [w]
            : [
                { open: w.open, close: b.open },
                { open: b.close, close: w.close },
              ],
        )
        .filter((w) => w.close > w.open),
    windows,
  );

const overlap = (a: TimeRange, b: TimeRange, later: number): boolean => a.startMs < b.endMs + later && b.startMs < a.endMs;

/** Openings that touch or overlap are one opening. */
function merged(windows: readonly Window[]): Window[] {
  const result: Window[] = [];
  for (const window of windows) {
    const last = result[result.length - 1];
    if (last && window.open <= last.close) last.close = Math.max(last.close, window.close);
    else result.push({ ...window });
  }
  return result;
}

/** Driving another trip would add, guessed as the way to the two nearest other places. */
function nearbyDetour(place: number, time: Float64Array, places: number): number {
  const ways = Array.from({ length: places }, (_, other) => time[place * places + other]!)
    .filter((_, other) => other !== place)
    .sort((a, b) => a - b);
  return (ways[0] ?? 0) + (ways[1] ?? ways[0] ?? 0);
}
