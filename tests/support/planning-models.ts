import { fixedPrice, laterTrips } from '@/lib/core/planning/model/leave';
import { bundlesOf } from '@/lib/core/planning/model/bundles';
import { hasTriangle } from '@/lib/core/planning/model/triangle';
import type { Job, Model, ShiftModel, StopView } from '@/lib/core/planning/model/model';
import { between, type Random } from '@/lib/core/planning/random';

/** Invented models so small that every route can be driven once, and what a route costs said without the planner's own code. */

type Wish = { readonly jobs?: number; readonly plain?: boolean };

/** A few jobs of one or two items around a yard. `plain`: nothing is late or past the end of the shift. */
export function tinyModel(random: Random, { jobs: most = 4, plain = false }: Wish = {}): Model {
  const n = between(random, 2, most);
  const spots = Array.from({ length: n + 1 }, () => [between(random, 0, 30), between(random, 0, 30)] as const);
  const places = n + 1;
  const whole = random() < 0.5;
  const time = Float64Array.from({ length: places * places }, (_, i) => {
    const [a, b] = [spots[Math.floor(i / places)], spots[i % places]];
    return a && b ? Math.ceil(Math.hypot(a[0] - b[0], a[1] - b[1])) : 0;
  });
  const drive = time.map((minutes) => minutes * (whole ? 2 : 1.3));
  const money = (low: number, high: number): number => (whole ? between(random, low, high) : low + random() * (high - low));
  const to = between(random, 60, 150);
  const alike = random() < 0.5;
  const shifts: ShiftModel[] = Array.from({ length: between(random, 1, 2) }, (_, s) => ({
    startPlace: 0,
    endPlace: 0,
    from: 0,
    to: alike ? to : to - 20 * s,
    hardTo: (alike ? to : to - 20 * s) + (plain ? 0 : between(random, 0, 1) * 30),
    overtimePrice: plain ? 0 : 1,
    capacity: random() < 0.5 ? Infinity : 3,
    kind: s,
  }));
  let firstRow = 0;
  const jobs: Job[] = Array.from({ length: n }, (_, j) => {
    const items = between(random, 1, 2);
    const bare = {
      items,
      all: 2 ** items - 1,
      brings: items === 2 && random() < 0.3 ? [3, 2] : Array.from({ length: items }, (_, i) => 1 << i),
    };
    const leave = whole || random() < 0.5 ? fixedPrice(money(10, 90)) : laterTrips(bare.brings.map(() => ({ onDay: [money(5, 40), 3], best: 1 })), [], money(10, 60)); // prettier-ignore
    const job = { ...bare, place: j + 1, setup: between(random, 0, 6), minutes: bare.brings.map(() => between(random, 5, 25)), demand: between(random, 0, 2), bundles: bundlesOf(bare, [...bare.brings.keys()], new Set([bare.all])), leave, firstRow }; // prettier-ignore
    firstRow += items;
    return job;
  });
  const views = shifts.map((shift) =>
    jobs.map((job): StopView | null => {
      if (random() < 0.1) return null;
      const open = between(random, 0, 40);
      const windows = random() < 0.3 ? [[open, open + 25], [open + 45, shift.hardTo]] : [[open, between(random, open + 20, 200)]]; // prettier-ignore
      const promised = !plain && random() < 0.3 ? open + 10 : Infinity;
      return {
        allowed: random() < 0.15 ? 1 : job.all,
        opens: windows.map((w) => w[0] ?? 0),
        closes: windows.map((w) => w[1] ?? 0),
        itemCost: job.minutes.map(() => money(0, 12)),
        visitCost: money(0, 5),
        promised,
        latePrice: promised === Infinity ? 0 : 2,
        step: random() < 0.3 ? 5 : 0,
      };
    }),
  );
  const rules = views[0]?.map((view) => (view && (view.allowed & 1) !== 0 ? view : null));
  const same = alike && shifts.length === 2 && shifts[0]?.capacity === shifts[1]?.capacity && shifts[0]?.hardTo === shifts[1]?.hardTo && rules; // prettier-ignore
  return {
    places,
    time,
    drive,
    jobs,
    // Two rounds of one kind are told apart by nothing at all.
    shifts: same ? shifts.map((shift) => ({ ...shift, kind: 0 })) : shifts,
    views: same ? shifts.map(() => rules) : views,
    rows: firstRow,
    triangle: hasTriangle(time, places) && hasTriangle(drive, places),
    wholeCosts: whole,
  };
}

