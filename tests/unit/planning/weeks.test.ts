import { describe, expect, it } from 'vitest';
import {
  bookByHand,
  checkPlan,
  explainVisits,
  planWeek,
  travelMinutes,
  type FixedVisit,
  type Kitchen,
  type Place,
  type Plan,
  type PlanTask,
  type Shift,
  type Technician,
  type WeekProblem,
} from '@/lib/core/planning';
import { runOut } from '@/lib/core/planning/steps';
import { compileWeek } from '@/lib/core/planning/week/compile';
import { itemsOf } from '@/lib/core/planning/week/items';
import { at, MONDAY_DAY as DAY, PRICES, shopWeek } from '../../support/planning-weeks';

const MINUTE = 60_000;
const shop = { lat: 41, lng: -87 };
const span = (from: number, to: number, day = DAY) => ({ startMs: at(day, from), endMs: at(day, to) });
const shift = (day: number, from = 8, to = 16, more: Partial<Shift> = {}): Shift => ({ day, hours: span(from, to, day), startPlace: shop, endPlace: shop, ...more }); // prettier-ignore
const tova = (shifts: Shift[], more: Partial<Technician> = {}): Technician => ({ id: 't', name: 'Tova', skills: [], shifts, ...more });
const kitchen = (id: string, north: number, more: Partial<Kitchen> = {}): Kitchen => ({ id, name: `Kitchen ${id}`, place: { lat: 41 + north, lng: -87 }, open: [0, 1, 2, 3].map((d) => span(6, 20, DAY + d)), accessMinutes: 10, ...more }); // prettier-ignore
const task = (id: string, kitchenId: string, more: Partial<PlanTask> = {}): PlanTask => ({ id, kitchenId, name: `Task ${id}`, minutes: 30, dueDay: DAY, intervalDays: 30, ...more }); // prettier-ignore
const fixed = (id: string, kitchenId: string, hours: { startMs: number; endMs: number }, more: Partial<FixedVisit> = {}): FixedVisit => ({ id, technicianId: 't', kitchenId, hours, taskIds: [`in ${id}`], ...more }); // prettier-ignore
const week = (more: Partial<WeekProblem>): WeekProblem => ({ technicians: [tova([shift(DAY)])], kitchens: [], tasks: [], travel: { circuity: 1.3, speedKmh: 35 }, prices: PRICES, nextDay: DAY + 2, ...more }); // prettier-ignore
const planned = (problem: WeekProblem, effort = 0.05): Plan =>
  runOut(planWeek(problem, { seed: 1, timeLimitMs: 1e9, now: () => 0, effort }));
const inOrder = (plan: Plan) => plan.visits.map((v) => v.fixedId ?? v.kitchenId);

/** What a plan costs as its visits and rounds say, added up anew. */
function addedUp(problem: WeekProblem, plan: Pick<Plan, 'visits' | 'rounds'>) {
  const tasks = new Map(problem.tasks.map((t) => [t.id, t]));
  const kitchens = new Map(problem.kitchens.map((k) => [k.id, k]));
  const way = (a: Place | null | undefined, b: Place | null | undefined) => (a && b ? (travelMinutes(a, b, problem.travel) ?? NaN) : NaN);
  const sum = { drivingMinutes: 0, visits: 0, overtimeMinutes: 0, latenessMinutes: 0, early: 0, overdue: 0 };
  for (const round of plan.rounds) {
    const shifts = problem.technicians.find((t) => t.id === round.technicianId)?.shifts.filter((s) => s.day === round.day) ?? [];
    const first = plan.visits[round.visits[0] ?? -1];
    const own = shifts.find((s) => first && first.hours.startMs < s.hours.endMs + 6 * 60 * MINUTE && first.hours.startMs > s.hours.startMs - 6 * 60 * MINUTE); // prettier-ignore
    if (!own) throw new Error('a round has a shift here');
    let place = own.startPlace;
    let minutes = 0;
    for (const v of round.visits.map((i) => plan.visits[i])) {
      const to = kitchens.get(v?.kitchenId ?? '');
      const drive = way(place, to?.place);
      expect(v?.driveMinutes).toBe(drive);
      minutes += drive;
      place = to?.place ?? place;
      const promise = problem.fixed?.find((f) => f.id === v?.fixedId);
      if (promise && v) {
        const late = (v.hours.startMs - promise.hours.startMs) / MINUTE;
        expect(v.lateMinutes).toBe(late);
        expect(v.taskIds).toEqual(promise.taskIds);
        sum.latenessMinutes += late;
        continue;
      }
      expect(v?.lateMinutes).toBe(0);
      sum.visits += Math.ceil(to?.accessMinutes ?? 0) * problem.prices.workPerMinute;
      for (const id of v?.taskIds ?? []) {
        const t = tasks.get(id);
        if (!t || !v) throw new Error(id);
        const days = t.dueDay - v.day;
        if (days > 0) sum.early += t.minutes * problem.prices.workPerMinute * Math.min(1, days / t.intervalDays);
        else sum.overdue -= days * problem.prices.overduePerDay;
      }
    }
    const home = way(place, own.endPlace);
    expect(round.homeDriveMinutes).toBe(home);
    expect(round.driveMinutes).toBe(minutes + home);
    const last = plan.visits[round.visits.at(-1) ?? -1];
    expect(round.backMs).toBe((last?.hours.endMs ?? NaN) + home * MINUTE);
    expect(round.leaveMs).toBe((first?.hours.startMs ?? NaN) - (first?.driveMinutes ?? NaN) * MINUTE);
    expect(round.overtimeMinutes).toBe(Math.max(0, Math.ceil((round.backMs - own.hours.endMs) / MINUTE)));
    sum.drivingMinutes += minutes + home;
    sum.overtimeMinutes += round.overtimeMinutes;
  }
  const { prices } = problem;
  return {
    ...sum,
    driving: sum.drivingMinutes * prices.drivingPerMinute,
    overtime: sum.overtimeMinutes * prices.overtimePerMinute,
    lateness: sum.latenessMinutes * prices.latePerMinute,
  };
}

