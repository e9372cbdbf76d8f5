import { describe, expect, it } from 'vitest';
import { judgeVacuum, type VacuumReading } from '@/lib/core/sealed';
import { RandomStream } from '@/lib/core/numerics/random';

type Truth = { leakPerMinute: number; waterMicrons: number; tau: number; p0: number };

/**
 * A small circuit that evaporates and leaks, in steps of a second: dp/dt = (p_w − p)/τ while water is left, plus the
 * inflow of air. Shares no formula with the fit.
 */
function watched({ leakPerMinute, waterMicrons, tau, p0 }: Truth, minutes: number, random: RandomStream): VacuumReading[] {
  const readings: VacuumReading[] = [];
  const gain = 1 + random.normal(0, 0.05);
  let [air, water] = [p0 * 0.5, p0 * 0.5];
  for (let second = 0; second <= minutes * 60; second++) {
    if (second % 60 === 0) {
      const seen = (air + water) * gain * (1 + random.normal(0, 0.015)) + random.normal(0, 3);
      readings.push({ minutes: second / 60, microns: Math.max(1, Math.round(seen)) });
    }
    air += leakPerMinute / 60;
    water += (Math.max(waterMicrons, p0 * 0.5) - water) / (tau * 60);
  }
  return readings;
}

const verdicts = (seed: string, count: number, minutes: number, draw: (r: RandomStream) => Truth) => {
  const random = new RandomStream(7, seed);
  const tally: Record<string, number> = {};
  for (let i = 0; i < count; i++) {
    const { verdict } = judgeVacuum(watched(draw(random), minutes, random));
    tally[verdict] = (tally[verdict] ?? 0) + 1 / count;
  }
  const share = (v: string) => `${v} ${(100 * (tally[v] ?? 0)).toFixed(1)} %`;
  console.info(`Vacuum decay, ${count} × ${seed} over ${minutes} min: ${Object.keys(tally).sort().map(share).join(', ')}.`);
  return { of: (v: string) => tally[v] ?? 0, tally };
};

describe('a vacuum after the pump is shut off', () => {
  const p0 = (r: RandomStream) => r.between(150, 350);

  it('calls at most one leaky circuit in a hundred tight and dry', () => {
    for (const minutes of [12, 20, 40]) {
      const leaky = verdicts('leaky', 150, minutes, (r) => ({
        leakPerMinute: Math.exp(r.between(Math.log(1.5), Math.log(300))),
        waterMicrons: r.between(0, 450),
        tau: r.between(2, 25),
        p0: p0(r),
      }));
      expect(leaky.of('tight_and_dry'), JSON.stringify(leaky.tally)).toBeLessThanOrEqual(0.01);
      expect(leaky.of('moisture')).toBeLessThanOrEqual(0.03);
    }
  });

  it('calls at most one wet circuit in a hundred tight and dry, and few a leak', () => {
    const wet = verdicts('wet', 100, 30, (r) => ({
      leakPerMinute: 0,
      waterMicrons: r.between(800, 5000),
      tau: r.between(2, 15),
      p0: p0(r),
    }));
    expect(wet.of('tight_and_dry'), JSON.stringify(wet.tally)).toBeLessThanOrEqual(0.01);
    expect(wet.of('leak') + wet.of('leak_and_moisture')).toBeLessThanOrEqual(0.03);
    expect(wet.of('moisture')).toBeGreaterThan(0.8);
  });

  it('passes a tight and dry one in good time', () => {
    const dry = verdicts('dry', 100, 30, (r) => ({ leakPerMinute: 0, waterMicrons: r.between(0, 300), tau: r.between(1, 8), p0: p0(r) }));
    expect(dry.of('tight_and_dry'), JSON.stringify(dry.tally)).toBeGreaterThan(0.8);
    expect(dry.of('leak') + dry.of('leak_and_moisture')).toBeLessThanOrEqual(0.02);
  });

  it('finds a leak of ten microns a minute within half an hour', () => {
    const leaky = verdicts('ten', 60, 30, (r) => ({ leakPerMinute: 10, waterMicrons: 0, tau: 5, p0: p0(r) }));
    expect(leaky.of('leak') + leaky.of('leak_and_moisture'), JSON.stringify(leaky.tally)).toBeGreaterThan(0.9);
  });

  it('where it says leak, the band of the rate holds the truth four times in five', () => {
    const random = new RandomStream(11, 'rates');
    let [held, called] = [0, 0];
    for (let i = 0; i < 120; i++) {
      const leakPerMinute = Math.exp(random.between(Math.log(5), Math.log(100)));
      const truth = { leakPerMinute, waterMicrons: random.between(0, 500), tau: random.between(2, 10), p0: p0(random) };
      const { rate, verdict } = judgeVacuum(watched(truth, 25, random));
      if (verdict !== 'leak' && verdict !== 'leak_and_moisture') continue;
      called++;
      if (rate.lo <= leakPerMinute && leakPerMinute <= rate.hi) held++;
    }
    expect(called).toBeGreaterThan(60);
    expect(held / called).toBeGreaterThan(0.72);
    expect(held / called).toBeLessThan(0.95);
  });

  it('asks for patience, and for order', () => {
    const few = judgeVacuum([
      { minutes: 0, microns: 300 },
      { minutes: 2, microns: 320 },
    ]);
    expect(few.verdict).toBe('not_yet');
    expect(few.waitMinutes).toBeGreaterThanOrEqual(5);
    expect(
      judgeVacuum([
        { minutes: 0, microns: 900 },
        { minutes: 5, microns: 950 },
      ]).verdict,
    ).toBe('too_high');
    expect(() =>
      judgeVacuum([
        { minutes: 1, microns: 300 },
        { minutes: 1, microns: 300 },
      ]),
    ).toThrow(/not later/);
    expect(() => judgeVacuum([{ minutes: 0, microns: 300 }])).toThrow(/two readings/);
    expect(() =>
      judgeVacuum([
        { minutes: 0, microns: 0 },
        { minutes: 1, microns: 10 },
      ]),
    ).toThrow(/above zero/);
  });
});
