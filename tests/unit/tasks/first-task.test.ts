import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, localDate, toDay, weekdayOf, weeksRule, type Weekday } from '@/lib/core/calendar';
import { firstTask, onItsWeekday, spreadDays } from '@/lib/core/tasks/first-task';

const today = localDate('2026-03-04'); // a Wednesday

describe('a task first put on file', () => {
  it('falls on the first date given, moved to the weekday of its rule', () => {
    const t = firstTask({ rule: weeksRule(8, 1), anchor: 'last_completed', firstDue: today, lastDoneOn: null, today });
    expect(t).toEqual({
      rule: 'FREQ=WEEKLY;INTERVAL=8;BYDAY=TU',
      anchor: 'last_completed',
      anchorDate: '2026-03-10',
      lastDoneOn: null,
      dueOn: '2026-03-10',
    });
  });

  it('counts from the last time it was done where that is known', () => {
    const t = firstTask({ rule: weeksRule(4), anchor: 'last_completed', firstDue: null, lastDoneOn: localDate('2026-02-20'), today });
    expect(t.dueOn).toBe('2026-03-20');
  });

  it('refuses a rule with no date left', () => {
    const ended = { rule: 'FREQ=WEEKLY;UNTIL=20200101', anchor: 'calendar', firstDue: today, lastDoneOn: null, today } as const;
    expect(() => firstTask(ended)).toThrow('no date left');
  });

  it('never moves a date by more than six days', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 4000 }), (d, n) => {
        const date = addDays(today, n);
        const moved = onItsWeekday(weeksRule(6, d as Weekday), date);
        expect(weekdayOf(moved)).toBe(d);
        expect(toDay(moved) - toDay(date)).toBeGreaterThanOrEqual(0);
        expect(toDay(moved) - toDay(date)).toBeLessThan(7);
      }),
    );
  });
});

describe('spread of first dates', () => {
  it('stays within the interval, is the same each time and uses all of it', () => {
    const days = Array.from({ length: 2000 }, (_, i) => spreadDays(`kitchen ${i}`, 4));
    expect(Math.min(...days)).toBe(0);
    expect(Math.max(...days)).toBe(27);
    expect(spreadDays('kitchen 7', 4)).toBe(days[7]);
    // 2,000 keys over 28 days: an even hash puts about 71 on each; 7 standard deviations allowed.
    const counts = Array.from({ length: 28 }, (_, d) => days.filter((x) => x === d).length);
    for (const c of counts) expect(Math.abs(c - 2000 / 28)).toBeLessThan(7 * Math.sqrt(2000 / 28));
  });
});
