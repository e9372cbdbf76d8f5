import { beforeAll, describe, expect, it } from 'vitest';
import {
  bookByHand,
  planWeek,
  readTravel,
  type Kitchen,
  type LpSolver,
  type PlanTask,
  type Technician,
  type WeekProblem,
} from '@/lib/core/planning';
import { columnsOf, generateColumns } from '@/lib/core/planning/bound/column-generation';
import { Labels } from '@/lib/core/planning/bound/labels';
import { openMaster } from '@/lib/core/planning/bound/master';
import { nearMemory } from '@/lib/core/planning/bound/memory';
import { neighbourBound } from '@/lib/core/planning/bound/neighbour-bound';
import { bestOptions, nearOptions } from '@/lib/core/planning/bound/options';
import { proveOptimal } from '@/lib/core/planning/bound/prove';
import { startingDuals } from '@/lib/core/planning/bound/starting-duals';
import { bundlesOf } from '@/lib/core/planning/model/bundles';
import { fixedPrice } from '@/lib/core/planning/model/leave';
import { isClosed, type Job, type Model } from '@/lib/core/planning/model/model';
import { hasTriangle } from '@/lib/core/planning/model/triangle';
import { seededRandom, shuffle } from '@/lib/core/planning/random';
import { routePool } from '@/lib/core/planning/search/route-pool';
import { costOf, nothingDone } from '@/lib/core/planning/search/solution';
import { solveModel } from '@/lib/core/planning/solve-model';
import { runOut } from '@/lib/core/planning/steps';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';
import { driven, leastCost, tinyModel } from '../../support/planning-models';
import { at, MONDAY_DAY as DAY, PRICES } from '../../support/planning-weeks';

let lp: LpSolver;
beforeAll(async () => {
  lp = await highsLp();
});

