import { isPlaced } from '../travel';
import type { FixedVisit, Kitchen, LeftTask, PlanTask, Reason, TimeRange, WeekProblem } from '../types';

/** What of a week can be planned at all, and what cannot with the reason. */
export interface Sifted {
  readonly kitchens: ReadonlyMap<string, Kitchen>;
  /** Openings of each kitchen that are ranges at all. */
  readonly open: ReadonlyMap<string, readonly TimeRange[]>;
  readonly tasks: ReadonlyMap<string, readonly PlanTask[]>;
  readonly fixed: readonly FixedVisit[];
  readonly refused: readonly LeftTask[];
}

export function sift(problem: WeekProblem): Sifted {
  const kitchens = new Map(problem.kitchens.map((kitchen) => [kitchen.id, kitchen]));
  const open = new Map<string, TimeRange[]>();
  for (const kitchen of problem.kitchens) open.set(kitchen.id, kitchen.open.filter(isRange));
  const refused: LeftTask[] = [];
  const fixed: FixedVisit[] = [];
  const spoken = new Set<string>();
  for (const visit of problem.fixed ?? []) {
    visit.taskIds.forEach((id) => spoken.add(id));
    const reason = whyNotFixed(visit, kitchens, problem);
    if (!reason) fixed.push(visit);
    else refused.push(...visit.taskIds.map((taskId) => ({ taskId, reason })));
  }
  const tasks = new Map<string, PlanTask[]>();
  for (const task of problem.tasks) {
    if (spoken.has(task.id)) continue;
    const reason = whyNot(task, kitchens, problem);
    if (reason) refused.push({ taskId: task.id, reason });
    else tasks.set(task.kitchenId, [...(tasks.get(task.kitchenId) ?? []), task]);
  }
  return { kitchens, open, tasks, fixed, refused };
}

export const isRange = (range: TimeRange): boolean =>
  Number.isFinite(range.startMs) && Number.isFinite(range.endMs) && range.endMs > range.startMs;

function whyNot(task: PlanTask, kitchens: ReadonlyMap<string, Kitchen>, problem: WeekProblem): Reason | null {
  const kitchen = kitchens.get(task.kitchenId);
  if (!kitchen) return { code: 'unknown_kitchen', message: `${task.name}: its kitchen is not in the list.` };
  if (!(task.minutes > 0) || !Number.isFinite(task.minutes))
    return { code: 'bad_task', message: `${task.name} has no minutes set; give it the time it takes.` };
  if (!(task.intervalDays > 0) || !Number.isInteger(task.dueDay))
    return { code: 'bad_task', message: `${task.name} has no due date or no interval; check its rule.` };
  if (!isPlaced(kitchen.place, problem.travel))
    return { code: 'no_place', message: `${kitchen.name} has no coordinates; add them to route a visit.` };
  return null;
}

function whyNotFixed(visit: FixedVisit, kitchens: ReadonlyMap<string, Kitchen>, problem: WeekProblem): Reason | null {
  const kitchen = kitchens.get(visit.kitchenId);
  if (!kitchen)
    return {
      code: 'unknown_kitchen',
      message: 'A fixed visit is at a kitchen that is not in the list; it stays, but nothing is planned around it.',
    };
  if (!isPlaced(kitchen.place, problem.travel))
    return {
      code: 'no_place',
      message: `The fixed visit at ${kitchen.name} stays, but without coordinates no drive to it can be planned.`,
    };
  if (!isRange(visit.hours))
    return { code: 'reversed_hours', message: `The fixed visit at ${kitchen.name} ends before it begins; correct it.` };
  if (!problem.technicians.some((technician) => technician.id === visit.technicianId))
    return {
      code: 'no_shift',
      message: `The fixed visit at ${kitchen.name} is with someone who is not in the list; it stays, but nothing is planned around it.`,
    };
  return null;
}
