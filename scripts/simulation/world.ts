import { PLACEMENTS, type Placement } from '../../lib/core/equipment/build';
import { RandomStream } from '../../lib/core/numerics/random';

/**
 * Invented fleets to try policies on. The truth is deliberately not the estimator's model: deposits grow by gamma
 * increments (not a Wiener process) with a season, unit effects have heavy tails, levelling has its own time constant
 * for each unit, every fleet has its own levels that nobody is told, technicians clean and judge differently, readings
 * carry a lasting bias and are sometimes spoiled, fans die, visits are late or missed. All numbers are invented.
 */
export type TrueUnit = {
  id: string;
  kitchenId: string;
  placement: Placement;
  /** Deposit gained on each day if growth did not level off. */
  increments: Float64Array;
  /** Days; Infinity = never levels off. */
  tau: number;
  /** Deposit above which the unit may trip on a hot day. */
  tripAt: number;
  readingBias: number;
  /** Part of a deposit that no cleaning takes off. */
  bakedOn: number;
  /** Days on which the condenser fan dies. */
  fanDeaths: number[];
};

export type Technician = { restore: number; eye: number };

export type World = { units: TrueUnit[]; technicians: Technician[]; days: number };

/** Days in which a coil packs (deposit 0.6), typical of the invented world; the estimator has its own, other numbers. */
const WORLD_DAYS: Record<Placement, number> = {
  fryer: 105,
  charbroiler: 140,
  wok: 95,
  griddle: 200,
  bakery: 230,
  line: 240,
  back_of_house: 600,
  bar: 500,
  outdoors: 380,
};

/** Mix of placements: a kitchen line with a back and a bar. */
const MIX: Placement[] = [
  'fryer',
  'fryer',
  'charbroiler',
  'wok',
  'griddle',
  'griddle',
  'line',
  'line',
  'line',
  'bakery',
  'back_of_house',
  'back_of_house',
  'back_of_house',
  'bar',
  'outdoors',
];

/** Extra years beyond the run, so that what would have happened without a cleaning can be followed. */
const FORETHOUGHT_DAYS = 3650;

/** Student's t with 5 degrees of freedom, scaled to variance 1. */
function heavy(s: RandomStream): number {
  return (s.normal() / Math.sqrt(s.gamma(2.5, 2) / 5)) * Math.sqrt(3 / 5);
}

export function makeWorld(seed: number, fleet: number, years: number, kitchens = 12): World {
  const s = new RandomStream(seed, `world ${fleet}`);
  const days = Math.round(years * 365.25);
  const level = Object.fromEntries(PLACEMENTS.map((p) => [p, Math.log(0.6 / WORLD_DAYS[p]) + s.normal(0, 0.25)])) as Record<
    Placement,
    number
  >;
  const scale = s.between(0.01, 0.04);
  const technicians = [0, 1, 2].map(() => ({ restore: s.between(0.88, 0.98), eye: s.normal(0, 0.02) }));
  const units: TrueUnit[] = [];
  for (let k = 0; k < kitchens; k++) {
    const kitchen = s.normal(0, 0.3);
    const season = { size: s.between(0, 0.3), phase: s.between(0, 2 * Math.PI) };
    for (let u = 0, n = s.whole(3, 7); u < n; u++) {
      const placement = s.pick(MIX);
      const rate = Math.exp(level[placement] + kitchen + 0.38 * heavy(s));
      const own = new RandomStream(seed, `unit ${fleet} ${k} ${u}`);
      const increments = new Float64Array(days + FORETHOUGHT_DAYS);
      for (let d = 0; d < increments.length; d++) {
        const today = rate * (1 + season.size * Math.sin((2 * Math.PI * d) / 365.25 + season.phase));
        increments[d] = own.gamma(today / scale, scale);
      }
      const fanDeaths: number[] = [];
      for (let d = own.exponential(365 / 0.12); d < days; d += own.exponential(365 / 0.12)) fanDeaths.push(Math.floor(d));
      units.push({
        id: `${k}-${u}`,
        kitchenId: `kitchen ${k}`,
        placement,
        increments,
        fanDeaths,
        tau: s.chance(0.25) ? s.between(80, 300) : Infinity,
        tripAt: 0.75 * Math.exp(s.normal(0, 0.12)),
        readingBias: s.normal(0, 0.03),
        bakedOn: s.between(0.005, 0.03),
      });
    }
  }
  return { units, technicians, days };
}

/** The coil itself on its way through time. */
export type Coil = { fresh: number; residue: number; age: number };
export const newCoil = (): Coil => ({ fresh: 0, residue: 0.005, age: 0 });
export const deposit = (c: Coil): number => c.fresh + c.residue;

export function aDay(c: Coil, unit: TrueUnit, day: number): void {
  c.fresh += (unit.increments[day] as number) * (Number.isFinite(unit.tau) ? Math.exp(-c.age / unit.tau) : 1);
  c.age++;
}

/** Most of what a cleaning leaves comes off at the next one; a little is baked on until somebody washes right through. */
export function wash(c: Coil, unit: TrueUnit, technician: Technician, s: RandomStream, deep: boolean): void {
  const restored = Math.min(1, Math.max(0, technician.restore + s.normal(0, 0.04)));
  c.residue += unit.bakedOn * c.fresh;
  c.fresh *= 1 - restored;
  c.age = 0;
  if (deep) [c.fresh, c.residue] = [0, c.residue * s.between(0.05, 0.3)];
}

/** Days until the coil, left alone from `day`, reaches a deposit; Infinity if it never does as far as the world goes. */
export function daysUntil(from: Coil, unit: TrueUnit, day: number, level: number): number {
  const c = { ...from };
  for (let d = day; d < unit.increments.length; d++) {
    if (deposit(c) >= level) return d - day;
    aDay(c, unit, d);
  }
  return Infinity;
}