describe('a proof', () => {
  const random = seededRandom(31);
  const models = Array.from({ length: 20 }, () => tinyModel(random));
  const boundOf = (model: Model, target: number) => {
    const master = openMaster(model, lp);
    const nothing = nothingDone(model);
    master.add(columnsOf(model, nothing));
    const begin = { bound: -Infinity, duals: startingDuals(model, nothing), least: [], converged: false };
    const dual = runOut(generateColumns(model, master, nearMemory(model, model.jobs.length), 1e6, begin, target));
    master.close();
    return dual;
  };
  const limits = { mostPartials: 1e6, mostColumns: 1e6, remainingMs: () => 60_000 };

  it('finds the best plan from the worst, doing nothing, and each of its rounds can be driven', () => {
    let better = 0;
    for (const [i, model] of models.entries()) {
      const nothing = nothingDone(model);
      const found = runOut(proveOptimal(model, lp, boundOf(model, nothing.cost), nothing, limits));
      const least = leastCost(model);
      expect(found?.cost, `model ${i}`).toBeCloseTo(least, 5);
      expect(found ? costOf(model, found) : NaN).toBeCloseTo(least, 5);
      for (const [s, route] of found?.routes.entries() ?? [])
        expect(
          driven(
            model,
            s,
            route.jobs.map((j, p) => [j, route.sets[p] ?? 0] as const),
          )?.cost,
        ).toBeCloseTo(route.cost, 6);
      if (least < nothing.cost - 1) better++;
    }
    expect(better).toBeGreaterThan(10);
  });

  it('is none where the lists grow too long, and the plan itself where nothing is better', () => {
    let short = 0;
    for (const model of models.slice(0, 15)) {
      const nothing = nothingDone(model);
      const dual = boundOf(model, nothing.cost);
      if (leastCost(model) > nothing.cost - 1) expect(runOut(proveOptimal(model, lp, dual, nothing, limits))).toBe(nothing);
      else {
        short++;
        expect(runOut(proveOptimal(model, lp, dual, nothing, { ...limits, mostColumns: 0 }))).toBeNull();
      }
    }
    expect(short).toBeGreaterThan(4);
  });

  it('is none where the whole program or its relaxation was stopped, and a bound claims no more than it has', () => {
    let asked = 0;
    const stopping = (part: boolean): LpSolver => ({
      open: () => {
        const real = lp.open();
        const stopped = <T extends object>(solution: T) => ({ ...solution, status: 'stopped' as const });
        return {
          addRows: (rows) => real.addRows(rows),
          addColumns: (columns) => real.addColumns(columns),
          close: () => real.close(),
          solve: () => (part ? stopped(real.solve()) : real.solve()),
          solveWhole(ms) {
            asked++;
            return stopped(real.solveWhole(ms));
          },
        };
      },
    });
    for (const model of models) {
      const nothing = nothingDone(model);
      if (leastCost(model) > nothing.cost - 1) continue;
      const dual = boundOf(model, nothing.cost);
      expect(runOut(proveOptimal(model, stopping(false), dual, nothing, limits))).toBeNull();
      expect(runOut(proveOptimal(model, stopping(true), dual, nothing, limits))).toBeNull();
      const master = openMaster(model, stopping(true));
      master.add(columnsOf(model, nothing));
      const begin = { bound: -Infinity, duals: startingDuals(model, nothing), least: [], converged: false };
      const cut = runOut(generateColumns(model, master, nearMemory(model, model.jobs.length), 1e6, begin, nothing.cost));
      expect([cut.converged, cut.bound <= leastCost(model) + 1e-6]).toEqual([false, true]);
      master.close();
    }
    expect(asked).toBeGreaterThan(10);
  });

  it('finds two alike vans for two rounds', () => {
    const time = Float64Array.of(0, 10, 10, 10, 0, 30, 10, 30, 0);
    const one = { items: 1, all: 1, setup: 0, minutes: [20], demand: 0, brings: [1], bundles: [1], leave: fixedPrice(100) };
    const van = { startPlace: 0, endPlace: 0, from: 0, to: 50, hardTo: 50, overtimePrice: 0, capacity: Infinity, kind: 7 };
    const view = { allowed: 1, opens: [0], closes: [50], itemCost: [0], visitCost: 0, promised: Infinity, latePrice: 0, step: 0 };
    const jobs = [0, 1].map((j) => ({ ...one, place: j + 1, firstRow: j }));
    const model: Model = { places: 3, time, drive: time, jobs, shifts: [van, van], views: [van, van].map(() => jobs.map(() => view)), rows: 2, triangle: hasTriangle(time, 3), wholeCosts: true }; // prettier-ignore
    const found = runOut(proveOptimal(model, lp, boundOf(model, 200), nothingDone(model), limits));
    expect(found?.cost).toBe(40);
    expect(found?.routes.map((r) => r.jobs.length)).toEqual([1, 1]);
    expect(model.triangle).toBe(false);
  });
});