describe('what a plan costs', () => {
  const tight = (seed: number): WeekProblem => {
    const base = shopWeek(seed, { kitchens: 7, technicians: 2, days: 2 });
    // Nobody is off: what was promised lies in somebody's shift.
    const technicians = base.technicians.map((t) => ({ ...t, shifts: [0, 1].map((d) => ({ ...(t.shifts[0] ?? shift(DAY)), day: DAY + d, hours: span(7, 15.5, DAY + d) })) })); // prettier-ignore
    return {
      ...base,
      technicians,
      fixed: [0, 1].map((d) => ({ id: `f${d}`, technicianId: 't0', kitchenId: `k${d}`, hours: span(9, 10, DAY + d), mayRunLateMinutes: 45, taskIds: [`promised ${d}`] })).concat(
        // Too soon after the first, two kitchens on: it begins late.
        [{ id: 'late', technicianId: 't0', kitchenId: 'k3', hours: span(10, 11), mayRunLateMinutes: 60, taskIds: ['k3-u0-coil'] }],
      ), // prettier-ignore
    };
  };
  const close = (cost: Plan['cost'], sum: ReturnType<typeof addedUp>) => {
    for (const [part, value] of Object.entries(sum))
      expect([part, cost[part as keyof typeof sum]]).toEqual([part, expect.closeTo(value, 6)]);
    const parts = cost.driving + cost.visits + cost.overtime + cost.lateness + cost.early + cost.overdue + cost.left;
    expect(cost.total).toBeCloseTo(parts, 6);
  };

  it('is what its visits and rounds add up to, promised visits and their lateness included', () => {
    let late = 0;
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const problem = tight(seed);
      const plan = planned(problem);
      expect(checkPlan(problem, plan)).toEqual([]);
      close(plan.cost, addedUp(problem, plan));
      late += plan.cost.latenessMinutes;
      expect(plan.lowerBound).toBeLessThanOrEqual(plan.cost.total);
      expect(plan.gap).toBeCloseTo((plan.cost.total - plan.lowerBound) / plan.cost.total, 9);
    }
    expect(late).toBeGreaterThan(0);
  });

  it('is added up in the same way for a week booked by hand', () => {
    for (const seed of [1, 2, 3]) {
      const problem = tight(seed);
      const hand = bookByHand(problem);
      close(hand.cost, addedUp(problem, hand));
      expect(hand.cost.total).toBeGreaterThanOrEqual(planned(problem).cost.total - 1e-6);
    }
  });
});

