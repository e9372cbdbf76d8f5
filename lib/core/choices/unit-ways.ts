import type { Banded, Prices, WayInput } from './compare';

/** The three ways for a unit, from what is on file of it and what the shop says things cost. */

/** What happened to a unit, and to the shop's others, over so many years. */
export type Happened = { times: number; years: number };

export type UnitFacts = {
  cleanings: Happened;
  callOuts: Happened;
  failures: Happened;
  /** The same of every unit of the shop: what one that was made good, or is new, is held to. */
  fleet: { callOuts: Happened; failures: Happened };
  leakKgPerYear: number;
  /** Minutes at the unit that a cleaning took, from what was written down there; null where too little was. */
  cleaningMinutes: Minutes | null;
  /** Energy that deposit costs a year, kWh: as it is kept now, and with a coil that cleans up whole. Null without numbers. */
  fouling: { now: Banded; clean: Banded } | null;
};

/** Minutes with an 80 % band, over so many cleanings. */
export type Minutes = Banded & { cleanings: number };

export type TypedFigures = {
  /** Paid now, shop's currency; null leaves the way out. */
  coilPrice: number | null;
  coilYears: number;
  unitPrice: number | null;
  unitYears: number;
  /** Years the unit has left if nothing is done. */
  leftYears: number;
  /** kWh a year with a clean coil: this unit, and a new one. Null: only what deposit costs is told apart. */
  useKwh: number | null;
  newKwh: number | null;
  callOut: number;
  refrigerantPerKg: number;
  /** A share a year. */
  interest: number;
};

export type ShopCosts = {
  energyPerKwh: number;
  /** A cleaning of the minutes that the shop plans for one, with its share of the trip. */
  cleaning: number;
  failure: number;
  /** An hour of a technician, where the shop has said; and the minutes that `cleaning` is the price of. */
  hour?: number | null;
  plannedMinutes?: number;
};

const Z80 = 1.2816;
/** Prices and lives as people give them: judgement. */
const TYPED_SHARE = 0.15;
const LIFE_SHARE = 0.3;
/** How far a repaired or new unit's troubles lie from the shop's mean: judgement. */
const FLEET_SHARE = 0.6;

const around = (value: number, share: number): Banded => ({ value, lo: value / (1 + share), hi: value * (1 + share) });
const none: Banded = { value: 0, lo: 0, hi: 0 };

/**
 * Times a year from a count: the posterior of a Poisson rate, gamma with shape count + ½, held to the mean of the shop's
 * other units by the years that half an event takes there (Jeffreys' prior without them). As the lognormal of the same
 * mean and variance, which is how bands are drawn: `value` is its median, so that draws have the posterior's mean.
 * @throws RangeError without years to stand on
 */
export function rateOf({ times, years }: Happened, fleet?: Happened): Banded {
  if (!(years > 0 && times >= 0)) throw new RangeError('A count needs years to stand on.');
  const shape = times + 0.5;
  const prior = fleet ? (0.5 * fleet.years) / (fleet.times + 0.5) : 0;
  const mean = shape / (years + prior);
  const sd = Math.sqrt(Math.log1p(1 / shape));
  const value = mean * Math.exp((-sd * sd) / 2);
  return { value, lo: value * Math.exp(-Z80 * sd), hi: value * Math.exp(Z80 * sd) };
}

const plus = (a: Banded, kwh: number | null): Banded =>
  kwh === null ? a : { value: a.value + kwh, lo: a.lo + kwh / (1 + TYPED_SHARE), hi: a.hi + kwh * (1 + TYPED_SHARE) };

/**
 * What a cleaning of this unit costs: the shop's price, more or less by the hours that this unit was seen to take beside
 * those planned. Without a price of an hour, or times seen, the shop's price as it is. Never below a tenth of it.
 */
export function cleaningPrice({ cleaning, hour, plannedMinutes }: ShopCosts, seen: Minutes | null): Banded {
  const shop = around(cleaning, TYPED_SHARE);
  if (!seen || !hour || !plannedMinutes) return shop;
  const at = (minutes: number, price: number) => Math.max(cleaning / 10, price + (hour * (minutes - plannedMinutes)) / 60);
  const value = at(seen.value, cleaning);
  // Price and time are told apart from one another, so their widths add as squares.
  const wide = (own: number, times: number) => Math.sqrt((own - cleaning) ** 2 + (at(times, cleaning) - value) ** 2);
  return { value, lo: Math.max(cleaning / 20, value - wide(shop.lo, seen.lo)), hi: value + wide(shop.hi, seen.hi) };
}