describe('a kitchen with very much work', () => {
  /** Fourteen tasks, the first of which brings all the others with it. */
  const all = 2 ** 14 - 1;
  const minutes = Array.from({ length: 14 }, (_, i) => 1 + (i % 3));
  const bare = { items: 14, all, brings: minutes.map((_, i) => (i === 0 ? all : 1 << i)) };
  const job: Job = { ...bare, place: 1, setup: 2, minutes, demand: 0, bundles: bundlesOf(bare, [...minutes.keys()], new Set([all])), leave: fixedPrice(9), firstRow: 0 }; // prettier-ignore
  const shift = { startPlace: 0, endPlace: 0, from: 0, to: 60, hardTo: 60, overtimePrice: 0, capacity: Infinity, kind: 0 };
  const view = { allowed: all, opens: [0], closes: [60], itemCost: minutes.map((m) => m), visitCost: 3, promised: Infinity, latePrice: 0, step: 0 }; // prettier-ignore
  const time = Float64Array.of(0, 5, 5, 0);
  const model: Model = { places: 2, time, drive: time, jobs: [job], shifts: [shift], views: [[view]], rows: 14, triangle: true, wholeCosts: true }; // prettier-ignore

  it('is tried whole, in the order it presses, and each task with what it brings', () => {
    for (const set of job.bundles) expect(isClosed(job, set)).toBe(true);
    expect(job.bundles).toContain(all);
    for (let i = 1; i < 14; i++) expect(job.bundles).toContain(1 << i);
    // What a technician may not do is tried without.
    const some = bundlesOf(bare, [3, 2, 1], new Set([0b1110]));
    expect([...some].sort((a, b) => a - b)).toEqual([0b0010, 0b0100, 0b1000, 0b1100, 0b1110]);
    // Few tasks: every set that may be.
    const few = { items: 3, all: 7, brings: [0b011, 0b010, 0b100] };
    expect([...bundlesOf(few, [0, 1, 2], new Set([7]))].sort((a, b) => a - b)).toEqual([0b010, 0b011, 0b100, 0b110, 0b111]);
  });

  it('is priced without the rule that ties it, which only lowers the bound, and listed for no proof', () => {
    const duals = new Float64Array(14).fill(4);
    const options = bestOptions(model, 0, 0, duals);
    // Each task gains 4 for 1, 2 or 3: all of them together, with the visit.
    expect(Math.min(...options.map((o) => o.cost))).toBe(3 + minutes.reduce((sum, m) => sum + m - 4, 0));
    for (const o of options) expect(o.minutes).toBe(2 + minutes.reduce((sum, m, i) => sum + ((o.set >> i) & 1 ? m : 0), 0));
    expect(nearOptions(model, 0, 0, duals, 1e9)).toBeNull();
    const solved = runOut(solveModel(model, { seed: 1, iterations: 40, lp, remainingMs: () => 1e9, floor: -Infinity }));
    // The drive of ten, the visit of three and the items themselves, against nine for each left.
    expect(solved.solution.cost).toBe(13 + minutes.reduce((a, b) => a + b, 0));
    expect(solved.bound).toBeLessThanOrEqual(solved.solution.cost);
  });

  it('counts its sets by what is tied together: free tasks one by one', () => {
    const free: Job = { ...job, items: 3, all: 7, minutes: [1, 2, 3], brings: [0b011, 0b010, 0b100], bundles: [], firstRow: 0 };
    const small: Model = { ...model, jobs: [free], rows: 3, views: [[{ ...view, allowed: 7, itemCost: [1, 1, 1] }]] };
    const sets = (gap: number, duals: Float64Array) => (nearOptions(small, 0, 0, duals, gap) ?? []).map((o) => o.set).sort((a, b) => a - b);
    expect(sets(1e9, new Float64Array(3))).toEqual([0b010, 0b011, 0b100, 0b110, 0b111]);
    // Longer and dearer by more than the gap than another: it could be replaced.
    expect(sets(0.5, new Float64Array(3))).toEqual([0b010, 0b100]);
    expect(sets(0, Float64Array.of(9, 9, 9))).toEqual([0b010, 0b011, 0b100, 0b110, 0b111].filter((set) => set !== 0b100));
    expect(bestOptions(small, 0, 0, new Float64Array(3))).toEqual([]);
    expect(nearOptions({ ...small, views: [[null]] }, 0, 0, new Float64Array(3), 1)).toEqual([]);
  });
});

