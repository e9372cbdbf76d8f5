import { travelMinutes } from '@/lib/core/planning';
import type { Kitchen, PlanTask, Shift, Technician, WeekProblem } from '@/lib/core/planning';

/**
 * Every plan of a tiny week, tried one by one: an independent statement of what a plan
 * costs, written without the planner's model. Kitchens must state `anotherTrip`.
 */
export function cheapestPlanCost(problem: WeekProblem): number {
  const { tasks, prices, nextDay } = problem;
  const all = 2 ** tasks.length - 1;
  const isDue = (task: PlanTask): boolean => task.dueDay < nextDay;
  const dayCost = (task: PlanTask, day: number): number =>
    day < task.dueDay
      ? task.minutes * prices.workPerMinute * Math.min(1, (task.dueDay - day) / task.intervalDays)
      : (day - task.dueDay) * prices.overduePerDay;
  const later = (task: PlanTask, day: number): number => dayCost(task, day) + (isDue(task) ? prices.leftUndone : 0);

  const bestLater = (kitchen: Kitchen, left: readonly PlanTask[]): number => {
    if (left.length === 0) return 0;
    const lastDay = Math.max(nextDay, ...left.map((task) => task.dueDay));
    const oneTrip = (group: readonly PlanTask[]): number => {
      let best = Infinity;
      for (let day = nextDay; day <= lastDay; day++)
        best = Math.min(
          best,
          group.reduce((sum, task) => sum + later(task, day), kitchen.anotherTrip!),
        );
      return best;
    };
    const [first, ...rest] = left;
    let best = Infinity;
    for (let set = 0; set < 2 ** rest.length; set++) {
      const group = [first!, ...rest.filter((_, i) => (set >> i) & 1)];
      best = Math.min(
        best,
        oneTrip(group) +
          bestLater(
            kitchen,
            rest.filter((_, i) => !((set >> i) & 1)),
          ),
      );
    }
    return best;
  };
  const leftCost = (set: number): number =>
    problem.kitchens.reduce(
      (sum, kitchen) =>
        sum +
        bestLater(
          kitchen,
          tasks.filter((task, i) => task.kitchenId === kitchen.id && ((set >> i) & 1) === 1),
        ),
      0,
    );

  // Best cost of one shift for every set of tasks it could do.
  const perShift = problem.technicians.flatMap((technician) =>
    technician.shifts.map((shift) => shiftTable(problem, technician, shift, dayCost)),
  );
  const ofKitchen = problem.kitchens.map(({ id }) => tasks.reduce((set, task, i) => (task.kitchenId === id ? set | (1 << i) : set), 0));
  let best = new Map<number, number>([[0, 0]]);
  for (const table of perShift) {
    const next = new Map(best);
    for (const [done, cost] of best)
      for (const [set, more] of table) {
        if ((done & set) !== 0) continue;
        const again = ofKitchen.filter((own) => (own & done) !== 0 && (own & set) !== 0).length;
        const sum = cost + more + again * (prices.secondVisit ?? 0);
        if (sum < (next.get(done | set) ?? Infinity)) next.set(done | set, sum);
      }
    best = next;
  }
  // Tasks that nobody would do now on any day are not counted: their trips come anyway.
  const days = problem.technicians.flatMap((technician) => technician.shifts.map((shift) => shift.day));
  const pays = (task: PlanTask): boolean => {
    const kitchen = problem.kitchens.find(({ id }) => id === task.kitchenId)!;
    const own = later(task, Math.max(nextDay, task.dueDay)) + kitchen.anotherTrip!;
    return days.some((day) => day >= (task.notBeforeDay ?? -Infinity) && dayCost(task, day) < own);
  };
  const counted = tasks.filter((task) => pays(task) || tasks.some((coil) => pays(coil) && bringsAlong(coil, task)));
  const uncounted = tasks.reduce((set, task, i) => (counted.includes(task) ? set : set | (1 << i)), 0);
  const base = leftCost(uncounted);
  let least = Infinity;
  for (const [done, cost] of best) least = Math.min(least, cost + leftCost(all & ~done) - base);
  return least;
}