describe('promised visits and shifts', () => {
  const kitchens = [kitchen('a', 0.02), kitchen('b', 0.04), kitchen('c', -0.02)];

  it('lengthen the day they are near to, for themselves alone', () => {
    // The shift ends at 16; a visit was promised at 19, and a task is due that would fill the hours between.
    const problem = week({ kitchens, tasks: [task('long', 'c', { minutes: 200 })], fixed: [fixed('evening', 'a', span(19, 20)), fixed('noon', 'b', span(10, 15))] }); // prettier-ignore
    const plan = planned(problem);
    expect(checkPlan(problem, plan)).toEqual([]);
    expect(plan.rounds).toHaveLength(1);
    expect(inOrder(plan)).toEqual(['noon', 'evening']);
    expect(plan.unplaced.map((l) => [l.taskId, l.reason.code])).toEqual([['long', 'full']]);
    expect(plan.rounds[0]?.backMs).toBeGreaterThan(at(DAY, 20));
  });

  it('far from any shift have days of their own, counted from the nearest, on which nothing else is done', () => {
    const shifts = [shift(DAY), shift(DAY + 3)];
    const hours = [span(10, 11, DAY + 1), span(16, 17, DAY + 1), span(23.5, 23.75, DAY + 1)];
    const problem = week({
      technicians: [tova(shifts)],
      kitchens,
      nextDay: DAY + 4,
      tasks: [task('due', 'c', { dueDay: DAY + 1, notBeforeDay: DAY + 1 })],
      fixed: hours.map((h, i) => fixed(`f${i}`, ['a', 'b', 'c'][i] ?? '', h)),
    });
    const plan = planned(problem);
    // Ten o'clock and four o'clock are one day's work; half past eleven at night is another's.
    expect(plan.rounds.map((r) => [r.day - DAY, r.visits.map((i) => plan.visits[i]?.fixedId ?? plan.visits[i]?.kitchenId)])).toEqual([
      [1, ['f0', 'f1']],
      [2, ['f2']],
      [3, ['c']],
    ]);
    expect(plan.visits.find((v) => v.kitchenId === 'c' && v.fixedId === null)?.day).toBe(DAY + 3);
    expect(plan.rounds[0]?.driveMinutes).toBeGreaterThan(plan.visits[0]?.driveMinutes ?? NaN);
  });

  it('of someone with no shift at all begin and end where they are, on the last day planned', () => {
    const plan = planned(week({ technicians: [tova([])], kitchens, fixed: [fixed('one', 'a', span(9, 10)), fixed('two', 'b', span(11, 12))] })); // prettier-ignore
    expect(plan.rounds).toHaveLength(1);
    expect(plan.rounds[0]).toMatchObject({ day: DAY + 1, homeDriveMinutes: 0, overtimeMinutes: 0 });
    expect(plan.visits.map((v) => [v.fixedId, v.driveMinutes])).toEqual([['one', 0], ['two', travelMinutes({ lat: 41.02, lng: -87 }, { lat: 41.04, lng: -87 }, { circuity: 1.3, speedKmh: 35 })]]); // prettier-ignore
  });

  it('that cannot both be kept are said so, and nobody is booked at either time', () => {
    const problem = week({
      kitchens,
      tasks: [task('x', 'c', { minutes: 60 })],
      fixed: [fixed('one', 'a', span(9, 12)), fixed('two', 'b', span(10, 14))],
    });
    const plan = planned(problem);
    expect(plan.unplaced.map((l) => [l.taskId, l.reason.code])).toEqual([['in two', 'fixed_clash']]);
    const free = plan.visits.find((v) => v.fixedId === null);
    expect(free?.hours.startMs).toBeGreaterThanOrEqual(at(DAY, 14));
    expect(checkPlan({ ...problem, fixed: problem.fixed }, plan)).toEqual([]);
  });

  it.each([
    ['at a kitchen nobody knows', fixed('f', 'nowhere', span(9, 10)), 'unknown_kitchen'],
    ['at a kitchen without coordinates', fixed('f', 'lost', span(9, 10)), 'no_place'],
    ['that ends before it begins', fixed('f', 'a', span(10, 9)), 'reversed_hours'],
    ['with someone who is not in the list', fixed('f', 'a', span(9, 10), { technicianId: 'x' }), 'no_shift'],
  ])('%s stay, with the reason why nothing is planned around them', (_, visit, code) => {
    const plan = planned(week({ kitchens: [...kitchens, kitchen('lost', 0, { place: null })], tasks: [task('x', 'c')], fixed: [visit] }));
    expect(plan.unplaced).toEqual([{ taskId: 'in f', reason: { code, message: expect.stringMatching(/fixed visit/) } }]);
    const free = plan.visits.find((v) => v.kitchenId === 'c');
    // Whoever has promised to be elsewhere then is not free, wherever that is.
    if (code === 'unknown_kitchen' || code === 'no_place') expect((free?.hours.endMs ?? NaN) <= visit.hours.startMs || (free?.hours.startMs ?? NaN) >= visit.hours.endMs).toBe(true); // prettier-ignore
    expect(free).toBeDefined();
  });

  it('of two shifts that overlap the first is used, and overtime ends where the next shift begins', () => {
    const twice = [shift(DAY, 8, 12, { overtimeMinutes: 300 }), shift(DAY, 11, 18), shift(DAY, 13, 17)];
    const open = kitchen('a', 0.02, { open: [span(11.9, 13.4)] });
    const problem = week({ technicians: [tova(twice)], kitchens: [open, kitchen('b', -0.03)], tasks: [task('x', 'a', { minutes: 40 }), task('y', 'b', { minutes: 200 })] }); // prettier-ignore
    const plan = planned(problem);
    expect(checkPlan(problem, plan)).toEqual([]);
    for (const round of plan.rounds) {
      const first = plan.visits[round.visits[0] ?? -1];
      expect(round.backMs).toBeLessThanOrEqual(at(DAY, (first?.hours.startMs ?? 0) < at(DAY, 13) ? 13 : 17));
    }
    expect(plan.visits).toHaveLength(2);
  });
});

describe('shifts as they may be given', () => {
  it('in another order, or with one that ends where it begins, make the same week', () => {
    const shifts = [shift(DAY, 8, 12, { overtimeMinutes: 90 }), shift(DAY, 13, 17), shift(DAY + 1)];
    const kitchens = [kitchen('a', 0.02), kitchen('b', -0.03), kitchen('c', 0.05)];
    const tasks = [task('x', 'a', { minutes: 150 }), task('y', 'b', { minutes: 150 }), task('z', 'c', { minutes: 150 })];
    const told = (given: Shift[]) => {
      const problem = week({ technicians: [tova(given)], kitchens, tasks });
      const plan = planned(problem);
      expect(checkPlan(problem, plan)).toEqual([]);
      return [plan.cost.total, plan.visits.length];
    };
    const whole = told(shifts);
    expect(whole[1]).toBe(3);
    expect(told([...shifts].reverse())).toEqual(whole);
    expect(told([shift(DAY, 10, 10), ...shifts, shift(DAY, 9, 9)])).toEqual(whole);
  });
});

