import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import {
  ahead,
  crossedWithin,
  decayDays,
  DEFAULT_HYPER as H,
  failurePosterior,
  fitFailurePrior,
  fitHyper,
  gammaPassage,
  gradeChances,
  jamesStein,
  learnHumidity,
  lnKAhead,
  meanDeposit,
  partialPool,
  posterior,
  seasonFactor,
  usualDays,
  wienerPassage,
  wienerPassageMoments,
  type FleetUnit,
  type Inspection,
  type UnitEvent,
} from '@/lib/core/fouling';
import { failureEvidence } from '@/lib/core/fouling/failures';
import { mixtureMoments, mixtureQuantile } from '@/lib/core/fouling/mixture';
import { pieceCount, pieceOf } from '@/lib/core/fouling/pieces';
import { ordered } from '@/lib/core/fouling/history';
import { gammaQ, lnGamma, logNormalCdf, normalCdf, normalPdf } from '@/lib/core/fouling/special';
import { RandomStream } from '@/lib/core/numerics/random';

const START = localDate('2025-01-01');
const RUNS = { numRuns: 60, seed: 20251128 } as const;
const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const group = { aspect: 'drain', kind: 'walk_in_freezer' } as const;
const prior = { shape: 2, days: 900 };
const looks = (every: number, grades: readonly boolean[]): Inspection[] =>
  grades.map((blocked, i) => ({ on: addDays(START, every * (i + 1)), aspect: 'drain', grade: blocked ? 'blocked' : 'runs' }));

describe('failures that show at a look', () => {
  // A part sound for t days and found failed within the next d: ∫ e^(−λt)(1 − e^(−λd)) over a Gamma(a, D) is a difference of two such
  // powers, (D/(D + t))^a − (D/(D + t + d))^a. Two failures are four of them, and so on.
  const chance = ({ shape, days }: typeof prior, sound: number, failed: readonly number[]): number => {
    const [first, ...rest] = failed;
    if (first === undefined) return (days / (days + sound)) ** shape;
    return chance({ shape, days }, sound, rest) - chance({ shape, days }, sound + first, rest);
  };

  it('have the chance that calculus gives them', () => {
    const none = failureEvidence([failurePosterior(group, START, [], prior)]);
    for (const grades of [[], [false], [false, false, false], [true], [false, true], [true, false, true], [true, true, true]])
      for (const every of [10, 60, 400]) {
        const seen = failureEvidence([failurePosterior(group, START, looks(every, grades), prior)]) - none;
        const failed = grades.filter(Boolean).map(() => every);
        expect(seen).toBeCloseTo(Math.log(chance(prior, every * (grades.length - failed.length), failed)), 3);
      }
    const two = [looks(60, [false, true]), looks(30, [false])].map((l) => failurePosterior(group, START, l, prior));
    expect(failureEvidence(two)).toBeCloseTo(
      two.reduce((sum, p) => sum + failureEvidence([p]), 0),
      9,
    );
    expect(failureEvidence([])).toBe(0);
  });

  it('leave a rate whose mean and spread are those of calculus', () => {
    // Moments of λ are chances again: E[λ] = a/D · chance under shape a + 1.
    for (const grades of [
      [false, true, false],
      [true, true],
      [false, false, false, false],
    ])
      for (const every of [30, 120]) {
        const failed = grades.filter(Boolean).map(() => every);
        const sound = every * (grades.length - failed.length);
        const [c0 = 1, c1 = 1, c2 = 1] = [0, 1, 2].map((k) => chance({ shape: prior.shape + k, days: prior.days }, sound, failed));
        const mean = ((prior.shape / prior.days) * c1) / c0;
        const square = ((prior.shape * (prior.shape + 1)) / prior.days ** 2) * (c2 / c0);
        const { rate, meanDays, evidence } = failurePosterior(group, START, looks(every, grades), prior);
        expect(rate.mean / mean).toBeCloseTo(1, 4);
        expect(rate.sd / Math.sqrt(square - mean * mean)).toBeCloseTo(1, 3);
        expect(meanDays).toBeCloseTo(1 / rate.mean, 9);
        expect(rate.low).toBeLessThan(rate.mean);
        expect(rate.high).toBeGreaterThan(rate.mean);
        expect(evidence).toEqual({ inspections: grades.length, failures: failed.length });
      }
  });

  it('of a fleet move what is expected of the next one, the more the more units, and not at all without one', () => {
    const fleet = (n: number, blocked: boolean) => Array.from({ length: n }, () => failurePosterior(group, START, looks(90, [blocked, false, blocked, blocked]), prior)); // prettier-ignore
    const mean = (n: number, blocked: boolean) => {
      const { shape, days } = fitFailurePrior(fleet(n, blocked), prior);
      return shape / days;
    };
    expect(fitFailurePrior([], prior)).toEqual(prior);
    const base = prior.shape / prior.days;
    expect([mean(2, true), mean(40, true)].map((x) => x > base)).toEqual([true, true]);
    expect(mean(40, true)).toBeGreaterThan(mean(2, true));
    expect(mean(40, false)).toBeLessThan(mean(2, false));
    expect(mean(2, false)).toBeLessThan(base);
    // Units that differ much from one another ask for a prior that says less.
    const alike = fitFailurePrior(fleet(20, true), prior).shape;
    expect(fitFailurePrior([...fleet(10, true), ...fleet(10, false)], prior).shape).toBeLessThan(alike);
  });

  it('ask for a year only from two humid summers on, and from failures enough', () => {
    const part = (last: number, blocked: number) => {
      const days = [200, 210, last];
      return { group, startedOn: START, prior, looks: days.map((n, i): Inspection => ({ on: addDays(START, n), aspect: 'drain', grade: i < blocked ? 'blocked' : 'runs' })) }; // prettier-ignore
    };
    const many = (n: number, last: number, blocked: number) => Array.from({ length: n }, () => part(last, blocked));
    // All of them stop in the same weeks of July: as loud as can be.
    expect(learnHumidity(many(14, 600, 2))).toBeDefined();
    expect(learnHumidity(many(14, 499, 2))).toBeUndefined();
    expect(learnHumidity(many(14, 500, 2))).toBeDefined();
    expect(learnHumidity([...many(5, 600, 2), ...many(9, 600, 0), part(600, 1)])).toBeUndefined();
    expect(learnHumidity([])).toBeUndefined();
    const found = learnHumidity(many(14, 600, 2));
    expect(seasonFactor(found, Date.UTC(2026, 6, 1) / 86_400_000, 30)).toBeGreaterThan(1.5);
    // Of very many, some are gone through, and they tell the same.
    expect(learnHumidity(many(610, 600, 2))).toBeDefined();
  });
});

