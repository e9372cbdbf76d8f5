import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { DEFAULT_HYPER, posterior, type UnitEvent, type UnitHistory } from '@/lib/core/fouling';

const START = localDate('2025-01-06');
const day = (n: number) => addDays(START, n);
const of = (events: readonly UnitEvent[]) => {
  const history: UnitHistory = { startedOn: START, startedClean: true, events };
  return posterior(history, { placement: 'line', kitchenId: 'k' }, DEFAULT_HYPER);
};
const reading = (n: number, lnK: number, sd = 0.05, phase: 'before' | 'after' = 'before'): UnitEvent => ({ kind: 'reading', on: day(n), lnK, sd, phase }); // prettier-ignore
const fan = (n: number, grade: 'sound' | 'worn' | 'failed'): UnitEvent => ({ kind: 'fan', on: day(n), grade });
const cleaning = (n: number, deep?: boolean): UnitEvent => ({ kind: 'cleaning', on: day(n), ...(deep ? { deep } : {}) });
const coil = (n: number, grade: 'bare' | 'furred' | 'matted', phase: 'before' | 'after' = 'before'): UnitEvent => ({ kind: 'coil', on: day(n), grade, phase }); // prettier-ignore

describe('the events of a day', () => {
  const EVENTS: UnitEvent[] = [
    coil(60, 'matted'), coil(60, 'furred'), reading(60, -0.3), reading(60, -0.3, 0.09), reading(60, -0.2), cleaning(60), cleaning(60, true), coil(60, 'bare', 'after'), reading(60, -0.01, 0.05, 'after'),
    { kind: 'change', on: day(60), said: 'more' }, { kind: 'change', on: day(60), said: 'less' }, fan(60, 'worn'), fan(60, 'failed'), { kind: 'trip', on: day(60) }, { kind: 'trip', on: day(60), cause: 'fan' },
    coil(90, 'furred'), reading(120, -0.2), cleaning(120),
  ]; // prettier-ignore
  it('are believed alike in whatever order they arrive', () => {
    const as = of(EVENTS);
    fc.assert(
      fc.property(fc.shuffledSubarray(EVENTS, { minLength: EVENTS.length }), (shuffled) => {
        const p = of(shuffled);
        expect(p.rate).toEqual(as.rate);
        expect(p.lnK).toEqual(as.lnK);
        expect(p.logEvidence).toBe(as.logEvidence);
      }),
      { numRuns: 25 },
    );
  });

  it('may fall on the first day of the record, not before it', () => {
    expect(of([coil(0, 'furred')]).evidence.grades).toBe(1);
    expect(() => of([coil(-1, 'furred')])).toThrow(/older than the record/);
  });
});

describe('a dead fan', () => {
  const used = (...events: UnitEvent[]) => of(events).evidence;
  it('speaks in the coil’s place from its day on, until one is seen to work', () => {
    expect(used(reading(30, -0.1), fan(40, 'failed'), reading(40, -1), reading(50, -1))).toMatchObject({ readings: 1, setAside: 2 });
    expect(used(fan(40, 'failed'), fan(45, 'worn'), reading(50, -0.1))).toMatchObject({ readings: 1, setAside: 0 });
    expect(used(fan(40, 'failed'), fan(45, 'failed'), reading(50, -0.1))).toMatchObject({ readings: 0, setAside: 1 });
  });
  it('mended the same day is sound from the next on; that day’s reading stays aside', () => {
    expect(used(fan(40, 'failed'), fan(40, 'sound'), reading(40, -1), reading(50, -0.1))).toMatchObject({ readings: 1, setAside: 1 });
  });
  it('that nobody complained of at a later cleaning is taken as mended; a cleaning of the same day mends nothing', () => {
    expect(used(fan(40, 'failed'), cleaning(60), reading(61, -0.05))).toMatchObject({ readings: 1, setAside: 0 });
    expect(used(fan(40, 'failed'), cleaning(40), reading(61, -0.05))).toMatchObject({ readings: 0, setAside: 1 });
    expect(used(fan(40, 'failed'), coil(60, 'bare'), reading(61, -0.05))).toMatchObject({ readings: 0, setAside: 1 });
  });
});

describe('a reading', () => {
  it('with no error or no figure says nothing', () => {
    for (const bad of [reading(30, -0.2, 0), reading(30, NaN), reading(30, -0.2, -1)]) expect(of([bad]).evidence).toMatchObject({ readings: 0, setAside: 1 }); // prettier-ignore
    const aside = of([{ kind: 'reading', on: day(30), lnK: -0.9, sd: 0.05, phase: 'before', setAside: 'cold air' }]);
    expect(aside.evidence).toMatchObject({ readings: 0, setAside: 1 });
    expect(aside.rate.mean).toBeCloseTo(of([]).rate.mean, 6);
  });
  it('that is wild moves belief less than in proportion, and a worse one never moves it back', () => {
    const rate = (lnK: number) => of([coil(30, 'furred'), reading(60, lnK)]).rate.mean;
    const rates = [0, -0.1, -0.2, -0.4, -0.8, -2, -5].map(rate);
    for (let i = 1; i < rates.length; i++) expect(rates[i]!).toBeGreaterThanOrEqual(rates[i - 1]! - 1e-12);
    expect(rate(-5)).toBeCloseTo(rate(-3), 9);
  });
});
