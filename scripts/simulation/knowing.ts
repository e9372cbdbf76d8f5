import { COSTS, TRIP_CHANCE, type Policy } from './run';
import { aDay, deposit, type Coil, type TrueUnit, type World } from './world';

/**
 * Whoever knows everything but luck: each unit's rate, season, shape and change, and at every visit the deposit that is there. He chooses the
 * next date by what it costs over other lives of the same unit (relative value, C(T) − g·L(T); Howard 1960), packed finds at a price. No
 * rule that has to learn can do better but by luck, so what it costs bounds them all.
 */

/** Longest interval that is looked at, in days. */
const LONGEST = 728;

/** Chance of each lateness of a visit in days, as the invented shop has it: ⌊10u²⌋, and three in a hundred a week more. */
const LATE: readonly { days: number; chance: number }[] = Array.from({ length: 10 }, (_, k) => ({
  days: k,
  chance: Math.sqrt((k + 1) / 10) - Math.sqrt(k / 10),
})).flatMap(({ days, chance }) => [
  { days, chance: 0.97 * chance },
  { days: days + 7, chance: 0.03 * chance },
]);

/** Expected money and days of a cycle that a cleaning is to end after 0, 1, 2 … days, over the lives. */
type Course = { cost: Float64Array; days: Float64Array };

function courseOf(from: Coil, lives: readonly TrueUnit[], day: number, packed: number, price: number): Course {
  const reach = LONGEST + 20;
  const cost = new Float64Array(reach);
  const days = new Float64Array(reach);
  for (const unit of lives) {
    const c = { ...from };
    let [alive, spent, gone] = [1, 0, 0];
    for (let d = 0; d < reach; d++) {
      const found = deposit(c) >= packed ? price + COSTS.returnVisit : 0;
      cost[d]! += (spent + alive * (COSTS.cleaning + found)) / lives.length;
      days[d]! += gone / lives.length;
      aDay(c, unit, Math.min(day + d, unit.increments.length - 1));
      spent += alive * COSTS.energyPerDayPerLnK * deposit(c);
      gone += alive;
      if (deposit(c) < unit.tripAt) continue;
      // A breakdown is priced like a packed find, or going so seldom that coils break down first would count as finding none packed.
      spent += alive * TRIP_CHANCE * (COSTS.failure + price);
      alive *= 1 - TRIP_CHANCE;
    }
  }
  return { cost, days };
}

/** Days to the cheapest date, when a day is worth `worth`. */
function cheapest({ cost, days }: Course, worth: number): number {
  let [best, least] = [1, Infinity];
  for (let t = 1; t <= LONGEST; t++) {
    const value = LATE.reduce((sum, l) => sum + l.chance * ((cost[t + l.days] as number) - worth * (days[t + l.days] as number)), 0);
    if (value < least) [best, least] = [t, value];
  }
  return best;
}

/** Money a day in the long run of cleaning by the cheapest dates, from a coil as a cleaning leaves it. */
function worthOf(fresh: Coil, lives: readonly TrueUnit[], packed: number, price: number): number {
  // Over a few days of the year, for growth has seasons.
  const courses = [0, 91, 182, 274].map((day) => courseOf(fresh, lives, day, packed, price));
  let worth = 0.5;
  for (let i = 0; i < 12; i++) {
    const [spent, gone] = courses.reduce(
      ([s, g], course) => {
        const t = cheapest(course, worth);
        const at = (a: Float64Array) => LATE.reduce((sum, l) => sum + l.chance * (a[t + l.days] as number), 0);
        return [s + at(course.cost), g + at(course.days)];
      },
      [0, 0],
    );
    worth = spent / gone;
  }
  return worth;
}

/** `others`: other lives of the same world. */
export function knowing(world: World, others: readonly World[], price: number, name: string): Policy {
  const packed = world.steps[world.steps.length - 1] as number;
  const lives = world.units.map((_, i) => others.map((w) => w.units[i] as TrueUnit));
  const coils: Coil[] = [];
  const washed = world.units.map(() => ({ day: 0, residue: 0 }));
  const changeOf = (i: number) => world.changes.get((world.units[i] as TrueUnit).kitchenId) ?? Infinity;
  const worths = new Map<string, number>();
  // After a change the same unit is another: a day is worth what it is then.
  const worthAt = (i: number, day: number): number => {
    const since = day >= changeOf(i) ? changeOf(i) : 0;
    const key = `${i} ${since}`;
    const worth =
      worths.get(key) ??
      worthOf(
        { fresh: 0.02, residue: 0.02, age: 0 },
        (lives[i] as TrueUnit[]).map((u) => ({ ...u, increments: u.increments.subarray(since) })),
        packed,
        price,
      );
    worths.set(key, worth);
    return worth;
  };
  // Old deposit is washed out when what it costs over the days in which it built up is twice what that costs more (square-root law).
  const washes = (i: number, day: number, { residue }: Coil): boolean => {
    const w = washed[i] as { day: number; residue: number };
    if (residue < w.residue) w.day = day;
    w.residue = residue;
    return COSTS.energyPerDayPerLnK * residue * (day - w.day) >= 2 * (COSTS.deepCleaning - COSTS.cleaning);
  };
  const days = (i: number, day: number, coil: Coil) =>
    cheapest(courseOf(coil, lives[i] as TrueUnit[], day, packed, price), worthAt(i, day));
  return {
    name,
    first: (i) => days(i, 0, { fresh: 0, residue: 0.005, age: 0 }),
    sees: (i, coil) => (coils[i] = coil),
    next: (i, day, events) => {
      const found = events.some((e) => e.kind === 'coil' && e.phase === 'before' && e.grade === 'packed');
      const coil = coils[i] as Coil;
      return {
        days: days(i, day, coil),
        returnDays: found || events.some((e) => e.kind === 'trip') ? 7 : null,
        deepClean: washes(i, day, coil),
      };
    },
  };
}