describe('the course of a year', () => {
  const season = fc.record({ share: double(0, 1), kappa: double(0.1, 20), peak: double(0, 365) });
  const jan1 = Date.UTC(2026, 0, 1) / 86_400_000;
  /** I₀ by its series: Abramowitz & Stegun 9.6.12. */
  const besselI0 = (x: number) => {
    let [term, sum] = [1, 1];
    for (let k = 1; k < 200; k++) sum += term *= (x / 2 / k) ** 2;
    return sum;
  };

  it('is one over a whole year, and adds up over its days', () => {
    fc.assert(
      fc.property(season, fc.integer({ min: -400, max: 30_000 }), fc.integer({ min: 1, max: 700 }), fc.integer({ min: 1, max: 700 }), (s, from, a, b) => {
        expect(seasonFactor(s, from, 365.25 * 4)).toBeCloseTo(1, 9);
        expect(seasonFactor(s, from, a) * a + seasonFactor(s, from + a, b) * b).toBeCloseTo(seasonFactor(s, from, a + b) * (a + b), 6);
        expect(seasonFactor(s, from, a)).toBeGreaterThanOrEqual(0);
      }),
      RUNS,
    ); // prettier-ignore
    expect(seasonFactor(undefined, 20_000, 30)).toBe(1);
    expect(seasonFactor({ share: 1, kappa: 3, peak: 10 }, 20_000, 0)).toBe(1);
  });

  it('is von Mises’ on a day: its share is e^(κ cos)/I₀(κ), highest at its peak and lowest half a year away', () => {
    for (const [share, kappa, peak] of [
      [1, 2, 180],
      [0.6, 4, 200],
      [0.3, 8, 160],
      [0, 5, 100],
    ] as const) {
      // prettier-ignore
      const on = (day: number) => seasonFactor({ share, kappa, peak }, jan1 + day, 1);
      const formula = (day: number) => 1 - share + (share * Math.exp(kappa * Math.cos((2 * Math.PI * (day + 0.5 - peak)) / 365.25))) / besselI0(kappa); // prettier-ignore
      for (const day of [peak, peak - 30, peak + 60, (peak + 183) % 365, 5]) expect(on(day)).toBeCloseTo(formula(day), 2);
      if (share > 0) expect(on(peak)).toBeGreaterThan(on(peak + 20));
    }
  });
});

