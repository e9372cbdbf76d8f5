import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import {
  annualizingRates,
  chronicPercent,
  co2Tonnes,
  cylinderBalance,
  inspectionMonths,
  LEAK_RULES,
  leakCheckMonths,
  repairClock,
  rollingRates,
  rulesFor,
  yearTotals,
  type Addition,
  type CheckedUnit,
  type LeakRule,
} from '@/lib/core/refrigerant-book';
import { poundToKilogram } from '@/lib/core/measures';

const lb = poundToKilogram;
const on = localDate;
const ruleOf = (key: string): LeakRule => {
  const rule = LEAK_RULES.find((r) => r.key === key);
  if (!rule) throw new Error(key);
  return rule;
};

describe('leak rates (40 CFR 82.152, 84.102)', () => {
  it('annualizing: 10 lb of 100 after 180 days is 20.28 % a year', () => {
    const rates = annualizingRates(lb(100), [
      { on: on('2026-01-01'), kg: lb(5) },
      { on: addDays(on('2026-01-01'), 180), kg: lb(10) },
    ]);
    expect(rates[1]?.percent).toBeCloseTo(20.2778, 3);
    // Nothing is known of before the first: a year, so 5 %.
    expect(rates[0]?.percent).toBeCloseTo(5, 9);
  });

  it('annualizing: more than a year between two counts as one', () => {
    const rates = annualizingRates(lb(100), [
      { on: on('2024-01-01'), kg: lb(5) },
      { on: on('2026-01-01'), kg: lb(10) },
    ]);
    expect(rates[1]?.percent).toBeCloseTo(10, 9);
  });

  it('rolling: what was added in the last 365 days, or since the last passed follow-up test', () => {
    const additions: Addition[] = [
      { on: on('2025-01-10'), kg: lb(30) },
      { on: on('2025-06-01'), kg: lb(8) },
      { on: on('2026-02-01'), kg: lb(7) },
    ];
    expect(rollingRates(lb(100), additions).map((r) => r.percent)).toEqual([
      expect.closeTo(30, 9),
      expect.closeTo(38, 9),
      expect.closeTo(15, 9),
    ]);
    expect(rollingRates(lb(100), additions, [on('2025-07-01')]).at(-1)?.percent).toBeCloseTo(7, 9);
  });

  it('both agree on one addition after exactly a year, and neither depends on the order or the unit of mass', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ d: fc.integer({ min: 0, max: 1500 }), kg: fc.double({ min: 0.01, max: 20, noNaN: true }) }), {
          minLength: 1,
          maxLength: 8,
        }),
        (list) => {
          const additions = list.map(({ d, kg }) => ({ on: addDays(on('2023-01-01'), d), kg }));
          for (const rates of [annualizingRates, rollingRates]) {
            const percents = (charge: number, times: number) =>
              rates(
                charge * times,
                additions.map((a) => ({ ...a, kg: a.kg * times })),
                [],
              ).map((r) => r.percent);
            percents(40, 1).forEach((p, i) => expect(percents(40, 2.2046)[i]).toBeCloseTo(p, 6));
            rates(40, [...additions].reverse()).forEach((r, i) => expect(r.percent).toBeCloseTo(percents(40, 1)[i] ?? NaN, 9));
          }
        },
      ),
    );
  });

  it('refuse a charge of nothing', () => {
    expect(() => annualizingRates(0, [])).toThrow(/above zero/);
    expect(() => rollingRates(1, [{ on: on('2026-01-01'), kg: 0 }])).toThrow(/above zero/);
  });
});

