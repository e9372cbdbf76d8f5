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
