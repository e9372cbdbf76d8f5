import type { UnitEvent } from '../../lib/core/fouling';
import { RandomStream } from '../../lib/core/numerics/random';
import { cleaningVisit, dateOf, judged } from './visit';
import { aDay, daysUntil, deposit, newCoil, wash, type Coil, type World } from './world';

/** US dollars, as a shop with the settings that the program brings would count. */
export const COSTS = {
  cleaning: 60,
  /** A deep cleaning instead of a plain one; a breakdown call includes one. */
  deepCleaning: 200,
  /** A look without a cleaning. */
  returnVisit: 25,
  failure: 1200,
  energyPerDayPerLnK: 0.8,
};

/** Chance a day that a unit past its own trip level does trip. */
export const TRIP_CHANCE = 0.05;

export type Next = { days: number; returnDays: number | null; deepClean: boolean };

/** A policy hears what is written down at visits, never the truth, and says in how many days to come again. */
export type Policy = {
  name: string;
  first: (index: number) => number;
  /** Shown the coil as a visit leaves it; for what nobody could know. */
  sees?: (index: number, coil: Readonly<Coil>) => void;
  /** After a cleaning: days to the next one, to a return visit if one is called for, and whether the next is a deep one. */
  next: (index: number, day: number, events: UnitEvent[]) => Next;
  /** 10 and 90 % points of the days until a limit (Infinity = beyond the horizon), with the chance that it comes by then; null where a policy makes no forecast. */
  band?: (index: number, day: number) => { low: number; high: number; ever: number } | null;
  /** Once a day, for anything done by the calendar. */
  daily?: (day: number) => void;
};

export type Tally = {
  unitDays: number;
  cleanings: number;
  returnVisits: number;
  failures: number;
  foundPacked: number;
  /** Cleanings at which the coil was met as it stood (all but those after a breakdown). */
  met: number;
  changes: number;
  cost: number;
  forecasts: number;
  covered: number;
  /** Forecasts whose crossing came before, and after, the band. */
  early: number;
  late: number;
};

export const emptyTally = (): Tally => ({
  unitDays: 0,
  cleanings: 0,
  returnVisits: 0,
  failures: 0,
  foundPacked: 0,
  met: 0,
  changes: 0,
  cost: 0,
  forecasts: 0,
  covered: 0,
  early: 0,
  late: 0,
});

/** Beyond this many days a forecast says nothing. */
const HORIZON_DAYS = 3650;

/**
 * One world under one policy, one tally for each unit. Luck is drawn by name, so that two policies meet the same units,
 * deposits and people. `limitDeposit`: where the dates are scored.
 */
export function runWorld(
  world: World,
  policy: Policy,
  seed: number,
  fleet: number,
  limitDeposit: number,
  eachYear?: (year: number, soFar: readonly Tally[]) => void,
): Tally[] {
  const tallies = world.units.map(emptyTally);
  const coils = world.units.map(newCoil);
  const interval = world.units.map((_, i) => policy.first(i));
  const due = [...interval];
  const back: (number | null)[] = world.units.map(() => null);
  const deep = world.units.map(() => false);
  const fan = world.units.map(() => ({ dead: false, at: 0 }));
  const tripsSeen = world.units.map(() => 0);
  const luck = world.units.map((u) => new RandomStream(seed, `luck ${fleet} ${u.id}`));
  for (let day = 0; day < world.days; day++) {
    policy.daily?.(day);
    for (let i = 0; i < world.units.length; i++) aUnitDay(i, day);
    if (eachYear && (day + 1) % 365 === 0) eachYear((day + 1) / 365, tallies);
  }
  return tallies;

  function aUnitDay(i: number, day: number): void {
    const unit = world.units[i] as World['units'][number];
    const t = tallies[i] as Tally;
    const c = coils[i] as Coil;
    const s = luck[i] as RandomStream;
    const f = fan[i] as { dead: boolean; at: number };
    aDay(c, unit, day);
    t.unitDays++;
    t.cost += COSTS.energyPerDayPerLnK * deposit(c);
    if (unit.fanDeaths[f.at] === day) [f.dead, f.at] = [true, f.at + 1];
    const fouled = deposit(c) >= unit.tripAt && s.chance(TRIP_CHANCE);
    const other = unit.otherTrips[tripsSeen[i] as number] === day;
    if (other) tripsSeen[i] = (tripsSeen[i] as number) + 1;
    if (fouled || other) {
      t.failures++;
      t.cost += COSTS.failure;
      const technician = s.pick(world.technicians);
      const grade = judged(deposit(c), technician, world, s);
      wash(c, unit, technician.restore, s, true);
      f.dead = false;
      const on = dateOf(day + 1);
      settle(i, day + 1, [
        { kind: 'trip', on, ...(fouled ? {} : { cause: 'fan' as const }) },
        { kind: 'coil', on, grade, phase: 'before', by: technician.id },
        { kind: 'cleaning', on, deep: true },
      ]);
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
    const technician = s.pick(world.technicians);
    const { events, foundPacked } = cleaningVisit(c, unit, world, day + 1, f.dead, technician, s, deep[i] as boolean);
    f.dead = false;
    t.cleanings++;
    t.met++;
    if (foundPacked) t.foundPacked++;
    t.cost += deep[i] ? COSTS.deepCleaning : COSTS.cleaning;
    settle(i, day + 1, events);
    score(i, day + 1);
  }

  function settle(i: number, day: number, events: UnitEvent[]): void {
    policy.sees?.(i, coils[i] as Coil);
    const next = policy.next(i, day, events);
    const late = Math.floor(10 * (luck[i] as RandomStream).next() ** 2);
    if (next.days !== interval[i]) (tallies[i] as Tally).changes++;
    interval[i] = next.days;
    due[i] = day + Math.max(1, next.days) + late;
    deep[i] = next.deepClean;
    back[i] = next.returnDays === null ? null : day + next.returnDays;
  }

  function score(i: number, day: number): void {
    const band = policy.band?.(i, day);
    if (!band) return;
    const t = tallies[i] as Tally;
    const days = daysUntil(coils[i] as Coil, world.units[i] as World['units'][number], day, limitDeposit);
    t.forecasts++;
    if (days <= HORIZON_DAYS) {
      if (days < band.low) t.early++;
      else if (days > band.high) t.late++;
      else t.covered++;
      return;
    }
    // Not within ten years: anywhere in the share of the forecast that lies beyond them.
    const held = Math.max(0, 0.9 - Math.max(0.1, band.ever)) / Math.max(1e-9, 1 - band.ever);
    t.covered += held;
    t.late += 1 - held;
  }
}