describe('a mixture of normals', () => {
  const mixture = fc
    .array(fc.record({ w: double(0.05, 1), m: double(-2, 2), s: double(0.05, 1.5) }), { minLength: 1, maxLength: 5 })
    .map((parts) => {
      const sum = parts.reduce((a, p) => a + p.w, 0);
      return { weights: parts.map((p) => p.w / sum), means: parts.map((p) => p.m), sds: parts.map((p) => p.s) };
    });

  it('has below each quantile the share that it is a quantile of', () => {
    fc.assert(
      fc.property(mixture, double(0.001, 0.999), (m, p) => {
        const x = mixtureQuantile(m, p, mixtureMoments(m), 1e-10);
        const below = m.weights.reduce((sum, w, i) => sum + w * normalCdf((x - (m.means[i] ?? NaN)) / (m.sds[i] ?? NaN)), 0);
        expect(below).toBeCloseTo(p, 8);
      }),
      RUNS,
    );
    const one = { weights: [1], means: [3], sds: [2] };
    expect(mixtureQuantile(one, 0.975, mixtureMoments(one), 1e-12)).toBeCloseTo(3 + 2 * 1.959963984540054, 9);
    expect(mixtureQuantile(one, 0.1, { mean: 3, sd: 0 })).toBe(3);
  });

  it('has the mean and spread of what is drawn from it', () => {
    const m = { weights: [0.25, 0.75], means: [0, 4], sds: [1, 2] };
    // Mean 3; within 0.25·1 + 0.75·4 = 3.25, between 0.25·9 + 0.75·1 = 3.
    expect(mixtureMoments(m)).toEqual({ mean: 3, sd: expect.closeTo(2.5, 12) });
  });
});

describe('a belief ahead', () => {
  const on = (n: number) => addDays(START, n);
  const events: UnitEvent[] = [
    { kind: 'coil', on: on(60), grade: 'furred', phase: 'before' },
    { kind: 'reading', on: on(60), lnK: -0.25, sd: 0.05, phase: 'before' },
    { kind: 'coil', on: on(90), grade: 'matted', phase: 'before' },
  ];
  const believed = (more: UnitEvent[] = []) => posterior({ startedOn: START, startedClean: true, events: [...events, ...more] }, { placement: 'line', kitchenId: 'k' }, H); // prettier-ignore

  it('finds each grade as often as its thresholds are crossed, a misread look aside', () => {
    const a = ahead(believed());
    const { thresholds, sd } = H.grades;
    const pieces = Array.from({ length: pieceCount(a) }, (_, i) => pieceOf(a, i));
    const under = (t: number) => pieces.reduce((sum, p) => sum + p.weight * normalCdf((t - p.mean) / Math.hypot(Math.sqrt(p.variance), sd)), 0); // prettier-ignore
    const edges = [0, ...thresholds.map(under), 1];
    const chances = gradeChances(a, { ...H, misread: 0 });
    chances.forEach((c, g) => expect(c).toBeCloseTo((edges[g + 1] ?? NaN) - (edges[g] ?? NaN), 9));
    const blind = gradeChances(a, { ...H, misread: 1 });
    for (const c of blind) expect(c).toBeCloseTo(0.2, 12);
    expect(gradeChances(a, H).reduce((x, y) => x + y, 0)).toBeCloseTo(1, 9);
    expect(pieces.reduce((sum, p) => sum + p.weight * p.mean, 0)).toBeCloseTo(meanDeposit(a), 12);
    expect(lnKAhead(a).mean).toBeCloseTo(-meanDeposit(a), 12);
  });

  it('moves its rate, not its deposit, where somebody says that the kitchen changed', () => {
    const before = believed();
    const [more, less] = (['more', 'less'] as const).map((said) => believed([{ kind: 'change', on: on(90), said }]));
    if (!more || !less) throw new Error('both');
    // Doubled and halved in the median, each spread a little wider.
    expect(more.rate.mean / before.rate.mean).toBeGreaterThan(1.7);
    expect(more.rate.mean / before.rate.mean).toBeLessThan(2.9);
    expect(less.rate.mean / before.rate.mean).toBeGreaterThan(0.4);
    expect(less.rate.mean / before.rate.mean).toBeLessThan(0.75);
    for (const after of [more, less]) {
      expect(after.lnK.mean).toBeCloseTo(before.lnK.mean, 2);
      expect(after.rate.sd / after.rate.mean).toBeGreaterThan(before.rate.sd / before.rate.mean);
    }
    const risk = (p: typeof before) => crossedWithin(ahead(p), -0.9, 60);
    expect(risk(more)).toBeGreaterThan(risk(before));
    expect(risk(before)).toBeGreaterThan(risk(less));
  });

  it('of another coil in the kitchen goes by the place where nothing else is told', () => {
    const p = posterior({ startedOn: START, startedClean: true, events: [] }, { placement: 'bar', kitchenId: 'k' }, H);
    expect(usualDays(p, H, 0.6)).toBeCloseTo(0.6 / Math.exp(H.lnRate.bar), 6);
    expect(usualDays(p, H, 0.3)).toBeCloseTo(usualDays(p, H, 0.6) / 2, 9);
  });
});