describe('why due work is left', () => {
  const why = (more: Partial<WeekProblem>) => planned(week(more)).unplaced.map((l) => `${l.reason.code}: ${l.reason.message}`);

  it('names by how much the trip is dearer than waiting', () => {
    // 28.9 km × 1.3 at 35 km/h are 65 minutes each way at 1, and 10 minutes of access at 0.75.
    const far = kitchen('far', 0.26, { anotherTrip: 12 });
    const prices = { ...PRICES, leftUndone: 20 };
    const now = 2 * 65 + 7.5;
    const waiting = 12 + 20 + 2 * PRICES.overduePerDay;
    expect(why({ kitchens: [far], tasks: [task('x', 'far')], prices })).toEqual([
      `dearer: There is room, but the trip would cost ${(now - waiting).toFixed(0)} more than waiting (a due task that waits is priced at 20).`,
    ]);
  });

  it('says when it is too far, when nobody works then, and when everybody is taken', () => {
    const kitchens = [kitchen('far', 2.2)];
    expect(why({ kitchens, tasks: [task('x', 'far')] })).toEqual(['too_far: Kitchen far is too far to drive there, work 40 min and be back within a shift.']); // prettier-ignore
    const night = [kitchen('n', 0.01, { open: [span(18, 23)] })];
    expect(why({ kitchens: night, tasks: [task('x', 'n')] })).toEqual(['hours_never_meet: Kitchen n is never open while someone who could do it is at work.']); // prettier-ignore
    const dusk = [kitchen('n', 0.01, { open: [span(15.5, 23)] })];
    expect(why({ kitchens: dusk, tasks: [task('x', 'n')] })).toEqual(['hours_never_meet: No opening of Kitchen n has 40 min while someone who could do it is at work.']); // prettier-ignore
    const short = [kitchen('n', 0.01, { open: [span(9, 9.5)] })];
    expect(why({ kitchens: short, tasks: [task('x', 'n')] })[0]).toMatch(/^hours_too_short: It takes 40 min on site/);
    const two = [kitchen('a', 0.01), kitchen('b', 0.02)];
    expect(why({ kitchens: two, tasks: [task('x', 'a')], fixed: [fixed('day', 'b', span(8.2, 15.8))] })).toEqual(['full: Everyone who could do it is booked whenever Kitchen a is open.']); // prettier-ignore
  });

  it('names who could do it and is off, and a day that comes too late', () => {
    const kitchens = [kitchen('r', 0.01, { skills: ['roof'] })];
    const with2 = (shifts: Shift[][]) => [tova([shift(DAY)]), ...shifts.map((s, i) => tova(s, { id: `x${i}`, name: ['Ann', 'Bo', 'Cy'][i] ?? '', skills: ['roof'] }))]; // prettier-ignore
    expect(why({ kitchens, tasks: [task('x', 'r')], technicians: with2([[]]) })).toEqual(['skill_off: Ann could do it, but is off on these days.']); // prettier-ignore
    expect(why({ kitchens, tasks: [task('x', 'r')], technicians: with2([[], [], []]) })).toEqual(['skill_off: Ann, Bo and Cy could do it, but are off on these days.']); // prettier-ignore
    expect(why({ kitchens: [kitchen('a', 0.01)], tasks: [task('x', 'a', { notBeforeDay: DAY + 1 })] })).toEqual(['not_yet: It may not be done before a day on which no one who could do it works.']); // prettier-ignore
  });

  it('tells what can wait apart, by how long and what doing it now would waste', () => {
    const plan = planned(week({ kitchens: [kitchen('a', 0.1)], tasks: [task('x', 'a', { minutes: 120, dueDay: DAY + 16, intervalDays: 30 })] })); // prettier-ignore
    expect(plan.unplaced).toEqual([]);
    expect(plan.later).toEqual([{ taskId: 'x', reason: { code: 'later', message: 'Not due until 15 days after this week; doing it now would waste 50 % of its interval.' } }]); // prettier-ignore
  });
});

