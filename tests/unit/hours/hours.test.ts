import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDayHours, readWeekHours, writeDayHours, writeWeekHours } from '@/lib/core/hours';
import { hoursWords } from '@/app/_ui/words/hours-words';
import type { Weekday } from '@/lib/core/calendar';

describe('hours of a day', () => {
  it.each([
    ['06:00-10:30', [{ from: '06:00', to: '10:30' }]],
    ['6-10.30', [{ from: '06:00', to: '10:30' }]],
    [
      '2:30 pm – 4pm, 6am to 10am',
      [
        { from: '06:00', to: '10:00' },
        { from: '14:30', to: '16:00' },
      ],
    ],
    ['22:00-24:00', [{ from: '22:00', to: '24:00' }]],
    ['12am-12pm', [{ from: '00:00', to: '12:00' }]],
    ['7-3:30', [{ from: '07:00', to: '15:30' }]],
    ['0700-1530', [{ from: '07:00', to: '15:30' }]],
    ['10a - 6p', [{ from: '10:00', to: '18:00' }]],
    ['9 to noon', [{ from: '09:00', to: '12:00' }]],
    ['all day', [{ from: '00:00', to: '24:00' }]],
    ['closed', []],
    ['  ', []],
  ])('reads %s', (text, windows) => expect(readDayHours(text)).toEqual({ windows }));

  it.each([
    ['6', 'not a span'],
    ['25:00-26:00', 'not a span'],
    ['13pm-15', 'not a span'],
    ['22:00-02:00', 'past midnight'],
    ['06:00-02:00', 'past midnight'],
    ['11pm-7', 'past midnight'],
    ['10:00-10:00', 'same time'],
    ['06:00-10:00, 09:00-11:00', 'overlaps'],
  ])('refuses %s in words', (text, expected) => expect(readDayHours(text)).toEqual({ problem: expect.stringContaining(expected) }));
});

describe('hours of a week', () => {
  it('reads ranges, lists and single days', () => {
    expect(readWeekHours('Mon-Tue 06:00-10:30; sat, sun: 7-9')).toEqual({
      windows: [
        { weekday: 0, from: '06:00', to: '10:30' },
        { weekday: 1, from: '06:00', to: '10:30' },
        { weekday: 5, from: '07:00', to: '09:00' },
        { weekday: 6, from: '07:00', to: '09:00' },
      ],
    });
    expect(readWeekHours('')).toEqual({ windows: [] });
  });

  it.each(['Mon', 'Funday 06:00-07:00', 'Mon-Fri-Sat 6-7', 'Mon 6-7; Monday 8-9'])('does not guess at %s', (text) =>
    expect(readWeekHours(text)).toHaveProperty('problem'),
  );

  it('reads back whatever it writes', () => {
    const time = fc.integer({ min: 0, max: 95 }).map((q) => q * 15);
    const clock = (m: number) => `${String(Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`;
    const window = fc.tuple(fc.integer({ min: 0, max: 6 }), time, fc.integer({ min: 1, max: 8 }));
    fc.assert(
      fc.property(fc.uniqueArray(window, { selector: (w) => w[0] }), (list) => {
        const hours = list
          .map(([d, start, n]) => ({ weekday: d as Weekday, from: clock(start), to: clock(Math.min(1440, start + n * 15)) }))
          .sort((a, b) => a.weekday - b.weekday);
        expect(readWeekHours(writeWeekHours(hours))).toEqual({ windows: hours });
        const first = hours[0];
        if (first) expect(readDayHours(writeDayHours(hours, first.weekday))).toEqual({ windows: [{ from: first.from, to: first.to }] });
      }),
    );
  });
});

it('says how a kitchen without hours is planned, and names the days of those that have some', () => {
  expect(hoursWords([])).toEqual(['No hours on file.', 'Planned between 06:00 and 18:00.']);
  const weekdays = ([0, 1, 2] as const).map((weekday) => ({ weekday, from: '08:00', to: '11:00' }));
  expect(hoursWords(weekdays)).toEqual(['Mon–Wed: 08:00–11:00', 'Thu–Sun: closed to us']);
});
