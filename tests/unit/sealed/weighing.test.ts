import { expect, it } from 'vitest';
import { isTooFull, weighedKg } from '@/lib/core/sealed/weighing';

it('counts what a cylinder gained when gas was recovered, and what it lost when a unit was charged', () => {
  expect(weighedKg({ way: 'recover', startKg: 12, endKg: 13.4 })).toBeCloseTo(1.4);
  expect(weighedKg({ way: 'charge', startKg: 13.4, endKg: 12 })).toBeCloseTo(1.4);
  expect(weighedKg({ way: 'charge', startKg: 12, endKg: null })).toBeNull();
  expect(weighedKg({ way: 'recover', startKg: null, endKg: 12 })).toBeNull();
});

it('knows a cylinder that took in more than it may hold, and minds only one that takes in', () => {
  const cylinder = { tareKg: 11, mostKg: 17.6 };
  expect(isTooFull({ way: 'recover', endKg: 28.5 }, cylinder)).toBe(false);
  expect(isTooFull({ way: 'recover', endKg: 28.7 }, cylinder)).toBe(true);
  expect(isTooFull({ way: 'charge', endKg: 28.7 }, cylinder)).toBe(false);
  expect(isTooFull({ way: 'recover', endKg: null }, cylinder)).toBe(false);
});
