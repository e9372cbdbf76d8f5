import { beforeAll, describe, expect, it } from 'vitest';
import { bookByHand, learnAccess, planWeek, squeezeIn, travelMinutes, STANDARD_ACCESS, type BookedVisit, type Kitchen, type LpSolver, type PlanTask, type Technician, type WeekProblem } from '@/lib/core/planning'; // prettier-ignore
import { fixedPrice } from '@/lib/core/planning/model/leave';
import type { Model } from '@/lib/core/planning/model/model';
import { buildRoute } from '@/lib/core/planning/model/route';
import { between, seededRandom, type Random } from '@/lib/core/planning/random';
import { neighbours, ruin } from '@/lib/core/planning/search/ruin';
import { copyOf, costOf, nothingDone, setRoute } from '@/lib/core/planning/search/solution';
import { solveModel } from '@/lib/core/planning/solve-model';
import { runOut } from '@/lib/core/planning/steps';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';
import { leastCost, tinyModel } from '../../support/planning-models';
import { MONDAY_DAY as DAY, PRICES, at } from '../../support/planning-weeks';

// What the planner's sentences promise, said a second time without its code.

const shop = { lat: 41, lng: -87 };
const travel = { circuity: 1.3, speedKmh: 35 };
const span = (from: number, to: number, day = DAY) => ({ startMs: at(day, from), endMs: at(day, to) });
const spot = (random: Random) => ({ lat: 41 + random() * 0.2, lng: -87 - random() * 0.2 });
const week = (more: Partial<WeekProblem>): WeekProblem => ({ technicians: [], kitchens: [], tasks: [], travel, prices: PRICES, nextDay: DAY + 3, ...more }); // prettier-ignore
const way = (a: object, b: object): number => travelMinutes(a, b, travel) ?? NaN;

describe('a week booked by hand', () => {
  const invented = (seed: number): WeekProblem => {
    const random = seededRandom(seed);
    const technicians = Array.from({ length: between(random, 1, 3) }, (_, t): Technician => {
      const home = spot(random);
      return { id: `t${t}`, name: `t${t}`, skills: [], shifts: [0, 1, 2].map((d) => ({ day: DAY + d, hours: span(8, 8 + between(random, 3, 8), DAY + d), startPlace: home, endPlace: home, overtimeMinutes: 90 })) }; // prettier-ignore
    });
    const kitchens = Array.from({ length: between(random, 4, 9) }, (_, k): Kitchen => ({ id: `k${k}`, name: `k${k}`, place: spot(random), open: [0, 1, 2].map((d) => span(6, 20, DAY + d)), accessMinutes: 10 })); // prettier-ignore
    const tasks = kitchens.flatMap((k) => Array.from({ length: between(random, 1, 2) }, (_, i): PlanTask => ({ id: `${k.id}-${i}`, kitchenId: k.id, name: k.id, minutes: between(random, 20, 110), dueDay: DAY + between(random, -6, 5), intervalDays: 30 }))); // prettier-ignore
    return week({ technicians, kitchens, tasks });
  };

  /** In due order, to the nearest who can on the first day there is room, after what stands there. */
  function said({ technicians, kitchens, tasks, nextDay }: WeekProblem) {
    const rounds = technicians.flatMap((t) =>
      t.shifts.map((shift) => ({ who: t.id, shift, at: shift.startPlace, freeMs: shift.hours.startMs, met: new Set<string>() })),
    );
    const due = kitchens
      .map((kitchen, i) => ({ kitchen, i, tasks: tasks.filter((t) => t.kitchenId === kitchen.id && t.dueDay < nextDay) }))
      .filter((one) => one.tasks.length > 0)
      .sort((a, b) => Math.min(...a.tasks.map((t) => t.dueDay)) - Math.min(...b.tasks.map((t) => t.dueDay)) || a.i - b.i);
    const out: [string, number, string, number][] = [];
    for (const { kitchen, tasks: mine } of due) {
      const place = kitchen.place ?? shop;
      const book = (some: readonly PlanTask[]): boolean => {
        const minutes = 10 + some.reduce((sum, t) => sum + t.minutes, 0);
        const can = rounds.flatMap((round) => {
          const startMs = round.freeMs + way(round.at, place) * 60_000;
          const endMs = startMs + minutes * 60_000;
          const home = endMs + way(place, round.shift.endPlace) * 60_000;
          return home <= round.shift.hours.endMs && !round.met.has(kitchen.id)
            ? [{ round, startMs, endMs, far: way(round.at, place) }]
            : [];
        });
        const first = Math.min(...can.map((c) => c.round.shift.day));
        const [best] = can.filter((c) => c.round.shift.day === first).sort((x, y) => x.far - y.far);
        if (!best) return false;
        best.round.at = place;
        best.round.freeMs = best.endMs;
        best.round.met.add(kitchen.id);
        out.push([best.round.who, best.round.shift.day, kitchen.id, best.startMs]);
        return true;
      };
      // All of it in one visit; what is too long for that, as far as a single one of it fits.
      let open = [...mine];
      while (open.length > 0) {
        if (book(open)) break;
        const part = open.find((one) => book([one]));
        if (!part) break;
        open = open.filter((one) => one !== part);
      }
    }
    return out;
  }

  it('is as one would book it: the oldest first, the nearest who can, the first day with room, nobody into overtime', () => {
    let [booked, left] = [0, 0];
    for (let seed = 1; seed <= 60; seed++) {
      const problem = invented(seed);
      const wanted = said(problem);
      const { visits } = bookByHand(problem);
      const byId = (list: readonly (readonly [string, number, string, number])[]) =>
        [...list].sort((a, b) => a[2].localeCompare(b[2]) || a[3] - b[3]);
      expect(byId(visits.map((v) => [v.technicianId, v.day, v.kitchenId, v.hours.startMs] as const)), `week ${seed}`).toEqual(byId(wanted));
      booked += wanted.length;
      left += problem.kitchens.length - wanted.length;
    }
    expect([booked > 150, left > 20]).toEqual([true, true]);
  });
});