/** Fewest cleanings of a unit from which its time is told. Judgement. */
const FEWEST = 2;

/**
 * The mean minutes of some cleanings with its band: how they differ from one another, and how surely each is told.
 * @param times the minutes of each, with the least and the most that they can have been
 */
export function meanMinutes(times: readonly { minutes: number; lo: number; hi: number }[]): Minutes | null {
  const n = times.length;
  if (n < FEWEST) return null;
  const value = times.reduce((sum, t) => sum + t.minutes, 0) / n;
  const spread = Math.sqrt(times.reduce((sum, t) => sum + (t.minutes - value) ** 2, 0) / (n - 1) / n);
  const side = (of: (t: (typeof times)[number]) => number) => Math.abs(times.reduce((sum, t) => sum + of(t), 0) / n - value);
  const lo = Math.max(
    0,
    value -
      Math.hypot(
        Z80 * spread,
        side((t) => t.lo),
      ),
  );
  return {
    value,
    lo,
    hi:
      value +
      Math.hypot(
        Z80 * spread,
        side((t) => t.hi),
      ),
    cleanings: n,
  };
}

/** The ways that have a price, going on always first. */
export function unitWays(facts: UnitFacts, typed: TypedFigures, shop: ShopCosts): { ways: WayInput[]; prices: Prices } {
  const cleaningsPerYear = rateOf(facts.cleanings);
  const others = {
    cleaningsPerYear,
    callOutsPerYear: around(rateOf(facts.fleet.callOuts).value, FLEET_SHARE),
    leakKgPerYear: none,
    failuresPerYear: around(rateOf(facts.fleet.failures).value, FLEET_SHARE),
  };
  const [now, clean] = [facts.fouling?.now ?? none, facts.fouling?.clean ?? none];
  const goOn: WayInput = {
    way: 'go_on',
    price: null,
    years: around(typed.leftYears, LIFE_SHARE),
    energyKwhPerYear: plus(now, typed.useKwh),
    cleaningsPerYear,
    callOutsPerYear: rateOf(facts.callOuts, facts.fleet.callOuts),
    leakKgPerYear: facts.leakKgPerYear > 0 ? around(facts.leakKgPerYear, LIFE_SHARE) : none,
    failuresPerYear: rateOf(facts.failures, facts.fleet.failures),
  };
  const ways: WayInput[] = [goOn];
  if (typed.coilPrice !== null)
    ways.push({
      ...others,
      way: 'repair',
      price: around(typed.coilPrice, TYPED_SHARE),
      // A coil serves no longer than the unit around it.
      years: around(Math.min(typed.coilYears, typed.leftYears), LIFE_SHARE),
      energyKwhPerYear: plus(clean, typed.useKwh),
    });
  if (typed.unitPrice !== null)
    ways.push({
      ...others,
      way: 'replace',
      price: around(typed.unitPrice, TYPED_SHARE),
      years: around(typed.unitYears, LIFE_SHARE),
      energyKwhPerYear: plus(clean, typed.useKwh === null ? null : (typed.newKwh ?? typed.useKwh)),
    });
  const prices: Prices = {
    energyPerKwh: around(shop.energyPerKwh, 0.1),
    cleaning: cleaningPrice(shop, facts.cleaningMinutes),
    callOut: around(typed.callOut, TYPED_SHARE),
    refrigerantPerKg: around(typed.refrigerantPerKg, TYPED_SHARE),
    failure: around(shop.failure, 0.4),
    interest: typed.interest,
  };
  return { ways, prices };
}

export const WAY_LABEL = { go_on: 'Go on as it is', repair: 'New coil, circuit made tight', replace: 'New unit' } as const;
export const VERDICT_WORDS = { clear: 'clear', leaning: 'leaning that way', cant_tell: 'can’t tell them apart' } as const;