/** The same model where one thing is harder than in most towns. */
export const THORNS: Record<string, (model: Model, random: Random) => Model> = {
  'where the quick way is the dear one': (model, random) =>
    onRoads(
      model,
      model.time,
      model.time.map((minutes) => (minutes === 0 ? 0 : between(random, 1, 40))),
    ),
  'where the direct way is seldom the shortest': (model, random) => {
    const time = model.time.map((minutes) => (minutes === 0 ? 0 : between(random, 1, 55)));
    return onRoads(model, time, time);
  },
  'without an end of the day': (model) => onShifts(model, { hardTo: Infinity }),
  'that ends elsewhere than it began': (model) => onShifts(model, { endPlace: model.places - 1 }),
  'that begins late': (model) => onShifts(model, { from: 37 }),
  'with a van that holds little': (model) => onShifts(model, { capacity: 2 }),
};

const onShifts = (model: Model, more: Partial<ShiftModel>): Model => ({
  ...model,
  shifts: model.shifts.map((shift) => ({ ...shift, ...more })),
});
const onRoads = (model: Model, time: Float64Array, drive: Float64Array): Model => ({
  ...model,
  time,
  drive,
  triangle: hasTriangle(time, model.places) && hasTriangle(drive, model.places),
});

/** A round as a person would add it up, stop by stop; null where it cannot be driven. Without `home` it ends at its last stop. */
export function driven(
  model: Model,
  s: number,
  stops: readonly (readonly [number, number])[],
  home = true,
): { cost: number; at: number[] } | null {
  const shift = model.shifts[s];
  if (!shift) return null;
  let [place, clock, cost, load] = [shift.startPlace, shift.from, 0, 0];
  const at: number[] = [];
  const way = (to: number): void => {
    clock += model.time[place * model.places + to] ?? NaN;
    cost += model.drive[place * model.places + to] ?? NaN;
    place = to;
  };
  for (const [j, set] of stops) {
    const [job, view] = [model.jobs[j], model.views[s]?.[j]];
    if (!job || !view || (set & ~view.allowed) !== 0) return null;
    const items = job.minutes.map((_, i) => i).filter((i) => (set >> i) & 1);
    if (items.some((i) => ((job.brings[i] ?? 0) & ~set) !== 0)) return null;
    load += job.demand;
    if (load > shift.capacity) return null;
    way(job.place);
    const work = items.reduce((sum, i) => sum + (job.minutes[i] ?? 0), job.setup);
    const starts = view.opens.flatMap((open, w) => {
      let start = Math.max(open, clock);
      if (view.step > 0) start += (view.step - (start % view.step)) % view.step;
      return start + work <= (view.closes[w] ?? 0) ? [start] : [];
    });
    const start = starts[0];
    if (start === undefined) return null;
    at.push(start);
    cost += view.visitCost + items.reduce((sum, i) => sum + (view.itemCost[i] ?? 0), 0);
    if (start > view.promised) cost += (start - view.promised) * view.latePrice;
    clock = start + work;
  }
  if (stops.length === 0 || !home) return { cost, at };
  way(shift.endPlace);
  if (clock > shift.hardTo) return null;
  return { cost: cost + Math.max(0, clock - shift.to) * shift.overtimePrice, at };
}

/** Every round of a shift that can be driven, each kitchen at most once. */
export function everyRound(model: Model, s: number): { stops: (readonly [number, number])[]; cost: number; rows: number }[] {
  const found: { stops: (readonly [number, number])[]; cost: number; rows: number }[] = [];
  const go = (stops: (readonly [number, number])[], rows: number): void => {
    model.jobs.forEach((job, j) => {
      if (stops.some(([other]) => other === j)) return;
      for (let set = 1; set <= job.all; set++) {
        const longer = [...stops, [j, set] as const];
        const way = driven(model, s, longer);
        if (way) found.push({ stops: longer, cost: way.cost, rows: rows | (set << job.firstRow) });
        // Home may be out of reach from here and in reach by way of another stop.
        if (driven(model, s, longer, false)) go(longer, rows | (set << job.firstRow));
      }
    });
  };
  go([], 0);
  return found;
}

/** The least that any plan of the model costs. */
export function leastCost(model: Model): number {
  const left = (done: number): number => model.jobs.reduce((sum, job) => sum + job.leave.cost(job.all & ~(done >> job.firstRow)), 0);
  let best = new Map<number, number>([[0, 0]]);
  model.shifts.forEach((_, s) => {
    const rounds = new Map<number, number>();
    for (const { rows, cost } of everyRound(model, s)) rounds.set(rows, Math.min(cost, rounds.get(rows) ?? Infinity));
    const next = new Map(best);
    for (const [done, cost] of best)
      for (const [rows, more] of rounds) {
        if ((done & rows) !== 0) continue;
        if (cost + more < (next.get(done | rows) ?? Infinity)) next.set(done | rows, cost + more);
      }
    best = next;
  });
  return Math.min(...[...best].map(([done, cost]) => cost + left(done)));
}
