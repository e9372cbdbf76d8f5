import { addDays, type LocalDate } from '../calendar';
import type { LeakRate } from './leak-rate';
import type { ApplianceKind, LeakRule } from './leak-rules';

export type LeakTest = { on: LocalDate; kind: 'initial' | 'follow_up'; passed: boolean };

export type ClockState = 'below' | 'repair_due' | 'follow_up_due' | 'verified' | 'overdue';

export type RepairClock = {
  state: ClockState;
  rate: LeakRate;
  thresholdPercent: number;
  /** When the state asks for something, by when. */
  dueOn: LocalDate | null;
};

/**
 * Where the repair of the last addition stands under one rule: above the threshold, a repair and a passed initial test
 * within its days, then a passed follow-up test. A failed follow-up starts the repair again.
 */
export function repairClock(
  rule: LeakRule,
  kind: ApplianceKind,
  rates: readonly LeakRate[],
  tests: readonly LeakTest[],
  today: LocalDate,
): RepairClock | null {
  const rate = rates.at(-1);
  if (!rate) return null;
  const thresholdPercent = rule.thresholdPercent[kind];
  const answer = (state: ClockState, dueOn: LocalDate | null): RepairClock => ({
    state: dueOn !== null && today > dueOn ? 'overdue' : state,
    rate,
    thresholdPercent,
    dueOn,
  });
  if (rate.percent <= thresholdPercent) return answer('below', null);
  const since = tests.filter((t) => t.on >= rate.on).sort((a, b) => (a.on < b.on ? -1 : 1));
  let from = rate.on;
  let initial: LeakTest | null = null;
  for (const test of since) {
    if (test.kind === 'initial') initial = test.passed ? test : null;
    else if (test.passed && initial) return answer('verified', null);
    else if (!test.passed) {
      initial = null;
      from = test.on;
    }
  }
  return initial ? answer('follow_up_due', addDays(initial.on, rule.followUpDays)) : answer('repair_due', addDays(from, rule.repairDays));
}

/** Units that took at least the rule's share of their full charge in a calendar year, % of full charge; null below it. */
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
