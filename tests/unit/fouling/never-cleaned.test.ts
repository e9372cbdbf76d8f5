import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { DEFAULT_HYPER as H, forecast, posterior, type UnitEvent } from '@/lib/core/fouling';
import { ageByDeposit, operationalDays } from '@/lib/core/fouling/filter';
import { RATE_CENTRES, RATE_COUNT } from '@/lib/core/fouling/hyper';
import type { CoilGrade } from '@/lib/core/findings/grades';

const START = localDate('2025-01-01');

/** A coil of which nobody knows when it was last cleaned, looked at every two months and never cleaned. */
function met(grade: CoilGrade, looks: number, placement: 'fryer' | 'line' | 'bar') {
  const events = Array.from({ length: looks }, (_, i): UnitEvent => ({
    kind: 'coil',
    on: addDays(START, 60 * (i + 1)),
    grade,
    phase: 'before',
  }));
  return posterior({ startedOn: START, startedClean: false, events }, { placement, kitchenId: 'a' }, H);
}

describe.each(['fryer', 'line', 'bar'] as const)('a coil by the %s that nobody cleans', (placement) => {
  it.each([4, 8])('fouls slower if it is met bare each time than if it is met furred, matted or packed (%i looks)', (looks) => {
    const bare = met('bare', looks, placement).rate.mean;
    for (const grade of ['furred', 'matted', 'packed'] as const) expect(bare, grade).toBeLessThan(met(grade, looks, placement).rate.mean);
  });

  it('is believed slower with every look that meets it bare, far slower than coils there in the end', () => {
    const rates = [0, 1, 2, 4, 8].map((looks) => met('bare', looks, placement).rate.mean);
    expect([...rates].sort((a, b) => b - a)).toEqual(rates);
    expect(rates.at(-1)).toBeLessThan((rates[0] ?? NaN) / 3);
  });

  it('is never believed to have begun well below nothing', () => {
    for (const looks of [1, 2, 4, 8]) expect(met('bare', looks, placement).lnK.mean).toBeLessThan(0);
  });
});

it('that has stood matted for two years is expected to pack later than one that came to it within four months', () => {
  const packs = (looks: number) => forecast(met('matted', looks, 'line'), { name: 'packed', lnK: -0.6 }, addDays(START, 60 * looks)).ever;
  expect(met('matted', 12, 'line').rate.mean).toBeLessThan(met('matted', 2, 'line').rate.mean);
  expect(packs(12)).toBeLessThanOrEqual(packs(2) + 1e-9);
});

it.each([3, RATE_COUNT + 2, RATE_COUNT + 14, 2 * RATE_COUNT + 1, 2 * RATE_COUNT + 13])(
  'its age by its deposit is that from which its growth goes on as before (piece %i)',
  (id) => {
    const rate = Math.exp(RATE_CENTRES[id % RATE_COUNT] as number);
    // In a line growth is the same at any age.
    if (id < RATE_COUNT) return expect(operationalDays(H, id, ageByDeposit(H, id, 0.3), 40)).toBe(40);
    const days = 0.5 / rate;
    expect(ageByDeposit(H, id, rate * operationalDays(H, id, 0, days))).toBeCloseTo(days, 6);
    expect(ageByDeposit(H, id, -0.1)).toBe(0);
  },
);