describe('a fleet larger than is gone through', () => {
  it('is learnt from whole kitchens of it, and to the same', () => {
    const s = new RandomStream(4, 'large fleet');
    // Two coils a kitchen, each looked at once: packed after as many days as its kitchen is quick.
    const units = Array.from({ length: 128 }, (_, k) => {
      const days = Math.round(40 + 80 * s.next());
      return [0, 1].map((): FleetUnit => ({ exposure: { placement: 'line', kitchenId: `k${k}` }, history: { startedOn: START, startedClean: true, events: [{ kind: 'coil', on: addDays(START, days), grade: 'packed', phase: 'before' }] } })); // prettier-ignore
    });
    const all = fitHyper(units.flat(), H, 'all');
    const half = fitHyper(units.slice(0, 64).flat(), H, 'half');
    // These lines pack in eighty days where some three hundred were expected.
    expect(all.lnRate.line).toBeGreaterThan(H.lnRate.line + 0.7);
    expect(Math.abs(all.lnRate.line - half.lnRate.line)).toBeLessThan(0.1);
    expect(Math.abs(all.diffusion / half.diffusion - 1)).toBeLessThan(0.35);
    expect([all.modelVersion.endsWith('+all'), half.modelVersion.endsWith('+half')]).toEqual([true, true]);
  });
});

describe('shrinking and waiting', () => {
  it('shrinks eighteen batters as Efron and Morris did', () => {
    // Hits in 45 at bats: Efron & Morris 1977, Scientific American 236(5), 119. Grand average 0.265, shrinking factor 0.212.
    const hits = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7];
    const { mean, factor, estimates } = jamesStein(hits, 45);
    expect(mean).toBeCloseTo(0.265, 3);
    expect(factor).toBeCloseTo(0.212, 2);
    expect(estimates[0]).toBeCloseTo(0.294, 2);
    expect(estimates.at(-1)).toBeCloseTo(0.242, 2);
  });

  it('pools by precision', () => {
    expect(partialPool(10, 1, 0, 1)).toEqual({ mean: 5, sd: expect.closeTo(Math.SQRT1_2, 12) });
    expect(partialPool(10, 1, 0, 2).mean).toBeCloseTo(8, 12);
    expect(partialPool(10, 1e-6, 0, 1).mean).toBeCloseTo(10, 6);
  });

  it('waits as long in the mean as the passage’s own distribution says', () => {
    const [level, drift, sigma] = [0.4, 0.005, 0.012];
    const { mean, variance } = wienerPassageMoments(level, drift, sigma);
    let [m, v] = [0, 0];
    for (let t = 0.25; t < 1200; t += 0.5) {
      const p = wienerPassage(level, drift, sigma, t + 0.25) - wienerPassage(level, drift, sigma, t - 0.25);
      m += t * p;
      v += t * t * p;
    }
    expect(m).toBeCloseTo(mean, 1);
    expect((v - m * m) / variance).toBeCloseTo(1, 2);
    expect([mean, variance]).toEqual([expect.closeTo(80, 9), expect.closeTo((0.4 * 0.012 ** 2) / 0.005 ** 3, 9)]);
  });

  it('of jumps passes when the jumps do: one a day in the mean, each of mean one, is a Poisson process seen', () => {
    // Shape 1 a day, scale u: after n whole days the sum is Erlang(n), P(sum > L) = Σ e^(−L/u)(L/u)^k/k! for k < n.
    const erlang = (n: number, x: number) => Array.from({ length: n }, (_, k) => k).reduce((sum, k) => sum + (Math.exp(-x) * x ** k) / Array.from({ length: k }, (_, i) => i + 1).reduce((a, b) => a * b, 1), 0); // prettier-ignore
    for (const n of [1, 2, 5, 9]) expect(gammaPassage(3, 1, 0.8, n)).toBeCloseTo(erlang(n, 3 / 0.8), 10);
    expect(gammaPassage(3, 1, 0.8, 0)).toBe(0);
    expect(gammaPassage(3, 1, 0.8, -4)).toBe(0);
    expect(decayDays(0.5, 0.01)).toBeCloseTo(69.3147, 4);
  });
});

