import 'server-only';
import { mustGet } from '../../../core/numerics/must-get';
import { explainVisits, type CostBreakdown, type LeftTask, type PlannedVisit, type WeekProblem } from '../../../core/planning';
import type { Finding } from '../../../core/planning';
import type { LeftOver, Proposal } from '../../../core/planning/proposal';
import type { WeekNames } from '../reads/week-problem';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

type Found = {
  visits: readonly PlannedVisit[];
  cost: CostBreakdown;
  unplaced?: readonly LeftTask[];
  later?: readonly LeftTask[];
  lowerBound?: number;
  proven?: boolean;
};

/** What the search was given, as `checkInput` judged it. */
export type GivenInput = { findings: Finding[]; due: Proposal['due']; problem: WeekProblem };

/** A plan, or a better one found on the way, in the shop's names. */
export function toProposal(found: Found, names: WeekNames, input: GivenInput, seed: number, searchMs: number): Proposal {
  const fresh = found.visits.filter((v) => v.fixedId === null);
  const reasons = explainVisits(input.problem, found.visits);
  return {
    visits: fresh.map((v) => {
      const kitchen = mustGet(names.kitchens, v.kitchenId);
      const tasks = v.taskIds.map((id) => mustGet(names.tasks, id));
      return {
        key: `${v.kitchenId}:${v.hours.startMs}`,
        kitchenId: v.kitchenId,
        kitchen: kitchen.name,
        customer: kitchen.customer,
        timeZone: kitchen.timeZone,
        technicianId: v.technicianId,
        technician: names.technicians.get(v.technicianId) ?? '',
        startMs: v.hours.startMs,
        endMs: v.hours.endMs,
        driveMinutes: v.driveMinutes,
        taskIds: [...v.taskIds],
        units: new Set(tasks.map((t) => t.unitId)).size,
        overdue: tasks.filter((t) => t.dueDay < v.day).length,
        reason: reasons.get(found.visits.indexOf(v)),
      };
    }),
    unplaced: (found.unplaced ?? []).flatMap((l) => {
      const task = names.tasks.get(l.taskId);
      return task ? [leftOver(task, l.reason, names)] : [];
    }),
    later: found.later?.length ?? 0,
    cost: found.cost,
    input: input.findings,
    due: input.due,
    couldSaveMinutes:
      found.lowerBound === undefined
        ? null
        : Math.max(0, (found.cost.total - found.lowerBound) / Math.max(0.01, input.problem.prices.drivingPerMinute)),
    // Nothing planned is never the best of anything.
    proven: fresh.length > 0 && (found.proven ?? false),
    kept: found.visits.filter((v) => v.fixedId !== null).length,
    searchMs,
    seed,
  };
}

const leftOver = (task: { what: string; kitchenId: string }, reason: LeftTask['reason'], names: WeekNames): LeftOver => {
  const kitchen = names.kitchens.get(task.kitchenId);
  return {
    what: task.what,
    kitchenId: task.kitchenId,
    kitchen: kitchen ? fullKitchenName(kitchen) : '',
    code: reason.code,
    message: reason.message,
  };
};
