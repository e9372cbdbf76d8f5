import { describe } from 'vitest';
import { cleaningPrice, compareWays, meanMinutes, rateOf, unitWays, type UnitFacts } from '@/lib/core/choices';
import { capitalRecovery } from '@/lib/core/choices/compare';
import { keptAnswers } from '../../support/kept-answers';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs choices`.

const FACTS: UnitFacts = { cleanings: { times: 12, years: 3 }, callOuts: { times: 6, years: 3 }, failures: { times: 4, years: 3 }, fleet: { callOuts: { times: 60, years: 600 }, failures: { times: 60, years: 600 } }, leakKgPerYear: 0.4, cleaningMinutes: null, fouling: { now: { value: 900, lo: 500, hi: 1500 }, clean: { value: 150, lo: 80, hi: 300 } } }; // prettier-ignore
const TYPED = {
  coilPrice: 900,
  coilYears: 10,
  unitPrice: 6000,
  unitYears: 12,
  leftYears: 6,
  useKwh: 3000,
  newKwh: 2400,
  callOut: 260,
  refrigerantPerKg: 45,
  interest: 0.06,
};
const SHOP = { energyPerKwh: 0.18, cleaning: 110, failure: 1800 };
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
