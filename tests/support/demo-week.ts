import { expect } from 'vitest';
import { addDays, todayIn, weekdayOf } from '@/lib/core/calendar';
import { bookByHand, checkPlan, proposeWeek, type CostBreakdown, type HandPlan, type WeekProblem } from '@/lib/core/planning';
import { weekProblem } from '@/lib/features/planning/reads/week-problem';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';
import type { Db } from '@/lib/database/client';

type Plan = Pick<HandPlan, 'visits' | 'rounds'> & { cost: CostBreakdown };

const LABEL = {
  trips: 'Trips to book',
  tasks: 'Tasks done on them',
  dueLeft: 'Due tasks left undone',
  driving: 'Driving, min',
  overdueDays: 'Days past due, all tasks',
  lateMinutes: 'Late to booked visits, min',
  overtime: 'Overtime, min',
  cost: 'Cost, $',
} as const;

/** What a week comes to. Days past due are counted at the visit, or at the end of the week for what stays undone. */
function measures(problem: WeekProblem, plan: Plan): Record<keyof typeof LABEL, number> {
  const standing = new Set((problem.fixed ?? []).flatMap((v) => v.taskIds));
  const doneOn = new Map(plan.visits.flatMap((v) => v.taskIds.map((id) => [id, v.day] as const)));
  const due = problem.tasks.filter((t) => t.dueDay < problem.nextDay && !standing.has(t.id));
  const fresh = plan.visits.filter((v) => v.fixedId === null);
  return {
    trips: fresh.length,
    tasks: fresh.reduce((sum, v) => sum + v.taskIds.length, 0),
    dueLeft: due.filter((t) => !doneOn.has(t.id)).length,
    driving: plan.cost.drivingMinutes,
    overdueDays: due.reduce((sum, t) => sum + Math.max(0, (doneOn.get(t.id) ?? problem.nextDay) - t.dueDay), 0),
    lateMinutes: plan.cost.latenessMinutes,
    overtime: plan.cost.overtimeMinutes,
    cost: plan.cost.total,
  };
}

/** Both plans of the week after this one, as it is on file, printed side by side. */
export async function compareWeek(db: Db, now: Date, name: string) {
  const today = todayIn('America/Denver', now.getTime());
  const { problem } = await weekProblem(db, addDays(today, 7 - weekdayOf(today)), now);
  const byHand = bookByHand(problem);
  let clock = 0;
  // The clock moves with each look at it: as many steps on any machine.
  const plan = await proposeWeek(problem, { seed: 20261125, timeLimitMs: 30_000, now: () => (clock += 0.2), lp: await highsLp() });
  expect(checkPlan(problem, byHand)).toEqual([]);
  expect(checkPlan(problem, plan)).toEqual([]);
  const hand = measures(problem, byHand);
  const proposed = measures(problem, plan);
  const row = (...cells: string[]) =>
    cells[0]!.padEnd(34) +
    cells
      .slice(1)
      .map((c) => c.padStart(10))
      .join('');
  const lines = Object.entries(LABEL).map(([key, label]) =>
    row(label, hand[key as keyof typeof hand].toFixed(0), proposed[key as keyof typeof hand].toFixed(0)),
  );
  const booked = problem.fixed?.length ?? 0;
  console.log(
    [
      row(`${name}, ${booked} visits booked`, 'by hand', 'proposed'),
      ...lines,
      `No plan costs less than ${plan.lowerBound.toFixed(0)}${plan.proven ? ': the proposal is the best there is' : ''}.`,
    ].join('\n'),
  );
  return { hand, proposed };
}
