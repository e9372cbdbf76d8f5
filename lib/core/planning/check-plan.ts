import { isPlaced, travelMinutes } from './travel';
import type { FixedVisit, Kitchen, Place, Plan, PlannedVisit, PlanTask, Round, Shift, Technician, TimeRange, WeekProblem } from './types';

export interface Violation {
  readonly code:
    'outside_hours' | 'two_places' | 'skill' | 'twice' | 'low_side' | 'off_shift' | 'unknown' | 'fixed_moved' | 'too_early' | 'off_step';
  readonly message: string;
}

/**
 * Checks a plan against its week from scratch, sharing nothing with the solver: run it
 * before a plan is saved. An empty list means that nothing is broken.
 */
export function checkPlan(problem: WeekProblem, plan: Pick<Plan, 'visits' | 'rounds'>): Violation[] {
  const kitchens = new Map(problem.kitchens.map((kitchen) => [kitchen.id, kitchen]));
  const tasks = new Map(problem.tasks.map((task) => [task.id, task]));
  // One that may begin late stands where the plan has it; one that the plan could not hold, where it was booked.
  const placed = new Map(plan.visits.flatMap((visit) => (visit.fixedId === null ? [] : [[visit.fixedId, visit.hours] as const])));
  const booked = (problem.fixed ?? []).map((visit) => ({ ...visit, hours: placed.get(visit.id) ?? visit.hours }));
  return [
    ...checkTwice(plan.visits),
    ...plan.visits.flatMap((visit) => checkVisit(problem, visit, kitchens, tasks, booked)),
    ...plan.rounds.flatMap((round) => checkRound(problem, plan.visits, round, kitchens)),
    ...checkRoundsApart(plan.rounds),
  ];
}

function checkTwice(visits: readonly PlannedVisit[]): Violation[] {
  const ids = visits.flatMap((visit) => visit.taskIds);
  return ids.filter((id, i) => ids.indexOf(id) < i).map((id) => ({ code: 'twice', message: `${id} is in two visits.` }));
}

function checkVisit(
  problem: WeekProblem,
  visit: PlannedVisit,
  kitchens: ReadonlyMap<string, Kitchen>,
  tasks: ReadonlyMap<string, PlanTask>,
  booked: readonly FixedVisit[],
): Violation[] {
  const kitchen = kitchens.get(visit.kitchenId);
  const technician = problem.technicians.find(({ id }) => id === visit.technicianId);
  if (!kitchen || !technician)
    return [{ code: 'unknown', message: `A visit is at ${visit.kitchenId} with ${visit.technicianId}; one of them is not in the week.` }];
  if (visit.fixedId !== null) return checkFixed(problem, visit);
  const own = visit.taskIds.map((id) => tasks.get(id));
  return [
    ...checkTimes(problem, visit, kitchen),
    ...checkBooked(booked, visit, technician, kitchen),
    ...checkSkills(kitchen, technician, own),
    ...own.flatMap((task) => checkTask(problem, visit, kitchen, task)),
  ];
}

function checkTimes(problem: WeekProblem, visit: PlannedVisit, kitchen: Kitchen): Violation[] {
  const found: Violation[] = [];
  if (visit.hours.startMs % ((problem.startsEveryMinutes ?? 1) * 60_000) !== 0)
    found.push({ code: 'off_step', message: `The visit at ${kitchen.name} begins on an odd minute.` });
  if (!kitchen.open.some((range) => holds(range, visit.hours)))
    found.push({ code: 'outside_hours', message: `The visit at ${kitchen.name} is outside its service hours.` });
  return found;
}

/** Nobody is at two kitchens at once, whatever the search was told of the booked ones. */
function checkBooked(booked: readonly FixedVisit[], visit: PlannedVisit, technician: Technician, kitchen: Kitchen): Violation[] {
  return booked
    .filter((b) => b.technicianId === technician.id && b.hours.startMs < visit.hours.endMs && visit.hours.startMs < b.hours.endMs)
    .map(() => ({ code: 'two_places', message: `${technician.name} is booked elsewhere at the time of the visit at ${kitchen.name}.` }));
}

function checkSkills(kitchen: Kitchen, technician: Technician, own: readonly (PlanTask | undefined)[]): Violation[] {
  const needed = new Set([...(kitchen.skills ?? []), ...own.flatMap((task) => task?.skills ?? [])]);
  return [...needed]
    .filter((skill) => !technician.skills.includes(skill))
    .map((skill) => ({ code: 'skill', message: `${technician.name} lacks ${skill} for ${kitchen.name}.` }));
}

