import { describe, expect, it } from 'vitest';
import { localDate, daysBetween } from '@/lib/core/calendar';
import { POUND_KG } from '@/lib/core/measures/mass';
import {
  additionsOf,
  certifiedFor,
  CERTIFICATE_KINDS,
  CERTIFICATE_LABEL,
  CHECK_RULES,
  CYLINDER_WAYS,
  CYLINDER_WAY_LABEL,
  cylinderBalance,
  inspectionMonths,
  leakCheckMonths,
  LEAK_RULES,
  repairClock,
  rollingRates,
  rulesFor,
  signedKg,
  TOUCHES_UNIT,
  yearTotals,
  type CertificateOnFile,
} from '@/lib/core/refrigerant-book';

const d = localDate;
const [US608, AIM] = LEAK_RULES;
if (!US608 || !AIM) throw new Error('two rules');

describe('which rule reaches a unit', () => {
  const keys = (over: Partial<Parameters<typeof rulesFor>[0]>, on = '2026-06-01') =>
    rulesFor({ chargeKg: 30, ozoneDepleting: false, gwp: 3922, kind: 'commercial_refrigeration', ...over }, d(on)).map((r) => r.key);

  it('by the day it began, its least charge and what it covers, the edges among them', () => {
    expect(keys({})).toEqual(['us-aim']);
    expect(keys({}, '2025-12-31')).toEqual([]);
    expect(keys({}, '2026-01-01')).toEqual(['us-aim']);
    expect(keys({ chargeKg: 15 * POUND_KG })).toEqual(['us-aim']);
    expect(keys({ chargeKg: 15 * POUND_KG - 0.001 })).toEqual([]);
    expect(keys({ gwp: 53 })).toEqual([]);
    expect(keys({ gwp: 53.1 })).toEqual(['us-aim']);
    expect(keys({ gwp: null })).toEqual(['us-aim']);
    expect(keys({ ozoneDepleting: true })).toEqual(['us-608']);
    expect(keys({ ozoneDepleting: true, chargeKg: 50 * POUND_KG - 0.001 })).toEqual([]);
  });

  it('asks as 40 CFR 82.157 and 84.106 do: 10, 20 and 30 %; 30 days, 120 with a shutdown, 10 to follow up; quarterly from 500 lb', () => {
    for (const rule of LEAK_RULES) {
      expect(rule).toMatchObject({ repairDays: 30, repairDaysWithShutdown: 120, followUpDays: 10, chronicPercent: 125 });
      expect(rule.thresholdPercent).toEqual({ comfort_cooling: 10, commercial_refrigeration: 20, industrial_process: 30 });
      expect(inspectionMonths(rule, 500 * POUND_KG)).toBe(3);
      expect(inspectionMonths(rule, 499 * POUND_KG)).toBe(12);
    }
    expect(inspectionMonths(US608, 49 * POUND_KG)).toBeNull();
    expect(inspectionMonths(AIM, 15 * POUND_KG)).toBe(12);
    expect(new Set([...LEAK_RULES, ...CHECK_RULES].map((r) => r.key)).size).toBe(4);
    for (const rule of [...LEAK_RULES, ...CHECK_RULES]) expect(rule.source).toMatch(/CFR|Regulation/);
  });
});

describe('EU leak checks', () => {
  const months = (over: Partial<Parameters<typeof leakCheckMonths>[0]>, on = '2026-06-01') =>
    leakCheckMonths({ refrigerant: 'R404A', chargeKg: 10, gwp: 1000, hermetic: false, detector: false, ...over }, d(on));

  it('go by tonnes of CO2: 5, 50 and 500, twice as long with a detector', () => {
    expect([4.99, 5, 49.9, 50, 499, 500].map((chargeKg) => months({ chargeKg }))).toEqual([null, 12, 12, 6, 6, 3]);
    expect(months({ detector: true })).toBe(24);
    expect(months({ hermetic: true, chargeKg: 9.99 })).toBeNull();
    expect(months({ hermetic: true })).toBe(12);
    expect(months({ gwp: null })).toBeNull();
  });

  it('go by mass for gases that are counted so, since 11 March 2024 (Regulation (EU) 2024/573)', () => {
    const yf = { refrigerant: 'R1234yf', gwp: 0.5 };
    expect([0.99, 1, 9.9, 10, 99, 100].map((chargeKg) => months({ ...yf, chargeKg }))).toEqual([null, 12, 12, 6, 6, 3]);
    expect(months({ ...yf, chargeKg: 1.9, hermetic: true })).toBeNull();
    expect(months({ ...yf, chargeKg: 2, hermetic: true })).toBe(12);
    expect(months({ ...yf, chargeKg: 2 }, '2024-03-10')).toBeNull();
    expect(months({ ...yf, chargeKg: 2 }, '2024-03-11')).toBe(12);
    expect(months({}, '2014-12-31')).toBeNull();
    expect(months({}, '2015-01-01')).toBe(12);
  });
});