describe('which rule reaches a unit, and what it asks', () => {
  const rack = {
    chargeKg: lb(120),
    ozoneDepleting: false,
    gwp: REFRIGERANTS.R404A?.gwpAR4 ?? null,
    kind: 'commercial_refrigeration',
  } as const;

  it('15 lb of a gas above a GWP of 53 from 2026 on; 50 lb where it depletes ozone; never a reach-in', () => {
    expect(rulesFor(rack, on('2025-12-31'))).toEqual([]);
    expect(rulesFor(rack, on('2026-01-01')).map((r) => r.key)).toEqual(['us-aim']);
    expect(rulesFor({ ...rack, gwp: 3 }, on('2026-06-01'))).toEqual([]);
    expect(rulesFor({ ...rack, gwp: null }, on('2026-06-01')).map((r) => r.key)).toEqual(['us-aim']);
    expect(rulesFor({ ...rack, ozoneDepleting: true }, on('2026-06-01')).map((r) => r.key)).toEqual(['us-608']);
    expect(rulesFor({ ...rack, chargeKg: lb(2) }, on('2026-06-01'))).toEqual([]);
  });

  it('the clock: below, repair, follow-up, verified, overdue, and again after a failed follow-up', () => {
    const rule = ruleOf('us-aim');
    const rates = annualizingRates(lb(100), [
      { on: on('2026-01-01'), kg: lb(5) },
      { on: on('2026-03-01'), kg: lb(10) },
    ]);
    const clock = (tests: Parameters<typeof repairClock>[3], today: string) =>
      repairClock(rule, 'commercial_refrigeration', rates, tests, on(today));
    expect(repairClock(rule, 'commercial_refrigeration', rates.slice(0, 1), [], on('2026-01-02'))?.state).toBe('below');
    expect(clock([], '2026-03-10')).toMatchObject({ state: 'repair_due', dueOn: '2026-03-31' });
    expect(clock([], '2026-04-01')?.state).toBe('overdue');
    const initial = { on: on('2026-03-20'), kind: 'initial', passed: true } as const;
    expect(clock([initial], '2026-03-21')).toMatchObject({ state: 'follow_up_due', dueOn: '2026-03-30' });
    expect(clock([initial, { on: on('2026-03-28'), kind: 'follow_up', passed: true }], '2026-05-01')?.state).toBe('verified');
    expect(clock([initial, { on: on('2026-03-28'), kind: 'follow_up', passed: false }], '2026-03-29')).toMatchObject({
      state: 'repair_due',
      dueOn: '2026-04-27',
    });
    expect(repairClock(rule, 'commercial_refrigeration', [], [], on('2026-01-01'))).toBeNull();
  });

  it('a small addition afterwards ends no repair that is due; its tests do', () => {
    const rule = ruleOf('us-aim');
    const rates = annualizingRates(lb(100), [
      { on: on('2026-01-01'), kg: lb(5) },
      { on: on('2026-03-01'), kg: lb(10) },
      { on: on('2026-03-15'), kg: lb(0.2) },
    ]);
    expect(rates.at(-1)?.percent).toBeLessThan(20);
    const clock = (tests: Parameters<typeof repairClock>[3]) =>
      repairClock(rule, 'commercial_refrigeration', rates, tests, on('2026-04-02'));
    expect(clock([])).toMatchObject({ state: 'overdue', dueOn: '2026-03-31', rate: { on: '2026-03-01' } });
    const initial = { on: on('2026-03-16'), kind: 'initial', passed: true } as const;
    expect(clock([initial, { on: on('2026-03-26'), kind: 'follow_up', passed: true }])).toMatchObject({
      state: 'below',
      rate: { on: '2026-03-15' },
    });
  });

  it('inspects by charge once the threshold was passed: 500 lb every three months, below it once a year (40 CFR 84.106(g))', () => {
    expect([15, 499, 500].map((pounds) => inspectionMonths(ruleOf('us-aim'), lb(pounds)))).toEqual([12, 12, 3]);
    expect(inspectionMonths(ruleOf('us-608'), lb(49))).toBeNull();
  });

  it('chronic: 125 % of the charge in one calendar year', () => {
    const additions = [
      { on: on('2026-02-01'), kg: lb(60) },
      { on: on('2026-11-01'), kg: lb(65) },
      { on: on('2027-01-01'), kg: lb(90) },
    ];
    expect(chronicPercent(ruleOf('us-aim'), lb(100), additions, 2026)).toBeCloseTo(125, 6);
    expect(chronicPercent(ruleOf('us-aim'), lb(100), additions, 2027)).toBeNull();
  });

  it('leak checks by CO2 equivalent: 20 kg of R-410A are 41.76 t, once a year without a detector (worked example, Regulation (EU) 517/2014)', () => {
    const tonnes = co2Tonnes(20, REFRIGERANTS.R410A?.gwpAR4 ?? NaN);
    expect(tonnes).toBeCloseTo(41.76, 1);
    const today = on('2026-11-27');
    const months = (over: Partial<CheckedUnit>, day = today) =>
      leakCheckMonths({ refrigerant: 'R410A', chargeKg: 20, gwp: 2088, hermetic: false, detector: false, ...over }, day);
    expect(months({})).toBe(12);
    expect(months({ detector: true })).toBe(24);
    expect(months({ chargeKg: 500, gwp: 1000 })).toBe(3);
    expect(months({ chargeKg: 50, gwp: 1000, detector: true })).toBe(12);
    expect(months({ chargeKg: 9.9, gwp: 1000, hermetic: true })).toBeNull();
    expect(months({ chargeKg: 4.9, gwp: 1000 })).toBeNull();
    expect(months({ gwp: null })).toBeNull();
  });

  it('counts an unsaturated gas by its mass since March 2024, and not before (Regulation (EU) 2024/573, article 5)', () => {
    const months = (chargeKg: number, day: string, hermetic = false) =>
      leakCheckMonths({ refrigerant: 'R1234yf', chargeKg, gwp: 4, hermetic, detector: false }, on(day));
    expect([0.9, 1, 10, 100].map((kg) => months(kg, '2024-03-11'))).toEqual([null, 12, 6, 3]);
    expect(months(10, '2024-03-10')).toBeNull();
    expect([months(1.9, '2026-01-01', true), months(2, '2026-01-01', true)]).toEqual([null, 12]);
    expect(months(10, '2014-12-31')).toBeNull();
  });
});

