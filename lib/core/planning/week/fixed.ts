import { buildRoute } from '../model/route';
import { nothingDone, setRoute, type Solution } from '../search/solution';
import type { FixedVisit } from '../types';
import type { CompiledWeek } from './compiled';

/** A plan holding the fixed visits only, and those of them that cannot both be kept. */
export function placeFixed(week: CompiledWeek): { start: Solution; clashes: FixedVisit[] } {
  const { model, jobs } = week;
  const start = nothingDone(model);
  const clashes: FixedVisit[] = [];
  const inTime = [...jobs.keys()]
    .filter((j) => jobs[j]!.fixed)
    .sort((a, b) => jobs[a]!.fixed!.hours.startMs - jobs[b]!.fixed!.hours.startMs || a - b);
  for (const j of inTime) {
    const s = model.views.findIndex((views) => views[j] !== null);
    const route = s < 0 ? null : buildRoute(model, s, [...start.routes[s]!.jobs, j], [...start.routes[s]!.sets, 1]);
    if (route) setRoute(model, start, route);
    else clashes.push(jobs[j]!.fixed!);
  }
  return { start, clashes };
}
