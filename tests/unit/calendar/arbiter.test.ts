import { getWeek } from 'date-fns';
import fc from 'fast-check';
import rrule from 'rrule';
import { describe, expect, it } from 'vitest';
import { addDays, dueBetween, localDate, parseRule, toDay, WEEKDAY_CODES } from '@/lib/core/calendar';
import { dayToCivil } from '@/lib/core/calendar/local-date';
import { expandDays } from '@/lib/core/calendar/expand';

const DAY = 86_400_000;
const START = localDate('2024-01-01');

/** The rrule package, asked directly: the arbiter of our own expansion. */
function arbiter(text: string, anchor: number, start: number, end: number): number[] {
  if (end <= start) return [];
  const rule = new rrule.RRule({ ...rrule.RRule.parseString(text), dtstart: new Date(anchor * DAY) });
  return rule.between(new Date(start * DAY), new Date(end * DAY - 1), true).map((d) => d.getTime() / DAY);
}

const weekdays = fc.uniqueArray(fc.constantFrom(...WEEKDAY_CODES), { minLength: 1, maxLength: 4 });
const interval = fc.integer({ min: 1, max: 14 });
const tail = fc.oneof(
  fc.constant(''),
  fc.integer({ min: 1, max: 12 }).map((n) => `;COUNT=${n}`),
);
const monthDays = fc.uniqueArray(fc.oneof(fc.integer({ min: 1, max: 31 }), fc.integer({ min: -31, max: -1 })), {
  minLength: 1,
  maxLength: 3,
});
// A rule that never falls would keep the package searching to the year 9999.
const commonDays = fc.uniqueArray(fc.integer({ min: 1, max: 28 }), { minLength: 1, maxLength: 3 });
const nth = fc.tuple(fc.constantFrom(1, 2, 3, 4, 5, -1, -2), fc.constantFrom(...WEEKDAY_CODES)).map(([n, w]) => `${n}${w}`);
const rules = fc.oneof(
  fc.tuple(interval, tail).map(([i, t]) => `FREQ=DAILY;INTERVAL=${i}${t}`),
  fc.tuple(interval, tail).map(([i, t]) => `FREQ=WEEKLY;INTERVAL=${i}${t}`),
  fc
    .tuple(interval, weekdays, fc.constantFrom('MO', 'SU'), tail)
    .map(([i, w, k, t]) => `FREQ=WEEKLY;INTERVAL=${i};BYDAY=${w.join(',')};WKST=${k}${t}`),
  fc.tuple(interval, tail).map(([i, t]) => `FREQ=MONTHLY;INTERVAL=${i}${t}`),
  fc.tuple(interval, monthDays, tail).map(([i, m, t]) => `FREQ=MONTHLY;INTERVAL=${i};BYMONTHDAY=${m.join(',')}${t}`),
  fc
    .tuple(interval, fc.uniqueArray(nth, { minLength: 1, maxLength: 2 }), tail)
    .map(([i, n, t]) => `FREQ=MONTHLY;INTERVAL=${i};BYDAY=${n.join(',')}${t}`),
  fc.tuple(weekdays, fc.constantFrom(1, 2, -1), tail).map(([w, p, t]) => `FREQ=MONTHLY;BYDAY=${w.join(',')};BYSETPOS=${p}${t}`),
  fc
    .tuple(fc.constantFrom(...WEEKDAY_CODES), fc.uniqueArray(fc.integer({ min: 1, max: 28 }), { minLength: 3, maxLength: 9 }))
    .map(([w, m]) => `FREQ=MONTHLY;BYDAY=${w};BYMONTHDAY=${m.join(',')}`),
  fc
    .tuple(interval, fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 3 }), tail)
    .map(([i, m, t]) => `FREQ=YEARLY;INTERVAL=${i};BYMONTH=${m.join(',')}${t}`),
  fc.tuple(interval, tail).map(([i, t]) => `FREQ=YEARLY;INTERVAL=${i}${t}`),
  fc.tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 28 })).map(([m, n]) => `FREQ=YEARLY;BYMONTH=${m};BYMONTHDAY=${n}`),
  fc
    .tuple(fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 3 }), weekdays)
    .map(([m, w]) => `FREQ=MONTHLY;BYMONTH=${m.join(',')};BYDAY=${w.join(',')}`),
  fc.tuple(fc.constantFrom(1, 2, 3, 5, 9), weekdays).map(([i, w]) => `FREQ=DAILY;INTERVAL=${i};BYDAY=${w.join(',')}`),
  fc
    .tuple(fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { minLength: 2, maxLength: 4 }), commonDays, tail)
    .map(([m, n, t]) => `FREQ=DAILY;BYMONTH=${m.join(',')};BYMONTHDAY=${n.join(',')}${t}`),
  fc
    .tuple(fc.uniqueArray(nth, { minLength: 1, maxLength: 2 }), fc.constantFrom('', ';BYMONTH=2,7'), tail)
    .map(([n, m, t]) => `FREQ=YEARLY;BYDAY=${n.join(',')}${m}${t}`),
  fc.tuple(monthDays, tail).map(([m, t]) => `FREQ=YEARLY;BYMONTHDAY=${m.join(',')}${t}`),
  fc
    .tuple(fc.uniqueArray(fc.integer({ min: 2, max: 51 }), { minLength: 1, maxLength: 3 }), weekdays, fc.constantFrom('MO', 'SU'), tail)
    .map(([n, w, k, t]) => `FREQ=YEARLY;BYWEEKNO=${n.join(',')};BYDAY=${w.join(',')};WKST=${k}${t}`),
  fc
    .tuple(
      fc.uniqueArray(fc.oneof(fc.integer({ min: 1, max: 366 }), fc.integer({ min: -366, max: -1 })), { minLength: 1, maxLength: 4 }),
      tail,
    )
    .map(([y, t]) => `FREQ=YEARLY;BYYEARDAY=${y.join(',')}${t}`),
  fc.constantFrom(
    'FREQ=WEEKLY;UNTIL=20250615',
    'FREQ=MONTHLY;BYMONTHDAY=-1;UNTIL=20251231',
    'FREQ=YEARLY;BYDAY=20MO',
    'FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO',
    'FREQ=YEARLY;BYYEARDAY=1,100,200',
  ),
);

