import { describe, expect, it } from 'vitest';
import { approximateDays, approximateWeeks, describeRule, periodDays } from '@/lib/core/calendar/describe';
import { dateAt, dayAt, hourOfDay, timeAt, timeOfDay } from '@/lib/core/calendar/at-offset';
import { fromLocalDate, toLocalDate } from '@/lib/core/calendar/date-column';
import { dueBetween, nextDue } from '@/lib/core/calendar/due';
import { isTimeZone, timeZoneMeant } from '@/lib/core/calendar/is-time-zone';
import { localDate } from '@/lib/core/calendar/local-date';
import { wallTimes } from '@/lib/core/calendar/rrule-library';
import { endOf, parseRule, weeksRule } from '@/lib/core/calendar/rule';
import * as when from '@/lib/core/calendar/when';
import { followHabits } from '@/lib/core/measures/habits';
import { clockIn, clockOf, instantOf, utcOffsetMinutes, wallClock } from '@/lib/core/calendar/zone';
import { slotOf } from '@/lib/core/visits/changes';

describe('a rule in words', () => {
  it.each([
    ['FREQ=WEEKLY;INTERVAL=6;BYDAY=TU', 'every 6 weeks, on Tuesdays'],
    ['FREQ=WEEKLY;BYDAY=MO,TH', 'every week, on Mondays and Thursdays'],
    ['FREQ=WEEKLY;BYDAY=MO,WE,FR', 'every week, on Mondays, Wednesdays and Fridays'],
    ['FREQ=DAILY;INTERVAL=10', 'every 10 days'],
    ['FREQ=MONTHLY;BYDAY=1TU', 'every month, on the first Tuesday'],
    ['FREQ=MONTHLY;BYDAY=-1FR', 'every month, on the last Friday'],
    ['FREQ=MONTHLY;BYDAY=-2FR', 'every month, on the second to last Friday'],
    ['FREQ=MONTHLY;BYDAY=FR', 'every month, on every Friday'],
    ['FREQ=YEARLY;BYDAY=SU', 'every year, on every Sunday'],
    ['FREQ=YEARLY;BYDAY=20MO', 'every year, on the 20th Monday'],
    ['FREQ=YEARLY;BYDAY=-22MO', 'every year, on the 22nd to last Monday'],
    [
      'FREQ=MONTHLY;BYMONTHDAY=1,2,3,4,11,12,13,21,22,23',
      'every month, on the 1st, the 2nd, the 3rd, the 4th, the 11th, the 12th, the 13th, the 21st, the 22nd and the 23rd',
    ],
    ['FREQ=MONTHLY;BYMONTHDAY=-1', 'every month, on the last day'],
    ['FREQ=MONTHLY;BYMONTHDAY=-2,15', 'every month, on the 2nd to last day and the 15th'],
    ['FREQ=YEARLY;BYMONTH=1,12', 'every year, in January and December'],
    ['FREQ=DAILY;BYMONTH=7', 'every day, in July'],
    ['FREQ=WEEKLY;UNTIL=20271231', 'every week, until 2027-12-31'],
    ['FREQ=WEEKLY;COUNT=1', 'every week, once'],
    ['FREQ=WEEKLY;COUNT=6', 'every week, 6 times'],
    ['FREQ=HOURLY;INTERVAL=8', 'every 8 hours'],
    ['FREQ=SECONDLY;INTERVAL=30', 'every 30 seconds'],
    ['FREQ=MINUTELY;INTERVAL=90', 'every 90 minutes'],
    ['FREQ=YEARLY;INTERVAL=2', 'every 2 years'],
    ['FREQ=DAILY;BYDAY=MO', 'every day, on Mondays'],
    ['FREQ=MONTHLY;BYDAY=MO,1TU', 'every month, on every Monday and the first Tuesday'],
    [
      'FREQ=MONTHLY;BYDAY=2WE,3TH,4SA,5FR',
      'every month, on the second Wednesday, the third Thursday, the fourth Saturday and the fifth Friday',
    ],
    ['FREQ=MONTHLY;BYDAY=6FR,-5FR', 'every month, on the 6th Friday and the fifth to last Friday'],
    [
      'FREQ=YEARLY;BYMONTH=2,3,4,5,6,8,9,10,11',
      'every year, in February, March, April, May, June, August, September, October and November',
    ],
  ])('%s: %s', (rule, expected) => expect(describeRule(rule)).toBe(expected));

  it('one that is put together oddly is said by the library', () => {
    for (const rule of ['FREQ=MONTHLY;BYDAY=MO,TU;BYSETPOS=-1', 'FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13', 'FREQ=YEARLY;BYYEARDAY=100'])
      expect(describeRule(rule)).toMatch(/^every (month|year)/);
    expect(describeRule('FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13')).not.toContain('every Friday,');
  });
});

