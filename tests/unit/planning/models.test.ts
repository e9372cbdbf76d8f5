import { beforeAll, describe, expect, it } from 'vitest';
import type { LpSolver } from '@/lib/core/planning';
import { columnsOf, generateColumns } from '@/lib/core/planning/bound/column-generation';
import { CompletionBounds } from '@/lib/core/planning/bound/completion';
import { enumerateRoutes } from '@/lib/core/planning/bound/enumerate';
import { openMaster, type Column } from '@/lib/core/planning/bound/master';
import { nearMemory, remembers, widenMemory } from '@/lib/core/planning/bound/memory';
import { neighbourBound } from '@/lib/core/planning/bound/neighbour-bound';
import { bestOptions } from '@/lib/core/planning/bound/options';
import { price } from '@/lib/core/planning/bound/pricing';
import { tighten } from '@/lib/core/planning/bound/subset-rows';
import { startingDuals } from '@/lib/core/planning/bound/starting-duals';
import { fixedPrice, laterTrips, type LaterItem } from '@/lib/core/planning/model/leave';
import { itemsCost, latenessAt, latestStart, minutesFor, startAt, type Model } from '@/lib/core/planning/model/model';
import { buildRoute } from '@/lib/core/planning/model/route';
import { between, seededRandom, shuffle, type Random } from '@/lib/core/planning/random';
import { anneal } from '@/lib/core/planning/search/anneal';
import { choiceBook } from '@/lib/core/planning/search/choices';
import { bestInsertion } from '@/lib/core/planning/search/insertion';
import { recreate, recreateOrders } from '@/lib/core/planning/search/recreate';
import { neighbours, ruin } from '@/lib/core/planning/search/ruin';
import { copyOf, costOf, nothingDone, setRoute, type Solution } from '@/lib/core/planning/search/solution';
import { solveModel } from '@/lib/core/planning/solve-model';
import { runOut } from '@/lib/core/planning/steps';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';
import { driven, everyRound, leastCost, THORNS, tinyModel } from '../../support/planning-models';

let lp: LpSolver;
beforeAll(async () => {
  lp = await highsLp();
});

const models = (seed: number, count: number, wish?: Parameters<typeof tinyModel>[1]): Model[] => {
  const random = seededRandom(seed);
  return Array.from({ length: count }, () => tinyModel(random, wish));
};
const stopsOf = (route: { jobs: readonly number[]; sets: readonly number[] }) =>
  route.jobs.map((job, p) => [job, route.sets[p] ?? 0] as const);
const started = (model: Model, random: Random): Solution => {
  const solution = nothingDone(model);
  recreate(model, choiceBook(model), recreateOrders(model), solution, [...model.jobs.keys()], random);
  return solution;
};

describe('a small model', () => {
  it('is solved for what trying every round costs, and proven so', () => {
    for (const [i, model] of models(1, 32).entries()) {
      const solved = runOut(solveModel(model, { seed: i, iterations: 120, lp, remainingMs: () => 1e9, floor: neighbourBound(model) }));
      const least = leastCost(model);
      expect(solved.solution.cost, `model ${i}`).toBeCloseTo(least, 6);
      expect(solved.proven, `model ${i}`).toBe(true);
      expect(solved.bound).toBeCloseTo(least, 4);
      expect(solved.searched).toBe(true);
      const cost = solved.solution.routes.map((route, s) => driven(model, s, stopsOf(route))?.cost ?? NaN);
      const left = model.jobs.reduce((sum, job, j) => sum + job.leave.cost(job.all & ~(solved.solution.done[j] ?? 0)), 0);
      expect(cost.reduce((a, b) => a + b, left)).toBeCloseTo(least, 6);
    }
  });

  it('has bounds below every plan: at once, and from the duals that a plan suggests', () => {
    for (const [i, model] of models(2, 120).entries()) {
      expect(neighbourBound(model), `model ${i}`).toBeLessThanOrEqual(leastCost(model) + 1e-9);
      const solution = started(model, seededRandom(i));
      expect(
        startingDuals(model, solution).reduce((a, b) => a + b, 0),
        `model ${i}`,
      ).toBeCloseTo(solution.cost, 6);
    }
  });

  it('gives up its search when time is up, and says so', () => {
    for (const model of models(3, 5)) {
      let left = 40;
      const cut = runOut(solveModel(model, { seed: 1, iterations: 1e6, remainingMs: () => left--, floor: -Infinity }));
      expect(cut.searched).toBe(false);
      expect(cut.solution.cost).toBeGreaterThanOrEqual(leastCost(model) - 1e-9);
      let more = 400;
      const all = runOut(solveModel(model, { seed: 1, iterations: 20, useAllTime: true, remainingMs: () => more--, floor: -Infinity }));
      expect(all.searched).toBe(true);
      expect(all.solution.cost).toBeCloseTo(leastCost(model), 6);
      expect(all.proven).toBe(false);
    }
  });
});

