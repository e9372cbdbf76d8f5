import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, localDate, type LocalDate } from '@/lib/core/calendar';
import { afterCleaning, DEFAULT_HYPER, posterior } from '@/lib/core/fouling';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { cycles, WEEKS } from '@/lib/core/intervals/cycle';
import { deviateFor, ENOUGH, judgeDates, judged, judgeGrades, judgeMatted, judgeReadings, type JudgedCounts } from '@/lib/core/owner/judged'; // prettier-ignore
import { overdueTable, type OverdueGroup } from '@/lib/core/owner/overdue';
import { periodOf } from '@/lib/core/owner/period';
import { replay, type ReplayCoil } from '@/lib/core/owner/replay';
import { places } from '@/lib/core/owner/ties';
import { weeklyLetter, type WeekFacts } from '@/lib/core/owner/weekly';

const START = localDate('2025-01-06');
const at = (weeks: readonly number[]) => weeks.map((w) => addDays(START, 7 * w));
const POLICY = { ...DEFAULT_POLICY, failureCost: 1900, comebackCost: 270, cleaningCost: 95, failureChancePerDay: 0.02 };
const coil = (cleanings: readonly LocalDate[], over: Partial<ReplayCoil> = {}): ReplayCoil => ({
  posterior: posterior({ startedOn: START, startedClean: true, events: [] }, { placement: 'fryer', kitchenId: 'k' }, DEFAULT_HYPER),
  cleanings,
  costs: POLICY,
  failureLimit: POLICY.failureLimit,
  packed: DEFAULT_HYPER.grades.thresholds[3],
  calendarWeeks: 10,
  minutes: 30,
  ...over,
});
const done = (r: ReturnType<typeof replay>) => r ?? expect.fail('something to go through');

