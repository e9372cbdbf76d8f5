import { describe, expect, it } from 'vitest';
import { judgeVacuum } from '@/lib/core/sealed';
import { RandomStream } from '@/lib/core/numerics/random';
import { drawCircuit, watch, type Circuit } from './vacuum-world';

type Draw = (r: RandomStream) => Partial<Circuit>;
type Kept = (level: number) => boolean;

const log = (r: RandomStream, lo: number, hi: number) => Math.exp(r.between(Math.log(lo), Math.log(hi)));
const WATER: Draw = (r) => ({ water: log(r, 4000, 40_000), filmS: log(r, 120, 6000) });

/** Shares of verdicts over circuits of a kind, each watched for so many minutes; `kept` by where it truly levels off. */
const verdicts = (seed: string, count: number, minutes: number, draw: Draw, kept: Kept = () => true) => {
  const random = new RandomStream(7, seed);
  const tally: Record<string, number> = {};
  for (let n = 0; n < count;) {
    const { readings, level } = watch(drawCircuit(random, draw(random)), minutes, random);
    if (!kept(level)) continue;
    n++;
    const { verdict } = judgeVacuum(readings);
    tally[verdict] = (tally[verdict] ?? 0) + 1 / count;
  }
  const share = (v: string) => `${v} ${(100 * (tally[v] ?? 0)).toFixed(1)} %`;
  console.info(`Vacuum decay, ${count} × ${seed} over ${minutes} min: ${Object.keys(tally).sort().map(share).join(', ')}.`);
  return { of: (v: string) => tally[v] ?? 0, tally };
};

describe('a vacuum after the pump is shut off', () => {
  it('calls at most one leaky circuit in a hundred tight and dry, wet or not', () => {
    for (const [minutes, water] of [
      [12, false],
      [20, true],
      [40, false],
    ] as const) {
      const leaky = verdicts(water ? 'leaky and wet' : 'leaky', 100, minutes, (r) => ({
        leak: log(r, 1.5, 300),
        ...(water ? WATER(r) : {}),
      }));
      expect(leaky.of('tight_and_dry'), JSON.stringify(leaky.tally)).toBeLessThanOrEqual(0.01);
      if (!water) expect(leaky.of('moisture')).toBeLessThanOrEqual(0.03);
    }
  });

  it('calls at most one wet circuit in a hundred tight and dry; early on, water that boils off can look like a leak', () => {
    const wet = (minutes: number) => verdicts('wet', 60, minutes, WATER, (level) => level > 600);
    const [soon, later] = [wet(12), wet(40)];
    for (const w of [soon, later]) expect(w.of('tight_and_dry'), JSON.stringify(w.tally)).toBeLessThanOrEqual(0.01);
    expect(later.of('leak'), JSON.stringify(later.tally)).toBeLessThanOrEqual(0.05);
  });

  it('passes a tight and dry one in good time', () => {
    const dry = verdicts(
      'dry',
      80,
      40,
      () => ({}),
      (level) => level < 450,
    );
    expect(dry.of('tight_and_dry'), JSON.stringify(dry.tally)).toBeGreaterThan(0.8);
    expect(dry.of('leak') + dry.of('leak_and_moisture')).toBeLessThanOrEqual(0.02);
  });

  it('finds a leak of ten microns a minute within half an hour', () => {
    const leaky = verdicts('ten', 60, 30, () => ({ leak: 10 }));
    expect(leaky.of('leak') + leaky.of('leak_and_moisture'), JSON.stringify(leaky.tally)).toBeGreaterThan(0.9);
  });

  it('where it says leak, the band of the rate holds the truth about four times in five', () => {
    const random = new RandomStream(11, 'rates');
    let [held, called] = [0, 0];
    for (let i = 0; i < 120; i++) {
      const c = drawCircuit(random, { leak: log(random, 5, 100) });
      const { rate, verdict } = judgeVacuum(watch(c, 30, random).readings);
      if (verdict !== 'leak' && verdict !== 'leak_and_moisture') continue;
      called++;
      if (rate.lo <= c.leak && c.leak <= rate.hi) held++;
    }
    console.info(`Vacuum decay: the rate's 80 % band held ${((100 * held) / called).toFixed(0)} % of ${called} leaks called.`);
    expect(called).toBeGreaterThan(60);
    expect(held / called).toBeGreaterThan(0.7);
    expect(held / called).toBeLessThan(0.97);
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