describe('rounds at prices', () => {
  const priced = (model: Model, random: Random): Float64Array => Float64Array.from({ length: model.rows }, () => 60 * random());
  const worth = (model: Model, duals: Float64Array, rows: number) =>
    Array.from({ length: model.rows }, (_, r) => ((rows >> r) & 1 ? (duals[r] ?? 0) : 0)).reduce((a, b) => a + b, 0);

  it('are found cheapest first among all that can be driven', () => {
    const random = seededRandom(4);
    for (const [i, model] of models(5, 80).entries()) {
      const duals = priced(model, random);
      model.shifts.forEach((_, s) => {
        const all = everyRound(model, s).map(({ cost, rows }) => cost - worth(model, duals, rows));
        const found = runOut(price(model, s, duals, nearMemory(model, model.jobs.length), 1e6));
        expect(found.proven).toBe(true);
        expect(found.best, `model ${i}, shift ${s}`).toBeCloseTo(Math.min(0, ...all), 5);
        for (const route of found.routes) {
          const rows = stopsOf(route).reduce((sum, [j, set]) => sum | (set << (model.jobs[j]?.firstRow ?? 0)), 0);
          expect(route.reduced).toBeCloseTo((driven(model, s, stopsOf(route))?.cost ?? NaN) - worth(model, duals, rows), 5);
        }
        const least = runOut(price(model, s, duals, nearMemory(model, 1), 1e6)).best;
        expect(least, 'a shorter memory allows more').toBeLessThanOrEqual(found.best + 1e-6);
      });
    }
  });

  it('are listed whole up to a limit, of each content the cheapest', () => {
    const random = seededRandom(6);
    for (const [i, model] of models(7, 60).entries()) {
      const duals = priced(model, random);
      model.shifts.forEach((_, s) => {
        const best = new Map<number, number>();
        for (const { rows, cost } of everyRound(model, s)) best.set(rows, Math.min(cost, best.get(rows) ?? Infinity));
        const limit = 15;
        const listed = runOut(enumerateRoutes(model, s, duals, limit, 1e9, 1e6)) ?? [];
        const rowsOf = (c: { jobs: readonly number[]; sets: readonly number[] }) =>
          stopsOf(c).reduce((sum, [j, set]) => sum | (set << (model.jobs[j]?.firstRow ?? 0)), 0);
        const wanted = [...best].filter(([rows, cost]) => cost - worth(model, duals, rows) < limit - 1e-5).map(([rows]) => rows);
        expect(new Set(listed.map(rowsOf)), `model ${i}, shift ${s}`).toEqual(new Set(wanted));
        for (const column of listed) expect(column.cost).toBeCloseTo(best.get(rowsOf(column)) ?? NaN, 6);
        // Near the bound fewer sets are looked at, and never one that is not there.
        for (const column of runOut(enumerateRoutes(model, s, duals, limit, 5, 1e6)) ?? []) expect(wanted).toContain(rowsOf(column));
        if (listed.some((column) => column.jobs.length > 1)) expect(runOut(enumerateRoutes(model, s, duals, limit, 1e9, 0))).toBeNull();
      });
    }
  });

  it('may come back to a kitchen only where it was forgotten, and a memory widened by such a round forbids it', () => {
    const model = models(8, 1, { jobs: 4 })[0];
    const memory = [Int32Array.of(0b0011), Int32Array.of(0b0010), Int32Array.of(0b0101)];
    expect(model).toBeDefined();
    expect(remembers(memory, [0, 1, 0])).toBe(true);
    expect(remembers(memory, [0, 2, 0])).toBe(false);
    expect(remembers(memory, [0, 0])).toBe(false);
    expect(remembers(memory, [0, 1, 2])).toBe(true);
    const column = { shift: 0, jobs: [0, 1, 0], sets: [1, 1, 1], cost: 1 };
    expect(widenMemory(memory, [{ ...column, jobs: [0, 1, 2] }])).toBe(false);
    expect(widenMemory(memory, [column])).toBe(true);
    expect(remembers(memory, [0, 1, 0])).toBe(false);
  });
});

