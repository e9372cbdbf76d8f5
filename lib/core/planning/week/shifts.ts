import { isPlaced } from '../travel';
import type { FixedVisit, Shift, Technician, TimeRange, WeekProblem } from '../types';
import type { Sifted } from './sift';

export interface ShiftOfWeek {
  readonly technician: Technician;
  readonly shift: Shift;
  readonly fixed: readonly FixedVisit[];
  /** A day off that holds what was promised and nothing else. */
  readonly promisedOnly: boolean;
}

/** A fixed visit this near to a shift belongs to that day. */
const NEAR_MS = 6 * 3_600_000;

/**
 * Every usable shift with the fixed visits that fall in it or near it. A fixed visit away
 * from all of its technician's shifts gets a day of its own that holds nothing else: it
 * was promised. Of shifts that overlap only the first is used.
 */
export function shiftsOf(problem: WeekProblem, sifted: Sifted): ShiftOfWeek[] {
  const result: ShiftOfWeek[] = [];
  for (const technician of problem.technicians) {
    const shifts = apart(
      technician.shifts.filter((shift) => isPlaced(shift.startPlace, problem.travel) && isPlaced(shift.endPlace, problem.travel)),
    );
    const fixed = shifts.map((): FixedVisit[] => []);
    const alone: FixedVisit[] = [];
    for (const visit of sifted.fixed) {
      if (visit.technicianId !== technician.id) continue;
      const gaps = shifts.map((shift) => gap(shift.hours, visit.hours));
      const nearest = gaps.reduce((best, value, s) => (best < 0 || value < gaps[best]! ? s : best), -1);
      if ((gaps[nearest] ?? Infinity) <= NEAR_MS) fixed[nearest]!.push(visit);
      else alone.push(visit);
    }
    for (const group of together(alone)) {
      const nearest = shifts.reduce<Shift | undefined>(
        (best, shift) => (!best || gap(shift.hours, group[0]!.hours) < gap(best.hours, group[0]!.hours) ? shift : best),
        undefined,
      );
      result.push({ technician, shift: dayOf(group, nearest, sifted, problem), fixed: group, promisedOnly: true });
    }
    shifts.forEach((shift, s) => result.push({ technician, shift, fixed: fixed[s]!, promisedOnly: false }));
  }
  return result;
}

/** In order of time, none beginning before the last one and its overtime can be over. */
function apart(shifts: readonly Shift[]): Shift[] {
  const kept: Shift[] = [];
  for (const shift of shifts.filter(({ hours }) => hours.endMs > hours.startMs).sort((a, b) => a.hours.startMs - b.hours.startMs)) {
    const last = kept[kept.length - 1];
    if (last && shift.hours.startMs < last.hours.endMs) continue;
    if (last) {
      const most = Math.floor((shift.hours.startMs - last.hours.endMs) / 60_000);
      kept[kept.length - 1] = { ...last, overtimeMinutes: Math.min(last.overtimeMinutes ?? 0, most) };
    }
    kept.push(shift);
  }
  return kept;
}

const gap = (a: TimeRange, b: TimeRange): number => Math.max(0, a.startMs - b.endMs, b.startMs - a.endMs);

/** Fixed visits near one another are one day's work. */
function together(visits: readonly FixedVisit[]): FixedVisit[][] {
  const groups: FixedVisit[][] = [];
  let until = -Infinity;
  for (const visit of [...visits].sort((a, b) => a.hours.startMs - b.hours.startMs)) {
    if (visit.hours.startMs - until <= NEAR_MS) groups[groups.length - 1]!.push(visit);
    else groups.push([visit]);
    until = Math.max(until, visit.hours.endMs);
  }
  return groups;
}

/** A day that holds fixed visits only; its number is counted from the nearest known shift. */
function dayOf(group: readonly FixedVisit[], nearest: Shift | undefined, sifted: Sifted, problem: WeekProblem): Shift {
  const placeOf = (visit: FixedVisit) => sifted.kitchens.get(visit.kitchenId)!.place!;
  const hours = { startMs: group[0]!.hours.startMs, endMs: Math.max(...group.map((visit) => visit.hours.endMs)) };
  const day = nearest ? nearest.day + Math.round((hours.startMs - nearest.hours.startMs) / 86_400_000) : problem.nextDay - 1;
  return {
    day,
    hours,
    startPlace: nearest?.startPlace ?? placeOf(group[0]!),
    endPlace: nearest?.endPlace ?? placeOf(group[group.length - 1]!),
  };
}
