import type { Solution } from '../search/solution';
import type { CostBreakdown, PlannedVisit, PlanTask, Round } from '../types';
import type { CompiledWeek } from './compiled';
import { earlyCost, overdueCost } from './costs';

const tasksIn = (tasks: readonly PlanTask[], set: number): PlanTask[] => tasks.filter((_, i) => (set & (1 << i)) !== 0);

/** Visits and rounds of a solution, by technician and time. */
export function visitsOf(week: CompiledWeek, solution: Solution): { visits: PlannedVisit[]; rounds: Round[] } {
  const { model, originMs } = week;
  const at = (minutes: number): number => originMs + minutes * 60_000;
  const visits: PlannedVisit[] = [];
  const rounds: Round[] = [];
  for (const route of solution.routes) {
    if (route.jobs.length === 0) continue;
    const { technician, shift } = week.shifts[route.shift]!;
    const shiftModel = model.shifts[route.shift]!;
    const first = visits.length;
    let from = shiftModel.startPlace;
    let driven = 0;
    route.jobs.forEach((j, p) => {
      const { kitchen, tasks, fixed } = week.jobs[j]!;
      const driveMinutes = model.time[from * model.places + model.jobs[j]!.place]!;
      driven += driveMinutes;
      from = model.jobs[j]!.place;
      visits.push({
        kitchenId: kitchen.id,
        technicianId: technician.id,
        day: shift.day,
        hours: { startMs: at(route.start[p]!), endMs: at(route.finish[p]!) },
        taskIds: fixed ? fixed.taskIds : tasksIn(tasks, route.sets[p]!).map((task) => task.id),
        driveMinutes,
        fixedId: fixed?.id ?? null,
        lateMinutes: fixed ? Math.max(0, route.start[p]! - model.views[route.shift]![j]!.promised) : 0,
      });
    });
    const homeDriveMinutes = model.time[from * model.places + shiftModel.endPlace]!;
    rounds.push({
      technicianId: technician.id,
      day: shift.day,
      // No one need leave early only to wait at the door of the first kitchen.
      leaveMs: at(route.start[0]! - visits[first]!.driveMinutes),
      backMs: at(route.endArrive),
      driveMinutes: driven + homeDriveMinutes,
      homeDriveMinutes,
      overtimeMinutes: Math.max(0, route.endArrive - shiftModel.to),
      visits: route.jobs.map((_, p) => first + p),
    });
  }
  return { visits, rounds };
}

export function breakdown(week: CompiledWeek, solution: Solution): CostBreakdown {
  const {
    model,
    problem: { prices },
  } = week;
  const sum = {
    driving: 0,
    drivingMinutes: 0,
    visits: 0,
    overtime: 0,
    overtimeMinutes: 0,
    lateness: 0,
    latenessMinutes: 0,
    early: 0,
    overdue: 0,
    left: 0,
  };
  for (const route of solution.routes) {
    if (route.jobs.length === 0) continue;
    const { shift } = week.shifts[route.shift]!;
    sum.driving += route.drive;
    sum.lateness += route.late;
    sum.overtime += route.overtime;
    sum.overtimeMinutes += Math.max(0, route.endArrive - model.shifts[route.shift]!.to);
    route.jobs.forEach((j, p) => {
      const view = model.views[route.shift]![j]!;
      sum.visits += view.visitCost;
      sum.latenessMinutes += Math.max(0, route.start[p]! - view.promised);
      if (week.jobs[j]!.fixed) return;
      for (const task of tasksIn(week.jobs[j]!.tasks, route.sets[p]!)) {
        sum.early += earlyCost(task, shift.day, prices);
        sum.overdue += overdueCost(task, shift.day, prices);
      }
    });
    sum.drivingMinutes += driveMinutesOf(week, route.shift, route.jobs);
  }
  model.jobs.forEach((job, j) => {
    const done = solution.done[j]!;
    sum.left += job.leave.cost(job.all & ~done);
    // What the model charges every plan alike is no cost of this one.
    sum[done === 0 ? 'left' : 'visits'] -= week.jobs[j]!.firstVisit;
  });
  return { total: sum.driving + sum.visits + sum.overtime + sum.lateness + sum.early + sum.overdue + sum.left, ...sum };
}

function driveMinutesOf({ model }: CompiledWeek, shift: number, jobs: readonly number[]): number {
  const { startPlace, endPlace } = model.shifts[shift]!;
  const stops = [startPlace, ...jobs.map((j) => model.jobs[j]!.place), endPlace];
  return stops.slice(1).reduce((sum, place, i) => sum + model.time[stops[i]! * model.places + place]!, 0);
}