describe('the relaxed plan', () => {
  /** Every round and every set left undone, as columns. */
  const pool = (model: Model): Column[] => [
    ...model.shifts.flatMap((_, s) => everyRound(model, s).map(({ stops, cost }) => ({ shift: s, jobs: stops.map(([j]) => j), sets: stops.map(([, set]) => set), cost }))),
    ...model.jobs.flatMap((job, j) => Array.from({ length: job.all }, (_, i) => ({ shift: -1, jobs: [j], sets: [i + 1], cost: job.leave.cost(i + 1) }))),
  ]; // prettier-ignore
  const relaxed = (model: Model, columns: readonly Column[]) => {
    const master = openMaster(model, lp);
    try {
      master.add(columns);
      expect(master.add(columns), 'no column twice').toBe(0);
      return { part: master.solve().objective, whole: master.solveWhole(1e6).objective };
    } finally {
      master.close();
    }
  };

  it('has rounds generated until no other could lower it, each step a bound', () => {
    let unproven = 0;
    for (const [i, model] of models(20, 12).entries()) {
      const { part, whole } = relaxed(model, pool(model));
      expect(whole, `model ${i}`).toBeCloseTo(leastCost(model), 5);
      const master = openMaster(model, lp);
      const solution = started(model, seededRandom(i));
      master.add(columnsOf(model, solution));
      const begin = { bound: -Infinity, duals: startingDuals(model, solution), least: [], converged: false };
      const work = generateColumns(model, master, nearMemory(model, model.jobs.length), 1e6, begin, solution.cost);
      let step = work.next();
      for (; !step.done; step = work.next()) expect(step.value.bound).toBeLessThanOrEqual(part + 1e-5);
      expect(step.value.converged).toBe(true);
      expect(step.value.bound, `model ${i}`).toBeCloseTo(part, 3);
      master.close();
      // With no room for partial rounds nothing is proven, and nothing is claimed.
      const short = openMaster(model, lp);
      short.add(columnsOf(model, solution));
      const cut = runOut(generateColumns(model, short, nearMemory(model, 1), -1, begin, solution.cost));
      expect(cut.bound).toBeLessThanOrEqual(part + 1e-5);
      if (cut.converged) expect(cut.bound).toBeCloseTo(part, 3);
      else unproven++;
      short.close();
    }
    expect(unproven).toBeGreaterThan(6);
  });

  it('is cut no lower than it stood and no higher than the best plan, and keeps what the best plan is made of', () => {
    for (const [i, model] of models(22, 10, { jobs: 5 }).entries()) {
      const columns = pool(model);
      const { part } = relaxed(model, columns);
      const least = leastCost(model);
      const cut = runOut(tighten(model, lp, columns, least + 5));
      expect(cut.bound, `model ${i}`).toBeGreaterThanOrEqual(part - 1e-6);
      expect(cut.bound).toBeLessThanOrEqual(least + 1e-6);
      expect(relaxed(model, cut.columns).whole).toBeCloseTo(least, 5);
      expect(cut.columns.length).toBeLessThanOrEqual(columns.length);
      const closed = runOut(tighten(model, lp, columns, part));
      expect(closed).toEqual({ columns: [], bound: expect.closeTo(part, 6) });
    }
  });

  /** Ten minutes out and home, four from one to another of a part of the town, eighteen across: a pair costs 24, or 38, and one alone 20. */
  const town = (parts: readonly number[], vans: number): Model => {
    const part = parts.flatMap((kitchens, p) => Array.from({ length: kitchens }, () => p));
    const places = part.length + 1;
    const way = (a: number, b: number) => (a === b ? 0 : a === 0 || b === 0 ? 10 : part[a - 1] === part[b - 1] ? 4 : 18);
    const time = Float64Array.from({ length: places * places }, (_, i) => way(Math.floor(i / places), i % places));
    const one = { items: 1, all: 1, setup: 0, minutes: [1], demand: 1, brings: [1], bundles: [1], leave: fixedPrice(100) };
    const jobs = part.map((_, j) => ({ ...one, place: j + 1, firstRow: j }));
    const van = { startPlace: 0, endPlace: 0, from: 0, to: 100, hardTo: 100, overtimePrice: 0, capacity: 2, kind: 0 };
    const view = { allowed: 1, opens: [0], closes: [100], itemCost: [0], visitCost: 0, promised: Infinity, latePrice: 0, step: 0 };
    const shifts = Array.from({ length: vans }, () => van);
    return { places, time, drive: time, jobs, shifts, views: shifts.map(() => jobs.map(() => view)), rows: jobs.length, triangle: true, wholeCosts: true }; // prettier-ignore
  };

  it('of three kitchens of which a van holds two costs one and a half vans, until it is cut: two whole ones', () => {
    const model = town([3], 2);
    expect(relaxed(model, pool(model))).toEqual({ part: expect.closeTo(36, 6), whole: expect.closeTo(44, 6) });
    expect(runOut(tighten(model, lp, pool(model), 50)).bound).toBeCloseTo(44, 6);
    const cut = runOut(tighten(model, lp, pool(model), 44.5));
    expect(cut.columns.map((c) => c.cost).filter((cost) => cost > 24.5)).toEqual([]);
    expect(runOut(solveModel(model, { seed: 1, iterations: 50, lp, remainingMs: () => 1e9, floor: 0 }))).toMatchObject({ bound: 44, proven: true }); // prettier-ignore
  });

  it('of three kitchens here and three there costs a van and a half in each part, until it is cut: one in each and one across', () => {
    const model = town([3, 3], 3);
    expect(relaxed(model, pool(model))).toEqual({ part: expect.closeTo(72, 6), whole: expect.closeTo(86, 6) });
    const cut = runOut(tighten(model, lp, pool(model), 90));
    expect(cut.bound).toBeCloseTo(86, 6);
    expect(relaxed(model, cut.columns).whole).toBeCloseTo(86, 6);
    expect(runOut(solveModel(model, { seed: 1, iterations: 50, lp, remainingMs: () => 1e9, floor: 0 }))).toMatchObject({ bound: 86, proven: true }); // prettier-ignore
  });

  it('is listed with one round on the way for each content and last stop where none is sooner or cheaper', () => {
    const model = { ...town([4], 1), shifts: town([4], 1).shifts.map((van) => ({ ...van, capacity: 4 })) };
    const duals = new Float64Array(4).fill(100);
    // Two, three or four stops, any of them the last: 6 × 2 + 4 × 3 + 1 × 4.
    expect(runOut(enumerateRoutes(model, 0, duals, 0, 1e9, 28))).toHaveLength(15);
    expect(runOut(enumerateRoutes(model, 0, duals, 0, 1e9, 27))).toBeNull();
  });
});

