import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import {
  afterCleaning,
  ahead,
  crossedWithin,
  daysToRisk,
  DEFAULT_HYPER as H,
  forecast,
  posterior,
  wienerPassage,
  type UnitEvent,
} from '@/lib/core/fouling';
import { passage } from '@/lib/core/fouling/first-passage';
import { gammaQ, lnGamma, logNormalCdf, normalCdf } from '@/lib/core/fouling/special';
import { RandomStream } from '@/lib/core/numerics/random';

const START = localDate('2025-01-01');
const belief = (events: UnitEvent[] = []) =>
  posterior({ startedOn: START, startedClean: true, events }, { placement: 'fryer', kitchenId: 'k' }, H);

describe('special functions', () => {
  // Abramowitz & Stegun, tables 26.1 and 6.1, and identities.
  it('match their tables', () => {
    expect(normalCdf(1)).toBeCloseTo(0.841344746068543, 14);
    expect(normalCdf(-1.2815515655446004)).toBeCloseTo(0.1, 14);
    expect(normalCdf(0)).toBe(0.5);
    expect(normalCdf(-40)).toBe(0);
    expect(Math.exp(logNormalCdf(-7.9))).toBeCloseTo(normalCdf(-7.9), 20);
    expect(logNormalCdf(-8.1) - logNormalCdf(-7.9)).toBeCloseTo(-1.625, 2);
    expect(lnGamma(0.5)).toBeCloseTo(0.5 * Math.log(Math.PI), 13);
    expect(lnGamma(10)).toBeCloseTo(Math.log(362880), 12);
    for (const x of [0.1, 1, 3, 9]) expect(gammaQ(1, x)).toBeCloseTo(Math.exp(-x), 14);
    for (const x of [0.5, 4, 20]) expect(gammaQ(3, x)).toBeCloseTo(Math.exp(-x) * (1 + x + (x * x) / 2), 14);
  });
});

describe('first passage', () => {
  it.each([
    ['not there yet', 1, 0.999, 0],
    ['there on the very day', 1, 1, 1],
    ['past it', 1, 1.001, 1],
    ['at it from the start', 0, 0, 1],
    ['beyond it from the start', -1, -2, 1],
  ])('of what is known without doubt is no chance: %s', (_, distance, advance, expected) => {
    expect(passage(distance, advance, 0, 0)).toBe(expected);
  });

  it('agrees with paths that are simulated', () => {
    const s = new RandomStream(8, 'paths');
    const [level, drift, sigma, days] = [0.4, 0.005, 0.012, 70];
    let crossed = 0;
    const n = 4000;
    for (let i = 0; i < n; i++) {
      let y = 0;
      for (let d = 0; d < days; d++) {
        const from = y;
        y += drift + sigma * s.normal();
        // The bridge between two days may have touched the level.
        if (y >= level || s.next() < Math.exp((-2 * (level - from) * (level - y)) / sigma ** 2)) {
          crossed++;
          break;
        }
      }
    }
    const p = wienerPassage(level, drift, sigma, days);
    expect(Math.abs(crossed / n - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / n));
  });

  it('with an uncertain drift is the mean over drifts', () => {
    const [level, mean, sd, sigma, t] = [0.4, 0.005, 0.0015, 0.01, 75];
    let sum = 0;
    let mass = 0;
    for (let z = -6; z <= 6; z += 0.02) {
      const w = Math.exp(-0.5 * z * z);
      sum += w * wienerPassage(level, mean + sd * z, sigma, t);
      mass += w;
    }
    expect(passage(level, mean * t, sigma * sigma * t, (sd * t) ** 2)).toBeCloseTo(sum / mass, 5);
  });

  it('never goes down with time, and its quantiles undo it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.integer({ min: 1, max: 200 }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        (t, more, level) => {
          const a = ahead(belief());
          expect(crossedWithin(a, -level, t + more)).toBeGreaterThanOrEqual(crossedWithin(a, -level, t) - 1e-12);
          const p = crossedWithin(a, -level, t);
          if (p > 0.02 && p < 0.95) expect(Math.abs(daysToRisk(a, -level, p) - t)).toBeLessThan(0.6);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('forecast', () => {
  it('comes sooner after a worse finding, later after a cleaning, and says when it cannot tell', () => {
    const on = addDays(START, 60);
    const limit = { name: 'cooling', lnK: -0.45 };
    const mild = forecast(belief([{ kind: 'coil', on, grade: 'filmed', phase: 'before' }]), limit).quantiles.p50 as string;
    const bad = forecast(belief([{ kind: 'coil', on, grade: 'matted', phase: 'before' }]), limit).quantiles.p50 as string;
    expect(bad < mild).toBe(true);
    const dirty = belief([{ kind: 'coil', on, grade: 'matted', phase: 'before' }]);
    expect(daysToRisk(afterCleaning(dirty), -0.45, 0.5)).toBeGreaterThan(daysToRisk(ahead(dirty), -0.45, 0.5));
    const never = forecast(belief(), { name: 'far', lnK: -1000 });
    expect(never.quantiles).toEqual({ p10: null, p20: null, p50: null, p80: null, p90: null });
    expect(never.ever).toBeLessThan(0.01);
  });

  it('from a later day counts the days in between, and refuses an earlier one', () => {
    const limit = { name: 'cooling', lnK: -0.45 };
    const now = forecast(belief(), limit).quantiles.p50 as string;
    const later = forecast(belief(), limit, addDays(START, 20)).quantiles.p50 as string;
    expect(Math.abs(Date.parse(now) - Date.parse(later)) / 86_400_000).toBeLessThanOrEqual(2);
    expect(() => ahead(belief([{ kind: 'trip', on: addDays(START, 30) }]), addDays(START, 10))).toThrow(/before the newest evidence/);
  });
});