describe('the clock of a repair', () => {
  const rates = rollingRates(20, [{ on: d('2026-03-01'), kg: 5 }]);
  const clock = (tests: Parameters<typeof repairClock>[3], today: string) =>
    repairClock(AIM, 'commercial_refrigeration', rates, tests, d(today));
  it('is over on the day after its last, and not on it', () => {
    expect(clock([], '2026-03-31')).toMatchObject({ state: 'repair_due', dueOn: '2026-03-31', thresholdPercent: 20 });
    expect(clock([], '2026-04-01')).toMatchObject({ state: 'overdue' });
    const initial = { on: d('2026-03-05'), kind: 'initial', passed: true } as const;
    expect(clock([initial], '2026-03-15')).toMatchObject({ state: 'follow_up_due', dueOn: '2026-03-15' });
    expect(clock([{ ...initial, passed: false }], '2026-03-06')).toMatchObject({ state: 'repair_due', dueOn: '2026-03-31' });
    expect(clock([{ ...initial, on: d('2026-02-27') }], '2026-03-06')).toMatchObject({ state: 'repair_due' });
    const after = (passed: boolean) => [initial, { on: d('2026-03-12'), kind: 'follow_up' as const, passed }];
    expect(clock(after(true), '2027-01-01')).toMatchObject({ state: 'verified', dueOn: null });
    expect(clock(after(false), '2026-03-13')).toMatchObject({ state: 'repair_due', dueOn: '2026-04-11' });
  });
  it('is none where nothing was added, and at exactly the threshold nothing is due', () => {
    expect(repairClock(AIM, 'commercial_refrigeration', [], [], d('2026-03-01'))).toBeNull();
    const even = rollingRates(25, [{ on: d('2026-03-01'), kg: 5 }]);
    expect(repairClock(AIM, 'commercial_refrigeration', even, [], d('2026-05-01'))).toMatchObject({ state: 'below', dueOn: null });
    expect(repairClock(AIM, 'comfort_cooling', even, [], d('2026-03-02'))).toMatchObject({ state: 'repair_due' });
  });
});

describe('what was added', () => {
  const added = (...w: [string, number, 'charged' | 'recovered'][]) => additionsOf(w.map(([on, kg, way]) => ({ on: d(on), kg, way })), daysBetween); // prettier-ignore
  it('is what was charged less what was taken out to open the circuit, within two weeks', () => {
    expect(added(['2026-03-01', 2, 'recovered'], ['2026-03-15', -3, 'charged'])).toEqual([{ on: '2026-03-15', kg: 1 }]);
    expect(added(['2026-03-01', 2, 'recovered'], ['2026-03-16', -3, 'charged'])).toEqual([{ on: '2026-03-16', kg: 3 }]);
    expect(added(['2026-03-01', -3, 'charged'], ['2026-03-01', 2, 'recovered'])).toEqual([{ on: '2026-03-01', kg: 1 }]);
    expect(added(['2026-03-01', -1, 'charged'], ['2026-03-01', -0.5, 'charged'])).toEqual([{ on: '2026-03-01', kg: 1.5 }]);
    expect(added(['2026-03-01', 2, 'recovered'], ['2026-03-02', -1, 'charged'], ['2026-03-03', -2, 'charged'])).toEqual([
      { on: '2026-03-03', kg: 1 },
    ]);
    expect(added(['2026-03-01', -0.005, 'charged'])).toEqual([]);
  });
});

describe('who may work on a unit', () => {
  const certificate = (kind: CertificateOnFile['kind'], expiresOn: string | null = null): CertificateOnFile => ({ id: kind, kind, number: '1', expiresOn: expiresOn ? d(expiresOn) : null }); // prettier-ignore
  const may = (kind: CertificateOnFile['kind'], chargeKg: number | null, circuitAccess: 'sealed' | 'ports') =>
    certifiedFor([certificate(kind)], { chargeKg, circuitAccess }, d('2026-06-01')).holds;

  it('by the scope of the certificate', () => {
    expect([may('us_608_universal', null, 'ports'), may('us_608_type_2', 50, 'ports'), may('eu_category_1', 50, 'ports'), may('other', null, 'ports')]).toEqual([true, true, true, true]); // prettier-ignore
    expect([may('us_608_type_1', 5 * POUND_KG, 'sealed'), may('us_608_type_1', 5.01 * POUND_KG, 'sealed'), may('us_608_type_1', 1, 'ports'), may('us_608_type_1', null, 'sealed')]).toEqual([true, false, false, false]); // prettier-ignore
    expect(may('us_608_type_3', 1, 'sealed')).toBe(false);
    expect([may('eu_category_2', 2.9, 'ports'), may('eu_category_2', 3, 'ports'), may('eu_category_2', 5.9, 'sealed'), may('eu_category_2', 6, 'sealed'), may('eu_category_2', null, 'sealed')]).toEqual([true, false, true, false, false]); // prettier-ignore
  });

  it('the one that runs longest counts, to the end of its last day', () => {
    const unit = { chargeKg: 1, circuitAccess: 'ports' } as const;
    const [one, two] = [certificate('other', '2026-06-01'), certificate('us_608_universal', '2027-01-01')];
    expect(certifiedFor([one, two], unit, d('2026-06-01'))).toEqual({ holds: true, certificate: two });
    expect(certifiedFor([one], unit, d('2026-06-01'))).toMatchObject({ holds: true });
    expect(certifiedFor([one], unit, d('2026-06-02'))).toEqual({ holds: false, why: 'expired', latest: one });
    expect(certifiedFor([], unit, d('2026-06-02'))).toEqual({ holds: false, why: 'none', latest: null });
    const three = certificate('us_608_type_3');
    expect(certifiedFor([one, three], unit, d('2026-06-02'))).toEqual({ holds: false, why: 'another_unit', latest: three });
    expect(certifiedFor([one, certificate('other')], unit, d('2028-01-01')).holds).toBe(true);
  });
});

