import type { Model } from '../model/model';
import { buildRoute } from '../model/route';
import { between, type Random } from '../random';
import { setRoute, type Solution } from './solution';

/** Parameters as Christiaens & Vanden Berghe (2020) published them. */
const MEAN_REMOVED = 10;
const LONGEST_STRING = 10;
const SPLIT_DEPTH = 0.01;

/** For each job all jobs from nearest to farthest, itself first. */
export function neighbours(model: Model): Int32Array[] {
  const { drive, places, jobs } = model;
  return jobs.map((from, i) => {
    const reach = jobs.map((to, j) => (i === j ? -1 : drive[from.place * places + to.place]! + drive[to.place * places + from.place]!));
    return Int32Array.from([...jobs.keys()].sort((a, b) => reach[a]! - reach[b]! || a - b));
  });
}

/**
 * Adjacent string removal: takes strings of consecutive stops, near one another, out of
 * several routes. Returns the jobs that lost work. Christiaens & Vanden Berghe 2020,
 * "Slack induction by string removals for vehicle routing problems", Transportation
 * Science 54(2):417–433, section 4.1.
 */
export function ruin(model: Model, near: readonly Int32Array[], solution: Solution, random: Random): Set<number> {
  let stops = 0;
  let used = 0;
  for (const route of solution.routes) {
    stops += route.jobs.length;
    if (route.jobs.length > 0) used++;
  }
  const removed = new Set<number>();
  if (used === 0) return removed;
  const longest = Math.min(LONGEST_STRING, stops / used);
  const mostStrings = (4 * MEAN_REMOVED) / (1 + longest) - 1;
  const strings = Math.floor(1 + random() * mostStrings);
  const ruined = new Set<number>();
  const seed = near[between(random, 0, model.jobs.length - 1)]!;
  for (const job of seed) {
    if (ruined.size >= strings) break;
    for (const route of solution.routes) {
      if (ruined.has(route.shift)) continue;
      const at = route.jobs.indexOf(job);
      if (at < 0) continue;
      ruined.add(route.shift);
      const most = Math.min(route.jobs.length, longest);
      const length = Math.min(route.jobs.length, Math.floor(1 + random() * most));
      const gone =
        length > 1 && length < route.jobs.length && random() < 0.5
          ? splitString(route.jobs.length, at, length, random)
          : wholeString(route.jobs.length, at, length, random);
      const jobs: number[] = [];
      const sets: number[] = [];
      route.jobs.forEach((other, p) => {
        if (gone(p) && !model.jobs[other]!.pinned) removed.add(other);
        else {
          jobs.push(other);
          sets.push(route.sets[p]!);
        }
      });
      // Taking stops out can only fail where a detour is shorter than the direct way.
      const rest = buildRoute(model, route.shift, jobs, sets);
      if (rest) setRoute(model, solution, rest);
      if (ruined.size >= strings) break;
    }
  }
  return removed;
}

type Gone = (position: number) => boolean;

function wholeString(stops: number, at: number, length: number, random: Random): Gone {
  const first = between(random, Math.max(0, at - length + 1), Math.min(at, stops - length));
  return (p) => p >= first && p < first + length;
}

/** A longer string of which `kept` stops in the middle stay. */
function splitString(stops: number, at: number, length: number, random: Random): Gone {
  let kept = 1;
  while (length + kept < stops && random() < SPLIT_DEPTH) kept++;
  const span = length + kept;
  const first = between(random, Math.max(0, at - span + 1), Math.min(at, stops - span));
  const holeAt = first + between(random, 0, length);
  return (p) => p >= first && p < first + span && (p < holeAt || p >= holeAt + kept);
}
