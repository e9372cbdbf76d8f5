import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, localDate, type LocalDate } from '@/lib/core/calendar';
import { POUND_KG } from '@/lib/core/measures/mass';
import {
  additionsOf,
  annualizingRates,
  certifiedFor,
  CHECK_RULES,
  chronicPercent,
  CONTENTS_LABEL,
  CYLINDER_CONTENTS,
  CYLINDER_WAYS,
  cylinderBalance,
  LEAK_RULES,
  leakCheckMonths,
  repairClock,
  rollingRates,
  signedKg,
  yearTotals,
  type CertificateOnFile,
  type CylinderWay,
  type LeakTest,
} from '@/lib/core/refrigerant-book';

const START = localDate('2026-01-01');
const at = (n: number) => addDays(START, n);
const [, AIM] = LEAK_RULES;
if (!AIM) throw new Error('two rules');

describe('rules as they stand on the page', () => {
  // The numbers of articles and the days from which they hold: 40 CFR, 89 FR 82682, the Official Journal; see `read` for how surely.
  it('name themselves, where they stand, how that was read, and from when', () => {
    expect(LEAK_RULES.map((r) => [r.title, r.source, r.chronicSource, r.from])).toEqual([
      ['Clean Air Act section 608', '40 CFR 82.152, 82.157', '40 CFR 82.157(j)', '2019-01-01'],
      ['AIM Act, subsection (h)', '40 CFR 84.102, 84.106; 89 FR 82682 (11 October 2024)', '40 CFR 84.106(j)', '2026-01-01'],
    ]);
    expect(CHECK_RULES.map((r) => [r.title, r.source, r.from, r.until])).toEqual([
      ['EU leak checks, until March 2024', 'Regulation (EU) No 517/2014, article 4', '2015-01-01', '2024-03-10'],
      ['EU leak checks', 'Regulation (EU) 2024/573, article 5', '2024-03-11', null],
    ]);
    // Until somebody has read the text itself, each says that nobody has.
    for (const r of [...LEAK_RULES, ...CHECK_RULES]) expect(r.read).toMatch(/secondary sources.*\d{4}-\d{2}-\d{2}$/);
  });

  it('leave no day without a rule on leak checks, and no day with two', () => {
    const sorted = [...CHECK_RULES].sort((a, b) => (a.from < b.from ? -1 : 1));
    sorted.slice(1).forEach((r, i) => expect(sorted[i]?.until).toBe(addDays(r.from, -1)));
    expect(sorted.at(-1)?.until).toBeNull();
    const months = (day: LocalDate, refrigerant = 'R404A') => leakCheckMonths({ refrigerant, chargeKg: 20, gwp: 3922, hermetic: false, detector: false }, day); // prettier-ignore
    for (const day of ['2015-01-01', '2024-03-10', '2024-03-11', '2030-01-01'].map(localDate)) expect(months(day)).toBe(6);
    expect(months(localDate('2014-12-31'))).toBeNull();
    // Gases by mass: both that are filed here, and no blend.
    expect(['R1234yf', 'R1234ze(E)', 'R454C'].map((gas) => leakCheckMonths({ refrigerant: gas, chargeKg: 20, gwp: 1, hermetic: false, detector: true }, localDate('2026-01-01')))).toEqual([12, 12, null]); // prettier-ignore
    // Before 2024 a sealed unit of such a gas needed none, however much of it.
    expect(leakCheckMonths({ refrigerant: 'R1234yf', chargeKg: 200, gwp: 4, hermetic: true, detector: false }, localDate('2020-01-01'))).toBeNull(); // prettier-ignore
  });
});

const additions = fc
  .array(fc.record({ day: fc.integer({ min: 0, max: 1200 }), kg: fc.integer({ min: 1, max: 400 }).map((g) => g / 100) }), {
    minLength: 1,
    maxLength: 9,
  }) // prettier-ignore
  .map((list) => list.map(({ day, kg }) => ({ on: at(day), kg })));

