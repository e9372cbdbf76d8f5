import { HORIZON_DAYS } from '../../lib/core/fouling';
import { DEFAULT_POLICY } from '../../lib/core/intervals';
import { RandomStream } from '../../lib/core/numerics/random';
import type { Next, Policy } from './policies';
import { cleaningVisit, dateOf, judged } from './visit';
import { aDay, daysUntil, deposit, newCoil, wash, type Coil, type World } from './world';

/** US dollars. Cleaning, energy and failure are the shop's default settings; a return visit is a look without a cleaning. */
export const COSTS = {
  cleaning: DEFAULT_POLICY.cleaningCost,
  /** A deep cleaning instead of a plain one; a breakdown call includes one. */
  deepCleaning: 200,
  returnVisit: DEFAULT_POLICY.inspectionCost,
  failure: DEFAULT_POLICY.failureCost,
  energyPerDayPerLnK: 0.8,
};

/** Chance a day that a unit past its own trip level does trip; the shop's setting. */
const TRIP_CHANCE = DEFAULT_POLICY.failureChancePerDay;

export type Tally = {
  unitDays: number;
  cleanings: number;
  deepCleanings: number;
  returnVisits: number;
  failures: number;
  foundPacked: number;
  /** Cleanings at which the coil was met as it stood (all but those after a breakdown). */
  met: number;
  cost: number;
  forecasts: number;
  covered: number;
};

export const emptyTally = (): Tally => ({
  unitDays: 0,
  cleanings: 0,
  deepCleanings: 0,
  returnVisits: 0,
  failures: 0,
  foundPacked: 0,
  met: 0,
  cost: 0,
  forecasts: 0,
  covered: 0,
});

/** One world under one policy. Luck is drawn by name, so that two policies meet the same units, deposits and people. */
export function runWorld(world: World, policy: Policy, seed: number, fleet: number, limitDeposit: number): Tally {
  const t = emptyTally();
  const coils = world.units.map(newCoil);
  const due = world.units.map((u, i) => policy.first(u, i));
  const back: (number | null)[] = world.units.map(() => null);
  const deep = world.units.map(() => false);
  const fan = world.units.map(() => ({ dead: false, at: 0 }));
  const luck = world.units.map((u) => new RandomStream(seed, `luck ${fleet} ${u.id}`));
  for (let day = 0; day < world.days; day++) {
    policy.daily(day);
    world.units.forEach((unit, i) => {
      const c = coils[i] as Coil;
      const s = luck[i] as RandomStream;
      const f = fan[i] as { dead: boolean; at: number };
      aDay(c, unit, day);
      t.unitDays++;
      t.cost += COSTS.energyPerDayPerLnK * deposit(c);
      if (unit.fanDeaths[f.at] === day) [f.dead, f.at] = [true, f.at + 1];
      const technician = s.pick(world.technicians);
      const tripped = deposit(c) >= unit.tripAt && s.chance(TRIP_CHANCE);
      if (tripped) {
        t.failures++;
        t.cost += COSTS.failure;
        const grade = judged(deposit(c), technician.eye, s);
        wash(c, unit, technician, s, true);
        f.dead = false;
        const on = dateOf(day + 1);
        settle(
          i,
          day + 1,
          policy.next(i, day + 1, [
            { kind: 'trip', on },
            { kind: 'coil', on, grade, phase: 'before' },
            { kind: 'cleaning', on, deep: true },
          ]),
        );
        return;
      }
      if (back[i] !== null && day >= (back[i] as number)) {
        back[i] = null;
        t.returnVisits++;
        t.cost += COSTS.returnVisit;
      }
      if (day < (due[i] as number)) return;
      // Now and then nobody gets in; they come a week later.
      if (s.chance(0.03)) {
        due[i] = day + 7;
        return;
      }
      const { events, foundPacked } = cleaningVisit(c, unit, day + 1, f.dead, technician, s, deep[i] as boolean);
      f.dead = false;
      t.cleanings++;
      t.met++;
      if (foundPacked) t.foundPacked++;
      t.cost += deep[i] ? COSTS.deepCleaning : COSTS.cleaning;
      if (deep[i]) t.deepCleanings++;
      settle(i, day + 1, policy.next(i, day + 1, events));
      score(i, day + 1);
    });
  }
  return t;

  function settle(i: number, day: number, next: Next): void {
    const late = Math.floor(10 * (luck[i] as RandomStream).next() ** 2);
    due[i] = day + Math.max(1, next.days) + late;
    deep[i] = next.deepClean;
    back[i] = next.returnDays === null ? null : day + next.returnDays;
  }

  function score(i: number, day: number): void {
    const band = policy.band(i, day);
    if (!band) return;
    const unit = world.units[i] as World['units'][number];
    const days = daysUntil(coils[i] as Coil, unit, day, limitDeposit);
    t.forecasts++;
    if (days <= HORIZON_DAYS) t.covered += days >= band.low && days <= band.high ? 1 : 0;
    // Not within ten years: anywhere in the share of the forecast that lies beyond them.
    else t.covered += Math.max(0, 0.9 - Math.max(0.1, band.ever)) / Math.max(1e-9, 1 - band.ever);
  }
}