describe('minutes of getting in, learnt from visits', () => {
  const visit = (taskMinutes: number, minutes: number) => ({ taskMinutes, minutes });

  it('come from visits with work, neither forgotten open nor closed at once: a quarter to four times the standard', () => {
    for (const w of [10, 30, 62.5]) {
      const standard = STANDARD_ACCESS + w;
      const counted = (minutes: number) => learnAccess([visit(w, minutes)]).visits;
      expect([counted(standard / 4), counted(standard * 4), counted(standard)]).toEqual([1, 1, 1]);
      expect([counted(standard / 4 - 0.01), counted(standard * 4 + 0.01), counted(0), counted(-5)]).toEqual([0, 0, 0, 0]);
    }
    expect([learnAccess([visit(0, 10)]).visits, learnAccess([visit(-5, 5)]).visits]).toEqual([0, 0]);
    expect(learnAccess([visit(0, 10), visit(30, 1000)])).toEqual(learnAccess([]));
  });

  it('are those that a search over all pairs of access and pace finds most likely', () => {
    const random = seededRandom(31);
    for (let trial = 0; trial < 12; trial++) {
      const [access, pace] = [3 + 22 * random(), 0.7 + 0.7 * random()];
      const visits = Array.from({ length: between(random, 3, 25) }, () => {
        const w = between(random, 15, 150);
        return visit(w, (access + pace * w) * (0.8 + 0.4 * random()));
      });
      const learnt = learnAccess(visits);
      expect(learnt.visits).toBe(visits.length);
      // With weights by what it expects: the pair that it names must be the least of its own sum of squares.
      const fits = (a: number, s: number, near: readonly number[], spread: number) =>
        ((a - STANDARD_ACCESS) / 5) ** 2 + ((s - 1) / 0.5) ** 2 + visits.reduce((sum, v, i) => sum + (v.minutes - a - s * v.taskMinutes) ** 2 / (spread * (near[i] ?? NaN) ** 2), 0); // prettier-ignore
      let [a, s, spread] = [STANDARD_ACCESS, 1, 0.35 ** 2];
      for (let round = 0; round < 8; round++) {
        const near = visits.map((v) => a + s * v.taskMinutes);
        const before: readonly [number, number] = [a, s];
        let [best, step] = [[a, s] as [number, number], [8, 0.4] as [number, number]];
        for (let depth = 0; depth < 70; depth++) {
          const around = [-1, 0, 1].flatMap((i) => [-1, 0, 1].map((j): [number, number] => [best[0] + i * step[0], best[1] + j * step[1]]));
          const least = around.reduce((x, y) => (fits(...y, near, spread) < fits(...x, near, spread) - 1e-15 ? y : x), best);
          if (least === best) step = [step[0] / 2, step[1] / 2];
          best = least;
        }
        [a, s] = best;
        const off = visits.reduce((sum, v) => sum + ((v.minutes - before[0] - before[1] * v.taskMinutes) / (before[0] + before[1] * v.taskMinutes)) ** 2, 0); // prettier-ignore
        spread = (4 * 0.35 ** 2 + off) / (4 + visits.length);
      }
      expect(Math.abs(learnt.minutes - Math.min(45, Math.max(0, a / s))), `trial ${trial}`).toBeLessThan(0.3);
      expect(learnt.low).toBeLessThanOrEqual(learnt.minutes);
      expect(learnt.high).toBeGreaterThanOrEqual(learnt.minutes);
    }
  });

  it('stay between none and three quarters of an hour, and are surer the more visits there are', () => {
    const many = (n: number, access: number) =>
      learnAccess(Array.from({ length: n }, (_, i) => visit(20 + 7 * (i % 9), access + 20 + 7 * (i % 9))));
    const [few, more] = [many(5, 20), many(80, 20)];
    expect(more.high - more.low).toBeLessThan(few.high - few.low);
    expect([more.low < 20, more.high > 20, Math.abs(more.minutes - 20) < 1]).toEqual([true, true, true]);
    for (const odd of [many(60, 300), many(60, -19), many(60, 0)])
      for (const minutes of [odd.minutes, odd.low, odd.high]) expect([minutes >= 0, minutes <= 45]).toEqual([true, true]);
    expect([many(200, 70).high, many(200, 70).minutes]).toEqual([45, 45]);
    expect(many(200, -9).low).toBe(0);
  });
});

