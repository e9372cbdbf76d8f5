import { expect, it } from 'vitest';
import { compareWays, unitWays, type Happened, type Way } from '@/lib/core/choices';
import { RandomStream } from '@/lib/core/numerics/random';

/**
 * Clean, repair or replace as the page asks it, over 1,000 simulated units: three years are lived through day by day
 * and counted, the owner's prices, lives and uses are guesses, and the choice is lived through for 24 years more.
 * The world has what the comparison leaves out: troubles that grow with age and dirt, a day drawn at a time, bills
 * discounted when they fall due, a unit at its end that is replaced whatever was chosen, spreads of other shapes.
 */

const WAYS = ['go_on', 'repair', 'replace'] as const;
const INTEREST = 0.06;
const HORIZON = 24;
const PRICES = { energy: 0.18, cleaning: 110, callOut: 260, gas: 45, failure: 1800 };

type Stretch = {
  years: number;
  kwh: number;
  cleanings: number;
  callOuts: number;
  leaks: number;
  failures: number;
  ageing: number;
  price: number;
};
type Unit = { now: Stretch; repaired: Stretch; fresh: Stretch };

/** Ordinary events of the shop's other units, a year. */
const FLEET = { callOuts: 0.35, failures: 0.08 };

/** A sum of three waits: skewed, of mean one, and no lognormal. */
const skewed = (r: RandomStream) => -(Math.log(r.between(1e-9, 1)) + Math.log(r.between(1e-9, 1)) + Math.log(r.between(1e-9, 1))) / 3;

function makeUnit(r: RandomStream): Unit {
  const clean = r.between(1500, 9000);
  const trouble = skewed(r) * (r.chance(0.35) ? 3 : 1);
  const now: Stretch = {
    years: r.between(2, 10),
    kwh: clean + r.between(100, 2500),
    cleanings: r.between(2, 9),
    callOuts: FLEET.callOuts * trouble,
    leaks: r.chance(0.2) ? r.between(0.1, 1.2) : 0,
    failures: FLEET.failures * trouble,
    ageing: 0.05,
    price: 0,
  };
  const repaired: Stretch = {
    ...now,
    years: Math.min(now.years, r.between(6, 12)),
    kwh: clean + r.between(20, 300),
    callOuts: FLEET.callOuts * skewed(r),
    failures: FLEET.failures * skewed(r),
    leaks: 0,
    price: r.between(500, 2600),
  };
  const fresh: Stretch = {
    ...repaired,
    years: r.between(9, 16),
    kwh: repaired.kwh * r.between(0.65, 0.95),
    callOuts: FLEET.callOuts * skewed(r),
    failures: FLEET.failures * skewed(r),
    ageing: 0.02,
    price: r.between(2500, 11_000),
  };
  return { now, repaired, fresh };
}

/** Days of three years on which something happened, a draw a day. */
function counted(perYear: number, years: number, r: RandomStream): Happened {
  let times = 0;
  for (let day = 0; day < years * 365; day++) if (r.chance(perYear / 365)) times++;
  return { times, years };
}

/** What a way costs until the horizon, today's money: its own stretch, then new units one after another. */
function lived(first: Stretch, fresh: Stretch, chosen: Way): number {
  let [total, at] = [0, 0];
  let stretch = first;
  let paid = chosen !== 'go_on';
  while (at < HORIZON) {
    const until = Math.min(HORIZON, at + stretch.years);
    // What still serves at the horizon is not charged to it.
    if (paid) total += stretch.price * ((until - at) / stretch.years) * Math.pow(1 + INTEREST, -at);
    for (let month = Math.round(at * 12); month < Math.round(until * 12); month++) {
      const old = 1 + stretch.ageing * (month / 12 - at);
      const bill =
        stretch.kwh * PRICES.energy +
        stretch.cleanings * PRICES.cleaning +
        (stretch.callOuts * PRICES.callOut + stretch.failures * PRICES.failure + stretch.leaks * PRICES.gas) * old;
      total += (bill / 12) * Math.pow(1 + INTEREST, -month / 12);
    }
    [at, stretch, paid] = [until, fresh, true];
  }
  return total;
}

it('costs at most 5 % more than the best choice over 1,000 simulated units', () => {
  const r = new RandomStream(2027, 'units');
  const off = (x: number, share: number) => x * (1 + r.between(-share, share));
  const fleet = { callOuts: counted(FLEET.callOuts, 300, r), failures: counted(FLEET.failures, 300, r) };
  let [chosen, best] = [0, 0];
  const always: Record<Way, number> = { go_on: 0, repair: 0, replace: 0 };
  const picked: Record<Way, number> = { go_on: 0, repair: 0, replace: 0 };
  for (let n = 0; n < 1000; n++) {
    const u = makeUnit(r);
    const [extra, left] = [u.now.kwh, u.repaired.kwh].map((kwh) => off(kwh - Math.min(u.now.kwh, u.repaired.kwh) + 80, 0.5));
    const band = (value = 0) => ({ value, lo: value / 1.6, hi: value * 1.6 });
    const { ways, prices } = unitWays(
      {
        cleanings: counted(u.now.cleanings, 3, r),
        callOuts: counted(u.now.callOuts, 3, r),
        failures: counted(u.now.failures, 3, r),
        fleet,
        leakKgPerYear: off(u.now.leaks, 0.3),
        cleaningMinutes: null,
        fouling: { now: band(extra), clean: band(left) },
      },
      {
        coilPrice: off(u.repaired.price, 0.1),
        coilYears: off(u.repaired.years, 0.3),
        unitPrice: off(u.fresh.price, 0.1),
        unitYears: off(u.fresh.years, 0.25),
        leftYears: off(u.now.years, 0.4),
        useKwh: off(u.repaired.kwh - 80, 0.1),
        newKwh: off(u.fresh.kwh - 80, 0.1),
        callOut: PRICES.callOut,
        refrigerantPerKg: PRICES.gas,
        interest: INTEREST,
      },
      { energyPerKwh: PRICES.energy, cleaning: PRICES.cleaning, failure: off(PRICES.failure, 0.4) },
    );
    const choice = compareWays(ways, prices).best;
    const cost = {
      go_on: lived(u.now, u.fresh, 'go_on'),
      repair: lived(u.repaired, u.fresh, 'repair'),
      replace: lived(u.fresh, u.fresh, 'replace'),
    };
    picked[choice]++;
    chosen += cost[choice];
    best += Math.min(...Object.values(cost));
    for (const w of WAYS) always[w] += cost[w];
  }
  const regret = (x: number) => 100 * (x / best - 1);
  console.info(
    `Clean, repair or replace: regret ${regret(chosen).toFixed(2)} % over 1,000 simulated units (asked: at most 5 %); always the same: ${WAYS.map((w) => `${w} ${regret(always[w]).toFixed(1)} %`).join(', ')}; chosen ${JSON.stringify(picked)}.`,
  );
  expect(regret(chosen)).toBeLessThan(5);
  // Better than any constant answer, and none of the ways is never chosen.
  for (const w of WAYS) {
    expect(regret(chosen)).toBeLessThan(regret(always[w]));
    expect(picked[w]).toBeGreaterThan(20);
  }
});