describe.each(Object.entries(THORNS))('a small model %s', (_, thorn) => {
  const random = seededRandom(71);
  const thorny = (count: number): Model[] => Array.from({ length: count }, () => thorn(tinyModel(random), random));

  it('is solved for what trying every round costs, proven so, and never bounded above it', () => {
    for (const [i, model] of thorny(10).entries()) {
      const least = leastCost(model);
      expect(neighbourBound(model), `model ${i}`).toBeLessThanOrEqual(least + 1e-9);
      const solved = runOut(solveModel(model, { seed: i, iterations: 30, lp, remainingMs: () => 1e9, floor: -Infinity }));
      expect(solved.solution.cost, `model ${i}`).toBeCloseTo(least, 6);
      expect([solved.proven, solved.bound], `model ${i}`).toEqual([true, expect.closeTo(least, 4)]);
    }
  });

  it('has at any prices its cheapest rounds found, its rounds up to a limit listed, and no way on counted too dear', () => {
    for (const [i, model] of thorny(12).entries()) {
      const duals = Float64Array.from({ length: model.rows }, () => 70 * random());
      const reduced = (rows: number, cost: number) => Array.from(duals).reduce((rest, dual, r) => ((rows >> r) & 1 ? rest - dual : rest), cost); // prettier-ignore
      model.shifts.forEach((shift, s) => {
        const best = new Map<number, number>();
        for (const { rows, cost } of everyRound(model, s)) best.set(rows, Math.min(reduced(rows, cost), best.get(rows) ?? Infinity));
        const memory = nearMemory(model, model.jobs.length);
        expect(runOut(price(model, s, duals, memory, 1e6)).best, `model ${i}, shift ${s}`).toBeCloseTo(Math.min(0, ...best.values()), 5);
        const listed = runOut(enumerateRoutes(model, s, duals, 20, 1e9, 1e6)) ?? [];
        const rowsOf = (c: Column) => stopsOf(c).reduce((sum, [j, set]) => sum | (set << (model.jobs[j]?.firstRow ?? 0)), 0);
        const wanted = [...best].filter(([, value]) => value < 20 - 1e-5).map(([rows]) => rows);
        expect(new Set(listed.map(rowsOf)), `model ${i}, shift ${s}`).toEqual(new Set(wanted));
        for (const c of listed) expect(reduced(rowsOf(c), c.cost)).toBeCloseTo(best.get(rowsOf(c)) ?? NaN, 5);
        // From a kitchen whose work is done: home at once, or by any round that does not come back to it.
        const options = model.jobs.map((_, j) => bestOptions(model, s, j, duals));
        const completion = new CompletionBounds(model, s, options);
        model.jobs.forEach((job, j) => {
          const from = shift.from + between(random, 0, 60);
          const there = { ...model, shifts: [{ ...shift, from, startPlace: job.place, capacity: Infinity }], views: [model.views[s]?.map((view, k) => (k === j ? null : view)) ?? []] }; // prettier-ignore
          const way = [model.time, model.drive].map((matrix) => matrix[job.place * model.places + shift.endPlace] ?? NaN);
          const late = Math.max(0, from + (way[0] ?? 0) - shift.to) * shift.overtimePrice;
          const home = from + (way[0] ?? 0) <= shift.hardTo ? (way[1] ?? 0) + late : Infinity;
          const onward = everyRound(there, 0).map(({ rows, cost }) => reduced(rows, cost));
          if (from <= shift.hardTo && (options[j]?.length ?? 0) > 0)
            expect(completion.toGo(j, from), `model ${i}, job ${j}`).toBeLessThanOrEqual(Math.min(home, ...onward));
        });
      });
    }
  });
});