describe('an emergency', () => {
  const prices = { waitPerMinute: 0.5, movedVisit: 20, movedPerMinute: 0.2, rebooked: 40 };
  const near = (n: number) => ({ lat: 41 + 0.02 * n, lng: -87 });
  const kitchens = [1, 2, 3, 4].map((n): Kitchen => ({
    id: `k${n}`,
    name: `K${n}`,
    place: near(n),
    open: [0, 1].map((d) => span(7, 20, DAY + d)),
  }));
  const ann = (more: object = {}): Technician => ({ id: 'a', name: 'Ann', skills: [], shifts: [{ day: DAY, hours: span(8, 16), startPlace: shop, endPlace: shop, overtimeMinutes: 240, onCallMinutes: 240, ...more }] }); // prettier-ignore
  const urgent = { kitchenId: 'k1', name: 'Warm walk-in', minutes: 60, skills: [] as string[] };
  const offers = (open: { startMs: number; endMs: number }, who = ann()) => squeezeIn(week({ technicians: [who], kitchens }), [], { ...urgent, open: [open] }, at(DAY, 9), prices); // prettier-ignore

  it('is a call-out from the very end of the shift on, and none a minute before', () => {
    const last = 16 - 1 / 60;
    expect(offers(span(last, 19)).map((o) => [o.hours.startMs, o.onCall])).toEqual([[at(DAY, last), false]]);
    expect(offers(span(16, 19)).map((o) => [o.hours.startMs, o.onCall])).toEqual([[at(DAY, 16), true]]);
    expect(offers(span(16.5, 19)).map((o) => o.onCall)).toEqual([true]);
    expect(offers(span(9, 19), ann({ onCall: true })).map((o) => o.onCall)).toEqual([true]);
    // Not past what the day may run over.
    expect(offers(span(19.5, 23))).toEqual([]);
  });

  it('that has a visit rebooked makes nobody late there, and costs its drive there too', () => {
    const random = seededRandom(33);
    let [rebooked, paid] = [0, 0];
    for (let trial = 0; trial < 120; trial++) {
      const people = ['a', 'b', 'c'].map((id): Technician => ({ id, name: id, skills: id === 'a' ? ['gas'] : [], shifts: [0, 1].map((d) => ({ day: DAY + d, hours: span(8, 17, DAY + d), startPlace: shop, endPlace: shop, overtimeMinutes: 60 })) })); // prettier-ignore
      const visits = people.flatMap(({ id }) => {
        let from = 8.5 + between(random, 0, 3) / 4;
        return Array.from({ length: between(random, 2, 4) }, (_, i): BookedVisit => {
          const to = from + between(random, 3, 8) / 4;
          const visit = {
            id: `${id}${i}`,
            technicianId: id,
            kitchenId: `k${between(random, 1, 4)}`,
            hours: span(from, to),
            skills: [],
            fixed: false,
          };
          from = to + between(random, 1, 5) / 6;
          return visit;
        }).filter((v) => v.hours.endMs <= at(DAY, 17));
      });
      const problem = week({
        technicians: people,
        kitchens: kitchens.map((k) => ({ ...k, open: [0, 1].map((d) => span(8, 17, DAY + d)) })),
      });
      const call = { ...urgent, skills: ['gas'], minutes: between(random, 60, 180) };
      for (const option of squeezeIn(problem, visits, call, at(DAY, 9), { ...prices, waitPerMinute: 3 })) {
        const gone = option.moved.find((m) => m.technicianId !== option.technicianId || Math.floor(m.to.startMs / 86_400_000) !== DAY);
        if (!gone) continue;
        rebooked++;
        const placeOf = (id: string) => near(Number(id.slice(1)));
        const kitchenOf = (id: string) => visits.find((v) => v.id === id)?.kitchenId ?? '';
        const there = visits
          .filter((v) => v.technicianId === gone.technicianId && Math.floor(v.hours.startMs / 86_400_000) === Math.floor(gone.to.startMs / 86_400_000) && v.id !== gone.visitId)
          .sort((x, y) => x.hours.startMs - y.hours.startMs); // prettier-ignore
        const before = there.filter((v) => v.hours.startMs < gone.to.startMs).at(-1);
        const after = there.find((v) => v.hours.startMs >= gone.to.startMs);
        const mine = placeOf(kitchenOf(gone.visitId));
        if (before) expect(before.hours.endMs + way(placeOf(before.kitchenId), mine) * 60_000, `trial ${trial}`).toBeLessThanOrEqual(gone.to.startMs + 1); // prettier-ignore
        const late = (from: object, endMs: number, next: BookedVisit) => Math.max(0, endMs + way(from, placeOf(next.kitchenId)) * 60_000 - next.hours.startMs); // prettier-ignore
        if (after) expect(late(mine, gone.to.endMs, after), `trial ${trial}`).toBeLessThanOrEqual((before ? late(placeOf(before.kitchenId), before.hours.endMs, after) : 0) + 1); // prettier-ignore
        // Only on the round that the emergency goes into may others begin later.
        for (const move of option.moved) if (move !== gone) expect(move.technicianId).toBe(option.technicianId);
        // What was late already and is no more makes it cheaper; where nothing was, all of this is paid.
        const wasLate = visits.some((v, i) => i > 0 && v.technicianId === visits[i - 1]?.technicianId && late(placeOf(visits[i - 1]?.kitchenId ?? ''), visits[i - 1]?.hours.endMs ?? 0, v) > 0); // prettier-ignore
        if (!wasLate) paid++;
        if (!wasLate) expect(option.cost).toBeGreaterThanOrEqual(prices.rebooked + option.moved.length * prices.movedVisit + option.waitMinutes * 3 + option.extraDriveMinutes * PRICES.drivingPerMinute - 1e-6); // prettier-ignore
      }
    }
    expect([rebooked > 40, paid > 10]).toEqual([true, true]);
  });
});