describe('what a proposed visit is for, stop by stop', () => {
  const kitchens = [kitchen('a', 0.1), kitchen('b', 0.2), kitchen('c', -0.1), kitchen('lost', 0, { place: null })];
  const tasks = [
    task('old', 'a', { dueDay: DAY - 3 }),
    task('older', 'a', { dueDay: DAY - 9 }),
    task('now', 'a', { dueDay: DAY + 1 }),
    task('early', 'a', { dueDay: DAY + 12, minutes: 40 }),
    task('stays', 'a', { dueDay: DAY + 30 }),
    task('stays longer', 'a', { dueDay: DAY + 50 }),
    task('promised', 'a', { dueDay: DAY + 20 }),
    task('b1', 'b', { dueDay: DAY }),
    task('c1', 'c', { dueDay: DAY + 1 }),
  ];
  const problem = week({ kitchens, tasks, fixed: [fixed('f', 'c', span(14, 15), { taskIds: ['promised'] })] });
  const visit = (kitchenId: string, from: number, taskIds: string[], more = {}) => ({ kitchenId, technicianId: 't', day: DAY, hours: span(from, from + 1), taskIds, driveMinutes: 0, fixedId: null, lateMinutes: 0, ...more }); // prettier-ignore
  // A tenth of a degree is 11.12 km: 25 minutes at 1.3 and 35 km/h, two tenths 50.
  const a = visit('a', 9, ['old', 'older', 'now', 'early']);

  it('counts what is overdue, due and taken along, and the next of what stays', () => {
    expect(explainVisits(problem, [a]).get(0)).toEqual({
      overdue: 2,
      longestOverdueDays: 9,
      due: 1,
      along: 1,
      furthestDays: 12,
      detourMinutes: 50,
      drivingCost: 50,
      earlyCost: (40 * 0.75 * 12) / 30 + (30 * 0.75 * 1) / 30,
      nextDueDay: DAY + 30,
      only: null,
    });
  });

  it('counts only the driving that the others on the day would not ask for', () => {
    const visits = [visit('c', 14, ['promised'], { fixedId: 'f' }), visit('b', 11, ['b1']), a];
    const why = explainVisits(problem, visits);
    // On the way to b, a adds nothing; b adds the way beyond a and back past it: 50 + 76 less 51 from a to c.
    expect([...why.keys()]).toEqual([1, 2]);
    expect(why.get(2)?.detourMinutes).toBe(0);
    const minutes = (from: number, to: number) => travelMinutes({ lat: 41 + from, lng: -87 }, { lat: 41 + to, lng: -87 }, problem.travel) ?? NaN; // prettier-ignore
    expect(why.get(1)?.detourMinutes).toBe(minutes(0.1, 0.2) + minutes(0.2, -0.1) - minutes(0.1, -0.1));
    expect(why.get(1)).toMatchObject({ only: 'Task b1', nextDueDay: null, overdue: 0, longestOverdueDays: 0, due: 1, along: 0, furthestDays: 0, earlyCost: 0 }); // prettier-ignore
    // The same kitchens on another day or with somebody else are other rounds.
    const apart = explainVisits(problem, [a, { ...visit('b', 11, ['b1']), day: DAY + 1 }, visit('c', 12, ['c1'], { technicianId: 'u' })]);
    expect(apart.get(0)?.detourMinutes).toBe(50);
    expect([apart.get(1)?.detourMinutes, apart.get(2)?.detourMinutes]).toEqual([0, 0]);
  });

  it('counts no way to where nobody knows the way', () => {
    expect(explainVisits(problem, [visit('lost', 9, [])]).get(0)).toMatchObject({ detourMinutes: 0, drivingCost: 0, due: 0, only: null });
  });
});

describe('technicians who are alike', () => {
  const alike = (id: string) => tova([shift(DAY)], { id, name: id });
  const promised = (hours: { startMs: number; endMs: number }): FixedVisit => fixed('promised', 'far', hours, { technicianId: 'a' });

  it('but for what one has promised are not taken for each other', () => {
    const problem = week({
      technicians: [alike('a'), alike('b')],
      kitchens: [kitchen('k', 0.02), kitchen('far', 0.05)],
      tasks: [task('late', 'k', { dueDay: DAY - 20 })],
      fixed: [promised(span(8.25, 15.75))],
    });
    const plan = planned(problem);
    expect(plan.visits.map((v) => [v.technicianId, v.fixedId ?? v.kitchenId])).toEqual([['a', 'promised'], ['b', 'k']]); // prettier-ignore
  });

  it('nor where the promise is at a kitchen that is nowhere on the map', () => {
    const problem = week({
      technicians: [alike('a'), alike('b')],
      kitchens: [kitchen('k', 0.02), kitchen('far', 0.05, { place: {} })],
      tasks: [task('late', 'k', { dueDay: DAY - 20 })],
      fixed: [promised(span(8, 16))],
    });
    expect(planned(problem).visits.filter((v) => v.kitchenId === 'k').map((v) => v.technicianId)).toEqual(['b']); // prettier-ignore
  });
});

