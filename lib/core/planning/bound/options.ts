import { isClosed, minutesFor, type Job, type Model } from '../model/model';

/** What may be done in one visit, at a cost reduced by the items' duals. */
export interface Option {
  readonly set: number;
  readonly minutes: number;
  readonly cost: number;
}

/** Components of items larger than this are priced without their bring-along rule, which only lowers the bound. */
const LARGEST_COMPONENT = 12;
/** Sets listed for a proof, at most. */
const MOST_SETS = 1024;
/** Stands in a component that was too large to list. */
const UNLISTED = -1;

/**
 * The permitted sets that a plan within `gap` of the bound may use, shortest first: a set
 * dearer by more than the gap than one no longer could be replaced by that one, and no
 * route costs less than nothing at these duals. Null if there are too many sets to list.
 */
export function nearOptions(model: Model, shift: number, jobIndex: number, duals: Float64Array, gap: number): Option[] | null {
  const view = model.views[shift]![jobIndex];
  const job = model.jobs[jobIndex]!;
  if (!view || view.allowed === 0) return [];
  let sets = [0];
  for (const component of components(job, view.allowed)) {
    if (component.includes(UNLISTED) || sets.length * component.length > MOST_SETS) return null;
    sets = sets.flatMap((set) => component.map((part) => set | part));
  }
  const all = sets
    .filter((set) => set !== 0)
    .map((set) => ({
      set,
      minutes: minutesFor(job, set),
      cost: view.visitCost + reduced(job, view.itemCost, set, duals),
    }))
    .sort((a, b) => a.minutes - b.minutes || a.cost - b.cost);
  let cheapest = Infinity;
  return all.filter((option) => {
    const usable = option.cost <= cheapest + gap + 1e-6;
    cheapest = Math.min(cheapest, option.cost);
    return usable;
  });
}

/** The permitted sets that are not both longer and dearer than another; shortest first. */
export function bestOptions(model: Model, shift: number, jobIndex: number, duals: Float64Array): Option[] {
  const view = model.views[shift]![jobIndex];
  const job = model.jobs[jobIndex]!;
  if (!view || view.allowed === 0) return [];
  // The empty set is kept apart, so that it cannot push out the visits built on it.
  const nothing: Option = { set: 0, minutes: job.setup, cost: view.visitCost };
  let visits: Option[] = [];
  for (const component of components(job, view.allowed)) {
    const next = visits.slice();
    for (const part of component) {
      if (part === 0 || part === UNLISTED) continue;
      const minutes = minutesFor(job, part) - job.setup;
      const cost = reduced(job, view.itemCost, part, duals);
      for (const option of [nothing, ...visits])
        next.push({ set: option.set | part, minutes: option.minutes + minutes, cost: option.cost + cost });
    }
    visits = undominated(next);
  }
  // Without detours that pay, a stop that gains nothing is never worth making.
  return model.triangle ? visits.filter((option) => option.cost < 0) : visits;
}

function reduced(job: Job, itemCost: readonly number[], set: number, duals: Float64Array): number {
  let sum = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) {
    const item = 31 - Math.clz32(rest & -rest);
    sum += itemCost[item]! - duals[job.firstRow + item]!;
  }
  return sum;
}

function undominated(options: Option[]): Option[] {
  options.sort((a, b) => a.minutes - b.minutes || a.cost - b.cost);
  const kept: Option[] = [];
  let cheapest = Infinity;
  for (const option of options) {
    if (option.cost >= cheapest - 1e-12) continue;
    cheapest = option.cost;
    kept.push(option);
  }
  return kept;
}

const groupsOfJob = new WeakMap<Job, Map<number, number[][]>>();

/** Groups of items tied by bring-along rules, each as the list of its permitted subsets, the empty one included. */
function components(job: Job, allowed: number): number[][] {
  const book = groupsOfJob.get(job) ?? new Map<number, number[][]>();
  groupsOfJob.set(job, book);
  let groups = book.get(allowed);
  if (groups) return groups;
  groups = [];
  let rest = allowed;
  while (rest !== 0) {
    let group = rest & -rest;
    for (let grown = true; grown;) {
      grown = false;
      for (let i = 0; i < job.items; i++) {
        const reach = job.brings[i]!;
        if ((allowed & (1 << i)) !== 0 && (reach & group) !== 0 && (reach & allowed & ~group) !== 0) {
          group |= reach & allowed;
          grown = true;
        }
      }
    }
    rest &= ~group;
    const items = [...Array(job.items).keys()].filter((i) => (group & (1 << i)) !== 0);
    if (items.length > LARGEST_COMPONENT) groups.push(...items.map((i) => [0, 1 << i]), [UNLISTED]);
    else {
      const subsets: number[] = [];
      for (let sub = group; ; sub = (sub - 1) & group) {
        if (isClosed(job, sub)) subsets.push(sub);
        if (sub === 0) break;
      }
      groups.push(subsets);
    }
  }
  book.set(allowed, groups);
  return groups;
}
