import { decayDays, gammaPassage, wienerPassage, wienerPassageMoments } from '@/lib/core/fouling';
import { ageReplacement, asymptoticPenalty, hiddenFailure, linearPenalty, minimalRepair } from '@/lib/core/intervals';
import type { Comparison } from './comparison';

/** Worked numbers, found apart from this program; the methods' sources stand beside them. */
type Check = {
  id: string;
  source: string;
  quantity: string;
  unit: string;
  tolerance: number;
  pairs: [ours: number, theirs: number][];
};

/** Days by which the 10 % point of an inverse-Gaussian life is met, by halving. */
function wienerPoint(share: number): number {
  let [low, high] = [1, 1000];
  for (let i = 0; i < 60; i++) {
    const mid = (low + high) / 2;
    if (wienerPassage(0.4, 0.004, 0.02, mid) < share) low = mid;
    else high = mid;
  }
  return low;
}

function checks(): Check[] {
  const linear = linearPenalty(120, 0.02);
  const curved = asymptoticPenalty(120, 4, 90);
  const repair = minimalRepair(2.5, 365, 120, 400);
  const hidden = hiddenFailure(1 / 365, 90, 60);
  const lives = [ageReplacement(2, 1, 1, 5), ageReplacement(2, 1, 1, 10), ageReplacement(3, 1, 1, 5)];
  const moments = wienerPassageMoments(0.4, 0.004, 0.02);
  return [
    {
      id: 'interval-linear-penalty',
      source: 'Square-root law (Harris 1913), method from memory',
      quantity: 'days and cost a day, C 120, a 0.02',
      unit: 'd, $/d',
      tolerance: 5e-4,
      pairs: [
        [linear?.days ?? NaN, 109.545],
        [linear?.costRate ?? NaN, 2.19089],
      ],
    },
    {
      id: 'interval-kern-seaton',
      source: 'Kern & Seaton 1959 growth, cyclic optimum from memory',
      quantity: 'x, days and cost a day, C 120, p∞ 4, τ 90',
      unit: '1, d, $/d',
      tolerance: 6e-4,
      pairs: [
        [(curved?.days ?? NaN) / 90, 1.188834],
        [curved?.days ?? NaN, 106.995],
        [curved?.costRate ?? NaN, 2.7817],
      ],
    },
    {
      id: 'interval-kern-seaton-none',
      source: 'The same: no finite optimum when C ≥ p∞τ',
      quantity: 'answers "none" at C = p∞τ and beyond (1 = yes)',
      unit: '1',
      tolerance: 1e-12,
      pairs: [
        [asymptoticPenalty(360, 4, 90) === null ? 1 : 0, 1],
        [asymptoticPenalty(500, 4, 90) === null ? 1 : 0, 1],
        [asymptoticPenalty(359, 4, 90) === null ? 1 : 0, 0],
      ],
    },
    {
      id: 'interval-age-replacement',
      source: 'Barlow & Proschan 1965, Weibull lives',
      quantity: 'T*/η and cost against running to failure',
      unit: '1',
      tolerance: 6e-5,
      pairs: [
        [0.51066, 0.7241],
        [0.33645, 0.5367],
        [0.50261, 0.5414],
      ].flatMap(([days, cost], i): [number, number][] => [
        [lives[i]?.days ?? NaN, days as number],
        [lives[i]?.costRatio ?? NaN, cost as number],
      ]),
    },
    {
      id: 'interval-minimal-repair',
      source: 'Barlow & Hunter 1960',
      quantity: 'days and cost a day, η 365, β 2.5, cp 120, cm 400',
      unit: 'd, $/d',
      tolerance: 6e-4,
      pairs: [
        [repair?.days ?? NaN, 191.737],
        [repair?.costRate ?? NaN, 1.0431],
      ],
    },
    {
      id: 'interval-hidden-failure',
      source: 'Barlow, Hunter & Proschan 1963',
      quantity: 'days between looks, exact and approximate',
      unit: 'd',
      tolerance: 6e-4,
      pairs: [
        [hidden?.days ?? NaN, 32.598],
        [hidden?.approximate ?? NaN, 33.091],
      ],
    },
    {
      id: 'passage-inverse-gaussian',
      source: 'Cox & Miller 1965',
      quantity: 'mean, sd, F(60), F(90), 10 % point; L 0.4, μ 0.004, σ 0.02',
      unit: 'd, 1',
      tolerance: 6e-3,
      pairs: [
        [moments.mean, 100],
        [Math.sqrt(moments.variance), 50],
        [wienerPoint(0.1), 48.57],
      ],
    },
    {
      id: 'passage-inverse-gaussian-f',
      source: 'Cox & Miller 1965',
      quantity: 'F(60), F(90)',
      unit: '1',
      tolerance: 6e-7,
      pairs: [
        [wienerPassage(0.4, 0.004, 0.02, 60), 0.204642],
        [wienerPassage(0.4, 0.004, 0.02, 90), 0.508735],
      ],
    },
    {
      id: 'passage-gamma-process',
      source: 'van Noortwijk 2009',
      quantity: 'P(T ≤ t), v 0.04, u 0.1, L 0.4, t 90 and 120',
      unit: '1',
      tolerance: 6e-7,
      pairs: [
        [gammaPassage(0.4, 0.04, 0.1, 90), 0.352472],
        [gammaPassage(0.4, 0.04, 0.1, 120), 0.59199],
      ],
    },
    {
      id: 'log-conductance-decay',
      source: 'ln UA = b0 − kt, by hand',
      quantity: 'days to 70 % and 50 % at k 0.004',
      unit: 'd',
      tolerance: 6e-3,
      pairs: [
        [decayDays(0.7, 0.004), 89.17],
        [decayDays(0.5, 0.004), 173.29],
      ],
    },
  ];
}

export function comparisons(): Comparison[] {
  const expected: Record<string, number> = {
    'interval-linear-penalty': 2,
    'interval-kern-seaton': 3,
    'interval-kern-seaton-none': 3,
    'interval-age-replacement': 6,
    'interval-minimal-repair': 2,
    'interval-hidden-failure': 2,
    'passage-inverse-gaussian': 3,
    'passage-inverse-gaussian-f': 2,
    'passage-gamma-process': 2,
    'log-conductance-decay': 2,
  };
  return checks().map(({ pairs, ...rest }) => ({
    ...rest,
    // Math.max passes NaN on, so a value that could not be found fails.
    worst: Math.max(...pairs.map(([ours, theirs]) => Math.abs(ours - theirs))),
    samples: pairs.length,
    expectedSamples: expected[rest.id] ?? 0,
  }));
}
