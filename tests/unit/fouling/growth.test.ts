import { describe, expect, it } from 'vitest';
import { DEFAULT_HYPER, RATE_CENTRES, RATE_COUNT } from '@/lib/core/fouling/hyper';
import { operationalDays } from '@/lib/core/fouling/filter';

const { ceiling } = DEFAULT_HYPER.levelling;
const deposit = (rate: number, age: number, days: number) =>
  operationalDays(DEFAULT_HYPER, RATE_COUNT + rate, age, days) * Math.exp(RATE_CENTRES[rate] as number);

// Kern and Seaton (1959): y = y* (1 − e^(−t/τ)), with τ the time to the asymptote at the first rate.
describe('growth that levels off', () => {
  it.each([0, 5, RATE_COUNT - 1])('comes to the same deposit at every rate, the slow coil later (rate %i)', (rate) => {
    const tau = ceiling / Math.exp(RATE_CENTRES[rate] as number);
    expect(deposit(rate, 0, 50 * tau)).toBeCloseTo(ceiling, 9);
    expect(deposit(rate, 0, tau)).toBeCloseTo(ceiling * (1 - Math.exp(-1)), 9);
    // A thousandth of the way it is as good as in a line.
    expect(operationalDays(DEFAULT_HYPER, RATE_COUNT + rate, 0, tau / 1000)).toBeCloseTo(tau / 1000, 2);
  });

  it('is the same in one step or two', () => expect(deposit(7, 0, 40) + deposit(7, 40, 60)).toBeCloseTo(deposit(7, 0, 100), 9));
});
