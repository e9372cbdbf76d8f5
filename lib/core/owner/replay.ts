import type { Figure } from '../condenser';
import { figure, Z80 } from '../condenser/bands';
import { daysBetween, type LocalDate } from '../calendar';
import { afterCleaning, type FoulingOutlook, type Limit } from '../fouling';
import { normalCdf } from '../fouling/special';
import { cycles, WEEKS, type Costs, type Cycle } from '../intervals/cycle';

/** A coil with its cleanings in the days that are gone through again, oldest first, and the last one before them. */
export type ReplayCoil = {
  posterior: FoulingOutlook;
  cleanings: readonly LocalDate[];
  costs: Costs & { cleaningCost: number };
  failureLimit: Limit;
  /** Deposit at which a coil is packed. */
  packed: number;
  /** Weeks of the calendar plan, minutes of a cleaning. */
  calendarWeeks: number;
  minutes: number;
};

export type ReplaySum = { cleanings: number; hours: number; breakdowns: number; comebacks: number; money: number };
export type Replay = {
  coils: number;
  /** Coil-days gone through: between two cleanings each. */
  days: number;
  plan: ReplaySum;
  calendar: ReplaySum;
  /** Calendar less plan: above zero where the plan spares it. With 80 % bands. */
  spared: { breakdowns: Figure; comebacks: Figure; money: Figure; hours: number };
};

const nearest = (weeks: number): number =>
  WEEKS.reduce((best, w, k) => (Math.abs(w - weeks) < Math.abs((WEEKS[best] ?? 0) - weeks) ? k : best), 0);

/** What one hypothesis expects of a cycle of about so many weeks: a breakdown, a coil found packed, money beside the cleaning's. */
function expected(c: Cycle, k: number, { costs, packed }: ReplayCoil) {
  const [mean, variance, failure] = [c.mean[k] ?? 0, c.variance[k] ?? 0, c.failure[k] ?? 0];
  const over = variance > 1e-12 ? normalCdf((mean - packed) / Math.sqrt(variance)) : Number(mean >= packed);
  const comeback = (1 - failure) * over;
  return { failure, comeback, money: (c.spent[k] ?? 0) + costs.cleaningCost * (1 - failure) };
}

type Moments = { mean: number; variance: number };

/** Sum over hypotheses of one coil: what both plans come to, and how much the hypotheses differ about their difference. */
function oneCoil(coil: ReplayCoil, gaps: readonly number[], days: number) {
  const all = cycles(afterCleaning(coil.posterior), coil.costs, { name: 'none', lnK: -1e6 }, coil.failureLimit, coil.packed);
  const weight = all.reduce((n, c) => n + c.weight, 0);
  const at = gaps.map((g) => nearest(g / 7));
  const kc = nearest(coil.calendarWeeks);
  const times = days / (7 * coil.calendarWeeks);
  const zero = (): Moments => ({ mean: 0, variance: 0 });
  const diff = { breakdowns: zero(), comebacks: zero(), money: zero() };
  const plan = { breakdowns: 0, comebacks: 0, money: 0 };
  const calendar = { breakdowns: 0, comebacks: 0, money: 0 };
  const add = (m: Moments, w: number, d: number) => {
    m.mean += w * d;
    m.variance += w * d * d;
  };
  for (const c of all) {
    const w = c.weight / weight;
    const own = { breakdowns: 0, comebacks: 0, money: 0 };
    for (const k of at) {
      const e = expected(c, k, coil);
      own.breakdowns += e.failure;
      own.comebacks += e.comeback;
      own.money += e.money;
    }
    const e = expected(c, kc, coil);
    const other = { breakdowns: times * e.failure, comebacks: times * e.comeback, money: times * e.money };
    for (const key of ['breakdowns', 'comebacks', 'money'] as const) {
      plan[key] += w * own[key];
      calendar[key] += w * other[key];
      add(diff[key], w, other[key] - own[key]);
    }
  }
  for (const m of Object.values(diff)) m.variance = Math.max(0, m.variance - m.mean * m.mean);
  // Beside what is not known of the rate there is luck: a breakdown comes or does not, in either plan.
  diff.breakdowns.variance += plan.breakdowns + calendar.breakdowns;
  diff.comebacks.variance += plan.comebacks + calendar.comebacks;
  diff.money.variance +=
    coil.costs.failureCost ** 2 * (plan.breakdowns + calendar.breakdowns) +
    coil.costs.comebackCost ** 2 * (plan.comebacks + calendar.comebacks);
  return { plan, calendar, diff };
}

/**
 * The shop's own cleanings gone through again: what today's belief about each coil expects of the intervals that were really
 * kept, beside the same days cleaned by the calendar. Both by the same belief, so that only the dates differ. What the growth
 * law itself may have wrong is in neither band.
 * @returns null where no coil has two cleanings
 */
export function replay(coils: readonly ReplayCoil[]): Replay | null {
  const sum = (): ReplaySum => ({ cleanings: 0, hours: 0, breakdowns: 0, comebacks: 0, money: 0 });
  const total = { coils: 0, days: 0, plan: sum(), calendar: sum() };
  const spread = { breakdowns: { mean: 0, variance: 0 }, comebacks: { mean: 0, variance: 0 }, money: { mean: 0, variance: 0 } };
  for (const coil of coils) {
    const gaps = coil.cleanings.slice(1).flatMap((on, i) => {
      const before = coil.cleanings[i];
      return before === undefined ? [] : [daysBetween(before, on)];
    }).filter((d) => d > 0); // prettier-ignore
    const days = gaps.reduce((a, b) => a + b, 0);
    if (days === 0) continue;
    const { plan, calendar, diff } = oneCoil(coil, gaps, days);
    const times = days / (7 * coil.calendarWeeks);
    total.coils++;
    total.days += days;
    const take = (to: ReplaySum, from: typeof plan, cleanings: number) => {
      to.cleanings += cleanings;
      to.hours += (cleanings * coil.minutes) / 60;
      to.breakdowns += from.breakdowns;
      to.comebacks += from.comebacks;
      to.money += from.money;
    };
    take(total.plan, plan, gaps.length);
    take(total.calendar, calendar, times);
    for (const key of ['breakdowns', 'comebacks', 'money'] as const) {
      spread[key].mean += diff[key].mean;
      spread[key].variance += diff[key].variance;
    }
  }
  if (total.coils === 0) return null;
  const banded = ({ mean, variance }: Moments) => figure(mean, mean - Z80 * Math.sqrt(variance), mean + Z80 * Math.sqrt(variance));
  return {
    ...total,
    spared: {
      breakdowns: banded(spread.breakdowns),
      comebacks: banded(spread.comebacks),
      money: banded(spread.money),
      hours: total.calendar.hours - total.plan.hours,
    },
  };
}
