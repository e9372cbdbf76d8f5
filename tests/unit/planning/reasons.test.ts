import { describe, expect, it } from 'vitest';
import {
  checkPlan,
  planWeek,
  type Kitchen,
  type Plan,
  type PlanTask,
  type ReasonCode,
  type Technician,
  type WeekProblem,
} from '@/lib/core/planning';
import { runOut } from '@/lib/core/planning/steps';
import { MONDAY_DAY, PRICES, at } from '../../support/planning-weeks';

const shop = { lat: 41.05, lng: -87.07 };
const technician = (id: string, skills: string[], days: number[] = [0, 1]): Technician => ({
  id,
  name: `Tech ${id}`,
  skills,
  shifts: days.map((d) => ({
    day: MONDAY_DAY + d,
    hours: { startMs: at(MONDAY_DAY + d, 8), endMs: at(MONDAY_DAY + d, 16) },
    startPlace: shop,
    endPlace: shop,
  })),
});
const kitchen = (id: string, more: Partial<Kitchen> = {}): Kitchen => ({
  id,
  name: `Kitchen ${id}`,
  place: { lat: 41.06, lng: -87.05 },
  open: [{ startMs: at(MONDAY_DAY, 8), endMs: at(MONDAY_DAY, 11) }],
  accessMinutes: 5,
  ...more,
});
const task = (id: string, kitchenId: string, more: Partial<PlanTask> = {}): PlanTask => ({
  id,
  kitchenId,
  name: `Task ${id}`,
  minutes: 30,
  dueDay: MONDAY_DAY,
  intervalDays: 30,
  ...more,
});

/** The kitchen in question beside a sound one, which must be planned whatever is wrong with the other. */
function planWith(broken: Kitchen, tasks: PlanTask[], technicians = [technician('a', [])], more: Partial<WeekProblem> = {}): Plan {
  const week: WeekProblem = {
    technicians,
    kitchens: [broken, kitchen('sound')],
    tasks: [...tasks, task('sound', 'sound')],
    travel: { circuity: 1.3, speedKmh: 35 },
    prices: PRICES,
    nextDay: MONDAY_DAY + 2,
    ...more,
  };
  const plan = runOut(planWeek(week, { seed: 1, timeLimitMs: 1e9, now: () => 0 }));
  expect(checkPlan(week, plan)).toEqual([]);
  return plan;
}

const cases: [string, ReasonCode, RegExp, () => Plan][] = [
  ['no coordinates', 'no_place', /no coordinates/, () => planWith(kitchen('k', { place: null }), [task('t', 'k')])],
  [
    'coordinates off the Earth',
    'no_place',
    /no coordinates/,
    () => planWith(kitchen('k', { place: { lat: 141, lng: 0 } }), [task('t', 'k')]),
  ],
  ['no service hours', 'no_hours', /no service hours/, () => planWith(kitchen('k', { open: [] }), [task('t', 'k')])],
  [
    'hours that end before they begin',
    'reversed_hours',
    /end before they begin/,
    () => planWith(kitchen('k', { open: [{ startMs: at(MONDAY_DAY, 11), endMs: at(MONDAY_DAY, 8) }] }), [task('t', 'k')]),
  ],
  ['a kitchen nobody knows', 'unknown_kitchen', /not in the list/, () => planWith(kitchen('k'), [task('t', 'gone')])],
  ['a task without minutes', 'bad_task', /no minutes/, () => planWith(kitchen('k'), [task('t', 'k', { minutes: 0 })])],
  ['a task without an interval', 'bad_task', /no interval/, () => planWith(kitchen('k'), [task('t', 'k', { intervalDays: NaN })])],
  [
    'a skill nobody has',
    'no_skill',
    /No technician has the skill: roof\./,
    () => planWith(kitchen('k', { skills: ['roof'] }), [task('t', 'k')]),
  ],
  [
    'skills that no one person has together',
    'no_skill',
    /No one technician has all the skills/,
    () =>
      planWith(
        kitchen('k', { skills: ['roof'] }),
        [task('t', 'k', { skills: ['flammable'] })],
        [technician('a', ['roof']), technician('b', ['flammable'])],
      ),
  ],
  [
    'the only one with the skill is off',
    'skill_off',
    /Tech b could do it, but is off/,
    () => planWith(kitchen('k', { skills: ['roof'] }), [task('t', 'k')], [technician('a', []), technician('b', ['roof'], [])]),
  ],
  [
    'a part that comes too late',
    'not_yet',
    /may not be done before/,
    () => planWith(kitchen('k'), [task('t', 'k', { notBeforeDay: MONDAY_DAY + 9 })]),
  ],
  [
    'openings shorter than the work',
    'hours_too_short',
    /takes 125 min on site; the longest opening of Kitchen k is 60 min/,
    () => planWith(kitchen('k', { open: [{ startMs: at(MONDAY_DAY, 8), endMs: at(MONDAY_DAY, 9) }] }), [task('t', 'k', { minutes: 120 })]),
  ],
  [
    'open only at night',
    'hours_never_meet',
    /never open while/,
    () => planWith(kitchen('k', { open: [{ startMs: at(MONDAY_DAY, 20), endMs: at(MONDAY_DAY, 23) }] }), [task('t', 'k')]),
  ],
  [
    'open before anyone can be there',
    'hours_never_meet',
    /No opening of Kitchen k has 35 min/,
    () => planWith(kitchen('k', { open: [{ startMs: at(MONDAY_DAY, 6), endMs: at(MONDAY_DAY, 8.4) }] }), [task('t', 'k')]),
  ],
  ['further than a shift reaches', 'too_far', /too far/, () => planWith(kitchen('k', { place: { lat: 45, lng: -95 } }), [task('t', 'k')])],
  [
    'a week that is full',
    'full',
    /booked whenever/,
    () =>
      planWith(
        kitchen('k', { open: [{ startMs: at(MONDAY_DAY, 8), endMs: at(MONDAY_DAY, 9) }] }),
        [task('t', 'k', { minutes: 40 })],
        undefined,
        {
          fixed: [
            {
              id: 'f',
              technicianId: 'a',
              kitchenId: 'sound',
              hours: { startMs: at(MONDAY_DAY, 8.1), endMs: at(MONDAY_DAY, 9.5) },
              taskIds: [],
            },
          ],
        },
      ),
  ],
];

