import { depositMean, depositVariance, STRIDE } from './filter';
import type { Ahead } from './forecast';
import type { Hyper } from './hyper';
import { mixtureMoments } from './mixture';
import { normalCdf } from './special';

/**
 * How likely each coil grade is to be found on the day from which `a` looks ahead, best grade first; they sum to 1.
 * The same eye as in learning: thresholds with a spread, and a look in so many that says nothing.
 */
export function gradeChances(a: Ahead, { grades: { thresholds, sd }, misread }: Pick<Hyper, 'grades' | 'misread'>): number[] {
  const chances = new Array<number>(thresholds.length + 1).fill(0);
  for (let i = 0, o = 0; o < a.bank.length; i++, o += STRIDE) {
    const weight = a.weights[i] ?? 0;
    const s = Math.sqrt(Math.max(depositVariance(a.bank, o), 0) + sd * sd);
    const mean = depositMean(a.bank, o);
    let below = 0;
    chances.forEach((c, g) => {
      const upTo = thresholds[g] === undefined ? 1 : normalCdf((thresholds[g] - mean) / s);
      chances[g] = c + weight * (upTo - below);
      below = upTo;
    });
  }
  return chances.map((c) => (1 - misread) * c + misread / chances.length);
}

/** ln(K/K_clean) on that day, mean and standard deviation. */
export function lnKAhead(a: Ahead): { mean: number; sd: number } {
  const n = a.bank.length / STRIDE;
  const deposits = {
    weights: a.weights,
    means: Float64Array.from({ length: n }, (_, i) => depositMean(a.bank, i * STRIDE)),
    sds: Float64Array.from({ length: n }, (_, i) => Math.sqrt(Math.max(depositVariance(a.bank, i * STRIDE), 0))),
  };
  const { mean, sd } = mixtureMoments(deposits);
  return { mean: -mean, sd };
}
