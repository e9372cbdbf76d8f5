import { BAND_LEVEL, type Figure } from './types';

/** Two-sided 80 % quantile of the standard normal distribution. */
export const Z80 = 1.2815515655446004;
/** Two-sided 60 %, and one-sided 80 %. */
export const Z60 = 0.8416212335729143;

export function figure(value: number, lo: number, hi: number): Figure {
  return { value, lo: Math.min(lo, value), hi: Math.max(hi, value), level: BAND_LEVEL };
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
