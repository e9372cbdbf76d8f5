import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { defaultFailurePrior, failurePosterior, fitFailurePrior, priorFailure, updateFailure, type Inspection } from '@/lib/core/fouling';
import { RandomStream } from '@/lib/core/numerics/random';

const START = localDate('2025-01-01');
const group = { aspect: 'drain', kind: 'walk_in_freezer' } as const;
const look = (day: number, grade: 'runs' | 'slow' | 'blocked'): Inspection => ({
  on: addDays(START, day),
  aspect: 'drain',
  grade,
});

describe('hidden failures', () => {
  it('with only sound looks are the conjugate gamma: shape over (days + time watched)', () => {
    const prior = { shape: 2, days: 1100 };
    const p = failurePosterior(group, START, [look(90, 'runs'), look(200, 'slow'), look(400, 'runs')], prior);
    expect(p.rate.mean).toBeCloseTo(2 / 1500, 6);
    expect(p.rate.sd).toBeCloseTo(Math.sqrt(2) / 1500, 6);
    expect(p.evidence).toEqual({ inspections: 3, failures: 0 });
  });

  it('start at the prior', () => {
    const prior = defaultFailurePrior(group);
    expect(priorFailure(group, START).rate.mean).toBeCloseTo(prior.shape / prior.days, 6);
  });

  it('found blocked mean: some time since the last look, not at it', () => {
    // Posterior mean of λ under Gamma(2, 1100) and 1 − e^(−90λ), in closed form.
    const [a, b, t] = [2, 1100, 90];
    const mass = 1 - (b / (b + t)) ** a;
    const mean = (a / b - ((b / (b + t)) ** a * a) / (b + t)) / mass;
    expect(failurePosterior(group, START, [look(90, 'blocked')], { shape: a, days: b }).rate.mean).toBeCloseTo(mean, 6);
  });

  it('do not depend on the order of looks, nor on how they come in', () => {
    const looks = fc.array(
      fc.tuple(fc.integer({ min: 1, max: 700 }), fc.constantFrom('runs' as const, 'slow' as const, 'blocked' as const)),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(looks, (items) => {
        const all = items.map(([day, grade]) => look(day, grade));
        const sorted = [...all].sort((x, y) => (x.on < y.on ? -1 : 1));
        const whole = failurePosterior(group, START, all);
        expect(failurePosterior(group, START, [...all].reverse()).rate).toEqual(whole.rate);
        const days = [...new Set(sorted.map((l) => l.on))];
        const stepwise = days.reduce(
          (p, on) =>
            updateFailure(
              p,
              sorted.filter((l) => l.on === on),
            ),
          priorFailure(group, START),
        );
        expect(stepwise.rate).toEqual(whole.rate);
      }),
    );
  });

  it('worse looks never mean a lower rate', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 1, maxLength: 10 }), fc.nat(), (failed, pick) => {
        const grades = failed.map((f, i) => look(60 * (i + 1), f ? 'blocked' : 'runs'));
        const worse = grades.map((g, i) => (i === pick % grades.length ? { ...g, grade: 'blocked' } : g));
        expect(failurePosterior(group, START, worse).rate.mean).toBeGreaterThanOrEqual(
          failurePosterior(group, START, grades).rate.mean - 1e-15,
        );
      }),
    );
  });

  it('of a group are learned from the fleet', () => {
    const s = new RandomStream(5, 'drains');
    const units = Array.from({ length: 120 }, () => {
      const rate = s.gamma(2, 1 / 400);
      const looks = Array.from({ length: 8 }, (_, i) => look(90 * (i + 1), s.chance(1 - Math.exp(-90 * rate)) ? 'blocked' : 'runs'));
      return failurePosterior(group, START, looks);
    });
    const fitted = fitFailurePrior(units, defaultFailurePrior(group));
    expect(fitted.shape / fitted.days).toBeGreaterThan(0.75 * (2 / 400));
    expect(fitted.shape / fitted.days).toBeLessThan(1.3 * (2 / 400));
  });

  it('refuse a look from before the last one', () => {
    const p = failurePosterior(group, START, [look(90, 'runs')]);
    expect(() => updateFailure(p, [look(50, 'runs')])).toThrow(/rebuild/);
  });
});
