import { counted } from '../../wording/counted';
import { closure } from '../model/bundles';
import { minutesFor, startAt } from '../model/model';
import { buildRoute } from '../model/route';
import { inserted } from '../search/insertion';
import type { Solution } from '../search/solution';
import type { Kitchen, LeftTask, PlanTask, Reason } from '../types';
import type { CompiledWeek } from './compiled';
import { earlyCost, isDue, worthOf } from './costs';
import { canDo } from './items';
import { isRange } from './sift';

/** Every task that is not in the plan, with the reason. Due ones apart from those that can wait. */
export function leftTasks(week: CompiledWeek, solution: Solution): { unplaced: LeftTask[]; later: LeftTask[] } {
  const unplaced: LeftTask[] = [...week.sifted.refused];
  const later: LeftTask[] = [];
  const file = (task: PlanTask, reason: Reason): void => {
    (isDue(task, week.problem.nextDay) ? unplaced : later).push({ taskId: task.id, reason });
  };
  week.jobs.forEach(({ tasks, kitchen, fixed }, j) => {
    if (fixed) return;
    tasks.forEach((task, i) => {
      if ((solution.done[j]! & (1 << i)) === 0) file(task, whyLeft(week, solution, j, i, task, kitchen));
    });
  });
  for (const task of week.always) {
    const kitchen = week.sifted.kitchens.get(task.kitchenId)!;
    file(task, whoCould(week, task, kitchen) ?? (isDue(task, week.problem.nextDay) ? nextInLine(kitchen) : waits(week, task)));
  }
  return { unplaced, later };
}

/** Null if the kitchen is open and someone with the skill is there on one of the days. */
function whoCould(week: CompiledWeek, task: PlanTask, kitchen: Kitchen): Reason | null {
  const { technicians } = week.problem;
  if (kitchen.open.length === 0) return { code: 'no_hours', message: `${kitchen.name} has no service hours on these days.` };
  if (!kitchen.open.some(isRange))
    return {
      code: 'reversed_hours',
      message: `The service hours of ${kitchen.name} end before they begin; correct them.`,
    };
  const needed = [...new Set([...(task.skills ?? []), ...(kitchen.skills ?? [])])];
  const skilled = technicians.filter((technician) => canDo(new Set(technician.skills), task, kitchen));
  if (technicians.every((technician) => technician.shifts.length === 0))
    return { code: 'no_shift', message: 'Nobody works on these days.' };
  if (skilled.length === 0) {
    const nobody = needed.filter((skill) => !technicians.some((technician) => technician.skills.includes(skill)));
    return nobody.length > 0
      ? { code: 'no_skill', message: `No technician has the skill: ${nobody.join(', ')}.` }
      : { code: 'no_skill', message: `No one technician has all the skills it needs: ${needed.join(', ')}.` };
  }
  if (skilled.every((technician) => technician.shifts.length === 0))
    return {
      code: 'skill_off',
      message: `${names(skilled.map((t) => t.name))} could do it, but ${skilled.length === 1 ? 'is' : 'are'} off on these days.`,
    };
  if (task.notBeforeDay !== undefined && !skilled.some((t) => t.shifts.some((shift) => shift.day >= task.notBeforeDay!)))
    return { code: 'not_yet', message: 'It may not be done before a day on which no one who could do it works.' };
  return null;
}

