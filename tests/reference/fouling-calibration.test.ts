import { expect, it } from 'vitest';
import { DEFAULT_HYPER } from '@/lib/core/fouling';
import { calibrate, chiSquare } from '../support/fouling-calibration';
import { RARE } from './fouling-calibration.comparison';

it('calibration would notice beliefs that are too sure, or biased', () => {
  const { ranks } = calibrate(12, 400);
  expect(chiSquare(ranks.rate, 20)).toBeLessThan(RARE);
  const stretched = ranks.rate.map((r) => Math.min(0.999, Math.max(0, 0.5 + 1.6 * (r - 0.5))));
  expect(chiSquare(stretched, 20)).toBeGreaterThan(RARE);
});

it('and a belief held under the wrong hyperparameters', () => {
  const wrong = { ...DEFAULT_HYPER, lnRate: { ...DEFAULT_HYPER.lnRate } };
  for (const p of Object.keys(wrong.lnRate) as (keyof typeof wrong.lnRate)[]) wrong.lnRate[p] += 0.5;
  const { ranks } = calibrate(12, 800, DEFAULT_HYPER, wrong);
  expect(chiSquare(ranks.rate, 20)).toBeGreaterThan(RARE);
});
