import { describe } from 'vitest';
import { cleaningPrice, compareWays, meanMinutes, rateOf, unitWays } from '@/lib/core/choices';
import { capitalRecovery } from '@/lib/core/choices/compare';
import { facts as FACTS, shop as SHOP, typed as TYPED } from '../../support/choices';
import { keptAnswers } from '../../support/kept-answers';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs choices`.

const HOUR = { ...SHOP, hour: 120, plannedMinutes: 30 };
const minutes = (value: number) => ({ value, lo: value - 8, hi: value + 8, cleanings: 5 });

const CASES: Record<string, Parameters<typeof unitWays>> = {
  'keeps failing': [FACTS, TYPED, SHOP],
  'never failed': [
    { ...FACTS, callOuts: { times: 0, years: 3 }, failures: { times: 0, years: 3 }, leakKgPerYear: 0, fouling: null },
    TYPED,
    SHOP,
  ],
  'no price of a new one': [FACTS, { ...TYPED, unitPrice: null }, SHOP],
  'no price at all': [FACTS, { ...TYPED, unitPrice: null, coilPrice: null }, SHOP],
  'use not known': [FACTS, { ...TYPED, useKwh: null, newKwh: null }, SHOP],
  'slow to clean, no interest': [{ ...FACTS, cleaningMinutes: minutes(55) }, { ...TYPED, interest: 0, leftYears: 2 }, HOUR],
};

describe('kept answers of choices', () => {
  keptAnswers(import.meta.dirname, {
    ...Object.fromEntries(
      Object.entries(CASES).map(([name, args]) => [
        `a unit, ${name}`,
        () => {
          const { ways, prices } = unitWays(...args);
          return {
            ways: Object.fromEntries(ways.map((w) => [w.way, w])),
            prices,
            comparison: ways.length > 1 ? compareWays(ways, prices) : null,
          };
        },
      ]),
    ),
    'rates, prices and minutes': () => [
      [rateOf({ times: 0, years: 2 }), rateOf({ times: 7, years: 2 }, { times: 3, years: 90 })],
      [0, 0.06].map((interest) => capitalRecovery(interest, 10)),
      [null, minutes(20), minutes(30), minutes(70)].map((seen) => cleaningPrice(HOUR, seen)),
      [
        meanMinutes([]),
        meanMinutes([{ minutes: 30, lo: 25, hi: 40 }]),
        meanMinutes([30, 42, 55].map((m) => ({ minutes: m, lo: m - 5, hi: m + 9 }))),
      ],
    ],
  });
});