describe('expansion of rules', () => {
  it('gives the dates that the rrule package gives', () => {
    let dates = 0;
    fc.assert(
      fc.property(
        rules,
        fc.integer({ min: 0, max: 1200 }),
        fc.integer({ min: -200, max: 900 }),
        fc.integer({ min: 0, max: 900 }),
        (text, a, b, length) => {
          const anchor = toDay(addDays(START, a));
          const start = anchor + b;
          const ours = expandDays(parseRule(text), anchor, start, start + length);
          dates += ours.length;
          expect(ours).toEqual(arbiter(text, anchor, start, start + length));
        },
      ),
      { numRuns: 1500 },
    );
    expect(dates).toBeGreaterThan(5000);
  });

  // The package loses the days in January of a year's last week, so weeks 1, 52 and 53 have another arbiter.
  it.each([[0], [1]] as const)('numbers weeks that start on day %i as date-fns does', (weekStartsOn) => {
    const [start, end] = [toDay(START), toDay(localDate('2052-01-01'))];
    for (const n of [1, 52, 53]) {
      const rule = parseRule(`FREQ=YEARLY;BYWEEKNO=${n};WKST=${weekStartsOn === 0 ? 'SU' : 'MO'}`);
      const days = Array.from({ length: end - start }, (_, i) => start + i);
      const theirs = days.filter((day) => {
        const { year, month, day: ofMonth } = dayToCivil(day);
        return getWeek(new Date(year, month - 1, ofMonth), { weekStartsOn, firstWeekContainsDate: 4 }) === n;
      });
      expect(expandDays(rule, start, start, end)).toEqual(theirs);
    }
  });

  it('lays out a year of a plan like the package does', () => {
    const plan = {
      rule: 'FREQ=WEEKLY;INTERVAL=6;BYDAY=TU',
      anchor: 'calendar' as const,
      anchorDate: localDate('2025-05-06'),
    };
    const days = arbiter(plan.rule, toDay(plan.anchorDate), toDay(localDate('2026-01-01')), toDay(localDate('2027-01-01')));
    expect(dueBetween(plan, localDate('2026-01-01'), localDate('2027-01-01')).map(toDay)).toEqual(days);
  });
});
