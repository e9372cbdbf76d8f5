import type { PlannedVisit, WeekProblem } from './types';

/**
 * Planned visits that would stand at the time of a booked visit of the same technician. Booked visits that cannot both be reached
 * are left out of the search, which then takes their time for free: nobody can be at two kitchens all the same.
 */
export function overBooked(problem: Pick<WeekProblem, 'fixed'>, visits: readonly PlannedVisit[]): Set<PlannedVisit> {
  const booked = problem.fixed ?? [];
  return new Set(
    visits.filter(
      (v) =>
        v.fixedId === null &&
        booked.some((b) => b.technicianId === v.technicianId && b.hours.startMs < v.hours.endMs && v.hours.startMs < b.hours.endMs),
    ),
  );
}