describe('cylinders and the year', () => {
  const cylinder = { tareKg: 5, firstKg: 11.34, mostKg: 11.34 };
  const used = [
    { on: on('2026-05-01'), kg: -0.24, way: 'charged' },
    { on: on('2026-05-03'), kg: -0.51, way: 'charged' },
  ] as const;

  it('agrees within what the scale can tell, and shows a difference beyond it', () => {
    expect(cylinderBalance(cylinder, used, 5 + 10.59).verdict).toBe('agrees');
    const differs = cylinderBalance(cylinder, used, 5 + 10.2);
    expect(differs).toMatchObject({ verdict: 'differs', differenceKg: expect.closeTo(-0.39, 9) });
    expect(cylinderBalance(cylinder, used, null).verdict).toBe('not_weighed');
    expect(cylinderBalance(cylinder, [{ on: on('2026-05-01'), kg: 1, way: 'recovered' }], null).verdict).toBe('overfilled');
    expect(cylinderBalance(cylinder, [{ on: on('2026-05-01'), kg: -12, way: 'charged' }], null).verdict).toBe('below_nothing');
  });

  it('sums a year by gas, and says tonnes only where a GWP is on file', () => {
    const year = yearTotals(
      [
        { gas: 'R404A', kg: -2, way: 'charged' },
        { gas: 'R404A', kg: 0.5, way: 'recovered' },
        { gas: 'R404A', kg: 0.5, way: 'to_reclaim' },
        { gas: 'RX', kg: 1, way: 'bought' },
        { gas: 'RX', kg: 1, way: 'moved' },
        { gas: 'RY', kg: 0, way: 'scale_check' },
      ],
      (gas) => REFRIGERANTS[gas]?.gwpAR4 ?? null,
    );
    expect(year[0]).toMatchObject({
      gas: 'R404A',
      charged: 2,
      recovered: 0.5,
      toReclaim: 0.5,
      netIntoUnits: 1.5,
      co2Tonnes: expect.closeTo(1.5 * 3.922, 2),
    });
    expect(year[1]).toMatchObject({ gas: 'RX', bought: 1, netIntoUnits: 0, co2Tonnes: null });
    // Weighed to check only: nothing went anywhere.
    expect(year).toHaveLength(2);
  });
});
