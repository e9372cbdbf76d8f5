import { addDays, daysBetween, type LocalDate } from '../calendar';

/**
 * How fast a unit loses its charge, reckoned at each addition. Both methods as 40 CFR 82.152 and 84.102 define them;
 * a facility uses one of them for all its appliances. The text of the rule and a licensed person decide.
 */

export type Addition = {
  on: LocalDate;
  /** kg put in to bring the unit back to its full charge. */
  kg: number;
};

export const LEAK_METHODS = ['annualizing', 'rolling'] as const;
export type LeakMethod = (typeof LEAK_METHODS)[number];

export type LeakRate = {
  on: LocalDate;
  method: LeakMethod;
  /** % of the full charge a year. */
  percent: number;
  /** Days that the figure stands on. */
  days: number;
  addedKg: number;
};

const YEAR = 365;

function checked(fullChargeKg: number, additions: readonly Addition[]): void {
  if (!(fullChargeKg > 0)) throw new RangeError('The full charge is above zero.');
  if (additions.some((a) => !(a.kg > 0))) throw new RangeError('An addition is above zero.');
}

const sorted = (additions: readonly Addition[]) => [...additions].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));

/**
 * Annualizing: added ÷ full charge × 365 ÷ the shorter of the days since the last addition and 365. Additions of one
 * day count together; the first of all counts as a year (nothing is known of before).
 */
export function annualizingRates(fullChargeKg: number, additions: readonly Addition[]): LeakRate[] {
  checked(fullChargeKg, additions);
  const byDay = new Map<LocalDate, number>();
  for (const { on, kg } of sorted(additions)) byDay.set(on, (byDay.get(on) ?? 0) + kg);
  let before: LocalDate | null = null;
  return [...byDay].map(([on, addedKg]) => {
    const days = before === null ? YEAR : Math.min(YEAR, daysBetween(before, on));
    before = on;
    return { on, method: 'annualizing', percent: (addedKg / fullChargeKg) * (YEAR / days) * 100, days, addedKg };
  });
}

/**
 * Rolling: all added in the 365 days before and on that day ÷ full charge, or since the last successful follow-up
 * verification test that showed all known leaks repaired, if that is less long ago.
 * @param verifiedOn days of such tests, any order
 */
export function rollingRates(fullChargeKg: number, additions: readonly Addition[], verifiedOn: readonly LocalDate[] = []): LeakRate[] {
  checked(fullChargeKg, additions);
  const all = sorted(additions);
  const days = [...new Set(all.map((a) => a.on))];
  return days.map((on) => {
    const yearAgo = addDays(on, -YEAR);
    const after = verifiedOn.filter((d) => d <= on).reduce((latest, d) => (d > latest ? d : latest), yearAgo);
    const addedKg = all.filter((a) => a.on <= on && a.on > after).reduce((sum, a) => sum + a.kg, 0);
    return { on, method: 'rolling', percent: (addedKg / fullChargeKg) * 100, days: daysBetween(after, on), addedKg };
  });
}
