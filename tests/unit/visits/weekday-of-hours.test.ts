import { expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { firstOpening, insideWindows, windowsOn, type WeeklyWindow } from '@/lib/core/visits/service-hours';

// 30 November 2026 is a Monday, by any printed calendar.
const monday = localDate('2026-11-30');
const ZONE = 'America/Denver';
const hours: WeeklyWindow[] = [
  { weekday: 0, from: '13:00', to: '15:00' },
  { weekday: 0, from: '07:00', to: '10:30' },
  { weekday: 6, from: '20:00', to: '24:00' },
];

it('hours of a Monday open on Monday and on no other day, the earlier first', () => {
  const open = (n: number) =>
    windowsOn(hours, addDays(monday, n), ZONE).map((s) => [new Date(s.start).toISOString(), (s.end - s.start) / 3_600_000]);
  expect(open(0)).toEqual([
    ['2026-11-30T14:00:00.000Z', 3.5],
    ['2026-11-30T20:00:00.000Z', 2],
  ]);
  for (const n of [1, 2, 3, 4, 5]) expect(open(n)).toEqual([]);
  expect(open(6)).toEqual([['2026-12-07T03:00:00.000Z', 4]]);
});

it('what fits is inside one window to its very ends', () => {
  const at = (from: string, to: string) => ({ start: Date.parse(`2026-11-30T${from}Z`), end: Date.parse(`2026-11-30T${to}Z`) });
  expect(insideWindows(hours, at('14:00:00', '17:30:00'), ZONE)).toBe(true);
  expect(insideWindows(hours, at('14:00:00', '17:31:00'), ZONE)).toBe(false);
  expect(insideWindows(hours, at('13:59:00', '15:00:00'), ZONE)).toBe(false);
  expect(insideWindows(hours, at('17:00:00', '20:30:00'), ZONE)).toBe(false);
});

it('the first opening is the earliest of the next day that has one', () => {
  expect(firstOpening(hours, monday)).toEqual({ date: monday, from: '07:00' });
  expect(firstOpening(hours, addDays(monday, 1))).toEqual({ date: addDays(monday, 6), from: '20:00' });
  expect(firstOpening([], monday)).toBeNull();
});