describe('special functions', () => {
  it('of the normal distribution agree with one another from tail to tail', () => {
    for (let x = -8.2; x <= 8.2; x += 0.1) {
      expect(normalCdf(x) + normalCdf(-x)).toBeCloseTo(1, 14);
      const log = x < 0 ? Math.log(normalCdf(x)) : Math.log1p(-normalCdf(-x));
      expect(logNormalCdf(x) - log).toBeCloseTo(0, 11);
      const h = 1e-4;
      if (x < 4) expect((normalCdf(x + h) - normalCdf(x - h)) / (2 * h) / normalPdf(x) - 1).toBeCloseTo(0, 5);
    }
    // Far out −x²/2 − ln(x√2π) − 1/x² + 5/(2x⁴): Abramowitz & Stegun 26.2.12.
    for (const x of [15, 30, 60]) expect(logNormalCdf(-x)).toBeCloseTo(-x * x / 2 - Math.log(x * Math.sqrt(2 * Math.PI)) - 1 / (x * x) + 5 / (2 * x ** 4), 5); // prettier-ignore
    expect([normalCdf(38), normalCdf(-38), normalCdf(0)]).toEqual([1, 0, 0.5]);
  });

  it('of gamma keep their recurrences, where series and fraction meet too', () => {
    for (const x of [0.05, 0.3, 0.49, 0.51, 0.9, 2.5, 7, 40]) expect(lnGamma(x + 1) - lnGamma(x)).toBeCloseTo(Math.log(x), 10);
    for (const x of [0.1, 0.25, 0.4]) expect(lnGamma(x) + lnGamma(1 - x)).toBeCloseTo(Math.log(Math.PI / Math.sin(Math.PI * x)), 11);
    for (const a of [0.3, 1, 4.5, 20])
      for (const x of [0.01, 0.5, a * 0.9, a + 0.99, a + 1.01, a * 2, a + 30]) {
        const step = Math.exp(a * Math.log(x) - x - lnGamma(a + 1));
        expect(gammaQ(a + 1, x)).toBeCloseTo(gammaQ(a, x) + step, 12);
      }
    expect([gammaQ(2, 0), gammaQ(0, 1), gammaQ(-1, 1), gammaQ(2, -1)]).toEqual([1, NaN, NaN, NaN]);
  });
});

describe('the order of a day', () => {
  const on = addDays(START, 30);
  const before = addDays(START, 29);
  const inOrder: UnitEvent[] = [
    { kind: 'cleaning', on: before, deep: true },
    { kind: 'change', on, said: 'more' },
    { kind: 'fan', on, grade: 'sound' },
    { kind: 'fan', on, grade: 'failed' },
    { kind: 'trip', on },
    { kind: 'trip', on, cause: 'fan' },
    { kind: 'coil', on, grade: 'bare', phase: 'before' },
    { kind: 'coil', on, grade: 'packed', phase: 'before' },
    { kind: 'reading', on, lnK: -0.4, sd: 0.02, phase: 'before' },
    { kind: 'reading', on, lnK: -0.3, sd: 0.01, phase: 'before' },
    { kind: 'reading', on, lnK: -0.3, sd: 0.05, phase: 'before' },
    { kind: 'cleaning', on },
    { kind: 'cleaning', on, deep: true },
    { kind: 'coil', on, grade: 'bare', phase: 'after' },
    { kind: 'reading', on, lnK: -0.02, sd: 0.05, phase: 'after' },
  ];

  it('is what was met, the cleaning, and what was seen after it, whatever the order it was told in', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(inOrder, { minLength: inOrder.length }), (told) => {
        const kept = [...told];
        expect(ordered(told)).toEqual(inOrder);
        expect(told).toEqual(kept);
      }),
      RUNS,
    );
    expect(ordered(inOrder)).toBe(inOrder);
  });
});
