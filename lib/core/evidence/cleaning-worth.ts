import { figure, normalCdf, Z80 } from '../condenser/bands';
import type { Figure } from '../condenser';
import { DEFAULT_HYPER, type Limit } from '../fouling';
import { COMMON_SD, depositToday, OWN_SD, type UnitStanding } from './fleet-cost';
import { extraKwh } from './own-limits';

/** A coil whose cleaning comes due soon. */
export type DueCoil = UnitStanding & {
  /** Days from today to its date; 0 where that has gone by. */
  dueInDays: number;
  /** Days that a cleaning is meant to last: the length of its rule. */
  lastsDays: number;
  pricePerKwh: number | null;
};

/** What the shop said these cost. */
export type CleaningPrices = { cleaningCost: number; failureCost: number };
export type HotDays = { failureLimit: Limit; failureChancePerDay: number };

export type CleaningWorth = {
  coils: number;
  /** Coils without an energy price or without equations: counted with breakdowns alone. */
  withoutEnergy: number;
  price: number;
  energy: Figure;
  /** Breakdowns fewer, and what they would cost. */
  breakdowns: Figure;
  avoided: Figure;
  saved: Figure;
  verdict: 'pays' | 'costs' | 'open';
};

const STEP_DAYS = 7;
const FAILURE_SD = 0.1;
/** How often a hot day breaks a unit down beyond its limit is judgement: wrong by half as often as not at one spread. */
const CHANCE_SD = 0.5;
/** Three points of a normal distribution (Abramowitz & Stegun 25.4.46, n = 3, rescaled). */
const POINTS = [
  [-Math.sqrt(3), 1 / 6],
  [0, 2 / 3],
  [Math.sqrt(3), 1 / 6],
] as const;

type Deposit = { value: number; sd: number };
type Run = { kwh: number; breakdown: number };

/** Energy and chance of a breakdown of one coil over `days`, from a deposit that grows at the coil's own rate. */
function run(coil: DueCoil, from: (day: number) => Deposit, hot: HotDays): Run {
  const limit = coil.own?.failureLimit ?? hot.failureLimit;
  const ownLimits = coil.own !== null && coil.own.kwhPerDay.length >= 2 ? coil.own : null;
  let [hazard, kwh] = [0, 0];
  for (let day = 0; day < coil.lastsDays; day += STEP_DAYS) {
    const step = Math.min(STEP_DAYS, coil.lastsDays - day);
    const { value, sd } = from(day + step / 2);
    const survival = Math.exp(-hazard);
    if (ownLimits) for (const [z, weight] of POINTS) kwh += weight * survival * step * extraKwh(ownLimits, Math.max(0, value + z * sd));
    hazard += hot.failureChancePerDay * step * normalCdf((value + limit.lnK) / Math.hypot(sd, limit.sd ?? FAILURE_SD));
  }
  return { kwh, breakdown: 1 - Math.exp(-hazard) };
}

/** One coil left alone from its date until its next one, against the same coil cleaned on its date. */
function saving(coil: DueCoil, hot: HotDays): Run {
  const today = depositToday(coil);
  const grown = (days: number): Deposit => ({
    value: today.value + Math.max(0, coil.ratePerDay) * days,
    sd: Math.hypot(today.sd, coil.rateSdPerDay * days),
  });
  const met = grown(coil.dueInDays);
  const { mean, cleaningSd } = DEFAULT_HYPER.restore;
  const left = { value: (1 - mean) * met.value, sd: Math.hypot((1 - mean) * met.sd, cleaningSd * met.value) };
  const alone = run(coil, (day) => grown(coil.dueInDays + day), hot);
  const cleaned = run(
    coil,
    (day) => ({ value: left.value + Math.max(0, coil.ratePerDay) * day, sd: Math.hypot(left.sd, coil.rateSdPerDay * day) }),
    hot,
  );
  return { kwh: alone.kwh - cleaned.kwh, breakdown: alone.breakdown - cleaned.breakdown };
}

/**
 * What cleaning some coils buys, each from its date until it comes due again, against leaving it alone for as long: energy
 * and breakdowns avoided, in the shop's currency, with 80 % bands; null where no coil is due. What cleaning leaves is the
 * fleet's usual. Errors of a coil's state and size are its own; those of the equations, and of how often a hot day breaks
 * a fouled unit down, are common to all. Whether a breakdown then happens is luck, and in the band too.
 */
export function cleaningWorth(coils: readonly DueCoil[], prices: CleaningPrices, hot: HotDays): CleaningWorth | null {
  if (coils.length === 0) return null;
  let [withoutEnergy, money, moneyOwn, fewer, luck] = [0, 0, 0, 0, 0];
  for (const coil of coils) {
    const one = saving(coil, hot);
    fewer += one.breakdown;
    luck += Math.max(0, one.breakdown * (1 - one.breakdown));
    if (coil.pricePerKwh === null || !coil.own || coil.own.kwhPerDay.length < 2) withoutEnergy++;
    else {
      const shifted = (by: number) =>
        saving({ ...coil, lnK: coil.lnK - by * coil.lnKSd, ratePerDay: coil.ratePerDay + by * coil.rateSdPerDay }, hot).kwh;
      const worth = one.kwh * coil.pricePerKwh;
      money += worth;
      moneyOwn += (((shifted(1) - shifted(-1)) / 2) * coil.pricePerKwh) ** 2 + (OWN_SD * worth) ** 2;
    }
  }
  const around = (value: number, sd: number) => figure(value, Math.max(0, value - Z80 * sd), value + Z80 * sd);
  const energySd = Math.hypot(Math.sqrt(moneyOwn), COMMON_SD * money);
  const fewerSd = Math.hypot(Math.sqrt(luck), CHANCE_SD * fewer);
  const price = coils.length * prices.cleaningCost;
  const saved = around(money + fewer * prices.failureCost, Math.hypot(energySd, fewerSd * prices.failureCost));
  return {
    coils: coils.length,
    withoutEnergy,
    price,
    energy: around(money, energySd),
    breakdowns: around(fewer, fewerSd),
    avoided: around(fewer * prices.failureCost, fewerSd * prices.failureCost),
    saved,
    verdict: saved.lo > price ? 'pays' : saved.hi < price && withoutEnergy === 0 ? 'costs' : 'open',
  };
}