describe('tasks of one kitchen that ride together', () => {
  // Four chains of three, each task bringing the next, one free task, and one that brings all and that nobody here may do.
  const chain = (i: number) => (i === 13 ? 2 ** 14 - 1 : i === 12 ? 1 << i : [0, 1, 2].slice(i % 3).reduce((set, k) => set | (1 << (i - (i % 3) + k)), 0)); // prettier-ignore
  const minutes = Array.from({ length: 14 }, (_, i) => 1 + ((7 * i) % 5));
  const job: Job = { items: 14, all: 2 ** 14 - 1, brings: minutes.map((_, i) => chain(i)), place: 1, setup: 3, minutes, demand: 0, bundles: [], leave: fixedPrice(9), firstRow: 2 }; // prettier-ignore
  const allowed = 2 ** 13 - 1;
  const view = { allowed, opens: [0], closes: [90], itemCost: minutes.map((_, i) => i % 4), visitCost: 2, promised: Infinity, latePrice: 0, step: 0 }; // prettier-ignore
  const shift = { startPlace: 0, endPlace: 0, from: 0, to: 90, hardTo: 90, overtimePrice: 0, capacity: Infinity, kind: 0 };
  const time = Float64Array.of(0, 5, 5, 0);
  const model = (triangle: boolean): Model => ({ places: 2, time, drive: time, jobs: [job], shifts: [shift], views: [[view]], rows: 16, triangle, wholeCosts: true }); // prettier-ignore
  const duals = Float64Array.from({ length: 16 }, (_, r) => (r < 2 ? 1000 : (5 * r) % 7));
  /** Every set that may be done in one visit, by the rule itself. */
  const every = Array.from({ length: allowed }, (_, i) => i + 1)
    .filter((set) => minutes.every((_, i) => ((set >> i) & 1) === 0 || (chain(i) & ~set) === 0))
    .map((set) => {
      const inIt = minutes.map((_, i) => i).filter((i) => (set >> i) & 1);
      return { set, minutes: inIt.reduce((sum, i) => sum + (minutes[i] ?? 0), 3), cost: inIt.reduce((sum, i) => sum + (i % 4) - (duals[i + 2] ?? 0), 2) }; // prettier-ignore
    });

  it('are listed set by set for a proof, shortest first, thirteen of them', () => {
    const listed = nearOptions(model(true), 0, 0, duals, 1e9) ?? [];
    expect(listed.map((o) => o.set).sort((a, b) => a - b)).toEqual(every.map((o) => o.set));
    expect(listed.map((o) => o.minutes)).toEqual(listed.map((o) => o.minutes).sort((a, b) => a - b));
    const of = new Map(every.map((o) => [o.set, o]));
    for (const o of listed) expect(o).toEqual(of.get(o.set));
    // Near the bound: none dearer by more than the gap than one no longer.
    const cheapest = (most: number) => Math.min(...every.filter((o) => o.minutes <= most).map((o) => o.cost));
    const near = nearOptions(model(true), 0, 0, duals, 4) ?? [];
    for (const o of every) if (o.cost <= cheapest(o.minutes) + 4) expect(near.map(({ set }) => set)).toContain(o.set);
    for (const o of near) expect(o.cost).toBeLessThanOrEqual(cheapest(o.minutes - 1) + 4 + 1e-6);
  });

  it('are priced by the cheapest for each length, and where every detour costs only those that gain', () => {
    const steps = [...new Set(every.map((o) => o.minutes))].sort((a, b) => a - b).flatMap((m) => {
      const least = Math.min(...every.filter((o) => o.minutes === m).map((o) => o.cost));
      return every.some((o) => o.minutes < m && o.cost <= least) ? [] : [[m, least]];
    }); // prettier-ignore
    const told = (triangle: boolean) => bestOptions(model(triangle), 0, 0, duals).map((o) => [o.minutes, o.cost]);
    expect(told(false)).toEqual(steps);
    expect(told(true)).toEqual(steps.filter(([, cost]) => (cost ?? 0) < 0));
    for (const o of bestOptions(model(false), 0, 0, duals)) expect(every.map(({ set }) => set)).toContain(o.set);
  });
});

