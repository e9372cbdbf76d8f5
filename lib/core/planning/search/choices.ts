import { isClosed, itemsCost, minutesFor, type Model } from '../model/model';

/** Sets of open items worth doing in one visit, best first; none is both longer and dearer than another. */
export interface Choices {
  readonly sets: readonly number[];
  /** Cost of the visit and its items, less what leaving those items would cost. Driving not counted. */
  readonly net: readonly number[];
  readonly minutes: readonly number[];
}

const NONE: Choices = { sets: [], net: [], minutes: [] };

export interface ChoiceBook {
  /** A visit of its own, for the items in `open`. */
  visit(shift: number, job: number, open: number): Choices;
  /** Items added to a visit that is made anyway. */
  joining(shift: number, job: number, open: number): Choices;
}

/** Remembers choices, because the search asks for the same few again and again. */
export function choiceBook(model: Model): ChoiceBook {
  // Shifts on which a job costs and allows the same have the same choices.
  const alike = model.jobs.map((_, j) => {
    const first = new Map<readonly number[], Map<number, number>>();
    return model.views.map((views, s) => {
      const view = views[j];
      if (!view) return s;
      const same = first.get(view.itemCost) ?? new Map<number, number>();
      first.set(view.itemCost, same);
      if (!same.has(view.allowed)) same.set(view.allowed, s);
      return same.get(view.allowed)!;
    });
  });
  const shifts = model.shifts.length;
  const visits = model.jobs.map(() => new Map<number, Choices>());
  const joins = model.jobs.map(() => new Map<number, Choices>());
  const look = (book: Map<number, Choices>[], shift: number, job: number, open: number, own: boolean): Choices => {
    const key = open * shifts + alike[job]![shift]!;
    let found = book[job]!.get(key);
    if (!found) book[job]!.set(key, (found = choose(model, shift, job, open, own)));
    return found;
  };
  return {
    visit: (shift, job, open) => look(visits, shift, job, open, true),
    joining: (shift, job, open) => look(joins, shift, job, open, false),
  };
}

function choose(model: Model, shift: number, jobIndex: number, open: number, own: boolean): Choices {
  const job = model.jobs[jobIndex]!;
  const view = model.views[shift]![jobIndex];
  const usable = view ? open & view.allowed : 0;
  if (!view || usable === 0) return NONE;
  const seen = new Set<number>();
  const found: { set: number; net: number; minutes: number }[] = [];
  const leaveAll = job.leave.cost(open);
  for (const bundle of job.bundles) {
    const set = bundle & usable;
    if (set === 0 || seen.has(set)) continue;
    seen.add(set);
    // Joining a visit: what is already done there counts as brought along.
    if (!isClosed(job, own ? set : set | (job.all & ~open))) continue;
    const net = (own ? view.visitCost : 0) + itemsCost(view, set) - (leaveAll - job.leave.cost(open & ~set));
    // Work placed at a loss is placed at a small one.
    if (net >= leaveAll && model.triangle) continue;
    found.push({ set, net, minutes: minutesFor(job, set) - (own ? 0 : job.setup) });
  }
  found.sort((a, b) => a.net - b.net || a.minutes - b.minutes || a.set - b.set);
  const kept: typeof found = [];
  let shortest = Infinity;
  for (const choice of found) {
    if (choice.minutes >= shortest) continue;
    shortest = choice.minutes;
    kept.push(choice);
  }
  return { sets: kept.map((c) => c.set), net: kept.map((c) => c.net), minutes: kept.map((c) => c.minutes) };
}
