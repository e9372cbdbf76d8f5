import type { PlanTask, Prices } from '../types';

/** What one doing of a task costs: the yardstick for the interval life lost by coming early. */
export const worthOf = (task: PlanTask, prices: Prices): number => task.worth ?? task.minutes * prices.workPerMinute;

/** Interval life thrown away by doing a task `day` instead of on its due day; never more than one whole doing. */
export function earlyCost(task: PlanTask, day: number, prices: Prices): number {
  const days = task.dueDay - day;
  return days <= 0 ? 0 : worthOf(task, prices) * Math.min(1, days / task.intervalDays);
}

/** Price of doing a task after its due day. */
export function overdueCost(task: PlanTask, day: number, prices: Prices): number {
  return Math.max(0, day - task.dueDay) * (task.overduePerDay ?? prices.overduePerDay);
}

export const dayCost = (task: PlanTask, day: number, prices: Prices): number =>
  earlyCost(task, day, prices) + overdueCost(task, day, prices);

/** Due on one of the days planned, or before them. */
export const isDue = (task: PlanTask, nextDay: number): boolean => task.dueDay < nextDay;