describe('when a visit may be made', () => {
  const hours = (ms: number) => (ms - at(DAY, 0)) / 3_600_000;
  const elsewhere = (from: number, to: number, technicianId = 't') => fixed('kept', 'k', span(from, to), { technicianId });
  /** Openings of the one kitchen to the one shift, 8 to 16 and an hour more, in hours. */
  const windows = (open: { startMs: number; endMs: number }[], kept: FixedVisit[] = []) => {
    const technicians = [tova([shift(DAY, 8, 16, { overtimeMinutes: 60 })])];
    const { model, originMs } = compileWeek(week({ technicians, kitchens: [kitchen('k', 0.02, { open })], tasks: [task('x', 'k')] }), kept);
    const view = model.views[0]?.[0];
    return view ? view.opens.map((from, w) => [from, view.closes[w] ?? NaN].map((m) => hours(originMs + m * MINUTE))) : null;
  };
  const half = 1 / 120;

  it.each<[string, { startMs: number; endMs: number }[], FixedVisit[], number[][] | null]>([
    ['open all day', [span(6, 20)], [], [[8, 17]]],
    [
      'openings that touch or overlap, in any order',
      [span(13, 14), span(9, 11), span(10, 12), span(12, 12.5)],
      [],
      [
        [9, 12.5],
        [13, 14],
      ],
    ],
    ['one opening inside another', [span(9, 15), span(10, 11)], [], [[9, 15]]],
    ['shut as the shift begins', [span(6, 8)], [], null],
    ['open from the end of overtime', [span(17, 19)], [], null],
    [
      'open over the ends of the shift',
      [span(6, 8.5), span(16.5, 19)],
      [],
      [
        [8, 8.5],
        [16.5, 17],
      ],
    ],
    ['opened and shut at half a minute', [span(9 + half, 11 - half)], [], [[9 + 2 * half, 11 - 2 * half]]],
    [
      'busy in between',
      [span(6, 20)],
      [elsewhere(10, 11)],
      [
        [8, 10],
        [11, 17],
      ],
    ],
    [
      'busy twice',
      [span(6, 20)],
      [elsewhere(10, 11), elsewhere(13, 14)],
      [
        [8, 10],
        [11, 13],
        [14, 17],
      ],
    ],
    [
      'busy from half a minute to half a minute',
      [span(6, 20)],
      [elsewhere(10 + half, 11 - half)],
      [
        [8, 10],
        [11, 17],
      ],
    ],
    ['busy as the shift begins', [span(6, 20)], [elsewhere(7, 9)], [[9, 17]]],
    ['busy over the whole of it', [span(6, 20)], [elsewhere(8, 17)], null],
    ['busy over all of the opening', [span(9, 12)], [elsewhere(9, 18)], null],
    ['busy over most of the opening', [span(8.5, 12)], [elsewhere(9, 18)], [[8.5, 9]]],
    ['busy right before and after the opening', [span(9, 12)], [elsewhere(8, 9), elsewhere(12, 13)], [[9, 12]]],
    ['busy in overtime', [span(6, 20)], [elsewhere(16.5, 18)], [[8, 16.5]]],
    ['busy after overtime', [span(6, 20)], [elsewhere(17, 18)], [[8, 17]]],
    ['somebody else busy', [span(6, 20)], [elsewhere(10, 11, 'other')], [[8, 17]]],
  ])('%s', (_, open, kept, expected) => {
    const minutes = (of: number[][] | null) => of?.map((w) => w.map((h) => Math.round(60 * h))) ?? null;
    expect(minutes(windows(open, kept))).toEqual(minutes(expected));
  });

  it('is never, says the reason, where whoever could do it is elsewhere for as long as the kitchen is open', () => {
    const kitchens = [kitchen('k', 0.02, { open: [span(9, 12)] }), kitchen('lost', 0, { place: null })];
    const why = (from: number, to: number) => {
      const plan = planned(week({ kitchens, tasks: [task('x', 'k')], fixed: [fixed('f', 'lost', span(from, to))] }));
      return plan.unplaced.filter((l) => l.taskId === 'x').map((l) => l.reason.message);
    };
    expect(why(9, 12)).toEqual(['Kitchen k is never open while someone who could do it is at work.']);
    expect(why(9.5, 12)).toEqual(['No opening of Kitchen k has 40 min while someone who could do it is at work.']);
    expect(why(10, 12)).toEqual([]);
  });
});