/** Each hypothesis by itself: what it expects of one cycle of so many weeks. From the tables of a cycle, by the words of the room. */
function hypotheses(c: ReplayCoil) {
  const all = cycles(afterCleaning(c.posterior), c.costs, { name: 'none', lnK: -1e6 }, c.failureLimit, c.packed);
  const sum = all.reduce((n, one) => n + one.weight, 0);
  // Chance of a normal above a limit, by its series (Abramowitz & Stegun 26.2.11).
  const above = (z: number) => {
    if (Math.abs(z) > 7) return z > 0 ? 1 : 0;
    let [term, total] = [z, z];
    for (let n = 1; n < 200; n++) total += term *= (z * z) / (2 * n + 1);
    return 0.5 + (total * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
  };
  return all.map((one) => ({
    share: one.weight / sum,
    of: (weeks: number) => {
      const k = WEEKS.indexOf(weeks);
      const [failure = NaN, mean = NaN, variance = NaN, spent = NaN] = [one.failure[k], one.mean[k], one.variance[k], one.spent[k]];
      const packed = variance > 1e-12 ? above((mean - c.packed) / Math.sqrt(variance)) : mean >= c.packed ? 1 : 0;
      // A breakdown is met by a call-out that cleans as well: neither a coil found packed nor a cleaning of its own.
      return { breakdowns: failure, comebacks: (1 - failure) * packed, money: spent + c.costs.cleaningCost * (1 - failure) };
    },
  }));
}

describe('a year gone through again, added up hypothesis by hypothesis', () => {
  const KEYS = ['breakdowns', 'comebacks', 'money'] as const;
  it.each([
    ['often', [0, 4, 9, 13, 20], {}],
    ['seldom', [0, 26, 60], {}],
    ['at another calendar', [0, 8, 16, 30], { calendarWeeks: 6 }],
    ['where it is packed early', [0, 4, 12], { packed: 0.05 }],
  ] as const)('is the sum over its cleanings, %s', (_, weeks, over) => {
    const c = coil(at(weeks), over);
    const r = done(replay([c]));
    const gaps = weeks.slice(1).map((w, i) => w - (weeks[i] ?? 0));
    const total = weeks.at(-1) ?? 0;
    const times = total / c.calendarWeeks;
    const all = hypotheses(c);
    const own = all.map((h) => gaps.map((g) => h.of(g)));
    const kept = all.map((h) => h.of(c.calendarWeeks));
    for (const key of KEYS) {
      const plans = own.map((one) => one.reduce((sum, e) => sum + e[key], 0));
      const calendars = kept.map((e) => times * e[key]);
      const mean = (xs: readonly number[]) => xs.reduce((sum, x, i) => sum + x * (all[i]?.share ?? NaN), 0);
      expect(r.plan[key] / mean(plans)).toBeCloseTo(1, 5);
      expect(r.calendar[key] / mean(calendars)).toBeCloseTo(1, 5);
      // How far hypotheses differ about the difference, in two passes; and luck: a breakdown or a packed coil comes or does not.
      const apart = plans.map((p, i) => (calendars[i] ?? NaN) - p);
      const differ = mean(apart.map((d) => (d - mean(apart)) ** 2));
      const luck = (k: 'breakdowns' | 'comebacks') => r.plan[k] + r.calendar[k];
      const chance = key === 'money' ? 1900 ** 2 * luck('breakdowns') + 270 ** 2 * luck('comebacks') : luck(key);
      const { value, lo, hi } = r.spared[key];
      expect(value).toBeCloseTo(mean(apart), key === 'money' ? 2 : 5);
      expect((hi - lo) / 2 / (1.2816 * Math.sqrt(differ + chance))).toBeCloseTo(1, 3);
      expect((hi + lo) / 2).toBeCloseTo(value, 6);
    }
    expect(r).toMatchObject({ coils: 1, days: 7 * total });
    expect(r.plan).toMatchObject({ cleanings: gaps.length, hours: gaps.length / 2 });
    expect(r.calendar.cleanings).toBeCloseTo(times, 9);
  });

  it('takes the interval nearest to the days that lay between, and passes over two cleanings of one day', () => {
    const near = done(replay([coil([START, addDays(START, 29)])]));
    const exact = done(replay([coil(at([0, 4]))]));
    expect(near.plan.breakdowns).toBe(exact.plan.breakdowns);
    expect([near.days, exact.days]).toEqual([29, 28]);
    const twice = done(replay([coil([START, START, addDays(START, 28)])]));
    expect([twice.days, twice.plan.cleanings, twice.plan.breakdowns]).toEqual([28, 1, exact.plan.breakdowns]);
    // Longer than the longest that is looked at counts as that.
    const [six, ten] = [312, 520].map((w) => done(replay([coil(at([0, w]))])));
    expect(ten?.plan.breakdowns).toBe(six?.plan.breakdowns);
    expect(replay([coil([START, START])])).toBeNull();
  });

  it('adds coils up, each with its own minutes and calendar, and leaves out those without two cleanings', () => {
    const [a, b, c] = [coil(at([0, 4, 9]), { minutes: 20 }), coil(at([0, 12]), { minutes: 90, calendarWeeks: 4 }), coil(at([0]))];
    const [r, ra, rb] = [[a, b, c], [a], [b]].map((coils) => done(replay(coils)));
    if (!r || !ra || !rb) throw new Error('three');
    expect(r.coils).toBe(2);
    expect(r.days).toBe(7 * 21);
    for (const side of ['plan', 'calendar'] as const)
      for (const key of ['cleanings', 'hours', ...KEYS] as const) expect(r[side][key]).toBeCloseTo(ra[side][key] + rb[side][key], 6);
    expect(r.plan.hours).toBeCloseTo((2 * 20 + 90) / 60, 9);
    expect(rb.calendar.hours).toBeCloseTo(3 * 1.5, 9);
    expect(r.spared.hours).toBeCloseTo(r.calendar.hours - r.plan.hours, 9);
    const wide = (x: typeof r, key: (typeof KEYS)[number]) => ((x.spared[key].hi - x.spared[key].lo) / 2) ** 2;
    for (const key of KEYS) expect(wide(r, key) / (wide(ra, key) + wide(rb, key))).toBeCloseTo(1, 9);
  });
});

const counts = (over: Partial<JudgedCounts> = {}): JudgedCounts => ({ graded: 100, gradeHits: 80, gradeExpected: 80, matted: 10, mattedExpected: 10, mattedVariance: 9, tooEarly: 0, tooLate: 0, read: 100, readHits: 80, ...over }); // prettier-ignore

describe('what was promised and what came', () => {
  it('is held to the share that was promised for just these looks', () => {
    expect(judgeGrades(counts())).toMatchObject({ n: 100, expected: 0.8, verdict: 'holds', share: { value: 0.8 } });
    expect(judgeGrades(counts({ gradeExpected: 95 }))).toMatchObject({ expected: 0.95, verdict: 'too_sure' });
    expect(judgeGrades(counts({ gradeExpected: 60 }))).toMatchObject({ expected: 0.6, verdict: 'too_wary' });
    expect(judgeGrades(counts({ graded: 0, gradeHits: 0, gradeExpected: 0 }))).toEqual({ n: 0, share: null, expected: 0.8, verdict: 'not_enough' }); // prettier-ignore
    expect(judgeReadings(counts())).toMatchObject({ n: 100, expected: 0.8, verdict: 'holds', share: { value: 0.8 } });
    expect(judgeReadings(counts({ readHits: 60 })).verdict).toBe('too_sure');
    expect(judgeReadings(counts({ readHits: 97 })).verdict).toBe('too_wary');
    expect(judgeReadings(counts({ read: 0, readHits: 0 })).verdict).toBe('not_enough');
    // Grades and readings are counted apart.
    expect([judgeGrades(counts({ read: 5, readHits: 0 })).verdict, judgeReadings(counts({ graded: 5, gradeHits: 0 })).verdict]).toEqual(['holds', 'holds']); // prettier-ignore
  });

  it('of dates counts both kinds of miss', () => {
    expect(judgeDates(counts({ tooEarly: 15, tooLate: 20 }))).toMatchObject({ n: 100, share: { value: 0.65 }, verdict: 'too_sure', expected: 0.8 }); // prettier-ignore
    expect(judgeDates(counts({ tooEarly: 35 })).verdict).toBe('too_sure');
    expect(judgeDates(counts({ tooEarly: 10, tooLate: 10 }))).toMatchObject({ share: { value: 0.8 }, verdict: 'holds' });
    expect(judgeDates(counts({ graded: 19, tooLate: 19 })).verdict).toBe('not_enough');
  });

  it('is judged more carefully where several groups are looked at together', () => {
    for (const [judge, miss] of [[judgeGrades, { gradeHits: 71 }], [judgeReadings, { readHits: 71 }], [judgeDates, { tooLate: 29 }]] as const) {
      expect([judge(counts(miss)).verdict, judge(counts(miss), 20).verdict]).toEqual(['too_sure', 'holds']);
      expect(judge(counts(miss), 0)).toEqual(judge(counts(miss), 1));
    } // prettier-ignore
    expect([judgeMatted(counts({ matted: 17 })).verdict, judgeMatted(counts({ matted: 17 }), 20).verdict]).toEqual(['more', 'holds']);
    for (const groups of [1, 3, 12, 60]) expect(deviateFor(groups + 1)).toBeGreaterThan(deviateFor(groups));
    // Two-sided 5 % shared by five: 2.5758 (a table of the normal distribution).
    expect(deviateFor(5)).toBeCloseTo(2.5758, 3);
  });

  it('has a band that holds the share, and a verdict that goes by the band alone', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 300 }), fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0.05, max: 0.95, noNaN: true }), (n, part, expected) => {
        const hits = Math.round(part * n);
        const j = judged(hits, n, expected);
        if (j.share) {
          expect(j.share.value).toBeCloseTo(hits / n, 12);
          expect(j.share.lo - 1e-12 <= j.share.value && j.share.value <= j.share.hi + 1e-12).toBe(true);
        } else expect(n).toBe(0);
        const says = n < ENOUGH || !j.share ? 'not_enough' : j.share.hi < expected ? 'too_sure' : j.share.lo > expected ? 'too_wary' : 'holds';
        expect(j.verdict).toBe(says);
      }),
    ); // prettier-ignore
  });

  it('says how many deviations the number of matted coils is off, and on which side', () => {
    expect(judgeMatted(counts({ matted: 16 }))).toEqual({ off: 2, verdict: 'more' });
    expect(judgeMatted(counts({ matted: 4 }))).toEqual({ off: -2, verdict: 'fewer' });
    expect(judgeMatted(counts({ matted: 13 }))).toEqual({ off: 1, verdict: 'holds' });
    expect(judgeMatted(counts({ matted: 30, mattedVariance: 100 }))).toEqual({ off: 2, verdict: 'more' });
    for (const over of [{ graded: 19 }, { mattedVariance: 0 }, { mattedVariance: NaN }]) expect(judgeMatted(counts({ matted: 90, ...over }))).toEqual({ off: 0, verdict: 'not_enough' }); // prettier-ignore
    expect(judgeMatted(counts({ graded: 20, matted: 16 })).verdict).toBe('more');
  });
});

