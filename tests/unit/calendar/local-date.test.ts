import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, instantOf, localDate, todayIn, toDay, wallClock, weekdayOf } from '@/lib/core/calendar';

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