describe('a kitchen that is reached and left by way of others alone', () => {
  it('is in the cheapest round, in what is listed and in what is proven best', () => {
    // Yard, the village at the bridge with two kitchens, and beyond it one: the direct way there and home takes for ever.
    const time = Float64Array.of(0, 5, 500, 5, 0, 5, 500, 5, 0);
    const one = { items: 1, all: 1, setup: 0, minutes: [1], demand: 0, brings: [1], bundles: [1], leave: fixedPrice(100) };
    const jobs = [1, 2, 1].map((place, j) => ({ ...one, place, firstRow: j }));
    const view = { allowed: 1, opens: [0], closes: [60], itemCost: [0], visitCost: 0, promised: Infinity, latePrice: 0, step: 0 };
    const shift = { startPlace: 0, endPlace: 0, from: 0, to: 60, hardTo: 60, overtimePrice: 0, capacity: Infinity, kind: 0 };
    const model: Model = { places: 3, time, drive: time, jobs, shifts: [shift], views: [jobs.map(() => view)], rows: 3, triangle: false, wholeCosts: true }; // prettier-ignore
    const duals = new Float64Array(3).fill(100);
    expect(runOut(price(model, 0, duals, nearMemory(model, 3), 1e6)).best).toBeCloseTo(20 - 300, 6);
    const listed = runOut(enumerateRoutes(model, 0, duals, 0, 1e9, 1e6)) ?? [];
    expect(listed.map((c) => [[...c.jobs].sort().join(), c.cost]).sort()).toEqual([['0,1,2', 20], ['0', 10], ['0,2', 10], ['2', 10]]); // prettier-ignore
    expect(leastCost(model)).toBe(20);
    expect(runOut(solveModel(model, { seed: 1, iterations: 60, lp, remainingMs: () => 1e9, floor: 0 }))).toMatchObject({ bound: 20, proven: true }); // prettier-ignore
  });
});

describe('the way on from a kitchen', () => {
  // Yard, here and there; the shift is paid for 36 minutes and ends after 48: a slice of the bound's table is a minute.
  const time = Float64Array.of(0, 5, 8, 6, 0, 4, 7, 3, 0);
  const drive = time.map((minutes) => 10 * minutes);
  const one = { items: 1, all: 1, setup: 2, demand: 0, brings: [1], bundles: [1], leave: fixedPrice(500) };
  const jobs = [
    { ...one, place: 1, minutes: [4], firstRow: 0 },
    { ...one, place: 2, minutes: [6], firstRow: 1 },
  ];
  const shift = { startPlace: 0, endPlace: 0, from: 0, to: 36, hardTo: 48, overtimePrice: 2, capacity: Infinity, kind: 0 };
  const view = { allowed: 1, opens: [0], closes: [48], itemCost: [1], visitCost: 3, promised: Infinity, latePrice: 0, step: 0 };
  const there = { ...view, opens: [20, 36], closes: [34, 46], promised: 22, latePrice: 5, step: 5 };
  const model: Model = { places: 3, time, drive, jobs, shifts: [shift], views: [[view, there]], rows: 2, triangle: true, wholeCosts: true };
  const toGo = (prize: number, at: number) => {
    const duals = Float64Array.of(5, prize);
    return new CompletionBounds(model, 0, model.jobs.map((_, j) => bestOptions(model, 0, j, duals))).toGo(0, at); // prettier-ignore
  };

  it.each([
    // Home costs 60, and 2 for each minute past 36; none after 48.
    ['no work is worth it', 0, 10, 60],
    ['home is reached as the paid day ends', 0, 30, 60],
    ['home is reached a minute after', 0, 31, 62],
    ['home is reached as the day ends for good', 0, 42, 84],
    ['nobody gets home', 0, 43, Infinity],
    // There and home: 40 + 70 and 4 for the visit, less the prize of 300. It opens at 20; eight minutes, and home at 35.
    ['there is work there that pays', 300, 10, -186],
    ['it is reached as it opens', 300, 16, -186],
    // Reached at 21 it begins at 25: three minutes late at 5, home at 40: four past the paid day at 2.
    ['it begins on the fives', 300, 17, -186 + 15 + 8],
    ['it is reached as it begins', 300, 21, -186 + 15 + 8],
    // Reached at 26 it would begin at 30 and end after the opening; in the next one, at 40, nobody gets home.
    ['the opening is missed', 300, 22, 60],
  ])('costs, where %s, what it comes to by hand', (_, prize, at, cost) => {
    expect(toGo(prize, at)).toBeCloseTo(cost, 5);
  });
});