describe('a bound at once', () => {
  // Yard, a technician's home, and the kitchens Near and Far; ways there and back differ.
  const drive = Float64Array.of(0, 9, 10, 20, 9, 0, 50, 30, 12, 2, 0, 4, 18, 25, 6, 0);
  const time = drive.map(() => 1);
  const view = { opens: [0], closes: [90], promised: Infinity, latePrice: 0, step: 0 };
  const shift = { startPlace: 0, endPlace: 0, from: 0, to: 90, hardTo: 90, overtimePrice: 0, capacity: Infinity, kind: 0 };
  const one = { setup: 0, demand: 0, bundles: [], leave: fixedPrice(0) };
  const bound = (near: number, far: number, { endPlace = 0, items = 2, second = 7 } = {}) => {
    const each = (cost: readonly number[]) => Array.from({ length: items }, (_, i) => cost[i] ?? 0);
    const jobs: Job[] = [
      { ...one, place: 2, items, all: 2 ** items - 1, minutes: each([1, 1]), brings: each([1, 2]), leave: fixedPrice(near), firstRow: 0 },
      { ...one, place: 3, items: 1, all: 1, minutes: [1], brings: [1], leave: fixedPrice(far), firstRow: items },
    ];
    const views = [
      [{ ...view, allowed: 2 ** items - 1, itemCost: each([2, 50]), visitCost: 5 }, null],
      [
        { ...view, allowed: 2, itemCost: each([0, second]), visitCost: 3 },
        { ...view, allowed: 1, itemCost: [4], visitCost: 2 },
      ],
    ];
    return neighbourBound({ places: 4, time, drive, jobs, shifts: [shift, { ...shift, endPlace }], views, rows: items + 1, triangle: false, wholeCosts: true }); // prettier-ignore
  };

  it.each([
    // Near is entered from Far for 6 and left to Far for 4: half of both, the cheaper visit at 3, its items at 2 and 7 on their kindest days.
    ['both tasks pay', 100, 0, 5 + 3 + 2 + 7],
    ['both pay still', 12, 0, 17],
    ['leaving both is cheaper', 8, 0, 16],
    ['leaving both costs as much', 8.5, 0, 17],
    // Far is entered from Near for 4 and left to Near for 6: five, the visit at 2 and its task at 4.
    ['Far pays too', 100, 100, 17 + 11],
    ['Far is left', 100, 10.5, 17 + 10.5],
  ])('is what it comes to by hand: %s', (_, near, far, sum) => {
    expect(bound(near, far)).toBe(sum);
  });

  it('counts the ways to where a day may end, and one task of two where only that one pays', () => {
    // Home is 2 from Near: entered for 6 and left for 2.
    expect(bound(100, 0, { endPlace: 1 })).toBe(4 + 3 + 2 + 7);
    // Leaving both would cost 24, doing both 37; doing the first for 2 and leaving the second 22.
    expect(bound(12, 0, { second: 27 })).toBe(5 + 3 + 2 + 12);
  });

  it('counts a kitchen of eleven tasks as nothing, and one of ten', () => {
    const left = 0.001;
    expect(bound(left, 0, { items: 10 })).toBeCloseTo(10 * left, 9);
    expect(bound(left, 0, { items: 11 })).toBe(0);
  });
});

describe('labels', () => {
  it('keep what is in them when there are more than there was room for', () => {
    const labels = new Labels(2, 4);
    for (let i = 0; i < 100; i++) {
      const at = labels.make();
      expect([at, labels.dead[at]]).toEqual([i, 0]);
      labels.time[at] = i + 0.5;
      labels.cost[at] = i / 4;
      labels.load[at] = 2 * i;
      labels.job[at] = i % 7;
      labels.option[at] = i % 3;
      labels.parent[at] = i - 1;
      labels.stops[at] = i % 11;
      labels.dead[at] = i % 2;
      labels.barred[2 * at] = i;
      labels.barred[2 * at + 1] = 1000 + i;
    }
    expect(labels.count).toBe(100);
    for (let i = 0; i < 100; i++)
      expect([labels.time[i], labels.cost[i], labels.load[i], labels.job[i], labels.option[i], labels.parent[i], labels.stops[i], labels.dead[i], labels.barred[2 * i], labels.barred[2 * i + 1]]).toEqual(
        [i + 0.5, i / 4, 2 * i, i % 7, i % 3, i - 1, i % 11, i % 2, i, 1000 + i],
      ); // prettier-ignore
  });
});

