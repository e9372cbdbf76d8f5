import { groupBy } from '../numerics/group-by';
import { travelMinutes } from './travel';
import type { Place, PlannedVisit, WeekProblem } from './types';
import { earlyCost } from './week/costs';

/** What one proposed visit is for, and what it adds to the week. Minutes, days, and money in the shop's currency. */
export type VisitReason = {
  /** Tasks past their due day on the day of the visit, and how long the oldest. */
  overdue: number;
  longestOverdueDays: number;
  /** Due within the days planned. */
  due: number;
  /** Not due yet: taken along, because another trip would cost more than the part of their interval that is lost. */
  along: number;
  /** Furthest that one of these is brought forward. */
  furthestDays: number;
  /** Driving that the visit adds to its round: to it and from it, less the way that would be driven without it. */
  detourMinutes: number;
  drivingCost: number;
  /** Part of intervals lost by coming early. */
  earlyCost: number;
  /** Day on which the next of what stays behind at this kitchen falls due; null when nothing does. */
  nextDueDay: number | null;
  /** The only task, in words. */
  only: string | null;
};

/** The reason and cost of each visit of a plan that is not a booked one, by the visit's index. */
export function explainVisits(problem: WeekProblem, visits: readonly PlannedVisit[]): Map<number, VisitReason> {
  const placeOf = new Map(problem.kitchens.map((k) => [k.id, k.place]));
  const tasks = new Map(problem.tasks.map((t) => [t.id, t]));
  const fixedTasks = new Set((problem.fixed ?? []).flatMap((f) => f.taskIds));
  const done = new Set(visits.flatMap((v) => v.taskIds));
  const left = groupBy(
    problem.tasks.filter((t) => !done.has(t.id) && !fixedTasks.has(t.id)),
    (t) => t.kitchenId,
  );
  const rounds = groupBy(visits, (v) => `${v.technicianId} ${v.day}`);
  const minutes = (a: Place | null | undefined, b: Place | null | undefined): number =>
    a && b ? (travelMinutes(a, b, problem.travel) ?? 0) : 0;
  const shiftOf = (v: PlannedVisit) => problem.technicians.find((t) => t.id === v.technicianId)?.shifts.find((s) => s.day === v.day);
  /** Driving to a visit and from it, less the way that would be driven without it. */
  const detour = (v: PlannedVisit, round: readonly PlannedVisit[]): number => {
    const at = round.indexOf(v);
    const shift = shiftOf(v);
    const before = at > 0 ? placeOf.get(round[at - 1]?.kitchenId ?? '') : shift?.startPlace;
    const after = at < round.length - 1 ? placeOf.get(round[at + 1]?.kitchenId ?? '') : shift?.endPlace;
    const here = placeOf.get(v.kitchenId);
    // With nothing else on its day there would be no way at all.
    const without = round.length === 1 ? 0 : minutes(before, after);
    return Math.max(0, minutes(before, here) + minutes(here, after) - without);
  };
  const out = new Map<number, VisitReason>();
  visits.forEach((v, i) => {
    if (v.fixedId !== null) return;
    const round = [...(rounds.get(`${v.technicianId} ${v.day}`) ?? [])].sort((a, b) => a.hours.startMs - b.hours.startMs);
    const detourMinutes = detour(v, round);
    const own = v.taskIds.flatMap((id) => tasks.get(id) ?? []);
    const late = own.filter((t) => t.dueDay < v.day);
    const early = own.filter((t) => t.dueDay >= problem.nextDay);
    const behind = (left.get(v.kitchenId) ?? []).map((t) => t.dueDay);
    out.set(i, {
      overdue: late.length,
      longestOverdueDays: Math.max(0, ...late.map((t) => v.day - t.dueDay)),
      due: own.length - late.length - early.length,
      along: early.length,
      furthestDays: Math.max(0, ...early.map((t) => t.dueDay - v.day)),
      detourMinutes,
      drivingCost: detourMinutes * problem.prices.drivingPerMinute,
      earlyCost: own.reduce((sum, t) => sum + earlyCost(t, v.day, problem.prices), 0),
      nextDueDay: behind.length === 0 ? null : Math.min(...behind),
      only: own.length === 1 ? (own[0]?.name ?? null) : null,
    });
  });
  return out;
}