describe('work left for later trips', () => {
  /** Every choice of trip days, one by one. */
  const cheapest = (items: readonly LaterItem[], trip: number): number => {
    if (items.length === 0) return 0;
    const days = items[0]?.onDay.length ?? 0;
    let best = Infinity;
    for (let pick = 1; pick < 2 ** days; pick++) {
      const on = Array.from({ length: days }, (_, d) => d).filter((d) => (pick >> d) & 1);
      const cost = items.reduce((sum, item) => sum + Math.min(...on.map((d) => item.onDay[d] ?? Infinity)), trip * on.length);
      best = Math.min(best, cost);
    }
    return best;
  };
  /** Costs by the day: less and less thrown away up to the due day, never more than the whole, and then so much a day. */
  const item = (random: Random, days: readonly number[]): LaterItem => {
    const best = between(random, 0, days.length - 1);
    const [due, worth, early, late] = [days[best] ?? 0, 20 * random(), 3 * random(), 5 * random()];
    return { best, onDay: days.map((day) => (day < due ? Math.min(worth, early * (due - day)) : late * (day - due))) };
  };

  it('costs the cheapest days for it, beyond the trips that come anyway', () => {
    const random = seededRandom(9);
    for (let trial = 0; trial < 150; trial++) {
      const days = Array.from({ length: between(random, 1, 4) }, (_, d) => 5 * d + between(random, 0, 4));
      const items = Array.from({ length: between(random, 1, 4) }, () => item(random, days));
      const always = Array.from({ length: between(random, 0, 2) }, () => item(random, days));
      const trip = random() * 30;
      const leave = laterTrips(items, always, trip);
      const base = cheapest(always, trip);
      const of = (set: number) => items.filter((_, i) => (set >> i) & 1);
      const prizes = items.map(() => random() * 40);
      let gain = 0;
      for (let set = 0; set < 2 ** items.length; set++) {
        const cost = Math.max(0, cheapest([...of(set), ...always], trip) - base);
        expect(leave.cost(set)).toBeCloseTo(set === 0 ? 0 : cost, 9);
        gain = Math.min(gain, (set === 0 ? 0 : cheapest([...of(set), ...always], trip) - base) - prizes.reduce((sum, p, i) => sum + ((set >> i) & 1 ? p : 0), 0)); // prettier-ignore
      }
      const { set, value } = leave.dearest(prizes);
      expect(value).toBeCloseTo(gain, 9);
      const paid = prizes.reduce((sum, p, i) => sum + ((set >> i) & 1 ? p : 0), 0);
      expect(leave.cost(set) - paid).toBeCloseTo(gain, 6);
    }
  });

  it('or a fixed price each, left where the prize is higher', () => {
    const { cost, dearest } = fixedPrice(10);
    expect([0, 1, 0b110, 0b1011].map(cost)).toEqual([0, 10, 20, 30]);
    expect(dearest([4, 12, 10, 25])).toEqual({ set: 0b1010, value: -17 });
    expect(dearest([4, 10])).toEqual({ set: 0, value: 0 });
  });
});

describe('a visit in its opening', () => {
  const view = { allowed: 1, opens: [10, 40], closes: [30, 90], itemCost: [0], visitCost: 0, promised: 25, latePrice: 3, step: 0 };

  it.each([
    // arrival, minutes, step, start, and the latest start in that opening
    [0, 10, 0, 10, 20],
    [12, 10, 0, 12, 20],
    [20, 10, 0, 20, 20],
    [21, 10, 0, 40, 80],
    [12, 20, 0, 40, 70],
    [10, 20, 0, 10, 10],
    [55, 35, 0, 55, 55],
    [55, 36, 0, Infinity, Infinity],
    [0, 51, 0, Infinity, Infinity],
    [12, 10, 5, 15, 20],
    [15, 10, 5, 15, 20],
    [16, 10, 5, 20, 20],
    [16, 11, 5, 40, 79],
    [16, 10, 7, 42, 80],
    [90, 0, 0, 90, 90],
  ])('reached at %s for %s minutes on every %sth begins at %s, at the latest %s', (arrival, minutes, step, start, latest) => {
    expect(startAt({ ...view, step }, arrival, minutes)).toBe(start);
    expect(latestStart({ ...view, step }, start, minutes)).toBe(latest);
  });

  it('is late after what was promised, by the minute', () => {
    expect([24, 25, 26, 35].map((start) => latenessAt(view, start))).toEqual([0, 0, 3, 30]);
    expect(latenessAt({ ...view, promised: Infinity }, 1e9)).toBe(0);
  });

  it('takes its setup and its tasks’ minutes, and costs what they cost', () => {
    const job = { setup: 4, minutes: [1, 20, 300] } as unknown as Model['jobs'][number];
    expect([0, 0b001, 0b110, 0b111].map((set) => minutesFor(job, set))).toEqual([4, 5, 324, 325]);
    expect([0, 0b001, 0b110, 0b111].map((set) => itemsCost({ ...view, itemCost: [1, 20, 300] }, set))).toEqual([0, 1, 320, 321]);
  });
});

