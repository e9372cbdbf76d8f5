import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  CalendarError,
  daysBetween,
  dueBetween,
  localDate,
  nextDue,
  weekdayOf,
  weeksRule,
  type Plan,
  type Weekday,
} from '@/lib/core/calendar';

const d = localDate;
const contract: Plan = {
  rule: 'FREQ=MONTHLY;INTERVAL=3;BYMONTHDAY=15',
  anchor: 'calendar',
  anchorDate: d('2026-01-15'),
};

describe('next due date', () => {
  it('of a calendar rule stays where the contract put it', () => {
    expect(nextDue(contract)).toBe('2026-01-15');
    expect(nextDue({ ...contract, lastDoneOn: d('2026-01-20') })).toBe('2026-04-15');
    expect(nextDue({ ...contract, lastDoneOn: d('2026-01-20'), after: d('2026-04-15') })).toBe('2026-07-15');
  });

  it('counts an early visit for the occurrence it was early for', () => {
    expect(nextDue({ ...contract, lastDoneOn: d('2026-04-10') })).toBe('2026-07-15');
    expect(nextDue({ ...contract, lastDoneOn: d('2026-02-20') })).toBe('2026-04-15');
  });

  it('counts from the completed visit, on the last preferred weekday within the interval', () => {
    const plan: Plan = {
      rule: weeksRule(6, 1),
      anchor: 'last_completed',
      anchorDate: d('2025-01-07'),
      lastDoneOn: d('2026-01-08'),
    };
    expect(nextDue(plan)).toBe('2026-02-17');
    expect(nextDue({ ...plan, rule: weeksRule(6) })).toBe('2026-02-19');
    expect(nextDue({ ...plan, rule: 'FREQ=MONTHLY' })).toBe('2026-02-08');
  });

  it('is never later than the interval asks, nor a week earlier', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 52 }),
        fc.integer({ min: 0, max: 6 }),
        fc.integer({ min: 0, max: 3000 }),
        (weeks, weekday, offset) => {
          const lastDoneOn = addDays(d('2024-01-01'), offset);
          const due = nextDue({
            rule: weeksRule(weeks, weekday as Weekday),
            anchor: 'last_completed',
            anchorDate: lastDoneOn,
            lastDoneOn,
          });
          expect(due).not.toBeNull();
          const gap = daysBetween(lastDoneOn, due as ReturnType<typeof d>);
          expect(gap).toBeLessThanOrEqual(7 * weeks);
          expect(gap).toBeGreaterThan(7 * weeks - 7);
          expect(weekdayOf(due as ReturnType<typeof d>)).toBe(weekday);
        },
      ),
    );
  });

  it('may lie in the past, and ends with its rule', () => {
    expect(
      nextDue({
        rule: 'FREQ=WEEKLY',
        anchor: 'last_completed',
        anchorDate: d('2020-01-01'),
        lastDoneOn: d('2020-01-01'),
      }),
    ).toBe('2020-01-08');
    expect(
      nextDue({
        rule: 'FREQ=WEEKLY;UNTIL=20200201',
        anchor: 'calendar',
        anchorDate: d('2020-01-01'),
        after: d('2020-02-01'),
      }),
    ).toBeNull();
    expect(nextDue({ rule: 'FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30', anchor: 'calendar', anchorDate: d('2020-01-01') })).toBeNull();
    expect(
      nextDue({
        rule: 'FREQ=YEARLY;INTERVAL=4',
        anchor: 'calendar',
        anchorDate: d('2024-02-29'),
        after: d('2024-03-01'),
      }),
    ).toBe('2028-02-29');
  });

  it('refuses rules by the hour', () => {
    expect(() => nextDue({ rule: 'FREQ=HOURLY', anchor: 'calendar', anchorDate: d('2026-01-01') })).toThrow(/by the hour/);
  });
});

