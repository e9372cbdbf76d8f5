import { BAND_LEVEL, type Figure } from './types';

/** Two-sided 80 % quantile of the standard normal distribution. */
export const Z80 = 1.2815515655446004;

export function figure(value: number, lo: number, hi: number): Figure {
  return { value, lo: Math.min(lo, value), hi: Math.max(hi, value), level: BAND_LEVEL };
}

/**
 * A figure from independent effects, each given as the values the result takes with that one input at its upper
 * and its lower 80 % point. Ups and downs are combined in quadrature apart, so a skewed effect stays skewed.
 */
export function combine(value: number, effects: readonly (readonly [number, number])[]): Figure {
  let up = 0;
  let down = 0;
  for (const [a, b] of effects) {
    const high = Math.max(a, b) - value;
    const low = value - Math.min(a, b);
    if (high > 0) up += high * high;
    if (low > 0) down += low * low;
  }
  return figure(value, value - Math.sqrt(down), value + Math.sqrt(up));
}

/** Normal cumulative probability; Abramowitz and Stegun 26.2.17, error under 7.5e-8. */
export function normalCdf(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    Math.exp((-z * z) / 2) *
    0.3989422804014327 *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z > 0 ? 1 - tail : tail;
}