describe('a week as the solver sees it', () => {
  const two = (more: Partial<Technician> = {}, of: Shift[] = [shift(DAY)]) => [tova([shift(DAY)], { id: 'a', skills: ['roof', 'flammable'] }), tova(of, { id: 'b', skills: ['flammable', 'roof'], ...more })]; // prettier-ignore
  const alike = (technicians: Technician[], more: Partial<WeekProblem> = {}, kept: FixedVisit[] = []) => {
    const { model } = compileWeek(week({ technicians, kitchens: [kitchen('k', 0.02)], tasks: [task('x', 'k')], ...more }), kept);
    return model.shifts[0]?.kind === model.shifts[1]?.kind;
  };

  it.each([
    ['the same skills in another order', two(), true],
    ['fewer skills', two({ skills: ['roof'] }), false],
    ['another day', two({}, [shift(DAY + 1)]), false],
    ['a later beginning', two({}, [shift(DAY, 9, 16)]), false],
    ['an earlier end', two({}, [shift(DAY, 8, 15)]), false],
    ['overtime', two({}, [shift(DAY, 8, 16, { overtimeMinutes: 30 })]), false],
    ['another home to begin at', two({}, [shift(DAY, 8, 16, { startPlace: { lat: 41.1, lng: -87 } })]), false],
    ['another home to end at', two({}, [shift(DAY, 8, 16, { endPlace: { lat: 41.1, lng: -87 } })]), false],
  ])('has two shifts of one kind only where nothing tells them apart: %s', (_, technicians, expected) => {
    expect(alike(technicians)).toBe(expected);
  });

  it('has no other shift of the kind of one that is promised or busy', () => {
    expect(alike(two(), { fixed: [fixed('f', 'k', span(9, 10), { technicianId: 'a' })] })).toBe(false);
    expect(alike(two(), {}, [fixed('f', 'k', span(9, 10), { technicianId: 'b' })])).toBe(false);
    expect(alike(two(), {}, [fixed('f', 'k', span(18, 19), { technicianId: 'b' })])).toBe(true);
  });

  it('has whole minutes, prices by the day, and who may do what from when', () => {
    const tasks = [
      task('any', 'k', { minutes: 29.5, dueDay: DAY - 2 }),
      task('roof', 'k', { skills: ['roof'], dueDay: DAY - 1 }),
      task('part', 'k', { notBeforeDay: DAY + 1, minutes: 60, dueDay: DAY + 1 }),
    ];
    const technicians = [tova([shift(DAY), shift(DAY + 1)]), tova([shift(DAY + 1)], { id: 'u', skills: ['roof'] })];
    const k = kitchen('k', 0.1, { accessMinutes: 10.4, durationFactor: 1.1 });
    const { model, jobs } = compileWeek(week({ technicians, kitchens: [k], tasks, startsEveryMinutes: 15 }));
    expect(jobs.map((j) => j.tasks.map((t) => t.id))).toEqual([['any', 'roof', 'part']]);
    expect(model.jobs[0]).toMatchObject({ setup: 11, minutes: [33, 33, 66], items: 3, all: 7, brings: [1, 2, 4], firstRow: 0 });
    expect(model.views.map((row) => row[0]?.allowed)).toEqual([0b001, 0b101, 0b111]);
    const [early, late] = [(60 * 0.75) / 30, PRICES.overduePerDay];
    expect(model.views.map((row) => row[0]?.itemCost)).toEqual([[2 * late, late, early], [3 * late, 2 * late, 0], [3 * late, 2 * late, 0]]); // prettier-ignore
    for (const row of model.views) expect(row[0]).toMatchObject({ visitCost: 11 * 0.75, promised: Infinity, latePrice: 0, step: 15 });
    // A tenth of a degree is 25 minutes: there and back at 1 is the trip that leaving it costs, with getting in.
    const trip = 11 * 0.75 + 50;
    expect(model.jobs[0]?.leave.cost(0b001)).toBeCloseTo(trip + PRICES.leftUndone + 4 * late, 9);
    expect(model.jobs[0]?.leave.cost(0b111)).toBeCloseTo(trip + 3 * PRICES.leftUndone + (4 + 3 + 1) * late, 9);
    expect(model.time.every((m) => Number.isInteger(m))).toBe(true);
    expect([model.rows, model.places, model.triangle]).toEqual([3, 2, true]);
  });

  it('has what was promised in its place, its day long enough for it', () => {
    const kitchens = [kitchen('k', 0.1), kitchen('l', 0.02)];
    const promise = fixed('f', 'k', span(17, 18), { mayRunLateMinutes: 20 });
    const { model, jobs, originMs } = compileWeek(week({ kitchens, tasks: [task('x', 'l')], fixed: [promise, fixed('g', 'k', span(6, 7))] })); // prettier-ignore
    const hour = (h: number) => (at(DAY, h) - originMs) / MINUTE;
    expect(jobs.map((j) => j.fixed?.id ?? null)).toEqual([null, 'f', 'g']);
    expect(model.views[0]?.[1]).toEqual({ allowed: 1, opens: [hour(17)], closes: [hour(18) + 20], itemCost: [0], visitCost: 0, promised: hour(17), latePrice: PRICES.latePerMinute, step: 0 }); // prettier-ignore
    expect(model.jobs[1]).toMatchObject({ pinned: true, items: 1, all: 1, setup: 0, minutes: [60], firstRow: 1 });
    // Twenty-five minutes each way.
    expect(model.shifts[0]).toMatchObject({ from: hour(6) - 25, to: hour(16), hardTo: hour(18) + 20 + 25 });
    expect([model.views[0]?.[0]?.opens, model.views[0]?.[0]?.closes]).toEqual([[hour(8)], [hour(16)]]);
    expect(originMs).toBe(at(DAY, 6));
  });
});

describe('the tasks of a kitchen', () => {
  const problem = week({ nextDay: DAY + 7 });
  const of = (tasks: PlanTask[], trip = 40, days = [DAY, DAY + 1]) => itemsOf(problem, kitchen('k', 0.1), tasks, trip, days, [new Set<string>()]); // prettier-ignore
  const ids = (tasks: readonly PlanTask[]) => tasks.map((t) => t.id);

  it('are looked at where doing one now costs less than a trip of its own for it on its day', () => {
    // Sixty minutes are worth 45; coming early by half the interval throws away half of that, and by all of it the whole.
    const early = (days: number) => task('x', 'k', { minutes: 60, dueDay: DAY + days, intervalDays: 100 });
    expect([20, 50, 60, 101, 300].map((days) => ids(of([early(days)], 22.5).tasks).length)).toEqual([1, 1, 0, 0, 0]);
    // On the second day fifty days early: as dear as the trip.
    expect(ids(of([early(51)], 22.5).tasks)).toEqual([]);
    expect(ids(of([early(51)], 22.6).tasks)).toEqual(['x']);
    expect(ids(of([{ ...early(20), notBeforeDay: DAY + 2 }]).always)).toEqual(['x']);
    expect(ids(of([{ ...early(20), notBeforeDay: DAY + 1 }]).tasks)).toEqual(['x']);
  });

  it('stand by their due day, then by name, a coil cleaning followed by its low-side inspection, the others as they were given', () => {
    const unit = { unitId: 'u' };
    const tasks = [
      task('far', 'k', { dueDay: DAY + 200, minutes: 600 }),
      task('b', 'k'),
      task('coil', 'k', { ...unit, role: 'coil_cleaning', dueDay: DAY - 1 }),
      task('a', 'k'),
      task('low', 'k', { ...unit, role: 'low_side_inspection', dueDay: DAY + 150, minutes: 600 }),
      task('other low', 'k', { unitId: 'v', role: 'low_side_inspection', dueDay: DAY + 150, minutes: 600 }),
      task('same unit', 'k', { ...unit, role: 'other', dueDay: DAY + 150, minutes: 600 }),
      task('nearer', 'k', { dueDay: DAY + 100, minutes: 600 }),
    ];
    const { tasks: chosen, always, job } = of(tasks);
    expect(ids(chosen)).toEqual(['coil', 'low', 'a', 'b']);
    expect(ids(always)).toEqual(['far', 'other low', 'same unit', 'nearer']);
    expect([job.brings, job.all, job.items]).toEqual([[0b0011, 0b0010, 0b0100, 0b1000], 0b1111, 4]);
  });

  it('that wait anyway make a trip that what is left may ride along with, the twelve soonest of them', () => {
    const waiting = (n: number, day: number) => task(`w${day}-${n}`, 'k', { minutes: 600, dueDay: DAY + day, intervalDays: 1 });
    const mine = task('mine', 'k', { minutes: 100, dueDay: DAY + 90, intervalDays: 300 });
    const left = (others: PlanTask[]) => {
      const { tasks, job } = of([mine, ...others]);
      expect(ids(tasks)).toEqual(['mine']);
      return job.leave.cost(1);
    };
    // Alone it is a trip of its own; with somebody there on its very day nothing; forty days too early 40 of 300 of 75.
    expect(left([])).toBeCloseTo(40, 9);
    expect(left([waiting(0, 90)])).toBeCloseTo(0, 9);
    expect(left([waiting(0, 50)])).toBeCloseTo(10, 9);
    const sooner = (count: number) => Array.from({ length: count }, (_, i) => waiting(i, 50));
    expect(left([waiting(0, 90), ...sooner(11)])).toBeCloseTo(0, 9);
    expect(left([waiting(0, 90), ...sooner(12)])).toBeCloseTo(10, 9);
  });
});