function checkTask(problem: WeekProblem, visit: PlannedVisit, kitchen: Kitchen, task: PlanTask | undefined): Violation[] {
  if (!task || task.kitchenId !== kitchen.id)
    return [{ code: 'unknown', message: `A visit at ${kitchen.name} has a task that is not its own.` }];
  if (visit.day < (task.notBeforeDay ?? -Infinity))
    return [{ code: 'too_early', message: `${task.name} may not be done yet on that day.` }];
  return task.role === 'coil_cleaning' ? checkLowSide(problem, visit, task.unitId, kitchen) : [];
}

const holds = (range: TimeRange, inner: TimeRange): boolean => inner.startMs >= range.startMs && inner.endMs <= range.endMs;

function checkLowSide(problem: WeekProblem, visit: PlannedVisit, unitId: string | undefined, kitchen: Kitchen): Violation[] {
  const spoken = new Set((problem.fixed ?? []).flatMap((fixed) => fixed.taskIds));
  return problem.tasks
    .filter(
      (task) => unitId !== undefined && task.unitId === unitId && task.kitchenId === kitchen.id && task.role === 'low_side_inspection',
    )
    .filter((task) => !spoken.has(task.id) && !visit.taskIds.includes(task.id))
    .map((task) => ({
      code: 'low_side' as const,
      message: `${kitchen.name}: ${task.name} does not ride along with the coil cleaning.`,
    }));
}

function checkFixed(problem: WeekProblem, visit: PlannedVisit): Violation[] {
  const fixed = (problem.fixed ?? []).find(({ id }) => id === visit.fixedId);
  const late = fixed ? visit.hours.startMs - fixed.hours.startMs : NaN;
  const kept = fixed && fixed.technicianId === visit.technicianId && late >= 0 && late < (fixed.mayRunLateMinutes ?? 0) * 60_000 + 60_000;
  return kept ? [] : [{ code: 'fixed_moved', message: `The fixed visit ${visit.fixedId} does not stay where it was.` }];
}

function checkRound(
  problem: WeekProblem,
  visits: readonly PlannedVisit[],
  round: Round,
  kitchens: ReadonlyMap<string, Kitchen>,
): Violation[] {
  const technician = problem.technicians.find(({ id }) => id === round.technicianId);
  const inOrder = round.visits.map((index) => visits[index]!);
  // What was promised may lie outside the shift and take the day with it.
  const free = inOrder.filter((visit) => visit.fixedId === null);
  const shift = technician?.shifts.find(
    (one) => one.day === round.day && free.every((visit) => visit.hours.startMs >= one.hours.startMs && visit.hours.endMs <= latest(one)),
  );
  if (!technician || (!shift && free.length > 0))
    return [{ code: 'off_shift', message: `${technician?.name ?? round.technicianId} has no shift on day ${round.day}.` }];
  const found: Violation[] = [];
  if (shift && free.length === inOrder.length && (round.leaveMs < shift.hours.startMs || round.backMs > latest(shift)))
    found.push({ code: 'off_shift', message: `${technician.name} is on the road outside the shift of day ${round.day}.` });
  return [...found, ...checkWay(problem, technician, shift, round, inOrder, kitchens)];
}

/** Each stop of a round can be reached from the one before. */
function checkWay(
  problem: WeekProblem,
  technician: Technician,
  shift: Shift | undefined,
  round: Round,
  inOrder: readonly PlannedVisit[],
  kitchens: ReadonlyMap<string, Kitchen>,
): Violation[] {
  const found: Violation[] = [];
  let clock = round.leaveMs;
  let at = shift?.startPlace ?? null;
  const arrive = (name: string, place: Place, by: number): void => {
    const way = at ? (travelMinutes(at, place, problem.travel) ?? Infinity) * 60_000 : 0;
    if (by < clock + way) found.push({ code: 'two_places', message: `${technician.name} cannot be at ${name} in time.` });
    at = place;
  };
  for (const visit of inOrder) {
    const kitchen = kitchens.get(visit.kitchenId);
    if (!kitchen || !isPlaced(kitchen.place, problem.travel)) continue;
    arrive(kitchen.name, kitchen.place, visit.hours.startMs);
    clock = visit.hours.endMs;
  }
  if (shift) arrive('the last stop', shift.endPlace, round.backMs);
  return found;
}

const latest = (shift: Shift): number => shift.hours.endMs + (shift.overtimeMinutes ?? 0) * 60_000;

/** No one is out on two rounds at once. */
function checkRoundsApart(rounds: readonly Round[]): Violation[] {
  const sorted = [...rounds].sort((a, b) =>
    a.technicianId < b.technicianId ? -1 : a.technicianId > b.technicianId ? 1 : a.leaveMs - b.leaveMs,
  );
  return sorted.flatMap((round, i) => {
    const before = sorted[i - 1];
    if (!before || before.technicianId !== round.technicianId || round.leaveMs >= before.backMs) return [];
    return [{ code: 'two_places' as const, message: `${round.technicianId} has two rounds that overlap on day ${round.day}.` }];
  });
}
