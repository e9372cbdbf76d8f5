import { describe, expect, it } from 'vitest';
import { approximateWeeks, CalendarError, describeRule, parseRule, typedRule, weeksRule } from '@/lib/core/calendar';

describe('reading a rule', () => {
  it('takes it apart', () => {
    expect(parseRule('RRULE:freq=weekly;interval=6;byday=TU')).toMatchObject({
      text: 'FREQ=WEEKLY;INTERVAL=6;BYDAY=TU',
      freq: 'WEEKLY',
      interval: 6,
      byDay: [{ weekday: 1, nth: 0 }],
    });
    expect(parseRule('FREQ=MONTHLY;BYDAY=-2MO').byDay).toEqual([{ weekday: 0, nth: -2 }]);
  });

  it.each([
    ['', /not a part/],
    ['INTERVAL=2', /needs FREQ/],
    ['FREQ=FORTNIGHTLY', /does not know "FORTNIGHTLY"/],
    ['FREQ=WEEKLY;INTERVAL=0', /at least 1/],
    ['FREQ=WEEKLY;INTERVAL=1.5', /at least 1/],
    ['FREQ=WEEKLY;BYDAY=XX', /not "XX"/],
    ['FREQ=WEEKLY;BYDAY=1MO', /numbered weekday/],
    ['FREQ=WEEKLY;BYMONTHDAY=3', /cannot be used/],
    ['FREQ=MONTHLY;BYMONTHDAY=32', /from -31 to 31/],
    ['FREQ=MONTHLY;BYMONTHDAY=0', /from -31 to 31/],
    ['FREQ=MONTHLY;BYSETPOS=1', /needs another BY part/],
    ['FREQ=DAILY;COUNT=3;UNTIL=20260101', /cannot both/],
    ['FREQ=DAILY;UNTIL=soon', /not a date/],
    ['FREQ=DAILY;FREQ=DAILY', /given twice/],
    ['FREQ=DAILY;COLOUR=RED', /COLOUR is not a part/],
  ])('says what is wrong with "%s"', (text, message) => {
    expect(() => parseRule(text)).toThrow(message);
  });
});

describe('reading a rule that somebody types', () => {
  it.each(['20261340', '20260230', '20270229', '20260001', '20260100'])('refuses to end on %s, which no calendar has', (end) => {
    expect(() => typedRule(`FREQ=WEEKLY;INTERVAL=6;UNTIL=${end}`)).toThrow(`UNTIL=${end} is no day of the calendar.`);
    expect(() => typedRule(`freq=weekly;until=${end}T000000Z`)).toThrow(CalendarError);
    // What is on file goes on as it did.
    expect(parseRule(`FREQ=WEEKLY;INTERVAL=6;UNTIL=${end}`).interval).toBe(6);
  });

  it('takes days that there are, and whatever else a rule may say', () => {
    expect(typedRule('FREQ=WEEKLY;UNTIL=20280229').text).toBe('FREQ=WEEKLY;UNTIL=20280229');
    expect(typedRule('FREQ=MONTHLY;BYDAY=1TU').text).toBe('FREQ=MONTHLY;BYDAY=1TU');
    expect(() => typedRule('FREQ=DAILY;UNTIL=soon')).toThrow(/not a date/);
  });
});

describe('writing a rule', () => {
  it('gives whole weeks, on a preferred weekday if there is one', () => {
    expect(weeksRule(6)).toBe('FREQ=WEEKLY;INTERVAL=6');
    expect(weeksRule(6, 1)).toBe('FREQ=WEEKLY;INTERVAL=6;BYDAY=TU');
    expect(() => weeksRule(2.5)).toThrow(/whole number/);
    expect(() => weeksRule(0)).toThrow(/whole number/);
  });

  it.each([
    ['FREQ=WEEKLY;INTERVAL=6;BYDAY=TU', 'every 6 weeks, on Tuesdays', 6],
    ['FREQ=WEEKLY', 'every week', 1],
    ['FREQ=WEEKLY;BYDAY=MO,WE,FR', 'every week, on Mondays, Wednesdays and Fridays', 1 / 3],
    ['FREQ=MONTHLY;INTERVAL=3;BYMONTHDAY=15', 'every 3 months, on the 15th', 13.04],
    ['FREQ=MONTHLY;BYDAY=-1FR', 'every month, on the last Friday', 4.35],
    ['FREQ=MONTHLY;BYMONTHDAY=-1', 'every month, on the last day', 4.35],
    ['FREQ=YEARLY;BYMONTH=3,9', 'every year, in March and September', 26.09],
    ['FREQ=DAILY;INTERVAL=10;COUNT=5', 'every 10 days, 5 times', 10 / 7],
    ['FREQ=MONTHLY;UNTIL=20261231', 'every month, until 2026-12-31', 4.35],
  ])('describes %s', (text, expected, weeks) => {
    expect(describeRule(text)).toBe(expected);
    expect(approximateWeeks(text)).toBeCloseTo(weeks, 2);
  });
});