describe('rounds met on the way', () => {
  const route = (shift: number, jobs: number[], cost: number) => ({ shift, jobs, sets: jobs.map(() => 1), minutes: [], arrive: [], start: [], finish: [], slack: [], load: 0, endArrive: 0, drive: 0, late: 0, overtime: 0, cost }); // prettier-ignore
  const model = { shifts: [{ kind: 0 }, { kind: 0 }, { kind: 1 }] } as unknown as Model;
  const solution = (...routes: ReturnType<typeof route>[]) => ({ routes, done: new Int32Array(0), cost: 0 });

  it('are kept once for each kind of shift and content, the cheapest, up to a number', () => {
    const pool = routePool(model, 3);
    pool.collect(solution(route(0, [1, 2], 30), route(1, [2, 1], 25), route(2, [1, 2], 28), route(0, [], 0)));
    expect(pool.routes().map((r) => [r.shift, r.cost])).toEqual([[1, 25], [2, 28]]); // prettier-ignore
    pool.collect(solution(route(0, [1, 2], 27)));
    expect(pool.routes().map((r) => r.cost)).toEqual([25, 28]);
    pool.collect(solution(route(0, [3], 5)));
    expect(pool.routes()).toHaveLength(3);
    pool.collect(solution(route(0, [1, 2], 1), route(0, [4], 1)));
    expect(pool.routes().map((r) => r.cost)).toEqual([25, 28, 5]);
  });
});

const shop = { lat: 41, lng: -87 };
const span = (from: number, to: number, day = DAY) => ({ startMs: at(day, from), endMs: at(day, to) });
const worker = (id: string, days: number[], place = shop, skills: string[] = [], to = 16): Technician => ({ id, name: id, skills, shifts: days.map((d) => ({ day: DAY + d, hours: span(8, to, DAY + d), startPlace: place, endPlace: place, overtimeMinutes: 60 })) }); // prettier-ignore
const kitchen = (id: string, north: number, more: Partial<Kitchen> = {}): Kitchen => ({ id, name: id, place: { lat: 41 + north, lng: -87 }, open: [0, 1, 2].map((d) => span(6, 20, DAY + d)), ...more }); // prettier-ignore
const task = (id: string, kitchenId: string, more: Partial<PlanTask> = {}): PlanTask => ({ id, kitchenId, name: id, minutes: 60, dueDay: DAY, intervalDays: 30, ...more }); // prettier-ignore
const week = (more: Partial<WeekProblem>): WeekProblem => ({ technicians: [worker('a', [0, 1])], kitchens: [], tasks: [], travel: { circuity: 1.3, speedKmh: 35 }, prices: PRICES, nextDay: DAY + 3, ...more }); // prettier-ignore

describe('a week booked by hand', () => {
  const booked = (problem: WeekProblem) => bookByHand(problem).visits.map((v) => [v.technicianId, v.day - DAY, v.kitchenId, [...v.taskIds].sort().join(' ')]); // prettier-ignore

  it('takes the oldest due work first, all of a kitchen’s due work in one visit, and nothing that is not due', () => {
    const kitchens = [kitchen('k', 0.01), kitchen('l', 0.02), kitchen('m', 0.03)];
    const tasks = [task('k1', 'k'), task('l1', 'l', { dueDay: DAY - 5 }), task('l2', 'l', { dueDay: DAY + 2 }), task('l3', 'l', { dueDay: DAY + 3 }), task('m1', 'm', { dueDay: DAY + 3 })]; // prettier-ignore
    expect(booked(week({ kitchens, tasks }))).toEqual([['a', 0, 'l', 'l1 l2'], ['a', 0, 'k', 'k1']]); // prettier-ignore
  });

  it('takes kitchens that are due alike in the order of the list', () => {
    const kitchens = ['r', 'q', 'p', 's'].map((id, i) => kitchen(id, 0.01 * i));
    const tasks = kitchens.map((k) => task(k.id, k.id));
    expect(booked(week({ kitchens, tasks })).map(([, , id]) => id)).toEqual(['r', 'q', 'p', 's']);
  });

  it('sends the nearest who can, on the first day with room, and nobody into overtime', () => {
    const north = { lat: 41.2, lng: -87 };
    const technicians = [worker('south', [0, 1]), worker('north', [0, 1], north)];
    const kitchens = [kitchen('k', 0.19), kitchen('l', 0.01), kitchen('m', 0.02)];
    const long = { minutes: 400 };
    // Six hours forty at each: one a day for either.
    const tasks = ['k', 'l', 'm'].map((id, i) => task(id, id, { ...long, dueDay: DAY - 3 + i }));
    expect(booked(week({ technicians, kitchens, tasks }))).toEqual([['south', 0, 'l', 'l'], ['south', 1, 'm', 'm'], ['north', 0, 'k', 'k']]); // prettier-ignore
    const full = bookByHand(week({ technicians: [worker('a', [0])], kitchens, tasks: tasks.map((t) => ({ ...t, minutes: 470 })) }));
    expect(full.rounds.every((r) => r.overtimeMinutes === 0)).toBe(true);
  });

  it('books in parts what nobody can do together, and not at all what nobody can do', () => {
    const technicians = [worker('roofer', [0], shop, ['roof']), worker('gas', [0], shop, ['flammable'])];
    const tasks = [task('top', 'k', { skills: ['roof'] }), task('burns', 'k', { skills: ['flammable'] }), task('dive', 'k', { skills: ['diving'] })]; // prettier-ignore
    expect(booked(week({ technicians, kitchens: [kitchen('k', 0.01)], tasks })).sort()).toEqual([['gas', 0, 'k', 'burns'], ['roofer', 0, 'k', 'top']]); // prettier-ignore
  });
});

