import { describe, expect, it } from 'vitest';
import { AT, daysAhead, operationalDays, predict, startBank, STRIDE } from '@/lib/core/fouling/filter';
import { crossedWithin } from '@/lib/core/fouling/forecast';
import { CEILING_SD, DEFAULT_HYPER, RATE_CENTRES, RATE_COUNT } from '@/lib/core/fouling/hyper';
import { RandomStream } from '@/lib/core/numerics/random';

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

  const id = RATE_COUNT + 8;
  const rate = Math.exp(RATE_CENTRES[8] as number);
  const tau = ceiling / rate;
  const at = { fresh: 0, deposit: 0, rate };

  it('is unsure by as much as other ceilings would make it', () => {
    const gain = (by: number) => {
      const other = { ...DEFAULT_HYPER, levelling: { ...DEFAULT_HYPER.levelling, ceiling: ceiling * Math.exp(by) } };
      return daysAhead(other, id, 0.5 * tau, tau, 1, at).gain;
    };
    const { unsure } = { ...daysAhead(DEFAULT_HYPER, id, 0.5 * tau, tau, 1, at) };
    expect(unsure / CEILING_SD).toBeCloseTo((gain(1e-4) - gain(-1e-4)) / 2e-4, 2);
    expect(daysAhead(DEFAULT_HYPER, 8, 0.5 * tau, tau, 1, at).unsure).toBe(0);
  });

  it('tells how many coils come to a deposit as coils of many ceilings do', () => {
    const bank = startBank(DEFAULT_HYPER, true).slice(id * STRIDE, (id + 1) * STRIDE);
    bank[AT.R] = bank[AT.RR] = bank[AT.XX] = bank[AT.FX] = 0;
    bank[AT.RATE] = rate;
    const hyper = { ...DEFAULT_HYPER, diffusion: 1e-6, season: null };
    const s = new RandomStream(3, 'ceilings');
    const most = Array.from({ length: 4000 }, () => ceiling * Math.exp(CEILING_SD * s.normal()));
    for (const [days, level] of [
      [tau, 0.4],
      [2 * tau, 0.5],
      [4 * tau, 0.6],
    ] as const) {
      const lived = most.filter((c) => c * (1 - Math.exp((-rate * days) / c)) >= level).length / most.length;
      expect(Math.abs(crossedWithin({ bank, weights: [1], hyper, age: 0, day: 0 }, -level, days) - lived)).toBeLessThan(0.07);
      const before = bank.slice();
      predict(before, hyper, 0, days);
      const sd = Math.sqrt(before[AT.FF] as number);
      expect(sd / (ceiling * CEILING_SD)).toBeGreaterThan(0.15);
    }
  });
});
