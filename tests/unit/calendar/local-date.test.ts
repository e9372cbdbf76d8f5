import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, addMonths, daysBetween, fromDay, instantOf, isWeekday, localDate, readSureDate, todayIn, toDay, wallClock, weekdayOf } from '@/lib/core/calendar'; // prettier-ignore

const day = fc.integer({ min: -200_000, max: 400_000 });
const ZONES = ['America/New_York', 'America/Phoenix', 'Europe/London', 'Asia/Kolkata', 'Australia/Lord_Howe'];

describe('local dates', () => {
  it('agree with the Gregorian calendar of Date in UTC', () => {
    fc.assert(
      fc.property(day, (d) => {
        const date = addDays(localDate('1970-01-01'), d);
        expect(date).toBe(new Date(d * 86_400_000).toISOString().slice(0, 10));
        expect(toDay(date)).toBe(d);
        expect(weekdayOf(date)).toBe((new Date(d * 86_400_000).getUTCDay() + 6) % 7);
      }),
    );
  });

  it('count days across leap days and refuse dates that do not exist', () => {
    expect(daysBetween(localDate('2024-02-28'), localDate('2024-03-01'))).toBe(2);
    expect(daysBetween(localDate('2023-02-28'), localDate('2023-03-01'))).toBe(1);
    for (const text of ['2023-02-29', '2024-13-01', '2024-1-1', '24-01-01', '2024-01-01T00:00', ''])
      expect(() => localDate(text)).toThrow(/not a date/);
  });
});

describe('months on', () => {
  it.each([
    ['2026-01-15', 1, '2026-02-15'],
    ['2026-01-31', 1, '2026-02-28'],
    ['2024-01-31', 1, '2024-02-29'],
    ['2026-11-30', 3, '2027-02-28'],
    ['2026-12-31', 0, '2026-12-31'],
    ['2026-03-31', -1, '2026-02-28'],
    ['2026-01-15', -13, '2024-12-15'],
    ['2024-02-29', 12, '2025-02-28'],
    ['2026-05-31', 1, '2026-06-30'],
    ['2026-12-01', 12, '2027-12-01'],
  ])('of %s by %d: %s', (from, months, to) => expect(addMonths(localDate(from), months)).toBe(to));
});

describe('what cannot be written or is none', () => {
  it('a year of more than four digits, or before the first', () => {
    expect([fromDay(-719_528), fromDay(2_932_896)]).toEqual(['0000-01-01', '9999-12-31']);
    expect(() => fromDay(2_932_897)).toThrow('No date can be written for the year 10000.');
    expect(() => fromDay(-719_529)).toThrow('No date can be written for the year -1.');
    expect(() => addDays(localDate('9999-12-31'), 1)).toThrow('No date can be written');
  });
  it('a day of the week', () =>
    expect([0, 6, 7, -1, 1.5, '0', null].map(isWeekday)).toEqual([true, true, false, false, false, false, false]));
  it('a month without so many days', () => {
    for (const text of [
      '2026-04-31',
      '2026-06-31',
      '2026-09-31',
      '2026-11-31',
      '2026-02-29',
      '2100-02-29',
      '2026-00-10',
      '2026-10-00',
      '2026-01-32',
    ])
      expect(() => localDate(text), text).toThrow(`"${text}" is not a date of the form YYYY-MM-DD.`);
    for (const text of ['2026-04-30', '2026-01-31', '2000-02-29', '2028-02-29', '2026-12-31']) expect(localDate(text)).toBe(text);
  });
});

describe('a day as somebody typed it', () => {
  it.each([
    ['2026-03-16', '2026-03-16'],
    ['3/16/26', '2026-03-16'],
    ['16.3.2026', '2026-03-16'],
    ['16. 3. 26.', '2026-03-16'],
    ['4/4/26', '2026-04-04'],
    ['Mar 16, 2026', '2026-03-16'],
    ['16 march 26', '2026-03-16'],
    ['March 1st, 2026', '2026-03-01'],
    ['2026-03-16 12:30', '2026-03-16'],
    ['Jan 5 69', '2069-01-05'],
    ['Jan 5 70', '1970-01-05'],
  ])('“%s” is %s', (text, day) => expect(readSureDate(text)).toEqual({ day }));

  it('could be two days, and says which', () => {
    expect(readSureDate('3/4/26')).toEqual({ either: ['2026-03-04', '2026-04-03'] });
    expect(readSureDate('1-12-2026')).toEqual({ either: ['2026-01-12', '2026-12-01'] });
  });

  it.each(['', '  ', 'soon', 'March 2026', 'Mar-26', '45367', '45367.5', '13/13/26', '31/4/26', '2026-02-30', 'Foo 16, 2026', '16 Foo 2026', '3/16', 'on 3/16/26', '3/16/26 or so'])(
    '“%s” is none',
    (text) => expect(readSureDate(text)).toBeNull(),
  ); // prettier-ignore
});

describe('today in a zone', () => {
  it('is what Intl says', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ZONES), fc.integer({ min: 0, max: 4_000_000_000 }), (zone, seconds) => {
        const parts = new Intl.DateTimeFormat('en-CA', {
          timeZone: zone,
          year: 'numeric',
          month: '2-digit',
          day: '2-digit',
        });
        expect(todayIn(zone, seconds * 1000)).toBe(parts.format(seconds * 1000));
      }),
    );
  });

  it('refuses a zone that does not exist', () => {
    expect(() => todayIn('Mars/Olympus', 0)).toThrow(/not a known time zone/);
  });
});

describe('instant of a wall-clock time', () => {
  const iso = (date: string, time: string, zone: string) => new Date(instantOf(localDate(date), time, zone)).toISOString();

  it('keeps 09:00 across the change of clocks', () => {
    expect(iso('1997-10-25', '09:00', 'America/New_York')).toBe('1997-10-25T13:00:00.000Z');
    expect(iso('1997-10-26', '09:00', 'America/New_York')).toBe('1997-10-26T14:00:00.000Z');
    expect(iso('2026-10-04', '09:00', 'Australia/Lord_Howe')).toBe('2026-10-03T22:00:00.000Z');
  });

  it('reads a skipped time with the offset before the gap and takes the first of a repeated one (RFC 5545 §3.3.5)', () => {
    expect(iso('2007-03-11', '02:30', 'America/New_York')).toBe('2007-03-11T07:30:00.000Z');
    expect(iso('2007-11-04', '01:30', 'America/New_York')).toBe('2007-11-04T05:30:00.000Z');
    expect(iso('2026-04-05', '01:45', 'Australia/Lord_Howe')).toBe('2026-04-04T14:45:00.000Z');
  });

  it('is undone by the wall clock, except within a gap', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...ZONES),
        fc.integer({ min: 3000, max: 30_000 }),
        fc.integer({ min: 180, max: 1439 }),
        (zone, d, minutes) => {
          const date = addDays(localDate('1970-01-01'), d);
          const time = `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
          expect(wallClock(zone, instantOf(date, time, zone))).toEqual({ date, minutes });
        },
      ),
    );
  });

  it('refuses what is not a time', () => {
    for (const time of ['24:00', '9:00', '09:60', '09:00:00'])
      expect(() => instantOf(localDate('2026-01-01'), time, 'UTC')).toThrow(/not a time/);
  });
});
