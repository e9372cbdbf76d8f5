import { PLACEMENTS, type Placement } from '../../lib/core/equipment/build';
import { RandomStream } from '../../lib/core/numerics/random';
import type { WorldKind } from './worlds';

/**
 * Invented fleets to try policies on. Nothing of the estimator is used here, and its equations are not these: deposits
 * grow by gamma increments (not a Wiener process) with a season of each kitchen's own, unit effects have heavy tails,
 * growth that feeds on itself does so by another law, growth that levels off does so by the deposit that chokes the air which
 * brings it (not by age, and without an end), every fleet has its own levels and its own steps from grade to grade that nobody is told, technicians clean and judge differently, readings carry a lasting bias and
 * are sometimes spoiled, fans die, units trip for other reasons, visits are late or missed. All numbers are invented.
 */
export type TrueUnit = {
  id: string;
  kitchenId: string;
  placement: Placement;
  /** Deposit gained on each day if growth neither levelled off nor fed on itself. */
  increments: Float64Array;
  /** Deposit at which growth has slowed to half; Infinity = never levels off. */
  chokesAt: number;
  /** Growth of a coil with deposit y is (1 − feed) + 2·feed·y/0.5 times its plain growth. */
  feed: number;
  /** Deposit above which the unit may trip on a hot day. */
  tripAt: number;
  readingBias: number;
  /** Part of a deposit that no cleaning takes off. */
  bakedOn: number;
  /** Days on which the condenser fan dies. */
  fanDeaths: number[];
  /** Days on which it trips for a reason that is not the coil. */
  otherTrips: number[];
};

export type Technician = { id: string; restore: number; eye: number };

export type World = {
  kind: WorldKind;
  units: TrueUnit[];
  technicians: Technician[];
  days: number;
  /** Deposits at which this world's people step from grade to grade. */
  steps: readonly number[];
  /** Day of the change by kitchen, for those that have one. */
  changes: Map<string, number>;
  /** ln of the deposit a day that is usual at each placement of this fleet, and the scale of its luck. */
  level: Record<Placement, number>;
  scale: number;
};

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
const OUTSIDE: Placement[] = [...MIX, 'outdoors', 'outdoors', 'outdoors', 'outdoors', 'outdoors'];

/** Extra years beyond the run, so that what would have happened without a cleaning can be followed. */
const FORETHOUGHT_DAYS = 3650;

/** Student's t with 5 degrees of freedom, scaled to variance 1. */
function heavy(s: RandomStream): number {
  return (s.normal() / Math.sqrt(s.gamma(2.5, 2) / 5)) * Math.sqrt(3 / 5);
}

/** Times as fast on a day of the year (0 = 2 January): fluff flies for about six weeks from late May. */
function fluffOn(day: number, times: number): number {
  if (times === 1) return 1;
  const d = day % 365.25;
  return d > 143 && d < 187 ? times : 0.6;
}

/** Days of a chance that comes `perYear` times a year. */
function comes(s: RandomStream, perYear: number, days: number): number[] {
  const on: number[] = [];
  for (let d = s.exponential(365 / perYear); d < days; d += s.exponential(365 / perYear)) on.push(Math.floor(d));
  return on;
}

/** `again`: the same units with other luck. */
export function makeWorld(kind: WorldKind, seed: number, fleet: number, years: number, kitchens = 12, again = 0): World {
  const s = new RandomStream(seed, `world ${fleet}`);
  const days = Math.round(years * 365.25);
  const level = Object.fromEntries(PLACEMENTS.map((p) => [p, Math.log((kind.speed * 0.6) / WORLD_DAYS[p]) + s.normal(0, 0.25)])) as Record<
    Placement,
    number
  >;
  const scale = s.between(0.01, 0.04);
  const technicians = [0, 1, 2].map((n) => ({ id: `technician ${n}`, restore: s.between(0.88, 0.98), eye: s.normal(0, 0.02) }));
  const steps = [0.05, 0.15, 0.32, 0.6].map((x) => x * Math.exp(s.normal(0, 0.06)));
  const units: TrueUnit[] = [];
  const changes = new Map<string, number>();
  for (let k = 0; k < kitchens; k++) {
    const kitchen = s.normal(0, 0.3);
    const season = { size: s.between(0, 0.3), phase: s.between(0, 2 * Math.PI) };
    const changed = s.chance(kind.change.share)
      ? { on: Math.floor(days * s.between(0.2, 0.7)), times: s.between(kind.change.from, kind.change.to) }
      : null;
    if (changed) changes.set(`kitchen ${k}`, changed.on);
    for (let u = 0, n = s.whole(3, 7); u < n; u++) {
      const placement = s.pick(kind.fluff > 1 ? OUTSIDE : MIX);
      const rate = Math.exp(level[placement] + kitchen + 0.38 * heavy(s));
      const own = new RandomStream(seed, `unit ${fleet} ${k} ${u}${again ? ` again ${again}` : ''}`);
      const increments = new Float64Array(days + FORETHOUGHT_DAYS);
      for (let d = 0; d < increments.length; d++) {
        const today =
          rate *
          (1 + season.size * Math.sin((2 * Math.PI * d) / 365.25 + season.phase)) *
          (placement === 'outdoors' ? fluffOn(d, kind.fluff) : 1) *
          (changed && d >= changed.on ? changed.times : 1);
        increments[d] = own.gamma(today / scale, scale);
      }
      const shape = s.next();
      units.push({
        id: `${k}-${u}`,
        kitchenId: `kitchen ${k}`,
        placement,
        increments,
        fanDeaths: comes(own, 0.12, days),
        otherTrips: comes(own, 0.03, days),
        chokesAt: shape < kind.levelling ? s.between(0.12, 0.45) : Infinity,
        feed: shape >= 1 - kind.accelerating ? s.between(0.4, 0.8) : 0,
        tripAt: 0.75 * Math.exp(s.normal(0, 0.12)),
        readingBias: s.normal(0, 0.03),
        bakedOn: s.between(0.005, 0.03),
      });
    }
  }
  return { kind, units, technicians, days, steps, changes, level, scale };
}

/** The coil itself on its way through time. */
export type Coil = { fresh: number; residue: number; age: number };
export const newCoil = (): Coil => ({ fresh: 0, residue: 0.005, age: 0 });
export const deposit = (c: Coil): number => c.fresh + c.residue;

export function aDay(c: Coil, unit: TrueUnit, day: number): void {
  let gain = unit.increments[day] as number;
  if (unit.chokesAt < Infinity) gain /= 1 + (c.fresh / unit.chokesAt) ** 2;
  if (unit.feed > 0) gain *= 1 - unit.feed + (2 * unit.feed * Math.min(deposit(c), 1.5)) / 0.5;
  c.fresh += gain;
  c.age++;
}

/** Most of what a cleaning leaves comes off at the next one; a little is baked on until somebody washes right through. */
export function wash(c: Coil, unit: TrueUnit, restore: number, s: RandomStream, deep: boolean): void {
  const restored = Math.min(1, Math.max(0, restore + s.normal(0, 0.04)));
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
