import { addDays, localDate, type LocalDate } from '@/lib/core/calendar';
import type { Placement } from '@/lib/core/equipment/build';
import { GRADES, type CoilGrade } from '@/lib/core/findings/grades';
import type { FleetUnit, Hyper, UnitEvent, UnitHistory } from '@/lib/core/fouling';
import { CEILING_SD, PIECE_SD } from '@/lib/core/fouling/hyper';
import type { RandomStream } from '@/lib/core/numerics/random';

/** Draws from the fouling model itself, written independently of the filter: for calibration by simulation. */
export type Shape = 'line' | 'levelling' | 'feeding';
export type Truth = {
  rate: number;
  lost: number;
  shape: Shape;
  /** Days in which growth in a line half fills the fins: the scale on which it slows, or feeds on itself. */
  scale: number;
  /** Deposit that it comes to in the end, where it levels off. */
  ceiling: number;
  fresh: number;
  residue: number;
  age: number;
};
export type DrawnUnit = { history: UnitHistory; truth: Truth; end: LocalDate };

export const START = localDate('2024-01-01');
export const REACH = 3650;

/** Operational days of a coil's own shape over `days`, short ones where growth feeds on itself. */
function clock({ shape, age, scale, ceiling, fresh, residue }: Truth, hyper: Hyper, days: number): number {
  if (shape === 'line') return days;
  if (shape === 'levelling') {
    // In a line it would be at the ceiling after tau days.
    const tau = (ceiling / 0.5) * scale;
    return tau * (Math.exp(-age / tau) - Math.exp(-(age + days) / tau));
  }
  // By what is there, old or new: y = 0.5·(t/scale)^power, from the t of today's y on.
  const { power } = hyper.accelerating;
  const y = Math.max(fresh + residue, 0.03) / 0.5;
  return scale * ((y ** (1 / power) + days / scale) ** power - y);
}

/** Lets days pass, and says how many operational ones those were. */
function grow(s: RandomStream, t: Truth, hyper: Hyper, days: number): number {
  let passed = 0;
  // What feeds on itself feeds on its luck too: a day at a time.
  for (let left = days; left > 0; left -= 1) {
    const gain = clock(t, hyper, t.shape === 'feeding' ? Math.min(1, left) : days);
    t.fresh += gain * t.rate + Math.sqrt(hyper.diffusion * t.rate * gain) * s.normal();
    passed += gain;
    if (t.shape !== 'feeding') break;
  }
  t.age += days;
  return passed;
}

/** A rate and a shape as the prior has them: most units like their kind, one in twelve anything within wide bounds. */
function drawRate(s: RandomStream, hyper: Hyper, lnMean: number): Pick<Truth, 'rate' | 'shape' | 'scale' | 'ceiling'> {
  const narrow = Math.sqrt(hyper.unitSd ** 2 - PIECE_SD ** 2);
  const rate = Math.exp(lnMean + narrow * (s.chance(0.08) ? 2.5 : 1) * s.normal() + PIECE_SD * s.normal());
  const u = s.next();
  const { levelling, accelerating } = hyper;
  const shape = u < levelling.probability ? 'levelling' : u < levelling.probability + accelerating.probability ? 'feeding' : 'line';
  return { rate, shape, scale: 0.5 / rate, ceiling: levelling.ceiling * Math.exp(CEILING_SD * s.normal()) };
}

function washed(s: RandomStream, t: Truth, hyper: Hyper, lnMean: number): void {
  const left = t.fresh * (t.lost + hyper.restore.cleaningSd * s.normal());
  t.residue += hyper.restore.baked * left;
  t.rate = Math.abs(t.rate * (1 + hyper.drift * Math.sqrt(t.age / 365.25) * s.normal()));
  if (s.chance(1 - Math.exp((-hyper.changePerYear * Math.max(14, t.age)) / 365.25))) Object.assign(t, drawRate(s, hyper, lnMean));
  t.fresh = (1 - hyper.restore.baked) * left;
  t.age = 0;
}

function seen(s: RandomStream, t: Truth, hyper: Hyper): CoilGrade {
  const y = t.fresh + t.residue + hyper.grades.sd * s.normal();
  const i = s.chance(hyper.misread) ? s.whole(0, GRADES.coil.length - 1) : hyper.grades.thresholds.filter((c) => y > c).length;
  return (GRADES.coil[i] as { grade: CoilGrade }).grade;
}

export function drawUnit(s: RandomStream, hyper: Hyper, placement: Placement, kitchenEffect: number, visits: number): DrawnUnit {
  const lnMean = hyper.lnRate[placement] + kitchenEffect;
  const truth: Truth = {
    ...drawRate(s, hyper, lnMean),
    lost: 1 - hyper.restore.mean + hyper.restore.unitSd * s.normal(),
    fresh: 0,
    age: 0,
    residue: s.normal(0.01, 0.02),
  };
  const events: UnitEvent[] = [];
  let on = START;
  for (let v = 0; v < visits; v++) {
    const days = s.whole(20, 110);
    on = addDays(on, days);
    grow(s, truth, hyper, days);
    const look = (phase: 'before' | 'after') => {
      if (s.chance(0.8)) events.push({ kind: 'coil', on, grade: seen(s, truth, hyper), phase });
      const sd = s.between(0.05, 0.15);
      if (s.chance(0.5)) events.push({ kind: 'reading', on, lnK: -(truth.fresh + truth.residue + sd * s.normal()), sd, phase });
    };
    look('before');
    if (s.chance(0.85)) {
      events.push({ kind: 'cleaning', on });
      washed(s, truth, hyper, lnMean);
      look('after');
    }
  }
  return { history: { startedOn: START, startedClean: true, events }, truth, end: on };
}

/** Days until the deposit first touches `level`; Infinity beyond REACH. Steps of a day with the bridge between them. */
export function passageDays(s: RandomStream, t: Truth, hyper: Hyper, level: number): number {
  let y = t.fresh + t.residue;
  if (y >= level) return 0;
  for (let day = 1; day <= REACH; day++) {
    const from = y;
    const passed = grow(s, t, hyper, 1);
    y = t.fresh + t.residue;
    if (y >= level) return day - 0.5;
    if (s.next() < Math.exp((-2 * (level - from) * (level - y)) / (hyper.diffusion * t.rate * passed))) return day - 0.5;
  }
  return Infinity;
}

/** A coil on the line that is met with one grade and cleaned every 60 days. */
export function coilMet(kitchenId: string, grade: 'bare' | 'packed', visits = 4): FleetUnit {
  const events = Array.from({ length: visits }, (_, c): UnitEvent[] => {
    const on = addDays(START, 60 * (c + 1));
    return [
      { kind: 'coil', on, grade, phase: 'before' },
      { kind: 'cleaning', on },
    ];
  }).flat();
  return { history: { startedOn: START, startedClean: true, events }, exposure: { placement: 'line', kitchenId } };
}
/** One that nobody has looked at yet. */
export const coilUnmet = (kitchenId: string): FleetUnit => ({
  history: { startedOn: START, startedClean: true, events: [] },
  exposure: { placement: 'line', kitchenId },
});
