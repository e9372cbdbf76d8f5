import { bundlesOf, closure } from '../model/bundles';
import { laterTrips, type LaterItem } from '../model/leave';
import { MAX_ITEMS, type Job } from '../model/model';
import type { Kitchen, PlanTask, WeekProblem } from '../types';
import { dayCost, isDue } from './costs';

/** Left tasks further away than this many others do not bear on what is worth doing now. */
const MOST_ALWAYS = 12;

export interface KitchenItems {
  readonly tasks: readonly PlanTask[];
  readonly always: readonly PlanTask[];
  readonly job: Omit<Job, 'place' | 'firstRow'>;
}

/**
 * The tasks of a kitchen as items of one job: which of them could be worth doing on the
 * days planned, what each brings along, and what leaving any set of them costs.
 * `trip` is the price of another trip there; `days` the days someone could come.
 */
export function itemsOf(
  problem: WeekProblem,
  kitchen: Kitchen,
  tasks: readonly PlanTask[],
  trip: number,
  days: readonly number[],
  skillSets: readonly ReadonlySet<string>[],
): KitchenItems {
  const { prices, nextDay } = problem;
  const brought = (task: PlanTask): PlanTask[] =>
    task.role === 'coil_cleaning' && task.unitId !== undefined
      ? tasks.filter((other) => other.unitId === task.unitId && other.role === 'low_side_inspection')
      : [];
  // Doing a task now must cost less than the dearest way to leave it: a trip of its own later.
  const couldPay = tasks.filter((task) => {
    const now = Math.min(...days.map((day) => (day >= (task.notBeforeDay ?? -Infinity) ? dayCost(task, day, prices) : Infinity)));
    return now < trip + laterCost(task, Math.max(nextDay, task.dueDay), problem);
  });
  const wanted = new Set(couldPay.flatMap((task) => [task, ...brought(task)]));
  const chosen: PlanTask[] = [];
  for (const task of [...wanted].sort((a, b) => a.dueDay - b.dueDay || (a.id < b.id ? -1 : 1))) {
    if (chosen.includes(task)) continue;
    const together = [task, ...brought(task)].filter((one) => !chosen.includes(one));
    if (chosen.length + together.length <= MAX_ITEMS) chosen.push(...together);
  }
  const always = tasks.filter((task) => !chosen.includes(task));
  const bearing = always
    .slice()
    .sort((a, b) => a.dueDay - b.dueDay)
    .slice(0, MOST_ALWAYS);
  const laterDays = [...new Set([nextDay, ...[...chosen, ...bearing].map((task) => Math.max(nextDay, task.dueDay))])].sort((a, b) => a - b);
  const later = (task: PlanTask): LaterItem => ({
    onDay: laterDays.map((day) => laterCost(task, day, problem)),
    best: laterDays.findIndex((day) => day >= task.dueDay),
  });
  const brings = chosen.map((task, i) => brought(task).reduce((set, other) => set | (1 << chosen.indexOf(other)), 1 << i));
  const all = chosen.length === 0 ? 0 : 2 ** chosen.length - 1;
  const bare = {
    items: chosen.length,
    all,
    brings: brings.map((_, i) => closure({ items: chosen.length, all, brings }, 1 << i)),
  };
  const may = new Set(skillSets.map((skills) => chosen.reduce((set, task, i) => (canDo(skills, task, kitchen) ? set | (1 << i) : set), 0)));
  return {
    tasks: chosen,
    always,
    job: {
      ...bare,
      setup: Math.ceil(kitchen.accessMinutes ?? 0),
      minutes: chosen.map((task) => Math.max(1, Math.ceil(task.minutes * (kitchen.durationFactor ?? 1) - 1e-9))),
      demand: 0,
      bundles: bundlesOf(bare, [...chosen.keys()], may),
      leave: laterTrips(chosen.map(later), bearing.map(later), trip),
    },
  };
}

function laterCost(task: PlanTask, day: number, { prices, nextDay }: WeekProblem): number {
  return dayCost(task, day, prices) + (isDue(task, nextDay) ? prices.leftUndone : 0);
}

export const canDo = (skills: ReadonlySet<string>, task: Pick<PlanTask, 'skills'>, kitchen: Kitchen): boolean =>
  [...(task.skills ?? []), ...(kitchen.skills ?? [])].every((skill) => skills.has(skill));