describe('what is left over says why, and the rest is placed', () => {
  it.each(cases)('%s', (_, code, message, plan) => {
    const { unplaced, visits } = plan();
    expect(unplaced.map((left) => [left.taskId, left.reason.code])).toEqual([['t', code]]);
    expect(unplaced[0]!.reason.message).toMatch(message);
    expect(visits.flatMap((visit) => visit.taskIds)).toContain('sound');
  });

  it('a coil cleaning whose low-side inspection needs a skill that its technician lacks', () => {
    const unit = { unitId: 'u', kitchenId: 'k' };
    const plan = planWith(
      kitchen('k', { skills: [] }),
      [
        task('coil', 'k', { ...unit, role: 'coil_cleaning', skills: ['roof'] }),
        task('low', 'k', { ...unit, role: 'low_side_inspection', skills: ['flammable'] }),
      ],
      [technician('a', ['roof']), technician('b', ['flammable'])],
    );
    // Two people hold the two skills, but the inspection rides along with the cleaning.
    expect(plan.unplaced.map(({ taskId, reason }) => [taskId, reason.code])).toEqual([['coil', 'no_skill']]);
    expect(plan.unplaced[0]!.reason.message).toMatch(/low-side inspection/);
  });

  it('no one at work at all', () => {
    const plan = runOut(
      planWeek(
        {
          technicians: [technician('a', [], [])],
          kitchens: [kitchen('k')],
          tasks: [task('t', 'k')],
          travel: { circuity: 1.3, speedKmh: 35 },
          prices: PRICES,
          nextDay: MONDAY_DAY + 2,
        },
        { seed: 1, timeLimitMs: 1e9, now: () => 0 },
      ),
    );
    expect(plan.unplaced.map(({ reason }) => reason.message)).toEqual(['Nobody works on these days.']);
    expect(plan.visits).toEqual([]);
  });

  it('an empty week is an empty plan', () => {
    const plan = runOut(
      planWeek(
        {
          technicians: [],
          kitchens: [],
          tasks: [],
          travel: { circuity: 1.3, speedKmh: 35 },
          prices: PRICES,
          nextDay: MONDAY_DAY,
        },
        { seed: 1, timeLimitMs: 1e9, now: () => 0 },
      ),
    );
    expect(plan).toMatchObject({ visits: [], rounds: [], unplaced: [], later: [], gap: 0, proven: true });
    expect(plan.cost.total).toBe(0);
  });
});

describe('what goes in one trip', () => {
  const far = { lat: 41.15, lng: -86.95 };
  const due = task('due', 'k', { dueDay: MONDAY_DAY });

  it('takes work along that comes due soon, if that saves a drive', () => {
    const plan = planWith(kitchen('k', { place: far }), [due, task('soon', 'k', { dueDay: MONDAY_DAY + 5, intervalDays: 90 })]);
    expect(plan.visits.find((visit) => visit.kitchenId === 'k')!.taskIds).toEqual(['due', 'soon']);
  });

  it('leaves work that would lose much of its interval, and says how much', () => {
    const plan = planWith(kitchen('k', { place: far }), [due, task('fresh', 'k', { dueDay: MONDAY_DAY + 28, minutes: 120 })]);
    expect(plan.visits.find((visit) => visit.kitchenId === 'k')!.taskIds).toEqual(['due']);
    expect(plan.later.map(({ taskId, reason }) => [taskId, reason.code])).toEqual([['fresh', 'later']]);
    expect(plan.later[0]!.reason.message).toMatch(/Not due until 27 days after this week; doing it now would waste 90 %/);
  });

  it('takes the low-side inspection along with a coil cleaning, however fresh it is', () => {
    const unit = { unitId: 'u' };
    const plan = planWith(kitchen('k'), [
      task('coil', 'k', { ...unit, role: 'coil_cleaning' }),
      task('low', 'k', { ...unit, role: 'low_side_inspection', dueDay: MONDAY_DAY + 29, minutes: 10 }),
    ]);
    expect(plan.visits.find((visit) => visit.kitchenId === 'k')!.taskIds).toEqual(['coil', 'low']);
  });
});
