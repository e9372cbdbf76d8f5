import { describe, expect, it } from 'vitest';
import { AT, depositMean, depositVariance, observeGrade, STRIDE } from '@/lib/core/fouling/filter';

/** One piece whose deposit is normal with this mean and sd, nothing else uncertain. */
function piece(mean: number, sd: number) {
  const bank = new Float64Array(STRIDE);
  bank[AT.F] = mean;
  bank[AT.FF] = sd * sd;
  return bank;
}

/** Mean and sd of the deposit after a grade between two thresholds, by summing prior × chance of the grade over a fine grid. */
function summed(mean: number, sd: number, low: number, high: number, eye: number) {
  const phi = (z: number) => Math.exp(-0.5 * z * z);
  // An eye's chance of calling y between the thresholds, itself a sum over where the eye puts it.
  const [n, m] = [1200, 400];
  let [w0, w1, w2] = [0, 0, 0];
  const [from, to] = [mean - 12 * sd, mean + 12 * sd];
  const [a, b] = [Math.max(low, from - 8 * eye), Math.min(high, to + 8 * eye)];
  for (let i = 0; i <= n; i++) {
    const y = from + ((to - from) * i) / n;
    let called = 0;
    for (let j = 0; j < m; j++) called += phi((a + ((b - a) * (j + 0.5)) / m - y) / eye);
    const w = phi((y - mean) / sd) * called;
    [w0, w1, w2] = [w0 + w, w1 + w * y, w2 + w * y * y];
  }
  return { mean: w1 / w0, sd: Math.sqrt(w2 / w0 - (w1 / w0) ** 2) };
}

const EYE = { sd: 0.06, misread: 0, any: 0.2 };

describe('a grade that is never misread', () => {
  it.each([
    ['where it was expected', 0.4, 0.1, 0.35, 0.6, 0.001],
    ['across one edge', 0.3, 0.1, 0.35, 0.6, 0.001],
    ['above all that was thought possible', 0.05, 0.05, 0.6, Infinity, 0.02],
    ['below all that was thought possible', 0.9, 0.05, -Infinity, 0.35, 0.02],
    ['far outside between two edges', 0.05, 0.05, 0.6, 0.9, 0.02],
  ])('moves the deposit and narrows it as the sum over all deposits does: %s', (_, mean, sd, low, high, within) => {
    const bank = piece(mean, sd);
    observeGrade(bank, low, high, EYE);
    const truth = summed(mean, sd, low, high, EYE.sd);
    expect(Math.abs(depositMean(bank, 0) / truth.mean - 1)).toBeLessThan(within + 0.01);
    expect(Math.abs(Math.sqrt(depositVariance(bank, 0)) / truth.sd - 1)).toBeLessThan(within + 0.01);
  });
});