describe('any rule at all', () => {
  const part = (name: string, low: number, high: number) =>
    fc
      .uniqueArray(
        fc.integer({ min: low, max: high }).filter((n) => n !== 0),
        { minLength: 1, maxLength: 3 },
      )
      .map((n) => `;${name}=${n.join(',')}`);
  const often = fc.constantFrom(1, 2, 5, 7, 13, 97, 1000, 99_999, 999_999);
  const anyRule = fc
    .tuple(
      fc.constantFrom('DAILY', 'WEEKLY', 'MONTHLY', 'YEARLY'),
      often.map((n) => `;INTERVAL=${n}`),
      fc.subarray(
        [
          part('BYMONTH', 1, 12),
          part('BYMONTHDAY', -31, 31),
          part('BYYEARDAY', -366, 366),
          part('BYWEEKNO', -53, 53),
          part('BYSETPOS', -366, 366),
          fc.uniqueArray(fc.constantFrom('MO', 'TU', 'SU'), { minLength: 1 }).map((w) => `;BYDAY=${w.join(',')}`),
          fc.constantFrom(1, 9, 999_999).map((n) => `;COUNT=${n}`),
        ],
        { maxLength: 5 },
      ),
    )
    .chain(([freq, interval, parts]) => fc.tuple(...parts).map((p) => `FREQ=${freq}${interval}${p.join('')}`));

  /** Milliseconds of the quickest of three tries, so that a busy machine does not count. */
  function fastest(work: () => void): number {
    let best = Infinity;
    for (let i = 0; i < 3 && best > 100; i++) {
      const from = performance.now();
      work();
      best = Math.min(best, performance.now() - from);
    }
    return best;
  }

  const LIMIT_MS = 100;
  const plan = (rule: string, anchorDate = d('2026-01-05')): Plan => ({ rule, anchor: 'calendar', anchorDate });

  it.each([
    ['FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30', null],
    // From a Monday every seventh day is a Monday: never a Tuesday.
    ['FREQ=DAILY;INTERVAL=7;BYDAY=TU', null],
    ['FREQ=YEARLY;BYWEEKNO=53;BYYEARDAY=100', null],
    ['FREQ=MONTHLY;BYSETPOS=9;BYMONTHDAY=1,2', null],
    ['FREQ=YEARLY;INTERVAL=7;BYMONTH=2;BYMONTHDAY=29', '2040-02-29'],
  ])('%s is answered at once', (rule, due) => {
    expect(fastest(() => nextDue(plan(rule)))).toBeLessThan(LIMIT_MS);
    expect(nextDue(plan(rule))).toBe(due);
  });

  it('is not read when it is longer than any rule needs', () => {
    expect(() => nextDue(plan(`FREQ=MONTHLY;BYDAY=${'1MO,'.repeat(50_000)}1MO`))).toThrow(/more than 1000 characters/);
  });

  it('is answered at once, with a date or with words', () => {
    let dates = 0;
    fc.assert(
      fc.property(anyRule, fc.integer({ min: -70_000, max: 70_000 }), (rule, offset) => {
        const work = () => {
          try {
            dates += nextDue(plan(rule, addDays(d('2026-01-05'), offset))) === null ? 0 : 1;
          } catch (e) {
            expect(e).toBeInstanceOf(CalendarError);
          }
        };
        expect(fastest(work), rule).toBeLessThan(LIMIT_MS);
      }),
      { numRuns: 1000 },
    );
    expect(dates).toBeGreaterThan(100);
  });
});

describe('due dates in a range', () => {
  it('take the start and leave the end', () => {
    const weekly: Plan = { rule: 'FREQ=WEEKLY', anchor: 'calendar', anchorDate: d('2026-01-05') };
    expect(dueBetween(weekly, d('2026-01-12'), d('2026-01-26'))).toEqual(['2026-01-12', '2026-01-19']);
    expect(dueBetween(weekly, d('2026-01-12'), d('2026-01-12'))).toEqual([]);
    expect(() => dueBetween(weekly, d('2026-01-26'), d('2026-01-12'))).toThrow(/ends .* before it starts/);
  });

  it('join up: a range cut in two gives the same dates', () => {
    const rule = fc.constantFrom(
      'FREQ=WEEKLY;INTERVAL=3;BYDAY=MO,TH',
      'FREQ=MONTHLY;BYMONTHDAY=31',
      'FREQ=MONTHLY;BYDAY=1TU,-1TU',
      'FREQ=DAILY;INTERVAL=9',
      'FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO',
      'FREQ=WEEKLY;INTERVAL=5;COUNT=7',
    );
    fc.assert(
      fc.property(
        rule,
        fc.integer({ min: 0, max: 800 }),
        fc.integer({ min: 0, max: 400 }),
        fc.integer({ min: 0, max: 400 }),
        (text, a, b, c) => {
          const plan: Plan = { rule: text, anchor: 'calendar', anchorDate: d('2025-03-03') };
          const [x, y, z] = [addDays(d('2025-01-01'), a), addDays(d('2025-01-01'), a + b), addDays(d('2025-01-01'), a + b + c)];
          expect([...dueBetween(plan, x, y), ...dueBetween(plan, y, z)]).toEqual(dueBetween(plan, x, z));
        },
      ),
      { numRuns: 60 },
    );
  });
});
