import { addDays, localDate, type LocalDate } from '@/lib/core/calendar';
import type { Placement } from '@/lib/core/equipment/build';
import { GRADES, type CoilGrade } from '@/lib/core/findings/grades';
import type { Hyper, UnitEvent, UnitHistory } from '@/lib/core/fouling';
import type { RandomStream } from '@/lib/core/numerics/random';

/** Draws from the fouling model itself, written independently of the filter: for calibration by simulation. */
export type Truth = { rate: number; lost: number; asymptotic: boolean; fresh: number; residue: number; age: number };
export type DrawnUnit = { history: UnitHistory; truth: Truth; end: LocalDate };

export const START = localDate('2024-01-01');
export const REACH = 3650;

export function grow(s: RandomStream, t: Truth, hyper: Hyper, days: number): void {
  const tau = hyper.asymptotic.tauDays;
  const gain = t.asymptotic ? tau * (Math.exp(-t.age / tau) - Math.exp(-(t.age + days) / tau)) : days;
  t.fresh += gain * t.rate + Math.sqrt(hyper.diffusion * t.rate * gain) * s.normal();
  t.age += days;
}

export function washed(s: RandomStream, t: Truth, hyper: Hyper): void {
  t.residue += t.fresh * (t.lost + hyper.restore.cleaningSd * s.normal());
  t.rate = Math.abs(t.rate * (1 + hyper.drift * Math.sqrt(t.age / 365.25) * s.normal()));
  t.fresh = 0;
  t.age = 0;
}

export function seen(s: RandomStream, t: Truth, hyper: Hyper): CoilGrade {
  const y = t.fresh + t.residue + hyper.grades.sd * s.normal();
  const i = hyper.grades.thresholds.filter((c) => y > c).length;
  return (GRADES.coil[i] as { grade: CoilGrade }).grade;
}

export function drawUnit(s: RandomStream, hyper: Hyper, placement: Placement, kitchenEffect: number, visits: number): DrawnUnit {
  const truth: Truth = {
    rate: Math.exp(hyper.lnRate[placement] + kitchenEffect + hyper.unitSd * s.normal()),
    lost: 1 - hyper.restore.mean + hyper.restore.unitSd * s.normal(),
    asymptotic: s.chance(hyper.asymptotic.probability),
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
      washed(s, truth, hyper);
      look('after');
    }
  }
  return { history: { startedOn: START, startedClean: true, events }, truth, end: on };
}

/** Days until the deposit first touches `level`; Infinity beyond REACH. Steps of a day with the bridge between them. */
export function passageDays(s: RandomStream, t: Truth, hyper: Hyper, level: number): number {
  let y = t.fresh + t.residue;
  if (y >= level) return 0;
  const tau = hyper.asymptotic.tauDays;
  for (let day = 1; day <= REACH; day++) {
    const from = y;
    const clock = t.asymptotic ? tau * Math.exp(-t.age / tau) * (1 - Math.exp(-1 / tau)) : 1;
    grow(s, t, hyper, 1);
    y = t.fresh + t.residue;
    if (y >= level) return day - 0.5;
    if (s.next() < Math.exp((-2 * (level - from) * (level - y)) / (hyper.diffusion * t.rate * clock))) return day - 0.5;
  }
  return Infinity;
}