describe('a round as built', () => {
  it('is what a person adds up, and what cannot be driven is none', () => {
    const random = seededRandom(10);
    let none = 0;
    for (const model of models(11, 150))
      model.shifts.forEach((_, s) => {
        const jobs = shuffle(random, [...model.jobs.keys()]).slice(0, between(random, 1, 4));
        const stops = jobs.map((j) => [j, model.jobs[j]?.all ?? 1] as const);
        const [route, way] = [buildRoute(model, s, jobs, stops.map(([, set]) => set)), driven(model, s, stops)]; // prettier-ignore
        if (!way) none++;
        expect(route?.cost ?? null).toEqual(way ? expect.closeTo(way.cost, 6) : null);
        if (route) expect(route.start).toEqual(way?.at);
      });
    expect(none).toBeGreaterThan(20);
  });

  it('can be begun later by its slack at no cost, and where nothing waits not by a minute more', () => {
    const random = seededRandom(12);
    let tight = 0;
    for (const model of models(13, 150))
      model.shifts.forEach((shift, s) => {
        const stops = shuffle(random, [...model.jobs.keys()]).slice(0, between(random, 1, 3)).map((j) => [j, model.jobs[j]?.all ?? 1] as const); // prettier-ignore
        const route = buildRoute(model, s, stops.map(([j]) => j), stops.map(([, set]) => set)); // prettier-ignore
        const slack = route?.slack[0];
        if (!route || slack === undefined || !Number.isFinite(slack)) return;
        const later = (minutes: number) => driven({ ...model, shifts: model.shifts.map((one, i) => (i === s ? { ...one, from: shift.from + minutes } : one)) }, s, stops); // prettier-ignore
        expect(later(slack)?.cost).toBeCloseTo(route.cost, 6);
        const one = model.views[s]?.[stops[0]?.[0] ?? 0];
        if (stops.length > 1 || !one || one.step > 0 || one.opens.length > 1 || route.endArrive > shift.to) return;
        tight++;
        expect(later(slack + 1)?.cost ?? Infinity).toBeGreaterThan(route.cost + 1e-9);
      });
    expect(tight).toBeGreaterThan(10);
  });
});