describe('a period', () => {
  const day = fc.integer({ min: 0, max: 3000 }).map((n) => addDays(localDate('2024-01-01'), n));
  it('of the last days has as many as asked, today the last of them, at the first of a month too', () => {
    expect(periodOf({}, localDate('2026-03-01'), 1)).toEqual({ from: '2026-03-01', to: '2026-03-02' });
    expect(periodOf({}, localDate('2026-03-01'), 30)).toEqual({ from: '2026-01-31', to: '2026-03-02' });
    expect(periodOf({ from: '2026-02-20' }, localDate('2026-03-01'), 30)).toEqual({ from: '2026-02-20', to: '2026-03-02' });
    fc.assert(
      fc.property(day, fc.integer({ min: 1, max: 400 }), (today, days) => {
        const { from, to } = periodOf({}, today, days);
        expect([daysBetween(from, to), addDays(to, -1)]).toEqual([days, today]);
      }),
    );
  });
  it('is the same whichever of its ends is written first', () => {
    fc.assert(
      fc.property(day, day, (a, b) => {
        const period = periodOf({ from: a, until: b }, START, 9);
        expect(period).toEqual(periodOf({ from: b, until: a }, START, 9));
        const [first, last] = a <= b ? [a, b] : [b, a];
        expect(period).toEqual({ from: first, to: addDays(last, 1) });
      }),
    );
  });
});

