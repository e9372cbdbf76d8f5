import { describe, expect, it } from 'vitest';
import { readDayHours, readWeekHours, writeWeekHours } from '@/lib/core/hours';

const day = (text: string): string => {
  const read = readDayHours(text);
  return 'problem' in read ? read.problem : read.windows.map((w) => `${w.from}-${w.to}`).join(', ');
};
const week = (text: string): string => {
  const read = readWeekHours(text);
  return 'problem' in read ? read.problem : writeWeekHours(read.windows);
};

describe('hours of a day, as people write them', () => {
  it.each([
    ['noon - midnight', '12:00-24:00'],
    ['1am-12pm', '01:00-12:00'],
    ['12am to 1 pm', '00:00-13:00'],
    ['6.30-10.59', '06:30-10:59'],
    ['0600-1030; 2 p.m.–4:30 p.m.', '06:00-10:30, 14:00-16:30'],
    ['14-16 and 6-8', '06:00-08:00, 14:00-16:00'],
    // An end before the beginning is in the afternoon, as long as nothing says otherwise.
    ['7-3:30', '07:00-15:30'],
    ['7-12', '07:00-12:00'],
    ['12:30-4', '12:30-16:00'],
    ['11-12:00', '11:00-12:00'],
    ['All day', '00:00-24:00'],
    ['24 hours', '00:00-24:00'],
    ['24h', '00:00-24:00'],
    ['anytime', '00:00-24:00'],
    // As other programs and people write the stroke and the hour.
    ['06:00‑10:30', '06:00-10:30'],
    ['06:00−10:30', '06:00-10:30'],
    ['06:00—10:30', '06:00-10:30'],
    ['06:00 – 10:30', '06:00-10:30'],
    ['6h-10h30', '06:00-10:30'],
    ['from 6 to 10:30', '06:00-10:30'],
    ['6 until 10:30', '06:00-10:30'],
    ['6 till 10', '06:00-10:00'],
    ['6:00 a.m. - 2:00 p.m.', '06:00-14:00'],
    ['06:00-10:30 14:00-16:30', '06:00-10:30, 14:00-16:30'],
    ['06:00-10:30 / 14:00-16:30', '06:00-10:30, 14:00-16:30'],
    // An afternoon said at the end alone is that of both, where it leaves a span.
    ['2-4pm', '14:00-16:00'],
    ['2-4:30 p.m.', '14:00-16:30'],
    ['6-2pm', '06:00-14:00'],
    ['11-1pm', '11:00-13:00'],
    ['02:00-4pm', '02:00-16:00'],
    ['12-4am', '00:00-04:00'],
    ['6-10am', '06:00-10:00'],
    ['closed', ''],
    ['–', ''],
  ])('%s: %s', (text, hours) => expect(day(text)).toBe(hours));

  it.each([
    ['13pm-14pm', 'not a span'],
    ['0am-1am', 'not a span'],
    ['6:60-7', 'not a span'],
    ['6-25', 'not a span'],
    ['6-7-8', 'not a span'],
    ['afternoon-16', 'not a span'],
    ['6-noonish', 'not a span'],
    ['6-after midnight', 'not a span'],
    ['all day long', 'not a span'],
    ['not 24h', 'not a span'],
    ['06:00-06:00', 'starts and ends'],
    ['07:00-03:30', 'past midnight'],
    ['7pm-3', 'past midnight'],
    ['7-3am', 'past midnight'],
    ['06:30-3', 'past midnight'],
    ['14-9', 'past midnight'],
    ['6-10, 9-11', 'overlaps'],
  ])('%s is refused: %s', (text, why) => expect(day(text)).toContain(why));

  it('lets one span begin where another ends', () => expect(day('6-8, 8-10')).toBe('06:00-08:00, 08:00-10:00'));
});

describe('hours of a week, as people write them', () => {
  it.each([
    // In one go, without a day: every day.
    ['06:00-10:30', 'Mon-Sun 06:00-10:30'],
    ['6-10:30', 'Mon-Sun 06:00-10:30'],
    ['6am-2pm', 'Mon-Sun 06:00-14:00'],
    ['06:00 – 10:30; 14:00 – 16:00', 'Mon-Sun 06:00-10:30, 14:00-16:00'],
    ['all day', 'Mon-Sun 00:00-24:00'],
    ['M-F 6-10:30', 'Mon-Fri 06:00-10:30'],
    ['M–Sat: 6am–10am', 'Mon-Sat 06:00-10:00'],
    ['weekdays 7-3:30; weekend closed', 'Mon-Fri 07:00-15:30'],
    ['Mon to Fri 6-8; Sat & Sun 7-9', 'Mon-Fri 06:00-08:00; Sat-Sun 07:00-09:00'],
    ['Mon/Wed/Fri 6-8', 'Mon 06:00-08:00; Wed 06:00-08:00; Fri 06:00-08:00'],
    ['Tues thru Thurs 6-8', 'Tue-Thu 06:00-08:00'],
    ['7 days a week: 6-8', 'Mon-Sun 06:00-08:00'],
    ['daily 6-10', 'Mon-Sun 06:00-10:00'],
    ['every day: all day', 'Mon-Sun 00:00-24:00'],
    ['Everyday 6-8', 'Mon-Sun 06:00-08:00'],
    ['Fri-Mon 6-8', 'Mon 06:00-08:00; Fri-Sun 06:00-08:00'],
    ['Tuesday, Thu 7-9 | Sat closed', 'Tue 07:00-09:00; Thu 07:00-09:00'],
    ['Sun 7-9\nMon 6-8', 'Mon 06:00-08:00; Sun 07:00-09:00'],
    ['', ''],
    [' ; ', ''],
  ])('%j: %s', (text, hours) => expect(week(text)).toBe(hours));

  it.each([
    ['Mox 6-8', 'not understood'],
    ['Mon- 6-8', 'not understood'],
    ['Mon-Wed-Fri 6-8', 'not understood'],
    ['dailyish 6-8', 'not understood'],
    ['on daily 6-8', 'not understood'],
    ['1 Mon 6-8', 'not a span'],
    ['closed', 'not understood'],
    ['6-8; Mon 9-10', 'not understood'],
    ['Mon 6-8; 9-10', 'not understood'],
    ['6-8; 7-9', 'overlaps'],
    ['10-9am', 'past midnight'],
    ['by arrangement', 'not understood'],
    ['Mon 6-8; Mon-Tue 9-10', 'Mon is given twice'],
    ['Mon 6-5am', 'past midnight'],
  ])('%j is refused: %s', (text, why) => expect(week(text)).toContain(why));

  it('stands on the weekday that was named', () => {
    const read = readWeekHours('Mon 6-7; Sun 8-9');
    expect('windows' in read && read.windows).toEqual([
      { weekday: 0, from: '06:00', to: '07:00' },
      { weekday: 6, from: '08:00', to: '09:00' },
    ]);
  });
});
