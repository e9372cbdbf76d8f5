import { describe, expect, it } from 'vitest';
import { DEFAULT_HYPER as H } from '@/lib/core/fouling';
import { AT, daysAhead, depositVariance, predict, startBank, STRIDE } from '@/lib/core/fouling/filter';
import { RATE_CENTRES, RATE_COUNT } from '@/lib/core/fouling/hyper';
import { RandomStream } from '@/lib/core/numerics/random';

const { power } = H.accelerating;
const FEEDING = 2 * RATE_COUNT + 8;
const rate = Math.exp(RATE_CENTRES[8] as number);
const ahead = (deposit: number, days: number, season = 1) => ({
  ...daysAhead(H, FEEDING, 30, days, season, { fresh: deposit, deposit, rate }),
});

/** The deposit after `days`, by small steps of dy = r·power·(y/0.5)^((power − 1)/power). */
function bySteps(deposit: number, days: number, luck = () => 0): number {
  let y = deposit;
  for (let k = 0; k < days * 10; k++) {
    const gain = 0.1 * rate * power * (Math.max(y, 0.03) / 0.5) ** ((power - 1) / power);
    y += gain + luck() * Math.sqrt(H.diffusion * gain);
  }
  return y;
}

describe('growth that feeds on itself', () => {
  it.each([0.07, 0.12, 0.25])('goes on from what is there (deposit %d), however long after a cleaning', (deposit) => {
    expect(deposit + ahead(deposit, 60).gain * rate).toBeCloseTo(bySteps(deposit, 60), 3);
    expect(ahead(deposit, 60).gain).toBeGreaterThan(ahead(deposit / 2, 60).gain);
  });

  it('is the same in one step or two, and a season is time that runs faster', () => {
    const half = 0.1 + ahead(0.1, 25).gain * rate;
    expect(half + ahead(half, 35).gain * rate).toBeCloseTo(0.1 + ahead(0.1, 60).gain * rate, 9);
    expect(ahead(0.1, 30, 2).gain).toBeCloseTo(ahead(0.1, 60).gain, 9);
  });

  it('carries a deposit off its mean, and a rate off its mean, as far as it grows with them', () => {
    const d = 1e-5;
    const { byStart, byRate, gain } = ahead(0.1, 60);
    expect(byStart).toBeCloseTo(1 + ((ahead(0.1 + d, 60).gain - gain) * rate) / d, 3);
    const faster = daysAhead(H, FEEDING, 30, 60, 1, { fresh: 0.1, deposit: 0.1, rate: rate * (1 + d) }).gain;
    expect(byRate / ((faster * (1 + d) - gain) / d)).toBeCloseTo(1, 3);
  });

  it('lets early luck grow with the coil: the spread of lives lived day by day', () => {
    const s = new RandomStream(5, 'lives');
    const ends = Array.from({ length: 3000 }, () => bySteps(0.1, 60, () => s.normal()));
    const mean = ends.reduce((a, b) => a + b, 0) / ends.length;
    const variance = ends.reduce((a, b) => a + (b - mean) ** 2, 0) / ends.length;
    const { noise, gain } = ahead(0.1, 60);
    expect((H.diffusion * noise * rate) / variance).toBeGreaterThan(0.85);
    expect((H.diffusion * noise * rate) / variance).toBeLessThan(1.15);
    expect(noise).toBeGreaterThan(1.2 * gain);
  });

  it('is predicted with the covariances that such lives have', () => {
    const bank = startBank(H, true);
    const o = FEEDING * STRIDE;
    predict(bank, H, 0, 40);
    const before = depositVariance(bank, o);
    const deposit = (bank[o + AT.F] as number) + (bank[o + AT.R] as number);
    const { byStart, byRate, noise } = {
      ...daysAhead(H, FEEDING, 40, 30, 1, { fresh: deposit, deposit, rate: bank[o + AT.RATE] as number }),
    };
    const joint = (bank[o + AT.FX] as number) + (bank[o + AT.RX] as number);
    const xx = bank[o + AT.XX] as number;
    predict(bank, H, 40, 30);
    const luck = H.diffusion * noise * (bank[o + AT.RATE] as number);
    expect(depositVariance(bank, o)).toBeCloseTo(byStart ** 2 * before + 2 * byStart * byRate * joint + byRate ** 2 * xx + luck, 12);
    expect((bank[o + AT.FX] as number) + (bank[o + AT.RX] as number)).toBeCloseTo(byStart * joint + byRate * xx, 12);
  });
});
