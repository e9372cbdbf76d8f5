import { afterEach, describe, expect, it } from 'vitest';
import { dueBetween, isDayRule, localDate, parseRule, todayIn } from '@/lib/core/calendar';
import { expanded, instants, VECTORS, ZONE } from './rfc5545';

const MACHINES = ['America/New_York', 'America/Phoenix', 'Europe/London', 'Asia/Kolkata', 'Australia/Lord_Howe'];
const own = process.env.TZ;

afterEach(() => {
  if (own === undefined) delete process.env.TZ;
  else process.env.TZ = own;
});

describe.each(MACHINES)('RFC 5545 rules on a machine in %s', (zone) => {
  it('give the same wall-clock times and the same instants', () => {
    process.env.TZ = zone;
    // The change must have reached the clock, or this would prove nothing.
    const local = new Intl.DateTimeFormat('en-CA', { timeZone: zone, hour: '2-digit', hourCycle: 'h23' }).format(0);
    expect(new Date(0).getHours()).toBe(Number(local));
    expect(VECTORS).toHaveLength(26);
    for (const v of VECTORS) {
      const times = expanded(v);
      expect(times, v.name).toEqual(v.expect);
      const gaps = instants(times);
      expect(
        [...gaps].sort((a, b) => a - b),
        v.name,
      ).toEqual(gaps);
    }
  });

  it("keep a kitchen's dates its own", () => {
    process.env.TZ = zone;
    for (const v of VECTORS.filter((x) => isDayRule(parseRule(x.rule)) && !x.except)) {
      const dates = v.expect.map((t) => t.slice(0, 10));
      const end = localDate(dates[dates.length - 1] as string);
      const plan = { rule: v.rule, anchor: 'calendar' as const, anchorDate: localDate(v.start.slice(0, 10)) };
      expect(dueBetween(plan, plan.anchorDate, end), v.name).toEqual(dates.slice(0, -1));
    }
    // 09:00 in New York on the morning after its clocks went back.
    expect(todayIn(ZONE, Date.UTC(1997, 9, 26, 14))).toBe('1997-10-26');
    expect(todayIn('Australia/Lord_Howe', Date.UTC(1997, 9, 26, 14))).toBe('1997-10-27');
  });
});

describe('09:00 in New York', () => {
  it('is 13:00 and then 14:00 UTC, either side of 26 October 1997', () => {
    expect(instants(['1997-10-25T09:00', '1997-10-26T09:00'])).toEqual([Date.UTC(1997, 9, 25, 13), Date.UTC(1997, 9, 26, 14)]);
  });
});