describe('why work stays undone', () => {
  const why = (more: Partial<Kitchen>, minutes: number, technicians: Technician[]) =>
    runOut(planWeek(week({ technicians, kitchens: [{ id: 'k', name: 'K', place: { lat: 41.1, lng: -87 }, open: [span(6, 20)], accessMinutes: 10, ...more }], tasks: [{ id: 'x', kitchenId: 'k', name: 'x', minutes, dueDay: DAY, intervalDays: 30 }] }), { seed: 1, timeLimitMs: 1e9, now: () => 0, effort: 0.02 })) // prettier-ignore
      .unplaced.map(({ reason }) => reason.code);
  const from = (to: number): Technician[] => [{ id: 'a', name: 'Ann', skills: [], shifts: [{ day: DAY, hours: span(8, to), startPlace: shop, endPlace: shop, overtimeMinutes: 0 }] }]; // prettier-ignore
  // 11.12 km × 1.3 at 35 km/h are 25 minutes each way.

  it('is the way where the hours would do, and the hours where they would not, to the minute', () => {
    // Ten minutes of getting in and fifty of work: an hour, and fifty minutes at the wheel.
    expect(why({}, 50, from(8 + 110 / 60))).toEqual([]);
    expect(why({}, 50, from(8 + 109 / 60))).toEqual(['too_far']);
    // It opens at nine: an hour of work ends as the shift does, and nobody is home.
    expect(why({ open: [span(9, 20)] }, 50, from(10 + 25 / 60))).toEqual([]);
    expect(why({ open: [span(9, 20)] }, 50, from(10))).toEqual(['too_far']);
    expect(why({ open: [span(9, 20)] }, 50, from(10 - 1 / 60))).toEqual(['hours_never_meet']);
    // An opening that lasts as long as the work does.
    expect(why({ open: [span(9, 10)] }, 50, from(16))).toEqual([]);
    expect(why({ open: [span(9, 10 - 1 / 60)] }, 50, from(16))).toEqual(['hours_too_short']);
  });
});

