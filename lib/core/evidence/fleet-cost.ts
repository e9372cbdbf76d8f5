import type { Figure } from '../condenser';
import { figure, Z80 } from '../condenser/bands';
import { extraKwh, type OwnLimits } from './own-limits';

/** What is kept of a unit's belief for lists: where its coil stood, how fast it goes, what a deposit costs it. */
export type UnitStanding = {
  ratePerDay: number;
  rateSdPerDay: number;
  /** ln(K/K_clean) when it was last looked at, and days since. */
  lnK: number;
  lnKSd: number;
  days: number;
  own: OwnLimits | null;
};

/** Spread of nominal cooling and run hours, the unit's own; of the equations, common to all units. As for one estimate. */
export const OWN_SD = Math.hypot(0.4, 0.15);
export const COMMON_SD = 0.3;

/** Deposit today (−ln K): as last seen, grown at the unit's rate since. */
export function depositToday(u: UnitStanding): { value: number; sd: number } {
  const days = Math.max(0, u.days);
  return { value: Math.max(0, -u.lnK + u.ratePerDay * days), sd: Math.hypot(u.lnKSd, u.rateSdPerDay * days) };
}

/** Fraction of clean conductance lost today, with its band. */
export function lostToday(u: UnitStanding): Figure {
  const { value, sd } = depositToday(u);
  const lost = (y: number) => 1 - Math.exp(-Math.max(0, y));
  return figure(lost(value), lost(value - Z80 * sd), lost(value + Z80 * sd));
}

/**
 * Extra energy of fouled coils today, kWh a day, summed over units; null where no unit has numbers. Errors of size and
 * of the coil's state are each unit's own and average out; those of the equations do not.
 */
export function extraEnergyToday(units: readonly UnitStanding[]): Figure | null {
  let total = 0;
  let variance = 0;
  let counted = 0;
  for (const u of units) {
    if (!u.own || u.own.kwhPerDay.length < 2) continue;
    counted++;
    const { value, sd } = depositToday(u);
    const own = u.own;
    const at = (y: number) => extraKwh(own, Math.max(0, y));
    const middle = at(value);
    total += middle;
    variance += ((at(value + Z80 * sd) - at(value - Z80 * sd)) / 2) ** 2 + (Z80 * OWN_SD * middle) ** 2;
  }
  if (counted === 0) return null;
  const half = Math.sqrt(variance + (Z80 * COMMON_SD * total) ** 2);
  return figure(total, Math.max(0, total - half), total + half);
}

/** Mean rate of some units, as the share of conductance that their coils lose in 30 days. */
export function monthlyLoss(units: readonly Pick<UnitStanding, 'ratePerDay' | 'rateSdPerDay'>[]): Figure | null {
  if (units.length === 0) return null;
  const mean = units.reduce((a, u) => a + u.ratePerDay, 0) / units.length;
  const sd = Math.sqrt(units.reduce((a, u) => a + u.rateSdPerDay ** 2, 0)) / units.length;
  const lost = (rate: number) => 1 - Math.exp(-30 * Math.max(0, rate));
  return figure(lost(mean), lost(mean - Z80 * sd), lost(mean + Z80 * sd));
}

export function timesPrice(energy: Figure | null, price: number | null): Figure | null {
  return energy && price !== null ? figure(energy.value * price, energy.lo * price, energy.hi * price) : null;
}

type Ends = Pick<Figure, 'value' | 'lo' | 'hi'>;

/**
 * Sum of several units' figures with its 80 % band. What each unit knows of itself (its gauge, its size and hours, its coil) errs on
 * its own and adds in quadrature; the equations err alike for all (`COMMON_SD` of each figure, no more than its own arm) and that
 * part adds straight. One figure keeps its band; the band is never wider than all ends added. The two arms are reckoned apart.
 */
export function sumOf(figures: readonly (Ends | null)[]): Figure | null {
  const given = figures.filter((f) => f !== null);
  if (given.length === 0) return null;
  const arm = (of: (f: Ends) => number) => {
    let [common, apart] = [0, 0];
    for (const f of given) {
      const whole = Math.max(0, of(f));
      const shared = Math.min(whole, Z80 * COMMON_SD * Math.abs(f.value));
      common += shared;
      apart += whole ** 2 - shared ** 2;
    }
    return Math.hypot(common, Math.sqrt(apart));
  };
  const value = given.reduce((a, f) => a + f.value, 0);
  return figure(value, Math.max(0, value - arm((f) => f.value - f.lo)), value + arm((f) => f.hi - f.value));
}