describe('leak rates, added up from their definitions', () => {
  it('annualizing stands on the days since the addition before, a year at most', () => {
    fc.assert(
      fc.property(additions, (list) => {
        const days = [...new Set(list.map((a) => a.on))].sort();
        const rates = annualizingRates(50, list);
        expect(rates.map((r) => r.on)).toEqual(days);
        rates.forEach((r, i) => {
          const before = days[i - 1];
          const stands = before === undefined ? 365 : Math.min(365, daysBetween(before, r.on));
          const added = list.filter((a) => a.on === r.on).reduce((sum, a) => sum + a.kg, 0);
          expect([r.method, r.days]).toEqual(['annualizing', stands]);
          expect(r.addedKg).toBeCloseTo(added, 9);
          expect(r.percent).toBeCloseTo(((added / 50) * 365 * 100) / stands, 6);
        });
      }),
    );
  });

  it('rolling takes a year of additions, or those since the last test that was passed', () => {
    fc.assert(
      fc.property(additions, fc.array(fc.integer({ min: 0, max: 1200 }), { maxLength: 4 }), (list, tests) => {
        const verified = tests.map(at);
        for (const r of rollingRates(50, list, verified)) {
          const from = [addDays(r.on, -365), ...verified.filter((d) => d <= r.on)].sort().at(-1) ?? r.on;
          const added = list.filter((a) => a.on > from && a.on <= r.on).reduce((sum, a) => sum + a.kg, 0);
          expect([r.method, r.days]).toEqual(['rolling', daysBetween(from, r.on)]);
          expect(r.addedKg).toBeCloseTo(added, 9);
          expect(r.percent).toBeCloseTo(2 * added, 6);
        }
      }),
    );
    // One of exactly a year ago is a year ago; one of a day less counts.
    const rate = (days: number) => rollingRates(10, [{ on: START, kg: 1 }, { on: at(days), kg: 2 }]).at(-1)?.percent; // prettier-ignore
    expect([rate(364), rate(365)]).toEqual([30, 20]);
    // A test of the very day of an addition came after it, as far as anybody knows: it starts anew.
    expect(rollingRates(10, [{ on: at(5), kg: 2 }], [at(5)])[0]).toMatchObject({ addedKg: 0, days: 0 });
  });

  it('refuse what is no charge and no addition', () => {
    for (const rates of [annualizingRates, rollingRates]) {
      for (const charge of [0, -1, NaN]) expect(() => rates(charge, [])).toThrow('The full charge is above zero.');
      for (const kg of [0, -1, NaN]) expect(() => rates(10, [{ on: START, kg }])).toThrow('An addition is above zero.');
      expect(rates(10, [])).toEqual([]);
    }
  });
});

describe('the clock of a repair, test by test', () => {
  const rates = annualizingRates(100, [{ on: START, kg: 90 }]);
  const clock = (tests: LeakTest[], today: LocalDate) =>
    repairClock(AIM, 'commercial_refrigeration', rates, tests, today) ?? expect.fail('something was added');
  const test = (day: number, kind: LeakTest['kind'], passed = true): LeakTest => ({ on: at(day), kind, passed });

  it('goes by the order of days, whatever the order of the list', () => {
    const tests = [test(5, 'initial'), test(9, 'follow_up', false), test(20, 'initial'), test(25, 'follow_up')];
    for (const list of [tests, [...tests].reverse(), [tests[2], tests[0], tests[3], tests[1]].flatMap((t) => t ?? [])])
      expect(clock(list, at(200))).toMatchObject({ state: 'verified', dueOn: null });
    expect(clock([...tests.slice(0, 3)].reverse(), at(21))).toMatchObject({ state: 'follow_up_due', dueOn: at(30) });
  });

  it('asks for an initial test before a follow-up counts, and for a new one after either was failed', () => {
    expect(clock([test(3, 'follow_up')], at(10))).toMatchObject({ state: 'repair_due', dueOn: at(30) });
    expect(clock([test(3, 'initial'), test(6, 'initial', false), test(9, 'follow_up')], at(10))).toMatchObject({ state: 'repair_due', dueOn: at(30) }); // prettier-ignore
    expect(clock([test(3, 'initial'), test(6, 'follow_up', false), test(9, 'follow_up')], at(10))).toMatchObject({ state: 'repair_due', dueOn: at(36) }); // prettier-ignore
    // The day of the addition counts, the day before does not.
    expect(clock([test(0, 'initial'), test(0, 'follow_up')], at(1)).state).toBe('verified');
    expect(clock([test(-1, 'initial'), test(0, 'follow_up')], at(1)).state).toBe('repair_due');
    expect([clock([], at(30)).state, clock([], at(31)).state]).toEqual(['repair_due', 'overdue']);
    expect([clock([test(3, 'initial')], at(13)).state, clock([test(3, 'initial')], at(14)).state]).toEqual(['follow_up_due', 'overdue']);
  });

  it('answers for the oldest that is open; a later one stands where the earlier was verified', () => {
    const two = annualizingRates(100, [{ on: START, kg: 90 }, { on: at(60), kg: 40 }]); // prettier-ignore
    const of = (tests: LeakTest[], today: LocalDate) => repairClock(AIM, 'commercial_refrigeration', two, tests, today);
    expect(of([], at(70))).toMatchObject({ state: 'overdue', rate: { on: START } });
    const first = [test(5, 'initial'), test(9, 'follow_up')];
    expect(of(first, at(70))).toMatchObject({ state: 'repair_due', rate: { on: at(60) }, dueOn: at(90) });
    expect(of([...first, test(65, 'initial'), test(70, 'follow_up')], at(99))).toMatchObject({ state: 'verified', rate: { on: at(60) }, thresholdPercent: 20 }); // prettier-ignore
  });

  it('of a year counts that year’s additions alone, from 125 % on', () => {
    const years = [{ on: localDate('2025-12-31'), kg: 50 }, { on: localDate('2026-01-01'), kg: 75 }, { on: localDate('2026-12-31'), kg: 50 }, { on: localDate('2027-01-01'), kg: 9 }]; // prettier-ignore
    expect([2025, 2026, 2027].map((y) => chronicPercent(AIM, 100, years, y))).toEqual([null, 125, null]);
    expect(chronicPercent(AIM, 100.1, years, 2026)).toBeNull();
  });
});

