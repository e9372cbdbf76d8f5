import { expect, it } from 'vitest';
import { addTimes, timeOnUnits, timeWords } from '@/lib/core/visits/time-on-units';

const min = (m: number) => m * 60_000;

it('what lies between two moments belongs to the unit of the later, surely where both are of one', () => {
  const spent = timeOnUnits(
    [
      { at: min(10), unitId: 'a' },
      { at: min(30), unitId: 'a' },
      { at: min(45), unitId: 'b' },
      { at: min(50), unitId: null },
    ],
    min(0),
    min(55),
  );
  expect(spent.get('a')).toEqual({ minutes: 30, lo: 20, hi: 45 });
  expect(spent.get('b')).toEqual({ minutes: 15, lo: 0, hi: 20 });
  // No more is given out than the visit took.
  expect(addTimes([...spent.values()]).minutes).toBeLessThanOrEqual(55);
});

it('hours without a word were spent elsewhere, and a clock outside the visit is held to it', () => {
  const spent = timeOnUnits(
    [
      { at: min(-5), unitId: 'a' },
      { at: min(20), unitId: 'a' },
      { at: min(400), unitId: 'a' },
    ],
    min(0),
    min(410),
  );
  expect(spent.get('a')).toEqual({ minutes: 20, lo: 20, hi: 30 });
  expect(timeOnUnits([{ at: min(3), unitId: 'a' }], null, null).get('a')).toEqual({ minutes: 0, lo: 0, hi: 0 });
  expect(timeOnUnits([], min(0), min(60)).size).toBe(0);
});

it('is said to five minutes, with its limits', () => {
  expect(timeWords({ minutes: 42, lo: 21, hi: 68 })).toBe('about 40 min (20 min to 1 h 10 min)');
  expect(timeWords({ minutes: 0, lo: 0, hi: 1 })).toBe('a few minutes');
  expect(timeWords({ minutes: 1, lo: 0, hi: 11 })).toBe('up to 10 min');
  expect(timeWords({ minutes: 120, lo: 119, hi: 121 })).toBe('about 2 h');
});