describe('places of a ranking', () => {
  it('are as by comparing every pair: sure where means are farther apart than nine in ten by both spreads together', () => {
    const belief = fc.record({ rate: fc.double({ min: 0, max: 5, noNaN: true }), sd: fc.double({ min: 0.01, max: 1, noNaN: true }) });
    fc.assert(
      fc.property(fc.array(belief, { minLength: 1, maxLength: 12 }), (all) => {
        const found = places(all.slice(0, 3), all);
        all.slice(0, 3).forEach((own, i) => {
          const sure = (o: typeof own) => Math.abs(o.rate - own.rate) > 1.2815515655446004 * Math.hypot(o.sd, own.sd);
          // Too near to the edge to say which side of it rounding falls.
          if (all.some((o) => Math.abs(Math.abs(o.rate - own.rate) - 1.28155 * Math.hypot(o.sd, own.sd)) < 1e-3)) return;
          const [above, below] = [all.filter((o) => sure(o) && o.rate > own.rate).length, all.filter((o) => sure(o) && o.rate < own.rate).length]; // prettier-ignore
          expect(found[i]).toEqual({ best: above + 1, worst: all.length - below });
        });
      }),
    );
    expect(places([], [{ rate: 1, sd: 1 }])).toEqual([]);
  });
});

describe('why overdue work waits', () => {
  const group: OverdueGroup = { age: 'week', tasks: 1, refrigerant: 'R134a', roofWork: false, hours: [{ weekday: 1, from: '08:00', to: '12:00' }], booked: false, otherTime: false, nobodyThere: false }; // prettier-ignore
  it('is none of it double: every task stands under one reason and one age', () => {
    const flag = fc.boolean();
    const any = fc.record({ age: fc.constantFrom('week' as const, 'month' as const, 'quarter' as const, 'older' as const), tasks: fc.integer({ min: 1, max: 9 }), refrigerant: fc.constantFrom('R134a', 'R290'), roofWork: flag, booked: flag, otherTime: flag, nobodyThere: flag }).map((g) => ({ ...group, ...g })); // prettier-ignore
    fc.assert(
      fc.property(fc.array(any, { maxLength: 12 }), (groups) => {
        const table = overdueTable(groups, [{ skills: ['roof'], shifts: [{ weekday: 1, from: '07:00', to: '09:00' }] }]);
        const sum = (xs: readonly number[]) => xs.reduce((a, b) => a + b, 0);
        expect(sum(table.map((r) => r.total))).toBe(sum(groups.map((g) => g.tasks)));
        for (const r of table) expect(sum(Object.values(r.by))).toBe(r.total);
        for (const age of ['week', 'month', 'quarter', 'older'] as const) expect(sum(table.map((r) => r.by[age]))).toBe(sum(groups.filter((g) => g.age === age).map((g) => g.tasks))); // prettier-ignore
        // In one order, and no reason twice.
        expect(new Set(table.map((r) => r.reason)).size).toBe(table.length);
      }),
    );
  });
});