function whyLeft(week: CompiledWeek, solution: Solution, j: number, item: number, task: PlanTask, kitchen: Kitchen): Reason {
  const person = whoCould(week, task, kitchen);
  if (person) return person;
  const { model } = week;
  const job = model.jobs[j]!;
  const set = closure(job, 1 << item);
  const work = minutesFor(job, set);
  const able = [...model.shifts.keys()].filter((s) => {
    const view = model.views[s]![j];
    return view && (set & ~view.allowed) === 0;
  });
  const longest = Math.max(...week.sifted.open.get(kitchen.id)!.map((range) => Math.floor((range.endMs - range.startMs) / 60_000)));
  if (longest < work)
    return {
      code: 'hours_too_short',
      message: `It takes ${work} min on site; the longest opening of ${kitchen.name} is ${longest} min.`,
    };
  if (able.length === 0) {
    const together = set !== 1 << item;
    const skilled = week.shifts.some(({ technician }) =>
      week.jobs[j]!.tasks.every((other, i) => (set & (1 << i)) === 0 || canDo(new Set(technician.skills), other, kitchen)),
    );
    if (together && !skilled)
      return {
        code: 'no_skill',
        message: 'No one technician has the skills for it and the low-side inspection that rides with it.',
      };
    return {
      code: 'hours_never_meet',
      message: `${kitchen.name} is never open while someone who could do it is at work.`,
    };
  }
  const alone = able.filter((s) => buildRoute(model, s, [j], [set]) !== null);
  if (alone.length === 0) {
    const meets = able.some((s) => startAt(model.views[s]![j]!, model.shifts[s]!.from, work) + work <= model.shifts[s]!.hardTo);
    return meets
      ? {
          code: 'too_far',
          message: `${kitchen.name} is too far to drive there, work ${work} min and be back within a shift.`,
        }
      : {
          code: 'hours_never_meet',
          message: `No opening of ${kitchen.name} has ${work} min while someone who could do it is at work.`,
        };
  }
  const cheapest = cheapestInsertion(week, solution, j, set, able);
  if (cheapest === Infinity) return { code: 'full', message: `Everyone who could do it is booked whenever ${kitchen.name} is open.` };
  if (!isDue(task, week.problem.nextDay)) return waits(week, task);
  const { leftUndone, secondVisit = 0 } = week.problem.prices;
  const goesAnyway = solution.done[j] !== 0 || week.jobs[j]!.firstVisit === 0;
  const again = secondVisit > 0 && goesAnyway ? `, a second visit there in these days at ${money(secondVisit)}` : '';
  return {
    code: 'dearer',
    message: `There is room, but the trip would cost ${money(cheapest)} more than waiting (a due task that waits is priced at ${money(leftUndone)}${again}).`,
  };
}

/** What placing the set would add to the plan's cost; Infinity if it fits nowhere. */
function cheapestInsertion({ model }: CompiledWeek, solution: Solution, j: number, set: number, shifts: readonly number[]): number {
  const job = model.jobs[j]!;
  const open = job.all & ~solution.done[j]!;
  let best = Infinity;
  for (const s of shifts) {
    const route = solution.routes[s]!;
    const held = route.jobs.indexOf(j);
    const tries =
      held >= 0
        ? [
            buildRoute(
              model,
              s,
              route.jobs,
              route.sets.map((other, p) => (p === held ? other | set : other)),
            ),
          ]
        : [...Array(route.jobs.length + 1).keys()].map((p) =>
            buildRoute(model, s, inserted(route.jobs, p, j), inserted(route.sets, p, set)),
          );
    for (const tried of tries)
      if (tried) best = Math.min(best, tried.cost - route.cost + job.leave.cost(open & ~set) - job.leave.cost(open));
  }
  return best;
}

const nextInLine = (kitchen: Kitchen): Reason => ({
  code: 'full',
  message: `A visit to ${kitchen.name} holds no more; it is next in line there.`,
});

function waits(week: CompiledWeek, task: PlanTask): Reason {
  const { prices, nextDay } = week.problem;
  const lastDay = nextDay - 1;
  const days = task.dueDay - lastDay;
  const lost = worthOf(task, prices) > 0 ? earlyCost(task, lastDay, prices) / worthOf(task, prices) : 0;
  return {
    code: 'later',
    message: `Not due until ${counted(days, 'day')} after this week; doing it now would waste ${Math.max(1, Math.round(100 * lost))} % of its interval.`,
  };
}

const money = (value: number): string => value.toFixed(0);
const names = (list: readonly string[]): string =>
  list.length < 2 ? (list[0] ?? '') : `${list.slice(0, -1).join(', ')} and ${list[list.length - 1]}`;
