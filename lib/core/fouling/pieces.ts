import { AT, depositMean, depositVariance, STRIDE } from './filter';
import type { Ahead } from './forecast';

/** One hypothesis about a coil: a rate and a shape of growth, with where the deposit stands under it. */
export type Piece = {
  id: number;
  weight: number;
  /** Deposit (−ln K), its variance, rate of growth per day with its variance, and the covariance of the two. */
  mean: number;
  variance: number;
  rate: number;
  rateVariance: number;
  joint: number;
  /** Part of a fresh deposit that a cleaning leaves. */
  left: number;
};

export const pieceCount = ({ bank }: Pick<Ahead, 'bank'>): number => bank.length / STRIDE;

export function pieceOf({ bank, weights }: Pick<Ahead, 'bank' | 'weights'>, i: number): Piece {
  const o = i * STRIDE;
  const at = (k: number) => bank[o + k] as number;
  return {
    id: at(AT.ID),
    weight: weights[i] as number,
    mean: depositMean(bank, o),
    variance: Math.max(0, depositVariance(bank, o)),
    rate: Math.max(at(AT.RATE), 1e-6),
    rateVariance: at(AT.XX),
    joint: at(AT.FX) + at(AT.RX),
    left: Math.min(Math.max(at(AT.Q), 0), 1),
  };
}

/** Mean deposit of a belief on the day from which it looks ahead. */
export function meanDeposit(a: Pick<Ahead, 'bank' | 'weights'>): number {
  let sum = 0;
  for (let i = 0; i < pieceCount(a); i++) sum += (a.weights[i] as number) * depositMean(a.bank, i * STRIDE);
  return sum;
}