describe('the letter of Monday', () => {
  const quiet: WeekFacts = {
    shop: 'Lark Point', name: 'Ruth', monday: localDate('2026-11-30'), baseUrl: 'https://shop.example', last: { planned: 0, done: 0, hours: 0 }, next: { planned: 0 },
    overdue: { tasks: 0, toBook: 0, pastLimit: 0, limitDays: 14 }, callsLastWeek: 0, failing: 0, changes: { groups: 0, odd: 0, all: 0 }, quotes: [], distrust: [],
  }; // prettier-ignore
  const lines = (over: Partial<WeekFacts>) => weeklyLetter({ ...quiet, ...over }).text.split('\n');

  it('of a week in which nothing was is short, and whole', () => {
    expect(lines({})).toEqual([
      'Ruth,',
      '',
      'Last week: no visit was planned.',
      'This week: 0 visits booked.',
      'https://shop.example/owner/shop',
      '',
      'Nothing is overdue.',
      '',
      'Nothing waits for your word.',
      '',
      'Lark Point',
      'You get this on Mondays. An owner turns it off under Shop: https://shop.example/shop',
    ]);
  });

  it('asks for what there is to decide alone, and opens the page where it is decided', () => {
    const decide = (over: Partial<WeekFacts>) => {
      const all = lines(over);
      const i = all.findIndex((l) => l.startsWith('To decide'));
      return all.slice(i, i + 2);
    };
    expect(decide({ failing: 1 })).toEqual(['To decide: 1 failing unit.', 'https://shop.example/owner']);
    expect(decide({ changes: { groups: 0, odd: 2, all: 2 } })).toEqual(['To decide: 2 changes of rules to look at one by one.', 'https://shop.example/rules']); // prettier-ignore
    expect(decide({ changes: { groups: 1, odd: 0, all: 1 } })).toEqual(['To decide: 1 usual change in 1 group.', 'https://shop.example/rules']); // prettier-ignore
    expect(decide({ failing: 2, changes: { groups: 1, odd: 0, all: 3 } })).toEqual(['To decide: 2 failing units; 3 usual changes in 1 group.', 'https://shop.example/owner']); // prettier-ignore
  });

  it('tells one of a thing as one, and each currency by itself', () => {
    const text = lines({ last: { planned: 1, done: 1, hours: 0.6 }, next: { planned: 1 }, callsLastWeek: 3, overdue: { tasks: 1, toBook: 0, pastLimit: 0, limitDays: 7 }, quotes: [{ currency: 'USD', waiting: 1, waitingCents: 5000 }, { currency: 'EUR', waiting: 2, waitingCents: 700 }], distrust: ['One.', 'Two.'] }); // prettier-ignore
    expect(text).toEqual(
      expect.arrayContaining(['Last week: 1 of 1 visit done, 1 h in kitchens. Kitchens rang 3 times.', 'This week: 1 visit booked.', 'Overdue: 1 task, 0 not booked yet, 0 more than 7 days over.', 'In quotes that wait: $50.00 in 1 quote.']),
    ); // prettier-ignore
    expect(text.filter((l) => l.startsWith('In quotes'))).toHaveLength(2);
    expect(text.slice(-7, -2)).toEqual(['', 'One.', 'Two.', 'https://shop.example/owner/right', '']);
  });
});