describe('how far apart a rule’s days are', () => {
  it.each([
    ['FREQ=WEEKLY;INTERVAL=6', 42],
    ['FREQ=WEEKLY;INTERVAL=2;BYDAY=MO,TH', 7],
    ['FREQ=DAILY;INTERVAL=10', 10],
    ['FREQ=HOURLY;INTERVAL=12', 0.5],
    ['FREQ=MONTHLY', 30.436875],
    ['FREQ=MONTHLY;BYMONTHDAY=1,15', 15.2184375],
    ['FREQ=MONTHLY;BYDAY=FR', 30.436875 / 4.35],
    ['FREQ=MONTHLY;BYDAY=1FR,3FR', 15.2184375],
    ['FREQ=MONTHLY;BYDAY=MO,TU,WE;BYSETPOS=1', 30.436875],
    ['FREQ=YEARLY;BYMONTH=1,7', 182.62125],
    ['FREQ=YEARLY;BYYEARDAY=1,100', 365.2425],
    ['FREQ=SECONDLY;INTERVAL=43200', 0.5],
    ['FREQ=MINUTELY;INTERVAL=720', 0.5],
    ['FREQ=DAILY;BYDAY=MO,TU', 1],
    ['FREQ=YEARLY;INTERVAL=2;BYMONTHDAY=1,15', 365.2425],
    ['FREQ=YEARLY;BYMONTH=3;BYDAY=1MO,-1MO', 182.62125],
    ['FREQ=MONTHLY;BYDAY=MO,1TU', 15.2184375],
  ])('%s: %d days', (rule, days) => expect(approximateDays(parseRule(rule))).toBeCloseTo(days, 6));

  it('in weeks, and by its period alone', () => {
    expect(approximateWeeks('FREQ=WEEKLY;INTERVAL=6;BYDAY=TU')).toBe(6);
    expect(periodDays(parseRule('FREQ=WEEKLY;INTERVAL=6;BYDAY=TU,FR'))).toBe(42);
  });
});

