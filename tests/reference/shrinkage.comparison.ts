import { jamesStein, partialPool } from '@/lib/core/fouling';
import type { Comparison } from './comparison';

const BASEBALL = 'Efron & Morris 1977, "Stein\'s Paradox in Statistics": 18 batters, first 45 at bats of 1970';
const HITS = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7];
const SEASON = [0.346, 0.298, 0.276, 0.222, 0.273, 0.27, 0.263, 0.21, 0.269, 0.23, 0.264, 0.256, 0.303, 0.264, 0.226, 0.285, 0.316, 0.2];

/**
 * Rates and standard errors of four units under a common normal prior μ 0.005, τ 0.002. The pooled rate is
 * (k/s² + μ/τ²)/(1/s² + 1/τ²): first row (0.003/4 + 0.005/4)/(2/4) = 0.004, the others likewise.
 */
const RATES = [
  { k: 0.003, s: 0.002, pooled: 0.004 },
  { k: 0.006, s: 0.002, pooled: 0.0055 },
  { k: 0.004, s: 0.001, pooled: 0.0042 },
  { k: 0.01, s: 0.004, pooled: 0.006 },
];

const off = (pairs: [number, number][]) => Math.max(...pairs.map(([a, b]) => Math.abs(a - b)));
const squared = (estimates: readonly number[]) => estimates.reduce((sum, e, i) => sum + (e - (SEASON[i] as number)) ** 2, 0);

export function comparisons(): Comparison[] {
  const { mean, factor, estimates } = jamesStein(HITS, 45);
  const pooled = RATES.map(({ k, s, pooled }): [number, number] => [partialPool(k, s, 0.005, 0.002).mean, pooled]);
  const errors: [number, number][] = [
    [squared(HITS.map((h) => h / 45)), 0.0753],
    [squared(estimates), 0.0213],
  ];
  return [
    {
      id: 'james-stein-mean',
      source: BASEBALL,
      quantity: 'grand mean of the batting averages',
      unit: '1',
      tolerance: 6e-7,
      worst: Math.abs(mean - 0.265432),
      samples: 1,
      expectedSamples: 1,
    },
    {
      id: 'james-stein-factor',
      source: BASEBALL,
      quantity: 'shrinking factor (published .212)',
      unit: '1',
      tolerance: 6e-4,
      worst: Math.abs(factor - 0.212),
      samples: 1,
      expectedSamples: 1,
    },
    {
      id: 'james-stein-error',
      // The paper prints the averages; the two sums were recomputed from them here, outside the product.
      source: `${BASEBALL}; sums recomputed from its table`,
      quantity: 'squared error against the season, raw and shrunk',
      unit: '1',
      tolerance: 6e-5,
      worst: off(errors),
      samples: errors.length,
      expectedSamples: 2,
    },
    {
      id: 'partial-pooling',
      source: 'Gelman et al., Bayesian Data Analysis §5.4',
      quantity: 'pooled rates, μ 0.005, τ 0.002',
      unit: '1/d',
      tolerance: 5e-5 + 1e-12,
      worst: off(pooled),
      samples: pooled.length,
      expectedSamples: 4,
    },
  ];
}