describe('a kitchen with more tasks than a visit holds', () => {
  it('has the most pressing planned, and says of the others that they are next in line', () => {
    const tasks = Array.from({ length: 34 }, (_, i) => task(`t${String(i).padStart(2, '0')}`, 'k', { minutes: 2, dueDay: DAY - ((i * 7) % 34) })); // prettier-ignore
    const plan = runOut(planWeek(week({ kitchens: [kitchen('k', 0.01)], tasks }), { seed: 1, timeLimitMs: 1e9, now: () => 0, effort: 0.02 })); // prettier-ignore
    const late = [...tasks].sort((a, b) => a.dueDay - b.dueDay).map((t) => t.id);
    expect(plan.visits.flatMap((v) => v.taskIds).sort()).toEqual(late.slice(0, 30).sort());
    expect(plan.unplaced.map((l) => l.taskId).sort()).toEqual(late.slice(30).sort());
    for (const { reason } of plan.unplaced) expect(reason).toEqual({ code: 'full', message: 'A visit to k holds no more; it is next in line there.' }); // prettier-ignore
  });

  it('comes to the same plan in whatever order its tasks are written, many of them far off', () => {
    const near = [task('now', 'k', { dueDay: DAY - 1 }), task('soon', 'k', { dueDay: DAY + 6 }), task('then', 'k', { dueDay: DAY + 12 })];
    const far = Array.from({ length: 20 }, (_, i) => task(`far${i}`, 'k', { minutes: 90, dueDay: DAY + 40 + 3 * i, intervalDays: 45 }));
    const costs = [0, 1, 2, 3].map((seed) => {
      const tasks = shuffle(seededRandom(seed), [...near, ...far]);
      const plan = runOut(
        planWeek(week({ kitchens: [kitchen('k', 0.05)], tasks }), { seed: 1, timeLimitMs: 1e9, now: () => 0, effort: 0.05 }),
      );
      return [plan.cost.total.toFixed(6), ...plan.visits.flatMap((v) => v.taskIds).sort()];
    });
    for (const one of costs) expect(one).toEqual(costs[0]);
  });

  it('keeps a coil cleaning and its low side together at the end of the line', () => {
    const tasks = Array.from({ length: 29 }, (_, i) => task(`t${i}`, 'k', { minutes: 2, dueDay: DAY - 5 }));
    const pair = [task('coil', 'k', { role: 'coil_cleaning', unitId: 'u', dueDay: DAY - 1 }), task('low', 'k', { role: 'low_side_inspection', unitId: 'u', dueDay: DAY + 90 })]; // prettier-ignore
    const last = task('last', 'k', { minutes: 2, dueDay: DAY });
    const plan = runOut(planWeek(week({ kitchens: [kitchen('k', 0.01)], tasks: [...tasks, ...pair, last] }), { seed: 1, timeLimitMs: 1e9, now: () => 0, effort: 0.02 })); // prettier-ignore
    const done = plan.visits.flatMap((v) => v.taskIds);
    // Thirty-one would not fit with both, and one of the two is never taken alone.
    expect(done.includes('coil')).toBe(done.includes('low'));
    expect(done).toContain('last');
    expect(done).toHaveLength(30);
  });
});