describe('the search', () => {
  it('puts work where it costs least: no place, joined or alone, is cheaper', () => {
    const random = seededRandom(14);
    let [placed, joined] = [0, 0];
    for (const [i, model] of models(15, 160, { plain: true }).entries()) {
      const solution = started(model, random);
      // Some of it is taken out again, so that there is a visit to join and one to make.
      const removed = ruin(model, neighbours(model), solution, random);
      for (const route of solution.routes) {
        const [first] = route.sets;
        if (first !== 3 || (model.jobs[route.jobs[0] ?? 0]?.brings[1] ?? 3) !== 2) continue;
        const part = buildRoute(model, route.shift, route.jobs, [2, ...route.sets.slice(1)]);
        if (part) setRoute(model, solution, part);
      }
      for (const j of new Set([...removed, ...model.jobs.keys()])) {
        const job = model.jobs[j];
        const open = job ? job.all & ~(solution.done[j] ?? 0) : 0;
        if (!job || open === 0) continue;
        let best = 0;
        solution.routes.forEach((route, s) => {
          const held = route.jobs.indexOf(j);
          for (let set = open; set !== 0; set = (set - 1) & open) {
            const ways = held >= 0
              ? [stopsOf(route).map(([k, was]) => [k, k === j ? was | set : was] as const)]
              : Array.from({ length: route.jobs.length + 1 }, (_, p) => [...stopsOf(route).slice(0, p), [j, set] as const, ...stopsOf(route).slice(p)]); // prettier-ignore
            for (const stops of ways) {
              const way = driven(model, s, stops);
              if (way) best = Math.min(best, way.cost - route.cost + job.leave.cost(open & ~set) - job.leave.cost(open));
            }
          }
        });
        const found = bestInsertion(model, choiceBook(model), solution, j, random, { blink: 0, passOver: 0 });
        expect(found?.delta ?? 0, `model ${i}, job ${j}`).toBeCloseTo(best > -1e-6 ? 0 : best, 6);
        if (!found) continue;
        placed++;
        if (solution.routes[found.route.shift]?.jobs.includes(j)) joined++;
        const next = copyOf(solution);
        setRoute(model, next, found.route);
        expect(next.cost).toBeCloseTo(solution.cost + found.delta, 6);
        expect(costOf(model, next)).toBeCloseTo(next.cost, 6);
      }
    }
    expect(placed).toBeGreaterThan(80);
    expect(joined).toBeGreaterThan(3);
  });

  it('takes strings of stops out, near one another, at most one hole in each, and nothing that is pinned', () => {
    const random = seededRandom(16);
    let whole = 0;
    for (const plain of models(17, 60, { jobs: 7, plain: true })) {
      const model = { ...plain, jobs: plain.jobs.map((job, j) => (j === 0 ? { ...job, pinned: true } : job)) };
      const before = started(model, random);
      const after = copyOf(before);
      const removed = ruin(model, neighbours(model), after, random);
      const bare = copyOf(before);
      const used = before.routes.some((route) => route.jobs.length > 0);
      expect(ruin(plain, neighbours(plain), bare, random).size > 0, 'something goes, if anything is there').toBe(used);
      expect(removed.has(0)).toBe(false);
      expect(after.cost).toBeCloseTo(costOf(model, after), 6);
      before.routes.forEach((route, s) => {
        const kept = after.routes[s]?.jobs ?? [];
        expect(route.jobs.filter((j) => kept.includes(j))).toEqual(kept);
        const gone = route.jobs.map((j) => !kept.includes(j));
        const [first, last] = [gone.indexOf(true), gone.lastIndexOf(true)];
        for (const [p, j] of route.jobs.entries()) expect(removed.has(j) || !gone[p]).toBe(true);
        if (first < 0) return;
        const holes = route.jobs.slice(first, last + 1).filter((j, p) => !gone[first + p] && j !== 0);
        expect(holes.length).toBeLessThanOrEqual(1);
        if (kept.length === 0) whole++;
      });
    }
    expect(whole).toBeGreaterThan(5);
  });

  it('leaves what is not there alone', () => {
    const model = models(18, 1)[0];
    if (!model) throw new Error('no model');
    const empty = nothingDone(model);
    expect(ruin(model, neighbours(model), empty, seededRandom(1)).size).toBe(0);
    expect(empty.cost).toBeCloseTo(
      model.jobs.reduce((sum, job) => sum + job.leave.cost(job.all), 0),
      9,
    );
  });

  it('looks at every neighbour, itself first and the nearest next', () => {
    for (const model of models(19, 10)) {
      neighbours(model).forEach((order, j) => {
        expect(order[0]).toBe(j);
        const way = [...order].slice(1).map((k) => {
          const [a, b] = [model.jobs[j]?.place ?? 0, model.jobs[k]?.place ?? 0];
          return (model.drive[a * model.places + b] ?? 0) + (model.drive[b * model.places + a] ?? 0);
        });
        expect(way).toEqual([...way].sort((a, b) => a - b));
        expect([...order].sort()).toEqual([...model.jobs.keys()]);
      });
    }
  });
});

describe('a search whose time runs ahead of its rounds', () => {
  it('skips rounds, whether or not anybody listens, and is never worse than where it began', () => {
    for (const model of models(31, 6)) {
      const tried = { all: 0, some: 0, skips: 0 };
      const start = started(model, seededRandom(5));
      const whole = runOut(anneal(model, { seed: 2, iterations: 400, start, onTried: () => tried.all++ }));
      const pace = () => 0.9;
      const unheard = runOut(anneal(model, { seed: 2, iterations: 400, start, pace, onTried: () => tried.some++ }));
      const heard = runOut(anneal(model, { seed: 2, iterations: 400, start, pace, onSkipped: () => tried.skips++ }));
      expect(heard).toEqual(unheard);
      expect(unheard.cost).toBeLessThanOrEqual(start.cost + 1e-9);
      expect(whole.cost).toBeLessThanOrEqual(start.cost + 1e-9);
      expect(tried.skips).toBe(model.jobs.length > 0 ? 1 : 0);
      expect(tried.some).toBeLessThanOrEqual(tried.all);
    }
  });
});