describe('what is no rule says why', () => {
  it.each([
    ['FREQ=MONTHLY;BYDAY=0FR', /BYDAY does not understand "0FR"/],
    ['FREQ=YEARLY;BYDAY=54MO', /BYDAY does not understand "54MO"/],
    ['FREQ=WEEKLY;BYDAY=XX', /BYDAY takes MO, TU, WE, TH, FR, SA or SU, not "XX"/],
    ['FREQ=WEEKLY;BYDAY=', /BYDAY/],
    ['FREQ=WEEKLY;INTERVAL=0', /INTERVAL must be a whole number of at least 1, not "0"/],
    ['FREQ=WEEKLY;UNTIL=2027', /UNTIL "2027" is not a date/],
    ['FREQ=WEEKLY;COUNT=2;UNTIL=20270101', /cannot both be given/],
    ['FREQ=WEEKLY;BYDAY=1FR', /numbered weekday/],
    ['FREQ=WEEKLY;BYMONTHDAY=1', /BYMONTHDAY cannot/],
    ['FREQ=MONTHLY;BYSETPOS=1', /BYSETPOS needs another BY part/],
    [`FREQ=WEEKLY${';INTERVAL=1'.repeat(100)}`, /more than 1000 characters/],
    ['FREQ=DAILY;BYHOUR=24', 'BYHOUR takes whole numbers from 0 to 23, not "24".'],
    ['FREQ=DAILY;BYHOUR=-1', 'BYHOUR takes whole numbers from 0 to 23, not "-1".'],
    ['FREQ=DAILY;BYMINUTE=60', 'BYMINUTE takes whole numbers from 0 to 59, not "60".'],
    ['FREQ=DAILY;BYSECOND=60', 'BYSECOND takes whole numbers from 0 to 59, not "60".'],
    ['FREQ=DAILY;BYMONTH=0', 'BYMONTH takes whole numbers from 1 to 12, not "0".'],
    ['FREQ=DAILY;BYMONTH=13', 'BYMONTH takes whole numbers from 1 to 12, not "13".'],
    ['FREQ=DAILY;BYMONTH=1x', 'BYMONTH takes whole numbers from 1 to 12, not "1X".'],
    ['FREQ=DAILY;BYMONTH=x1', 'BYMONTH takes whole numbers from 1 to 12, not "X1".'],
    ['FREQ=YEARLY;BYWEEKNO=54', 'BYWEEKNO takes whole numbers from -53 to 53, not "54".'],
    ['FREQ=YEARLY;BYWEEKNO=-54', 'BYWEEKNO takes whole numbers from -53 to 53, not "-54".'],
    ['FREQ=YEARLY;BYYEARDAY=367', 'BYYEARDAY takes whole numbers from -366 to 366, not "367".'],
    ['FREQ=YEARLY;BYYEARDAY=-367', 'BYYEARDAY takes whole numbers from -366 to 366, not "-367".'],
    ['FREQ=YEARLY;BYSETPOS=367;BYDAY=MO', 'BYSETPOS takes whole numbers from -366 to 366, not "367".'],
    ['FREQ=MONTHLY;BYMONTHDAY=-32', 'BYMONTHDAY takes whole numbers from -31 to 31, not "-32".'],
    ['FREQ=DAILY;INTERVAL=1000000', 'INTERVAL must be a whole number of at least 1, not "1000000".'],
    ['FREQ=DAILY;INTERVAL=x2', 'INTERVAL must be a whole number'],
    ['FREQ=DAILY;COUNT=0', 'COUNT must be a whole number of at least 1, not "0".'],
    ['FREQ=DAILY;WKST=XX', 'WKST takes MO, TU, WE, TH, FR, SA or SU, not "XX".'],
    ['FREQ=DAILY;UNTIL=20260101T000000ZX', 'UNTIL "20260101T000000ZX" is not a date.'],
    ['FREQ=DAILY;UNTIL=X20260101', 'UNTIL "X20260101" is not a date.'],
    ['FREQ=DAILY=2', '"FREQ=DAILY=2" is not a part of a recurrence rule.'],
    ['FREQ', '"FREQ" is not a part of a recurrence rule.'],
    ['FREQ=', '"FREQ=" is not a part of a recurrence rule.'],
    ['=DAILY', '"=DAILY" is not a part of a recurrence rule.'],
    ['FREQ=DAILY;', '"" is not a part of a recurrence rule.'],
    ['COUNT=2', 'A recurrence rule needs FREQ, for instance FREQ=WEEKLY;INTERVAL=6.'],
    ['FREQ=MONTHLY;BYDAY=111MO', 'BYDAY does not understand "111MO".'],
    ['FREQ=MONTHLY;BYDAY=-54MO', 'BYDAY does not understand "-54MO".'],
    ['FREQ=MONTHLY;BYDAY=MOX', 'BYDAY does not understand "MOX".'],
    ['FREQ=DAILY;BYDAY=1MO', 'A numbered weekday such as 1FR needs FREQ=MONTHLY or FREQ=YEARLY.'],
  ])('%s', (rule, why) => expect(() => parseRule(rule)).toThrow(why));

  it('the furthest that the standard lets a weekday be numbered is read, and white space round a rule', () => {
    expect(parseRule('FREQ=YEARLY;BYDAY=53MO').byDay).toEqual([{ weekday: 0, nth: 53 }]);
    expect(parseRule(' rrule:freq=yearly;bysetpos=1;byyearday=1 ').bySetPos).toEqual([1]);
  });

  it('and what is one is read at its bounds', () => {
    const rule = parseRule('FREQ=DAILY;INTERVAL=999999;BYHOUR=0,23;BYMINUTE=59;BYMONTH=1,+12;WKST=SU;UNTIL=19700103T120000Z');
    expect(rule).toMatchObject({ interval: 999_999, timed: true, rare: true, byMonth: [1, 12], weekStart: 6, untilDay: 2 });
    expect(parseRule('FREQ=YEARLY;BYYEARDAY=-366,366')).toMatchObject({ byYearDay: [-366, 366], rare: true, timed: false });
    expect(parseRule('FREQ=YEARLY;BYWEEKNO=-53,53')).toMatchObject({ byWeekNo: [-53, 53], rare: true, timed: false });
    expect(parseRule('FREQ=MONTHLY;BYMONTHDAY=-31,31;BYSETPOS=-366,366')).toMatchObject({ byMonthDay: [-31, 31], bySetPos: [-366, 366], rare: false }); // prettier-ignore
    for (const text of ['FREQ=DAILY;BYMONTHDAY=1;BYSETPOS=1', 'FREQ=DAILY;BYMONTH=1;BYSETPOS=1', 'FREQ=DAILY;BYDAY=MO;BYSETPOS=1'])
      expect(parseRule(text).bySetPos, text).toEqual([1]);
  });

  it('an interval is a whole number of weeks', () => {
    expect([weeksRule(1), weeksRule(6, 1)]).toEqual(['FREQ=WEEKLY;INTERVAL=1', 'FREQ=WEEKLY;INTERVAL=6;BYDAY=TU']);
    for (const weeks of [0, -1, 1.5, Number.NaN]) expect(() => weeksRule(weeks)).toThrow(/whole number of weeks/);
    expect([endOf('FREQ=WEEKLY;COUNT=6'), endOf('FREQ=WEEKLY;UNTIL=20271231;BYDAY=MO'), endOf('FREQ=WEEKLY')]).toEqual([
      ';COUNT=6',
      ';UNTIL=20271231',
      '',
    ]);
  });

  it('a due date comes from days, within what can be counted out', () => {
    const plan = { anchor: 'calendar' as const, anchorDate: localDate('2026-01-05') };
    expect(() => nextDue({ ...plan, rule: 'FREQ=HOURLY' })).toThrow(/rule by the hour/);
    const old = { ...plan, anchorDate: localDate('1500-01-01'), after: localDate('2026-01-01') };
    expect(() => nextDue({ ...old, rule: 'FREQ=WEEKLY;COUNT=999999' })).toThrow(/400 years/);
    expect(nextDue({ ...old, rule: 'FREQ=WEEKLY' })).not.toBeNull();
    expect(nextDue({ ...plan, rule: 'FREQ=WEEKLY;COUNT=900', after: localDate('2040-01-01') })).not.toBeNull();
    expect(() => dueBetween({ ...plan, rule: 'FREQ=WEEKLY' }, localDate('2026-02-01'), localDate('2026-01-01'))).toThrow(
      /ends .* before it starts/,
    );
    expect(dueBetween({ ...plan, rule: 'FREQ=WEEKLY' }, localDate('2026-02-01'), localDate('2026-02-01'))).toEqual([]);
  });
});

