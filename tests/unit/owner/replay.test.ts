import { describe, expect, it } from 'vitest';
import { addDays, type LocalDate } from '@/lib/core/calendar';
import { DEFAULT_HYPER, posterior } from '@/lib/core/fouling';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { replay, type ReplayCoil } from '@/lib/core/owner/replay';

const START = '2025-01-06' as LocalDate;
const every = (weeks: number, times: number) => Array.from({ length: times + 1 }, (_, i) => addDays(START, 7 * weeks * i));
const coil = (weeks: number, times: number, over: Partial<ReplayCoil> = {}): ReplayCoil => ({
  posterior: posterior({ startedOn: START, startedClean: true, events: [] }, { placement: 'fryer', kitchenId: 'k' }, DEFAULT_HYPER),
  cleanings: every(weeks, times),
  costs: DEFAULT_POLICY,
  failureLimit: DEFAULT_POLICY.failureLimit,
  packed: DEFAULT_HYPER.grades.thresholds[3],
  calendarWeeks: 10,
  minutes: 30,
  ...over,
});

describe('a year gone through again', () => {
  it('spares nothing where the plan kept to the calendar', () => {
    const r = replay([coil(10, 5)]);
    expect(r?.spared.breakdowns.value).toBeCloseTo(0, 9);
    expect(r?.spared.money.value).toBeCloseTo(0, 6);
    expect(r?.plan).toMatchObject({ cleanings: 5, hours: 2.5 });
    expect(r?.days).toBe(350);
  });

  it('spares breakdowns and packed coils where a fast coil was cleaned more often, and says what the hours were', () => {
    const r = replay([coil(5, 10)]);
    expect(r?.spared.breakdowns.value).toBeGreaterThan(0);
    expect(r?.spared.comebacks.value).toBeGreaterThan(0);
    expect(r?.spared.hours).toBeCloseTo(-2.5, 9);
    // Luck alone makes one coil's year uncertain.
    expect(r?.spared.breakdowns.lo).toBeLessThan(0);
  });

  it('keeps its books: what is spared is the one sum less the other, and money is cleanings and what they spare', () => {
    const r = replay([coil(5, 10), coil(15, 3, { minutes: 60 })]);
    if (!r) throw new Error('nothing to go through');
    for (const key of ['breakdowns', 'comebacks', 'money'] as const)
      expect(r.spared[key].value).toBeCloseTo(r.calendar[key] - r.plan[key], 6);
    expect(r.spared.hours).toBeCloseTo(r.calendar.hours - r.plan.hours, 9);
    expect(r).toMatchObject({ coils: 2, days: 350 + 315, plan: { cleanings: 13, hours: 8 } });
    expect(r.calendar.cleanings).toBeCloseTo(5 + 4.5, 9);
    // Cleaning for nothing, the same dates are cheaper by the price of those that no breakdown made needless.
    const free = replay([coil(5, 10, { costs: { ...DEFAULT_POLICY, cleaningCost: 0 } })]);
    const paid = replay([coil(5, 10)]);
    const less = (paid?.plan.money ?? NaN) - (free?.plan.money ?? NaN);
    expect(less).toBeCloseTo(DEFAULT_POLICY.cleaningCost * (10 - (paid?.plan.breakdowns ?? NaN)), 6);
    // Every breakdown and every coil found packed costs what it costs: the band is no narrower than their luck.
    const { lo, hi } = paid?.spared.breakdowns ?? { lo: NaN, hi: NaN };
    expect((hi - lo) / 2).toBeGreaterThan(1.28 * Math.sqrt((paid?.plan.breakdowns ?? NaN) + (paid?.calendar.breakdowns ?? NaN)) - 1e-9);
  });

  it('grows surer with the number of coils, as independent ones do', () => {
    const one = replay([coil(5, 10)]);
    const many = replay(Array.from({ length: 100 }, () => coil(5, 10)));
    const half = (f: { lo: number; hi: number } | undefined) => ((f?.hi ?? NaN) - (f?.lo ?? NaN)) / 2;
    expect(many?.spared.breakdowns.value).toBeCloseTo(100 * (one?.spared.breakdowns.value ?? NaN), 6);
    expect(half(many?.spared.breakdowns) / half(one?.spared.breakdowns)).toBeCloseTo(10, 6);
  });

  it('is nothing, not zero, where no coil has two cleanings', () => {
    expect(replay([coil(5, 0)])).toBeNull();
    expect(replay([])).toBeNull();
  });
});
