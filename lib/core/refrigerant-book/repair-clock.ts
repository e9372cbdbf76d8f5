import { addDays, type LocalDate } from '../calendar';
import type { LeakRate } from './leak-rate';
import type { ApplianceKind, LeakRule } from './leak-rules';

export type LeakTest = { on: LocalDate; kind: 'initial' | 'follow_up'; passed: boolean };

export type ClockState = 'below' | 'repair_due' | 'follow_up_due' | 'verified' | 'overdue';

export type RepairClock = {
  state: ClockState;
  /** What the state stands on: the first addition above the threshold that is not verified yet, else the last. */
  rate: LeakRate;
  thresholdPercent: number;
  /** When the state asks for something, by when. */
  dueOn: LocalDate | null;
};

type Stand = { state: 'repair_due' | 'follow_up_due'; dueOn: LocalDate } | { state: 'verified'; dueOn: null };

/**
 * Where a unit stands under one rule: above the threshold, a repair and a passed initial test within its days, then a
 * passed follow-up test. A failed follow-up starts the repair again. A later addition below the threshold ends nothing:
 * the oldest that is not verified is answered for first.
 * @param rates in the order of their days
 */
export function repairClock(
  rule: LeakRule,
  kind: ApplianceKind,
  rates: readonly LeakRate[],
  tests: readonly LeakTest[],
  today: LocalDate,
): RepairClock | null {
  const last = rates.at(-1);
  if (!last) return null;
  const thresholdPercent = rule.thresholdPercent[kind];
  for (const rate of rates) {
    if (rate.percent <= thresholdPercent) continue;
    const { state, dueOn } = standOf(rule, rate, tests);
    if (dueOn !== null) return { state: today > dueOn ? 'overdue' : state, rate, thresholdPercent, dueOn };
  }
  return { state: last.percent > thresholdPercent ? 'verified' : 'below', rate: last, thresholdPercent, dueOn: null };
}

/** What followed one addition above the threshold. */
function standOf(rule: LeakRule, rate: LeakRate, tests: readonly LeakTest[]): Stand {
  const since = tests.filter((t) => t.on >= rate.on).sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
  let from = rate.on;
  let initial: LeakTest | null = null;
  for (const test of since) {
    if (test.kind === 'initial') initial = test.passed ? test : null;
    else if (test.passed && initial) return { state: 'verified', dueOn: null };
    else if (!test.passed) {
      initial = null;
      from = test.on;
    }
  }
  return initial
    ? { state: 'follow_up_due', dueOn: addDays(initial.on, rule.followUpDays) }
    : { state: 'repair_due', dueOn: addDays(from, rule.repairDays) };
}

/** What a unit took in a calendar year, % of full charge, where that is at least the rule's share; null below it. */
export function chronicPercent(
  rule: LeakRule,
  fullChargeKg: number,
  additions: readonly { on: LocalDate; kg: number }[],
  year: number,
): number | null {
  const added = additions.filter((a) => a.on.startsWith(`${year}-`)).reduce((sum, a) => sum + a.kg, 0);
  const percent = (added / fullChargeKg) * 100;
  return percent >= rule.chronicPercent ? percent : null;
}