describe('what was added, day by day', () => {
  const weighing = fc.record({ day: fc.integer({ min: 0, max: 60 }), grams: fc.integer({ min: 10, max: 3000 }), way: fc.constantFrom('charged' as const, 'recovered' as const) }); // prettier-ignore
  const book = (list: readonly { day: number; grams: number; way: 'charged' | 'recovered' }[]) =>
    additionsOf(list.map((w) => ({ on: at(w.day), kg: signedKg(w.way, w.grams / 1000), way: w.way })), daysBetween); // prettier-ignore

  it('is never more than was charged, never less than what was charged beyond all that was recovered, and of no order', () => {
    fc.assert(
      fc.property(fc.array(weighing, { maxLength: 8 }), (list) => {
        const added = book(list);
        const sum = (way: string) => list.filter((w) => w.way === way).reduce((s, w) => s + w.grams / 1000, 0);
        const total = added.reduce((s, a) => s + a.kg, 0);
        expect(total).toBeLessThanOrEqual(sum('charged') + 1e-9);
        // What is within the scale's error of nothing may be left out, a day at a time.
        expect(total).toBeGreaterThanOrEqual(sum('charged') - sum('recovered') - 0.005 * list.length - 1e-9);
        expect(added.map((a) => a.on)).toEqual([...new Set(added.map((a) => a.on))].sort());
        for (const a of added) expect(a.kg).toBeGreaterThan(0.005);
        const byDay = (x: typeof added) => x.map((a) => [a.on, Number(a.kg.toFixed(6))]);
        expect(byDay(book([...list].reverse()))).toEqual(byDay(added));
      }),
    );
  });

  it('gives back what was recovered once, the earliest first', () => {
    const two = [{ day: 0, grams: 1000, way: 'recovered' }, { day: 3, grams: 500, way: 'recovered' }] as const; // prettier-ignore
    expect(book([...two, { day: 4, grams: 1200, way: 'charged' }, { day: 5, grams: 1000, way: 'charged' }])).toEqual([{ on: at(5), kg: expect.closeTo(0.7, 9) }]); // prettier-ignore
    // Fifteen days later only the second one is still kept.
    expect(book([...two, { day: 15, grams: 1200, way: 'charged' }])).toEqual([{ on: at(15), kg: expect.closeTo(0.7, 9) }]);
    expect(book([{ day: 5, grams: 100, way: 'recovered' }])).toEqual([]);
  });
});