describe('a moment as people write it', () => {
  const at = Date.UTC(2026, 10, 3, 16, 30);
  const DENVER = 'America/Denver';

  it('by the clock of a place, in winter and in summer', () => {
    expect([when.timeIn(at, DENVER), when.dayIn(at, DENVER), when.longDayIn(at, DENVER), when.yearIn(at, DENVER)]).toEqual([
      '09:30',
      'Tue 3 Nov',
      'Tuesday 3 November',
      '2026',
    ]);
    expect(when.timeIn(Date.UTC(2026, 6, 3, 16, 30), DENVER)).toBe('10:30');
    expect(when.dayIn(Date.UTC(2026, 10, 3, 3), DENVER)).toBe('Mon 2 Nov');
    expect(when.dayIn(new Date(at), 'Asia/Tokyo')).toBe('Wed 4 Nov');
  });

  it('a plain date stays itself wherever it is read', () => {
    expect([when.dayWords('2026-11-03'), when.dateWords('2026-11-03'), when.monthWords('2026-11-03')]).toEqual([
      'Tue 3 Nov',
      '3 Nov 2026',
      'November 2026',
    ]);
  });

  it('for a customer in the language they are written to', () => {
    expect(when.customerTime(at, DENVER, 'en')).toBe('9:30 AM');
    expect(when.customerDay(at, DENVER, 'en')).toBe('Tuesday, November 3');
    expect(when.customerDay(at, DENVER, 'es')).toMatch(/martes.*3 de noviembre/);
    expect(when.customerDate('2026-11-03', 'en')).toBe('Tuesday, November 3');
    expect(when.customerFullDate('2027-01-05', 'en')).toBe('Jan 5, 2027');
    expect(when.customerMonths('2026-07-01', 'en')).toBe('July to September 2026');
    expect(when.customerMonths('2026-11-01', 'es')).toBe('noviembre a enero de 2027');
  });

  it('on a tablet from the clock’s lead alone, as the platform would write it', () => {
    const lead = utcOffsetMinutes(DENVER, at);
    expect(lead).toBe(-420);
    expect([timeAt(at, lead), dayAt(at, lead), dateAt(at, lead)]).toEqual([when.timeIn(at, DENVER), when.dayIn(at, DENVER), '2026-11-03']);
    expect([timeAt(at, 540), dayAt(at, 540), dateAt(at, 540)]).toEqual(['01:30', 'Wed 4 Nov', '2026-11-04']);
  });

  it('as the shop is used to it, on pages and tablets alike, and to English customers as they are', () => {
    try {
      followHabits({ dates: 'month_first', english: 'en-GB' });
      expect([when.timeIn(at, DENVER), when.dayIn(at, DENVER), when.longDayIn(at, DENVER)]).toEqual([
        '9:30 AM',
        'Tue, Nov 3',
        'Tuesday, November 3',
      ]);
      expect([when.dateWords('2026-11-03'), when.momentIn(at, DENVER)]).toEqual(['Nov 3, 2026', 'Tue, Nov 3, 9:30 AM']);
      expect(['06:00', '00:30', '14:05', '24:00'].map(when.clockWords)).toEqual(['6:00 AM', '12:30 AM', '2:05 PM', 'midnight']);
      expect([when.spanIn(at, at + 3_600_000, DENVER), when.momentSpanIn(at, at + 4 * 3_600_000, DENVER)]).toEqual([
        '9:30–10:30 AM',
        'Tue, Nov 3, 9:30 AM–1:30 PM',
      ]);
      expect([when.hoursSpan('06:00', '10:30'), when.hoursSpan('18:00', '24:00')]).toEqual(['6:00–10:30 AM', '6:00 PM–midnight']);
      expect([when.dayDateIn(at, DENVER), when.dayDateWords('2027-01-05')]).toEqual(['Tue, Nov 3, 2026', 'Tue, Jan 5, 2027']);
      expect([when.shortDateWords('2026-11-03', '2026-01-01'), when.shortDateWords('2027-01-05', '2026-01-01')]).toEqual([
        'Nov 3',
        'Jan 5, 2027',
      ]);
      // Fields of forms take one way of writing alone.
      expect([clockIn(DENVER, at), slotOf({ technicianId: 't', startsAt: at, endsAt: at + 3_600_000 }, DENVER)]).toEqual([
        '09:30',
        { technicianId: 't', date: '2026-11-03', from: '09:30', minutes: '60' },
      ]);
      for (const hour of [0, 1, 11, 12, 13, 23]) {
        const then = Date.UTC(2026, 10, 3, hour, 5);
        expect([timeAt(then, 0), dayAt(then, 0)]).toEqual([when.timeIn(then, 'UTC'), when.dayIn(then, 'UTC')]);
      }
      expect(when.customerDay(at, DENVER, 'en')).toBe('Tuesday 3 November');
      expect(when.customerFullDate('2027-01-05', 'en')).toBe('5 Jan 2027');
      expect(when.customerDay(at, DENVER, 'es')).toMatch(/martes.*3 de noviembre/);
    } finally {
      followHabits({ dates: 'day_first', english: 'en-US' });
    }
    expect([when.spanIn(at, at + 3_600_000, DENVER), when.hoursSpan('06:00', '24:00')]).toEqual(['09:30–10:30', '06:00–24:00']);
    expect([when.dayDateIn(at, DENVER), when.dayDateWords('2027-01-05')]).toEqual(['Tue 3 Nov 2026', 'Tue 5 Jan 2027']);
    expect([when.shortDateWords('2026-11-03', '2026-01-01'), when.shortDateWords('2027-01-05', '2026-01-01')]).toEqual([
      '3 Nov',
      '5 Jan 2027',
    ]);
    expect(['06:00', '14:05', '24:00'].map(when.clockWords)).toEqual(['06:00', '14:05', '24:00']);
  });

  it('by the minutes of a day, and by the hour on an axis', () => {
    expect([0, 570, 725, 1439].map(timeOfDay)).toEqual(['00:00', '09:30', '12:05', '23:59']);
    expect([0, 1, 12, 13, 23].map(hourOfDay)).toEqual(['0', '1', '12', '13', '23']);
    try {
      followHabits({ dates: 'month_first' });
      expect([0, 570, 725, 1439].map(timeOfDay)).toEqual(['12:00 AM', '9:30 AM', '12:05 PM', '11:59 PM']);
      expect([0, 1, 12, 13, 23].map(hourOfDay)).toEqual(['12', '1', '12', '1', '11']);
    } finally {
      followHabits({ dates: 'day_first' });
    }
    // As fields of forms take it, to the nearest minute, the hour included.
    expect([0, 570.4, 599.7, 1439, 1439.6, 1440].map(clockOf)).toEqual(['00:00', '09:30', '10:00', '23:59', '00:00', '00:00']);
  });

  it('goes into a column of dates and comes out again', () => {
    expect(toLocalDate(fromLocalDate(localDate('2026-11-03')))).toBe('2026-11-03');
    expect(fromLocalDate(localDate('2026-11-03')).toISOString()).toBe('2026-11-03T00:00:00.000Z');
  });
});

