import { describe, expect, it } from 'vitest';
import { explainVisits, planWeek, pricesFrom, type PlanTask, type WeekProblem } from '@/lib/core/planning';
import { runOut } from '@/lib/core/planning/steps';
import { dayMinutes, hoursShown, spansOn } from '@/lib/core/visits/time-grid';
import { instantOf, localDate } from '@/lib/core/calendar';

const PRICES = pricesFrom(null);
const DAY = 20_000;
const HOUR = 3_600_000;
const base = { lat: 41.88, lng: -87.63 };
const task = (id: string, kitchenId: string, over: Partial<PlanTask> = {}): PlanTask => ({
  id,
  kitchenId,
  unitId: id,
  name: id,
  minutes: 18,
  dueDay: DAY - 10,
  intervalDays: 182,
  ...over,
});
const problem = (tasks: PlanTask[]): WeekProblem => ({
  technicians: [
    {
      id: 't',
      name: 'Tova',
      skills: [],
      shifts: [
        { day: DAY, hours: { startMs: DAY * 24 * HOUR + 8 * HOUR, endMs: DAY * 24 * HOUR + 16 * HOUR }, startPlace: base, endPlace: base },
      ],
    },
  ],
  // About 25 km out: some forty minutes each way.
  kitchens: ['far', 'near'].map((id, i) => ({
    id,
    name: id,
    place: { lat: 41.88 + (i === 0 ? 0.2 : 0.01), lng: -87.63 },
    open: [{ startMs: DAY * 24 * HOUR, endMs: (DAY + 1) * 24 * HOUR }],
  })),
  tasks,
  travel: { circuity: 1.3, speedKmh: 40 },
  prices: PRICES,
  nextDay: DAY + 7,
});
const plan = (p: WeekProblem) => runOut(planWeek(p, { seed: 1, timeLimitMs: 2000, now: () => 0 }));

describe('what a proposed visit is for', () => {
  it('takes along what falls due there in the next weeks while that is cheaper than another trip, and says so', () => {
    const p = problem([task('late', 'far'), task('soon', 'far', { dueDay: DAY + 20 })]);
    const { visits } = plan(p);
    expect(visits).toHaveLength(1);
    expect([...visits[0]!.taskIds].sort()).toEqual(['late', 'soon']);
    const why = explainVisits(p, visits).get(0)!;
    expect(why).toMatchObject({ overdue: 1, longestOverdueDays: 10, due: 0, along: 1, furthestDays: 20, nextDueDay: null, only: null });
    // A fifth of a half-yearly interval of eighteen minutes: 18 × 0.75 × 20 / 182.
    expect(why.earlyCost).toBeCloseTo((18 * 0.75 * 20) / 182, 6);
    expect(why.drivingCost).toBeCloseTo(why.detourMinutes * PRICES.drivingPerMinute, 9);
    expect(why.detourMinutes).toBeGreaterThan(60);
  });

  it('leaves behind what would give away most of its interval, and names a visit of one task', () => {
    // Next door, another trip costs next to nothing; a task of two hours done half an interval early costs 45.
    const p = problem([task('late', 'near'), task('weekly', 'near', { minutes: 120, dueDay: DAY + 14, intervalDays: 28 })]);
    const { visits } = plan(p);
    expect(visits.map((v) => v.taskIds)).toEqual([['late']]);
    expect(explainVisits(p, visits).get(0)).toMatchObject({ along: 0, only: 'late', nextDueDay: DAY + 14, earlyCost: 0 });
  });
});

describe('the week as a picture of time', () => {
  const zone = 'America/Chicago';
  it('shows a working day at least, and whatever lies outside it', () => {
    expect(hoursShown([])).toEqual({ from: 480, to: 960 });
    const night = dayMinutes(instantOf(localDate('2026-11-30'), '23:30', zone), instantOf(localDate('2026-12-01'), '00:30', zone), zone);
    expect(night).toEqual({ date: '2026-11-30', from: 1410, to: 1470 });
    expect(hoursShown([{ from: 250, to: 300 }, night])).toEqual({ from: 240, to: 1440 });
    expect(spansOn([{ weekday: 0, from: '16:30', to: '24:00' }], localDate('2026-11-30'))).toEqual([{ from: 990, to: 1440 }]);
  });
});