describe('a certificate', () => {
  const of = (id: string, kind: CertificateOnFile['kind'], expiresOn: string | null): CertificateOnFile => ({ id, kind, number: id, expiresOn: expiresOn === null ? null : localDate(expiresOn) }); // prettier-ignore
  const unit = { chargeKg: 10, circuitAccess: 'ports' } as const;
  it('that never runs out goes before one that does, and one that reaches before one that runs longer', () => {
    const [short, long, ever, small] = [of('a', 'other', '2026-06-01'), of('b', 'other', '2027-06-01'), of('c', 'other', null), of('d', 'us_608_type_1', null)]; // prettier-ignore
    const under = (all: CertificateOnFile[], on = '2026-01-01') => {
      const c = certifiedFor(all, unit, localDate(on));
      return c.holds ? c.certificate.id : `${c.why} ${c.latest?.id ?? ''}`;
    };
    expect([under([short, long]), under([long, short]), under([short, ever, long]), under([small, short])]).toEqual(['b', 'b', 'c', 'a']);
    expect(under([small, short], '2026-07-01')).toBe('another_unit d');
    expect(under([short, long], '2028-01-01')).toBe('expired b');
    expect(under([])).toBe('none ');
  });
  it('of small appliances ends at five pounds (40 CFR 82.152)', () => {
    const may = (chargeKg: number) => certifiedFor([of('d', 'us_608_type_1', null)], { chargeKg, circuitAccess: 'sealed' }, START).holds;
    expect([may(5 * POUND_KG), may(5 * POUND_KG + 1e-6)]).toEqual([true, false]);
  });
});

describe('cylinders and years', () => {
  it('balance: first filling, what went in and out, against the scale, as surely as so many weighings tell', () => {
    const cylinder = { tareKg: 4, firstKg: 6, mostKg: 20 };
    const used = [1, -0.4, 2.25].map((kg, i) => ({ on: at(i), kg, way: 'moved' as const }));
    const b = cylinderBalance(cylinder, used, 12.85, 0.01);
    expect(b.bookKg).toBeCloseTo(8.85, 9);
    expect(b.scaleKg).toBeCloseTo(8.85, 9);
    expect(b.sdKg).toBeCloseTo(0.01 * Math.sqrt(8), 12);
    expect(b.verdict).toBe('agrees');
    // Too full by either of the two, then below nothing, then what the scale says.
    expect(cylinderBalance({ ...cylinder, mostKg: 8 }, used, null).verdict).toBe('overfilled');
    expect(cylinderBalance({ ...cylinder, mostKg: 9 }, used, 14).verdict).toBe('overfilled');
    expect(cylinderBalance({ ...cylinder, firstKg: 0 }, [{ on: START, kg: -1, way: 'charged' }], 4).verdict).toBe('below_nothing');
    expect(CYLINDER_CONTENTS.map((c) => CONTENTS_LABEL[c])).toEqual(['New', 'Recovered']);
  });

  it('of a year are the sums of their ways, whatever the order; what came in went somewhere or is still there', () => {
    const line = fc.record({ gas: fc.constantFrom('R22', 'R290', 'R404A'), kg: fc.integer({ min: -500, max: 500 }).map((x) => x / 100), way: fc.constantFrom(...CYLINDER_WAYS) }); // prettier-ignore
    const KEYS = { bought: 'bought', charged: 'charged', recovered: 'recovered', toReclaim: 'to_reclaim', toDestruction: 'to_destruction' } as const; // prettier-ignore
    fc.assert(
      fc.property(fc.array(line, { maxLength: 12 }), (lines) => {
        const years = yearTotals(lines, (gas) => (gas === 'R22' ? null : 1000));
        expect(years.map((y) => y.gas)).toEqual(years.map((y) => y.gas).toSorted());
        const moved = (gas: string, way: CylinderWay) => lines.filter((l) => l.gas === gas && l.way === way).reduce((s, l) => s + Math.abs(l.kg), 0); // prettier-ignore
        for (const y of years) {
          for (const [key, way] of Object.entries(KEYS)) expect(y[key as keyof typeof KEYS]).toBeCloseTo(moved(y.gas, way), 9);
          expect(y.netIntoUnits).toBeCloseTo(y.charged - y.recovered, 9);
          if (y.gas === 'R22') expect(y.co2Tonnes).toBeNull();
          else expect(y.co2Tonnes).toBeCloseTo(y.netIntoUnits, 9);
        }
        const went = new Set(lines.filter((l) => l.kg !== 0 && l.way !== 'moved' && l.way !== 'scale_check').map((l) => l.gas));
        expect(new Set(years.map((y) => y.gas))).toEqual(went);
      }),
    );
  });
});