describe('the search', () => {
  let lp: LpSolver;
  beforeAll(async () => {
    lp = await highsLp();
  });

  it('ends when a bound known beforehand is met, however long it may run, and tells each plan that is better', () => {
    const random = seededRandom(41);
    for (let trial = 0; trial < 10; trial++) {
      const model = tinyModel(random, { plain: true });
      const least = leastCost(model);
      const told: number[] = [];
      let asked = 0;
      const all = { seed: trial, iterations: 40, useAllTime: true, remainingMs: () => (asked++ > 20_000 ? 0 : 1e9), onImprovement: (s: { cost: number }) => told.push(s.cost) }; // prettier-ignore
      const solved = runOut(solveModel(model, { ...all, floor: least }));
      expect([solved.proven, asked < 20_000]).toEqual([true, true]);
      expect(solved.solution.cost).toBeCloseTo(least, 6);
      expect(solved.bound).toBe(solved.solution.cost);
      expect(told).toEqual([...told].sort((a, b) => b - a));
      expect(told.at(-1)).toBeCloseTo(solved.solution.cost, 9);
      // A floor below it proves nothing, and stands as the bound.
      const cut = runOut(solveModel(model, { ...all, useAllTime: false, floor: least - 5 }));
      expect([cut.proven, cut.bound]).toEqual([false, least - 5]);
      // With a solver the gap is closed without more search.
      expect(runOut(solveModel(model, { ...all, lp, floor: least - 5 })).proven).toBe(true);
    }
  });

  it('begins with a plan that is given, and is never dearer than it', () => {
    const random = seededRandom(43);
    for (let trial = 0; trial < 10; trial++) {
      const model = tinyModel(random);
      const start = runOut(solveModel(model, { seed: 1, iterations: 200, remainingMs: () => 1e9, floor: -Infinity })).solution;
      const again = runOut(solveModel(model, { seed: 2, iterations: 1, remainingMs: () => 1e9, floor: -Infinity, start }));
      expect(again.solution.cost).toBeLessThanOrEqual(start.cost + 1e-9);
    }
  });

  it('leaves a round whole where the way without a stop would be too long', () => {
    // From the yard to the far kitchen only by the near one: the direct way takes for ever.
    const time = Float64Array.of(0, 5, 500, 5, 0, 5, 500, 5, 0);
    const one = { items: 1, all: 1, setup: 0, minutes: [1], demand: 0, brings: [1], bundles: [1], leave: fixedPrice(100) };
    const jobs = [
      { ...one, place: 1, firstRow: 0 },
      { ...one, place: 2, firstRow: 1 },
      { ...one, place: 1, firstRow: 2 },
    ];
    const view = { allowed: 1, opens: [0], closes: [100], itemCost: [0], visitCost: 0, promised: Infinity, latePrice: 0, step: 0 };
    const shift = { startPlace: 0, endPlace: 0, from: 0, to: 60, hardTo: 60, overtimePrice: 0, capacity: Infinity, kind: 0 };
    const model: Model = { places: 3, time, drive: time, jobs, shifts: [shift], views: [jobs.map(() => view)], rows: 3, triangle: false, wholeCosts: true }; // prettier-ignore
    const route = buildRoute(model, 0, [0, 1, 2], [1, 1, 1]);
    const full = nothingDone(model);
    if (!route) throw new Error('the whole round can be driven');
    setRoute(model, full, route);
    const met = new Set<string>();
    for (let seed = 0; seed < 40; seed++) {
      const solution = copyOf(full);
      ruin(model, neighbours(model), solution, seededRandom(seed));
      const left = solution.routes[0]?.jobs ?? [];
      met.add(left.join(' '));
      expect(solution.cost).toBeCloseTo(costOf(model, solution), 9);
      expect(Array.from(solution.done)).toEqual(jobs.map((_, j) => Number(left.includes(j))));
    }
    // Every part that can be driven is met, and none that cannot.
    expect([...met].every((left) => ['', '0', '2', '0 1 2', '0 2', '0 1', '1 2'].includes(left))).toBe(true);
    expect([met.has('1'), met.has('0 1'), met.has('1 2'), met.has('0 1 2')]).toEqual([false, false, false, true]);
  });
});
