import { describe, expect, it } from 'vitest';
import { addDays } from '@/lib/core/calendar';
import { DEFAULT_HYPER, posterior, type UnitEvent } from '@/lib/core/fouling';
import { DEFAULT_POLICY, type UnitPolicy } from '@/lib/core/intervals';
import { washThrough } from '@/lib/core/intervals/deep';
import { historyOf, START, visit } from './support';

const STORY = Array.from({ length: 5 }, () => visit(60, 'matted', { lnK: -0.4, after: 'filmed' }));

/** Old deposit that a somewhat dearer cleaning would take off; told of cleanings so many days after the start. */
function wash(cleanings: [day: number, deep: boolean][] = [], more: Partial<UnitPolicy> = {}) {
  const history = historyOf(STORY);
  const events = cleanings.map(([n, deep]): UnitEvent => ({ kind: 'cleaning', on: addDays(START, n), ...(deep ? { deep } : {}) }));
  const believed = posterior(history, { placement: 'fryer', kitchenId: 'k' }, DEFAULT_HYPER);
  const settings = { ...DEFAULT_POLICY, deepCleaningCost: 70, ...more };
  return washThrough({ ...history, events: [...history.events, ...events] }, believed, settings, settings.failureLimit);
}

describe('washing a coil right through', () => {
  it('is worth it where old deposit has long been building up, and says what it saves', () => {
    const worth = wash();
    expect(worth?.costPerYear).toBeGreaterThan(0);
    expect((worth?.paysBackDays ?? NaN) * ((worth?.costPerYear ?? NaN) / 365.25)).toBeCloseTo(10, 9);
    // The dearer by so much the later it has paid.
    const dearer = wash([], { deepCleaningCost: 80 });
    expect(dearer && worth && dearer.paysBackDays / worth.paysBackDays).toBeCloseTo(2, 9);
  });

  it('saves by a machine’s own curve of energy what it saves by the same as a price', () => {
    const straight = wash([], { energyCostPerDayPerLnK: (y) => 0.8 * y });
    expect(straight?.costPerYear).toBeCloseTo(wash([], { energyCostPerDayPerLnK: 0.8 })?.costPerYear ?? NaN, 9);
    const steep = wash([], { energyCostPerDayPerLnK: (y) => 1.6 * y });
    expect(steep?.costPerYear).toBeGreaterThan(straight?.costPerYear ?? NaN);
  });

  it.each<[string, [number, boolean][], boolean]>([
    ['never: since the unit began', [], true],
    ['plainly cleaned of late, which takes none of it off', [[299, false]], true],
    ['washed through yesterday', [[299, true]], false],
    ['washed through on the day itself', [[300, true]], false],
    ['washed through long ago', [[1, true]], true],
    ['washed through long ago and yesterday', [[1, true], [299, true]], false],
    ['the same, told the other way round', [[299, true], [1, true]], false],
  ])('goes by how long it has been building up: %s', (_, cleanings, worth) => {
    expect(wash(cleanings) !== null).toBe(worth);
  }); // prettier-ignore

  it.each([
    ['costs no more than a plain one', { deepCleaningCost: 60 }],
    ['costs less', { deepCleaningCost: 50 }],
    ['costs more than it saves in all that time', { deepCleaningCost: 5000 }],
  ])('is no matter where it %s', (_, more) => {
    expect(wash([], more)).toBeNull();
  });
});
