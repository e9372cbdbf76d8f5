import type { Skill } from '../people/skills';
import { needsOf } from '../visits/needs';
import { USUAL_KITCHEN_HOURS, type WeeklyWindow } from '../visits/service-hours';

/** Why overdue work is not done, the first that holds. */
export const OVERDUE_REASONS = ['booked', 'other_time', 'skill', 'hours', 'no_answer', 'nobody_booked'] as const;
export type OverdueReason = (typeof OVERDUE_REASONS)[number];

/** By days past due. */
export const OVERDUE_AGES = ['week', 'month', 'quarter', 'older'] as const;
export type OverdueAge = (typeof OVERDUE_AGES)[number];

export type OverdueGroup = {
  age: OverdueAge; tasks: number; refrigerant: string; roofWork: boolean; hours: readonly WeeklyWindow[];
  booked: boolean; otherTime: boolean; nobodyThere: boolean;
}; // prettier-ignore
export type Crew = { skills: readonly Skill[]; shifts: readonly WeeklyWindow[] };

/** Whether some day's window of the one has time in common with one of the other. */
const meet = (a: readonly WeeklyWindow[], b: readonly WeeklyWindow[]) =>
  a.some((x) => b.some((y) => x.weekday === y.weekday && x.from < y.to && y.from < x.to));

/** Why tasks of one group wait, from what is on file today. */
function reasonOf(g: OverdueGroup, crew: readonly Crew[]): OverdueReason {
  if (g.otherTime) return 'other_time';
  if (g.booked) return 'booked';
  const needs = needsOf([g]);
  const able = crew.filter((c) => needs.every((n) => c.skills.includes(n)));
  if (able.length === 0) return 'skill';
  const hours = g.hours.length > 0 ? g.hours : USUAL_KITCHEN_HOURS;
  if (!able.some((c) => meet(hours, c.shifts))) return 'hours';
  return g.nobodyThere ? 'no_answer' : 'nobody_booked';
}

export type OverdueTable = { reason: OverdueReason; total: number; by: Record<OverdueAge, number> }[];

/** Overdue tasks by reason and age; reasons that nobody has are left out. */
export function overdueTable(groups: readonly OverdueGroup[], crew: readonly Crew[]): OverdueTable {
  const rows = OVERDUE_REASONS.map((reason) => ({ reason, total: 0, by: { week: 0, month: 0, quarter: 0, older: 0 } }));
  for (const g of groups) {
    const row = rows.find((r) => r.reason === reasonOf(g, crew));
    if (!row) continue;
    row.total += g.tasks;
    row.by[g.age] += g.tasks;
  }
  return rows.filter((r) => r.total > 0);
}
