import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_HYPER } from '@/lib/core/fouling';
import {
  course,
  extraEnergyToday,
  fanAhead,
  kitchenBeliefs,
  limitDates,
  lostToday,
  monthlyLoss,
  sumOf,
  type UnitBelief,
} from '@/lib/core/evidence';
import { emptyFile, on } from './unit-file';

const fleet = { fouling: DEFAULT_HYPER, failures: {} };
const file = emptyFile({
  cleanings: [on('2026-02-01'), on('2026-04-01')],
  findings: [
    { on: on('2026-02-01'), aspect: 'coil', grade: 'furred', phase: 'found' },
    { on: on('2026-04-01'), aspect: 'coil', grade: 'matted', phase: 'found' },
    { on: on('2026-04-01'), aspect: 'coil', grade: 'bare', phase: 'left' },
  ],
});
const belief = kitchenBeliefs([file], fleet)[0] as UnitBelief;

describe('the course of a coil', () => {
  it('falls between cleanings and rises at them, its band around its median', () => {
    const points = course(belief, fleet);
    expect(points.map((p) => `${p.on} ${p.stage}`)).toEqual(['2026-02-01 met', '2026-02-01 left', '2026-04-01 met', '2026-04-01 left']);
    for (const p of points) {
      expect(p.low).toBeLessThanOrEqual(p.median);
      expect(p.median).toBeLessThanOrEqual(p.high);
    }
    const [, left, met, cleaned] = points.map((p) => p.median) as [number, number, number, number];
    expect(met).toBeLessThan(left);
    expect(cleaned).toBeGreaterThan(met);
  });

  it('ends where the belief is now, and the fan starts there and widens', () => {
    expect(course(belief, fleet).at(-1)?.low).toBeCloseTo(belief.fouling.lnK.low, 6);
    const fan = fanAhead(belief.fouling, on('2026-04-01'), 80);
    expect(fan[0]?.median).toBeCloseTo(belief.fouling.lnK.mean, 1);
    const widths = fan.map((p) => p.high - p.low);
    expect(widths.at(-1)).toBeGreaterThan(widths[0] as number);
    for (let i = 1; i < fan.length; i++)
      expect((fan[i] as (typeof fan)[number]).median).toBeLessThan((fan[i - 1] as (typeof fan)[number]).median);
  });

  it('gives dates for limits, the shallower first', () => {
    const dates = limitDates(
      belief.fouling,
      [
        { name: 'deep', lnK: -0.9 },
        { name: 'shallow', lnK: -0.3 },
      ],
      on('2026-04-02'),
    );
    expect(dates.map((d) => d.limit.name)).toEqual(['shallow', 'deep']);
    const q = dates[0]!.quantiles;
    expect([q.p10, q.p50, q.p90].every((d) => d !== null && d > '2026-04-02')).toBe(true);
    expect([q.p10, q.p50, q.p90]).toEqual([q.p10, q.p50, q.p90].sort());
  });
});

describe('standing of units in lists', () => {
  const unit = {
    ratePerDay: 0.006,
    rateSdPerDay: 0.001,
    lnK: 0,
    lnKSd: 0.03,
    days: 50,
    own: { limits: [], failureLimit: null, passedClean: [], kwhPerDay: [0, 0.1, 0.22, 0.37, 0.55] },
  };

  it('loses more with every day since it was looked at', () => {
    expect(lostToday(unit).value).toBeCloseTo(1 - Math.exp(-0.3), 6);
    expect(lostToday({ ...unit, days: 80 }).value).toBeGreaterThan(lostToday(unit).value);
    expect(monthlyLoss([unit])?.value).toBeCloseTo(1 - Math.exp(-0.18), 6);
    expect(monthlyLoss([])).toBeNull();
  });

  it('sums energy with a band that narrows against the sum, but not below what all units share', () => {
    const one = extraEnergyToday([unit])!;
    const many = extraEnergyToday(Array.from({ length: 100 }, () => unit))!;
    expect(one.value).toBeCloseTo(0.37, 6);
    expect(many.value).toBeCloseTo(37, 4);
    const share = (f: typeof one) => (f.hi - f.value) / f.value;
    expect(share(many)).toBeLessThan(share(one));
    expect(share(many)).toBeGreaterThan(1.28 * 0.3);
    expect(extraEnergyToday([{ ...unit, own: null }])).toBeNull();
    expect(sumOf([many, null, many])?.value).toBeCloseTo(74, 4);
    expect(sumOf([null])).toBeNull();
  });
  it('adds bands: one as it is, many no wider than their ends added and no narrower than in quadrature', () => {
    const one = fc.record({
      value: fc.double({ min: 0, max: 500, noNaN: true }),
      down: fc.double({ min: 0, max: 1, noNaN: true }),
      up: fc.double({ min: 0, max: 300, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 12 }), (all) => {
        const figures = all.map((x) => ({ value: x.value, lo: x.value * (1 - x.down), hi: x.value + x.up }));
        const sum = sumOf(figures) ?? { value: NaN, lo: NaN, hi: NaN };
        const [ends, apart] = [all.reduce((a, x) => a + x.up, 0), Math.hypot(...all.map((x) => x.up))];
        expect(sum.hi - sum.value).toBeLessThanOrEqual(ends + 1e-6);
        expect(sum.hi - sum.value).toBeGreaterThanOrEqual(apart - 1e-6);
        if (figures.length === 1)
          expect([sum.lo, sum.hi]).toEqual([expect.closeTo(figures[0]?.lo ?? NaN, 6), expect.closeTo(figures[0]?.hi ?? NaN, 6)]);
      }),
    );
    // A hundred alike: what is each unit's own averages out, the equations' share does not. 1.2816 × 0.3 of the sum is 38.4 %.
    const hundred = sumOf(Array.from({ length: 100 }, () => ({ value: 1, lo: 0, hi: 2 })));
    expect((hundred?.hi ?? NaN) / 100 - 1).toBeCloseTo(Math.hypot(0.3845, Math.sqrt(1 - 0.3845 ** 2) / 10), 3);
  });
});