describe('driving minutes read from a file', () => {
  const kitchens = [
    { id: 'a', customer: 'Nine Lanterns', name: 'Pearl Row', tags: ['NL-01'], lat: 40, lng: -105 },
    { id: 'b', customer: 'Nine Lanterns', name: 'Main', tags: [], lat: 41, lng: -105 },
    { id: 'c', customer: 'Fenwick', name: 'Main', tags: ['FW-7'], lat: null, lng: null },
  ];
  const said = (...rows: string[][]) => readTravel(rows.map((cells, i) => ({ line: i + 1, cells })), kitchens).problems.map((p) => [p.line, p.column, p.value, p.message]); // prettier-ignore
  const header = ['From', ' to ', 'MINUTES'];

  it('says line by line what is wrong, with what stood there', () => {
    expect(said()).toEqual([[1, '', '', 'The file is empty. The first line names the columns: from, to, minutes.']]);
    expect(said(['von', 'to'])).toEqual([
      [1, 'from', 'von, to', 'There is no column “from”. The first line names the columns: from, to, minutes.'],
      [1, 'minutes', 'von, to', 'There is no column “minutes”. The first line names the columns: from, to, minutes.'],
    ]);
    expect(said(header)).toEqual([[1, '', '', 'There is no line below the header.']]);
    const unknown = 'No kitchen on file is called so. Write “Customer, Kitchen” as on the kitchen’s page, or a tag of one of its units.';
    expect(said(header, ['Nowhere', ' ', '5'])).toEqual([[2, 'from', 'Nowhere', unknown], [2, 'to', '', 'Name a kitchen.']]); // prettier-ignore
    expect(said(header, ['Main', 'FW-7', '5'])).toEqual([[2, 'from', 'Main', 'More than one kitchen is called so: write it as “Nine Lanterns, Main”.']]); // prettier-ignore
    const minutes = (text: string) => said(header, ['NL-01', 'FW-7', text]).map(([, column, value, message]) => [column, value, message]);
    expect(minutes('')).toEqual([['minutes', '', 'Give the minutes, or take the line out: coordinates then answer for it.']]);
    for (const text of ['ten', '-3', '1.', '.5', '5 min', '1e2']) expect(minutes(text)).toEqual([['minutes', text, 'Give minutes as a number, such as 14 or 14.5.']]); // prettier-ignore
    expect(minutes('601')).toEqual([['minutes', '601', 'More than 600 minutes; give minutes, not seconds.']]);
    for (const text of ['600', '0', '12.5', '12,5']) expect(minutes(text)).toEqual([]);
    expect(said(header, ['NL-01', 'pearl  row', '5'])).toEqual([[2, 'to', 'pearl  row', 'From and to are the same kitchen; take the line out.']]); // prettier-ignore
    expect(said(header, ['NL-01', 'FW-7', '5'], ['FW-7', 'NL-01', '6'], ['Pearl Row', 'Fenwick, Main', '5'])).toEqual([[4, '', '', 'The same way stands on line 2 already; keep one of them.']]); // prettier-ignore
    expect(said(header, ['NL-01'])).toHaveLength(2);
  });

  it('notes a van faster than any, where both places are known', () => {
    const note = (minutes: string, to = 'Nine Lanterns, Main') => said(header, ['NL-01', to, minutes]).map(([, , , message]) => message);
    // A degree is 111.2 km: at 130 km/h 51.3 minutes.
    expect(note('51')).toEqual(['111 km in a straight line in 51 minutes: look at it again, and at the coordinates.']);
    expect(note('52')).toEqual([]);
    expect(note('0')).toHaveLength(1);
    expect(note('1', 'FW-7')).toEqual([]);
  });
});