describe('planning without time', () => {
  it('still gives a week that keeps its word', () => {
    const problem = shopWeek(3, { kitchens: 12, technicians: 2, days: 2 });
    const plan = runOut(planWeek(problem, { seed: 1, timeLimitMs: 0, now: () => 0 }));
    expect(checkPlan(problem, plan)).toEqual([]);
    expect(plan.visits.length).toBeGreaterThan(0);
  });
});

describe('a second visit to a kitchen in one week', () => {
  // Bo alone may do the one task, and has no time for the other as well; Dev has.
  const who = (id: string, skills: string[], to: number): Technician => tova([shift(DAY, 8, to)], { id, name: id, skills });
  const both = { technicians: [who('bo', ['flammable'], 9.75), who('dev', [], 9.25)] };
  const tasks = [task('a', 'k', { minutes: 40 }), task('b', 'k', { minutes: 70, skills: ['flammable'], overduePerDay: 10 })];
  const plan = (secondVisit: number | undefined, more: Partial<WeekProblem>) =>
    planned(week({ kitchens: [kitchen('k', 0.01)], tasks, prices: { ...PRICES, secondVisit }, ...more }), 1);
  const at = (p: Plan, id: string) => p.visits.filter((v) => v.kitchenId === id).length;

  it('is made where nothing speaks against it; priced above what waiting costs, one task waits', () => {
    expect(at(plan(undefined, both), 'k')).toBe(2);
    expect(at(plan(100, both), 'k')).toBe(2);
    const dear = plan(300, both);
    expect([at(dear, 'k'), dear.unplaced.length]).toEqual([1, 1]);
    expect(dear.unplaced[0]?.reason.message).toMatch(
      / more than waiting \(a due task that waits is priced at 150, a second visit there in these days at 300\)\.$/,
    );
    // In one hand where one has the time for all of it.
    const free = plan(300, { technicians: [who('bo', ['flammable'], 12), who('dev', [], 9.25)] });
    expect([at(free, 'k'), free.unplaced.length]).toEqual([1, 0]);
  });

  it('costs the plan its price, and a first visit, or none, costs nothing more', () => {
    const [free, cheap, dear] = [plan(0, both), plan(1, both), plan(300, both)];
    expect(at(cheap, 'k')).toBe(2);
    expect(cheap.cost.total).toBeCloseTo(free.cost.total + 1, 9);
    expect(cheap.cost.visits).toBeCloseTo(free.cost.visits + 1, 9);
    expect(dear.cost.visits).toBeCloseTo(free.cost.visits / 2, 9);
    const nobody = { technicians: [tova([shift(DAY, 8, 8.25)])] };
    expect(plan(300, nobody).cost).toEqual(plan(0, nobody).cost);
    for (const p of [free, cheap, dear]) expect(p.lowerBound).toBeLessThanOrEqual(p.cost.total);
  });

  it('is any beside one that is booked', () => {
    const booked = { technicians: [tova([shift(DAY)], { skills: ['flammable'] })], fixed: [fixed('f', 'k', span(9, 10))], tasks: [task('a', 'k', { dueDay: DAY + 1, overduePerDay: 0 })] }; // prettier-ignore
    expect(at(plan(0, booked), 'k')).toBe(2);
    expect(at(plan(300, booked), 'k')).toBe(1);
    // Also where two booked ones cannot both be reached, so that no drive is planned to one of them.
    const clash = { ...booked, kitchens: [kitchen('k', 0.01), kitchen('m', 0.2)], fixed: [fixed('g', 'm', span(9, 10)), fixed('f', 'k', span(9, 10))] }; // prettier-ignore
    expect(plan(0, clash).visits.filter((v) => v.kitchenId === 'k' && v.fixedId === null)).toHaveLength(1);
    expect(plan(300, clash).visits.filter((v) => v.kitchenId === 'k' && v.fixedId === null)).toHaveLength(0);
  });
});