describe('a cylinder', () => {
  const cylinder = { tareKg: 5, firstKg: 10, mostKg: 11 };
  const used = [{ on: d('2026-03-01'), kg: -2, way: 'charged' as const }];
  it('holds what the book says within what the scale can tell: 2.576 sd of four weighings of 3 g are 15 g', () => {
    expect(cylinderBalance(cylinder, used, 13)).toMatchObject({ bookKg: 8, scaleKg: 8, differenceKg: 0, verdict: 'agrees' });
    expect(cylinderBalance(cylinder, used, 13).sdKg).toBeCloseTo(0.006, 9);
    expect(cylinderBalance(cylinder, used, 13.015).verdict).toBe('agrees');
    expect(cylinderBalance(cylinder, used, 13.016).verdict).toBe('differs');
    expect(cylinderBalance(cylinder, used, 12.984).verdict).toBe('differs');
    expect(cylinderBalance(cylinder, used, null)).toMatchObject({ scaleKg: null, differenceKg: null, verdict: 'not_weighed' });
    expect(cylinderBalance(cylinder, used, 13.016, 0.01).verdict).toBe('agrees');
  });
  it('is too full by book or by scale, and never below nothing', () => {
    expect(cylinderBalance({ ...cylinder, firstKg: 11.1 }, [], null).verdict).toBe('overfilled');
    expect(cylinderBalance(cylinder, [], 16.1).verdict).toBe('overfilled');
    expect(cylinderBalance(cylinder, [{ ...used[0]!, kg: -10.1 }], null).verdict).toBe('below_nothing');
    expect(cylinderBalance(cylinder, [{ ...used[0]!, kg: -10.01 }], null).verdict).toBe('not_weighed');
  });
});

describe('the year of a gas', () => {
  it('sums every way once, whatever its sign, and leaves out moves and checks', () => {
    const line = (way: (typeof CYLINDER_WAYS)[number], kg: number, gas = 'R404A') => ({ gas, kg, way });
    const all = [line('bought', 20), line('charged', -6), line('recovered', 2), line('to_reclaim', -1), line('to_destruction', -0.5), line('moved', 4), line('scale_check', 0), line('moved', 3, 'R22'), line('charged', -1, 'R134a')]; // prettier-ignore
    expect(yearTotals(all, (gas) => (gas === 'R404A' ? 3922 : null))).toEqual([
      { gas: 'R134a', bought: 0, charged: 1, recovered: 0, toReclaim: 0, toDestruction: 0, netIntoUnits: 1, co2Tonnes: null },
      { gas: 'R404A', bought: 20, charged: 6, recovered: 2, toReclaim: 1, toDestruction: 0.5, netIntoUnits: 4, co2Tonnes: 15.688 },
    ]);
  });

  it('a way says its direction: what is typed has no sign', () => {
    expect(CYLINDER_WAYS.map((way) => signedKg(way, 2))).toEqual([-2, 2, 2, -2, -2, 2, 0]);
    expect([signedKg('charged', -2), signedKg('bought', -2), signedKg('moved', -2)]).toEqual([-2, 2, -2]);
    expect([...TOUCHES_UNIT].sort()).toEqual(['charged', 'recovered']);
  });

  it('ways and certificates have a word each, none twice', () => {
    expect(new Set(CYLINDER_WAYS.map((w) => CYLINDER_WAY_LABEL[w])).size).toBe(CYLINDER_WAYS.length);
    expect(new Set(CERTIFICATE_KINDS.map((k) => CERTIFICATE_LABEL[k])).size).toBe(CERTIFICATE_KINDS.length);
    for (const label of [...Object.values(CYLINDER_WAY_LABEL), ...Object.values(CERTIFICATE_LABEL)]) expect(label).toMatch(/^[A-Z]/);
  });
});