const bringsAlong = (coil: PlanTask, other: PlanTask): boolean =>
  coil.role === 'coil_cleaning' &&
  other.role === 'low_side_inspection' &&
  coil.unitId === other.unitId &&
  coil.kitchenId === other.kitchenId;

function shiftTable(
  problem: WeekProblem,
  technician: Technician,
  shift: Shift,
  dayCost: (task: PlanTask, day: number) => number,
): Map<number, number> {
  const { tasks, kitchens, prices, travel } = problem;
  const table = new Map<number, number>();
  const step = (problem.startsEveryMinutes ?? 1) * 60_000;
  const onTheStep = (ms: number): number => Math.ceil(ms / step) * step;
  const drive = (from: { lat?: number | null }, to: { lat?: number | null }): number => travelMinutes(from, to, travel)!;
  const visitsAt = (kitchen: Kitchen): { set: number; minutes: number; cost: number }[] => {
    const own = tasks.map((task, i) => ({ task, i })).filter(({ task }) => task.kitchenId === kitchen.id);
    const result = [];
    for (let pick = 1; pick < 2 ** own.length; pick++) {
      const chosen = own.filter((_, i) => (pick >> i) & 1).map(({ task }) => task);
      const skilled = [...(kitchen.skills ?? []), ...chosen.flatMap((task) => task.skills ?? [])].every((skill) =>
        technician.skills.includes(skill),
      );
      const complete = chosen.every((coil) => own.every(({ task }) => !bringsAlong(coil, task) || chosen.includes(task)));
      if (!skilled || !complete || chosen.some((task) => shift.day < (task.notBeforeDay ?? -Infinity))) continue;
      result.push({
        set: chosen.reduce((set, task) => set | (1 << tasks.indexOf(task)), 0),
        minutes:
          Math.ceil(kitchen.accessMinutes ?? 0) +
          chosen.reduce((sum, task) => sum + Math.ceil(task.minutes * (kitchen.durationFactor ?? 1) - 1e-9), 0),
        cost:
          Math.ceil(kitchen.accessMinutes ?? 0) * prices.workPerMinute + chosen.reduce((sum, task) => sum + dayCost(task, shift.day), 0),
      });
    }
    return result;
  };
  const options = new Map(kitchens.map((kitchen) => [kitchen, visitsAt(kitchen)]));
  const go = (place: Kitchen['place'], clockMs: number, cost: number, set: number, open: readonly Kitchen[]): void => {
    if (set !== 0) {
      const home = drive(place!, shift.endPlace);
      const back = clockMs + home * 60_000;
      const over = Math.max(0, (back - shift.hours.endMs) / 60_000);
      if (over <= (shift.overtimeMinutes ?? 0)) {
        const total = cost + home * prices.drivingPerMinute + over * prices.overtimePerMinute;
        if (total < (table.get(set) ?? Infinity)) table.set(set, total);
      }
    }
    for (const kitchen of open) {
      const way = drive(place!, kitchen.place!);
      for (const visit of options.get(kitchen)!) {
        const starts = kitchen.open
          .map((range) => ({ start: onTheStep(Math.max(range.startMs, clockMs + way * 60_000)), end: range.endMs }))
          .filter(({ start, end }) => start + visit.minutes * 60_000 <= end)
          .map(({ start }) => start);
        if (starts.length === 0) continue;
        const finish = Math.min(...starts) + visit.minutes * 60_000;
        go(
          kitchen.place,
          finish,
          cost + way * prices.drivingPerMinute + visit.cost,
          set | visit.set,
          open.filter((other) => other !== kitchen),
        );
      }
    }
  };
  go(shift.startPlace, shift.hours.startMs, 0, 0, kitchens);
  return table;
}
