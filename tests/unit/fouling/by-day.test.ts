import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import {
  ahead,
  believedByDay,
  crossedWithin,
  daysToRisk,
  DEFAULT_HYPER as H,
  posterior,
  quantilesOf,
  type UnitEvent,
} from '@/lib/core/fouling';
import { NO_MESSAGE } from '@/lib/core/fouling/pooling';
import { normalCdf } from '@/lib/core/fouling/special';
import { depositsOf } from '@/lib/core/fouling/summary';
import { GRADES } from '@/lib/core/findings/grades';

const START = localDate('2025-01-01');
const exposure = { placement: 'fryer', kitchenId: 'a' } as const;
const said = fc.oneof(
  fc.record({ kind: fc.constant('cleaning' as const) }),
  fc.record({ kind: fc.constant('coil' as const), grade: fc.constantFrom(...GRADES.coil.map((g) => g.grade)), phase: fc.constantFrom('before' as const, 'after' as const) }), // prettier-ignore
  fc.record({ kind: fc.constant('reading' as const), lnK: fc.double({ min: -1.2, max: 0.1, noNaN: true }), sd: fc.double({ min: 0.03, max: 0.3, noNaN: true }), phase: fc.constant('before' as const) }), // prettier-ignore
);
const events = fc.array(fc.tuple(fc.integer({ min: 0, max: 60 }), said), { minLength: 1, maxLength: 12 }).map((list) => {
  let day = 1;
  return list.map(([gap, e]): UnitEvent => ({ ...e, on: addDays(START, (day += gap)) }));
});
const until = (all: UnitEvent[], on: string, itself: boolean) =>
  posterior({ startedOn: START, startedClean: true, events: all.filter((e) => e.on < on || (itself && e.on === on)) }, exposure, H);

describe('a belief day by day', () => {
  // By halving on the distribution function of the mixture, which the product does not do.
  it('tells what was expected as quantiles of its mixture, to 1e-9', () => {
    fc.assert(
      fc.property(events, (all) => {
        for (const { on, met } of believedByDay({ startedOn: START, startedClean: true, events: all }, exposure, H, NO_MESSAGE)) {
          const then = ahead(until(all, on, false), addDays(on, 0));
          const { means, sds } = depositsOf(then.bank, then.weights);
          const below = (x: number) =>
            Array.from(then.weights).reduce((sum, w, i) => sum + (w < 1e-7 ? 0 : w * normalCdf((x - (means[i] ?? 0)) / (sds[i] ?? 1))), 0);
          for (const [p, said] of [
            [0.5, met.median],
            [0.1, met.high],
            [0.9, met.low],
          ] as const) {
            // prettier-ignore
            let [lo, hi] = [-5, 20];
            while (hi - lo > 1e-12) [lo, hi] = below((lo + hi) / 2) < p ? [(lo + hi) / 2, hi] : [lo, (lo + hi) / 2];
            expect(Math.abs(-lo - said)).toBeLessThan(1e-9);
          }
        }
      }),
      { numRuns: 25 },
    );
  });

  it('is the belief of a history that ended there', () => {
    fc.assert(
      fc.property(events, (all) => {
        for (const { on, left } of believedByDay({ startedOn: START, startedClean: true, events: all }, exposure, H, NO_MESSAGE)) {
          const whole = until(all, on, true).lnK;
          for (const key of ['mean', 'sd', 'low', 'high'] as const) expect(Math.abs(left[key] - whole[key])).toBeLessThan(1e-9);
        }
      }),
      { numRuns: 25 },
    );
  });

  it('starts the fan where the belief of that day lies', () => {
    const p = until([{ kind: 'cleaning', on: START }], '2026-01-01', true);
    const { median, low, high } = quantilesOf(Float64Array.from(p.state.live), p.state.weights);
    expect([low < median, median < high]).toEqual([true, true]);
    expect(low).toBeCloseTo(p.lnK.low, 3);
    expect(high).toBeCloseTo(p.lnK.high, 3);
  });
});

describe('days to a risk', () => {
  /** By halving alone, as it was written before it looked along a straight line. */
  function byHalving(crossed: (days: number) => number, p: number): number {
    if (crossed(0) >= p) return 0;
    if (crossed(3650) < p) return Infinity;
    let [low, high] = [0, 16];
    while (high < 3650 && crossed(high) < p) [low, high] = [high, Math.min(high * 2, 3650)];
    while (high - low > 0.25) {
      const mid = (low + high) / 2;
      if (crossed(mid) < p) low = mid;
      else high = mid;
    }
    return high;
  }

  it('are the same as by halving, to the last bit', () => {
    fc.assert(
      fc.property(events, fc.double({ min: -1.5, max: -0.02, noNaN: true }), fc.constantFrom(0.1, 0.2, 0.5, 0.8, 0.9), (all, lnK, p) => {
        const a = ahead(until(all, '2030-01-01', true));
        expect(daysToRisk(a, lnK, p)).toBe(byHalving((days) => crossedWithin(a, lnK, days), p));
      }),
      { numRuns: 200 },
    );
  });
});
