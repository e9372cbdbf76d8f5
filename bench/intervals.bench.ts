import * as library from 'rrule';
import type { BenchRow } from './types';
import { addDays, dueDays, localDate, toDay, weeksRule, type Plan, type Weekday } from '../lib/core/calendar';
import { PLACEMENTS } from '../lib/core/equipment/build';
import { GRADES, type CoilGrade } from '../lib/core/findings/grades';
import { DEFAULT_HYPER, eachPosterior, kitchenWord, posterior, updatePosterior, type FleetUnit, type UnitEvent } from '../lib/core/fouling';
import { DEFAULT_POLICY, reviseCoilRule } from '../lib/core/intervals';
import { RandomStream } from '../lib/core/numerics/random';

const START = localDate('2024-01-01');
const RRule = (library as unknown as { default?: typeof library }).default?.RRule ?? library.RRule;

/** CPU seconds of this process: what one core spends, however busy the machine is. */
function cpuSeconds(work: () => void): number {
  const from = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1e6;
}

/** Two years of visits about every twelve weeks: a look, half the time a reading, a cleaning, half the time a look after. */
function twoYears(s: RandomStream, kitchenId: string): FleetUnit {
  const placement = s.pick(PLACEMENTS);
  const rate = 0.003 * Math.exp(s.normal(0, 0.6));
  const events: UnitEvent[] = [];
  for (let day = s.whole(60, 100), last = 0; day < 730; last = day, day += s.whole(70, 98)) {
    const on = addDays(START, day);
    const deposit = rate * (day - last) + s.normal(0, 0.05);
    const grade = (GRADES.coil[DEFAULT_HYPER.grades.thresholds.filter((t) => deposit > t).length] as { grade: CoilGrade }).grade;
    events.push({ kind: 'coil', on, grade, phase: 'before' });
    if (s.chance(0.5)) events.push({ kind: 'reading', on, lnK: -deposit, sd: 0.1, phase: 'before' });
    events.push({ kind: 'cleaning', on });
    if (s.chance(0.5)) events.push({ kind: 'coil', on, grade: 'bare', phase: 'after' });
  }
  return { history: { startedOn: START, startedClean: true, events }, exposure: { placement, kitchenId } };
}

const fleetPart = (part: number, kitchens: number): FleetUnit[] => {
  const s = new RandomStream(1, `part ${part}`);
  return Array.from({ length: kitchens }, (_, k) => Array.from({ length: 5 }, () => twoYears(s, `${part}/${k}`))).flat();
};

async function posteriors() {
  let seconds = 0;
  let units = 0;
  let sum = 0;
  // In parts, so that what is timed is the inference and not the making of histories.
  for (let part = 0; part < 100; part++) {
    const fleet = fleetPart(part, 200);
    units += fleet.length;
    seconds += cpuSeconds(() => eachPosterior(fleet, DEFAULT_HYPER, (p) => (sum += p.rate.mean)));
  }
  if (units !== 100_000 || !Number.isFinite(sum)) throw new Error('The fleet was not what it should be.');
  return { value: seconds };
}

async function oneVisit() {
  const kitchens = Array.from({ length: 60 }, (_, k) => fleetPart(1000 + k, 1));
  const times = kitchens.map((units) => {
    const beliefs = units.map((u) => posterior(u.history, u.exposure, DEFAULT_HYPER));
    const { history } = units[0] as FleetUnit;
    const on = addDays(START, 760);
    const visit: UnitEvent[] = [
      { kind: 'coil', on, grade: 'furred', phase: 'before' },
      { kind: 'reading', on, lnK: -0.25, sd: 0.1, phase: 'before' },
      { kind: 'cleaning', on },
    ];
    const [first, ...others] = beliefs;
    if (!first) throw new Error('A kitchen without units.');
    const from = performance.now();
    const belief = updatePosterior(first, visit, DEFAULT_HYPER, kitchenWord(others));
    const updated = performance.now();
    reviseCoilRule({
      history: { ...history, events: [...history.events, ...visit] },
      posterior: belief,
      hyper: DEFAULT_HYPER,
      settings: DEFAULT_POLICY,
      currency: 'USD',
      currentRule: weeksRule(10),
      anchor: 'last_completed',
      lastDoneOn: on,
    });
    return { update: updated - from, revise: performance.now() - updated };
  });
  const median = (of: (t: (typeof times)[number]) => number) => times.map(of).sort((a, b) => a - b)[Math.floor(times.length / 2)] as number;
  return { update: median((t) => t.update), revise: median((t) => t.revise) };
}

/** Plans as a shop has them: mostly whole weeks on a weekday, some by the month. */
function plan(s: RandomStream): Plan {
  const anchorDate = addDays(START, s.whole(0, 365));
  const monthly = ['FREQ=MONTHLY;BYMONTHDAY=15', 'FREQ=MONTHLY;INTERVAL=3', 'FREQ=MONTHLY;BYDAY=1TU', 'FREQ=YEARLY;BYMONTH=3,9'];
  const rule = s.chance(0.8) ? weeksRule(s.whole(4, 26), s.whole(0, 6) as Weekday) : s.pick(monthly);
  return { rule, anchor: 'calendar', anchorDate };
}

async function dueDates() {
  const s = new RandomStream(2, 'plans');
  const plans = Array.from({ length: 100_000 }, () => plan(s));
  const [from, to] = [toDay(localDate('2026-01-01')), toDay(localDate('2027-01-01'))];
  let ours = 0;
  const value = cpuSeconds(() => {
    for (const p of plans) ours += dueDays(p, from, to).length;
  });
  const sample = plans.slice(0, 5000);
  let theirs = 0;
  const seconds = cpuSeconds(() => {
    for (const p of sample) {
      const rule = new RRule({ ...RRule.parseString(p.rule), dtstart: new Date(`${p.anchorDate}T00:00:00Z`) });
      theirs += rule.between(new Date(from * 86_400_000), new Date(to * 86_400_000 - 1), true).length;
    }
  });
  if (sample.reduce((n, p) => n + dueDays(p, from, to).length, 0) !== theirs || ours < theirs)
    throw new Error('The two expansions do not agree.');
  return { value, reference: { name: 'rrule on each (5,000 plans measured, times 20)', value: seconds * 20 } };
}

export const rows: BenchRow[] = [
  {
    name: 'fouling posterior of 100,000 units with two years of visits, kitchens pooled',
    unit: 's CPU',
    target: '< 10 s',
    run: posteriors,
  },
  {
    name: "one visit: the unit's posterior brought up to date",
    unit: 'ms',
    target: '< 5 ms',
    run: async () => ({ value: (await oneVisit()).update }),
  },
  {
    name: 'one visit: the next rule with its reason',
    unit: 'ms',
    run: async () => ({ value: (await oneVisit()).revise }),
  },
  {
    name: 'a year of due dates for 100,000 plans',
    unit: 's CPU',
    target: 'at least 20× faster than rrule on each',
    run: dueDates,
  },
];