describe('a time zone', () => {
  it.each(['America/Denver', 'America/Argentina/Buenos_Aires', 'Etc/GMT+5', 'UTC'])('%s is one', (name) => {
    expect(isTimeZone(name)).toBe(true);
    expect(isTimeZone(name)).toBe(true);
  });
  it.each(['', 'Denver', 'America/Nowhere', '+02:00', 'EST5EDT', 'UTCX', 'XUTC', 'America/Denver; x', 'America/'])(
    '“%s” is none',
    (name) => {
      expect(isTimeZone(name)).toBe(false);
      expect(isTimeZone(name)).toBe(false);
    },
  );

  it('has hours that come twice, and hours that never come', () => {
    const first = instantOf(localDate('2026-11-01'), '01:30', 'America/Denver');
    expect(new Date(first).toISOString()).toBe('2026-11-01T07:30:00.000Z');
    const skipped = instantOf(localDate('2026-03-08'), '02:30', 'America/Denver');
    expect(new Date(skipped).toISOString()).toBe('2026-03-08T09:30:00.000Z');
    expect(instantOf(localDate('2026-06-01'), '00:00', 'UTC')).toBe(Date.UTC(2026, 5, 1));
    expect(wallClock('America/Denver', first)).toEqual({ date: '2026-11-01', minutes: 90 });
    for (const time of ['24:00', '9:30', '12:60', '']) expect(() => instantOf(localDate('2026-06-01'), time, 'UTC')).toThrow(/HH:mm/);
    expect(() => instantOf(localDate('2026-06-01'), '09:00', 'Nowhere/Else')).toThrow(/not a known time zone/);
  });
});

