import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { GRADES, type CoilGrade } from '@/lib/core/findings/grades';
import { DEFAULT_HYPER, fitHyper, type FleetUnit, type UnitEvent } from '@/lib/core/fouling';
import { RandomStream } from '@/lib/core/numerics/random';

const START = localDate('2025-01-06');
const gradeAt = (y: number, thresholds: readonly number[]): CoilGrade =>
  (GRADES.coil[thresholds.filter((c) => y > c).length] as { grade: CoilGrade }).grade;

/** Coils on the line, met every 25 to 110 days, cleaned to nothing; `grown`: deposit after so many days at a rate. */
function fleet(grown: (rate: number, days: number) => number, thresholds: readonly number[], readings: boolean): FleetUnit[] {
  const s = new RandomStream(8, 'steps');
  return Array.from({ length: 24 }, (_, u) => {
    const rate = Math.exp(-6 + 0.4 * s.normal());
    const events: UnitEvent[] = [];
    let on = START;
    for (let v = 0; v < 10; v++) {
      const days = s.whole(25, 110);
      on = addDays(on, days);
      const y = grown(rate, days) * Math.exp(0.1 * s.normal());
      events.push({ kind: 'coil', on, grade: gradeAt(y + 0.04 * s.normal(), thresholds), phase: 'before' });
      if (readings) events.push({ kind: 'reading', on, lnK: -(y + 0.06 * s.normal()), sd: 0.06, phase: 'before' });
      events.push({ kind: 'cleaning', on });
    }
    const history = { startedOn: START, startedClean: true, events };
    return { history, exposure: { placement: 'line' as const, kitchenId: `k${Math.floor(u / 4)}` } };
  });
}

const usual = DEFAULT_HYPER.grades.thresholds;
const late = usual.map((t) => 1.16 * t);
const inALine = (rate: number, days: number) => rate * days;
const plain = fitHyper(fleet(inALine, usual, true), DEFAULT_HYPER, 'test');

describe('where a shop’s people step from grade to grade', () => {
  it('is learned from readings of the same coils', () => {
    const { thresholds } = fitHyper(fleet(inALine, late, true), DEFAULT_HYPER, 'test').grades;
    expect(thresholds[1] / usual[1]).toBeGreaterThan(1.05);
    expect(thresholds[2] / usual[2]).toBeGreaterThan(1.09);
    expect(thresholds[2] / usual[2]).toBeLessThan(1.24);
  });

  it('stays about as judged where they step as judged', () => {
    for (const k of [1, 2] as const) expect(Math.abs(Math.log(plain.grades.thresholds[k] / usual[k]))).toBeLessThan(0.08);
  });

  it('stays as judged where nobody reads', () =>
    expect(fitHyper(fleet(inALine, late, false), DEFAULT_HYPER, 'test').grades.thresholds).toEqual(usual));
});