describe('the time zone somebody means', () => {
  it('is named whole in any case, or by its city where that is one zone', () => {
    expect(['America/Chicago', 'america/chicago', ' Chicago ', 'new york', 'New_York', 'UTC', 'utc', 'US/Central', 'Dublin'].map(timeZoneMeant)).toEqual([
      'America/Chicago', 'America/Chicago', 'America/Chicago', 'America/New_York', 'America/New_York', 'UTC', 'UTC', 'US/Central', 'Europe/Dublin',
    ]); // prettier-ignore
  });
  it('is known by a city however its words are parted, and by its own name in any case', () => {
    expect(['Los Angeles', 'los\tangeles', 'LOS  ANGELES', 'Louisville', 'Buenos_Aires', 'America/Argentina/Buenos_Aires', ' Etc/GMT+5 '].map(timeZoneMeant)).toEqual([
      'America/Los_Angeles', 'America/Los_Angeles', 'America/Los_Angeles', expect.stringMatching(/Louisville$/), expect.stringMatching(/Buenos_Aires$/), 'America/Argentina/Buenos_Aires', 'Etc/GMT+5',
    ]);
  }); // prettier-ignore
  it('is not guessed', () => {
    for (const name of ['', 'Chicag', 'America', 'Mars/Olympus', 'CET+1', 'Chicago\n2']) expect(timeZoneMeant(name), name).toBeNull();
  });
});

describe('wall-clock times of a rule', () => {
  const start = { date: localDate('2026-03-02'), time: '06:30' };
  it('as many as are asked for, the whole last day counted', () => {
    expect(wallTimes(parseRule('FREQ=DAILY'), start, 0)).toEqual([]);
    expect(wallTimes(parseRule('FREQ=DAILY'), start, 2)).toEqual([start, { date: '2026-03-03', time: '06:30' }]);
    expect(wallTimes(parseRule('FREQ=HOURLY;INTERVAL=8'), start, 3).map((t) => t.time)).toEqual(['06:30', '14:30', '22:30']);
    expect(wallTimes(parseRule('FREQ=DAILY;UNTIL=20260303'), start, 9)).toHaveLength(2);
    expect(wallTimes(parseRule('FREQ=DAILY;UNTIL=20260303T000000Z'), start, 9)).toHaveLength(2);
  });
});
