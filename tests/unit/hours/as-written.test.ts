import { describe, expect, it } from 'vitest';
import { readDayHours, readWeekHours, writeDayHours, writeWeekHours } from '@/lib/core/hours';

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
    // After the morning comes the afternoon, where nothing tells the halves of the day apart.
    ['6-10, 2-4', '06:00-10:00, 14:00-16:00'],
    ['6:15-10:30 and 2:30-4:45', '06:15-10:30, 14:30-16:45'],
    ['11-3, 5-9', '11:00-15:00, 17:00-21:00'],
    ['9-11, 1-3, 5-7', '09:00-11:00, 13:00-15:00, 17:00-19:00'],
    ['2-4, 6-10', '02:00-04:00, 06:00-10:00'],
    ['06:00-10:00, 2-4', '02:00-04:00, 06:00-10:00'],
    ['6-10am, 2-4', '02:00-04:00, 06:00-10:00'],
    ['14-16, 6-8', '06:00-08:00, 14:00-16:00'],
    // Twelve hours on would be the next day.
    ['12:45-4, 11-12:30', '11:00-12:30, 12:45-16:00'],
    ['6-10am', '06:00-10:00'],
    ['closed', ''],
    ['–', ''],
    ['none', ''],
    ['never', ''],
    // Twelve is noon, and midnight where a day that began after noon ends.
    ['noon-4pm', '12:00-16:00'],
    ['noon-4', '12:00-16:00'],
    ['12-1', '12:00-13:00'],
    ['12-1pm', '12:00-13:00'],
    ['12:15-1pm', '12:15-13:00'],
    ['11:30-12pm', '11:30-12:00'],
    ['12:30-12', '12:30-24:00'],
    ['23-24', '23:00-24:00'],
    ['11pm-midnight', '23:00-24:00'],
    ['12:59am-1am', '00:59-01:00'],
    ['5pm-12am', '17:00-24:00'],
    ['6 a.m. to 12 a.m.', '06:00-24:00'],
    ['noon-12am', '12:00-24:00'],
    ['13-12am', '13:00-24:00'],
    ['18:00-00:00', '18:00-24:00'],
    ['6:00-00:00', '06:00-24:00'],
    ['0-6', '00:00-06:00'],
    // The half of the day with one dot, with two or with none.
    ['6 a.m-2 p.m', '06:00-14:00'],
    ['6a.m.-2p.m.', '06:00-14:00'],
    ['10 A.M. - 6 P.M.', '10:00-18:00'],
    ['6 a-2 p', '06:00-14:00'],
    ['6-10 am', '06:00-10:00'],
    ['2-2:30pm', '14:00-14:30'],
    ['2-2pm', '02:00-14:00'],
    ['13-4pm', '13:00-16:00'],
    ['07-3:30', '07:00-15:30'],
    ['7:15-7', '07:15-19:00'],
    ['630-10', '06:30-10:00'],
    ['6h30 - 22h', '06:30-22:00'],
    ['6→10', '06:00-10:00'],
    ['6‒10', '06:00-10:00'],
    ['6 til 10', '06:00-10:00'],
    ['6 thru 10', '06:00-10:00'],
    ['6 through 10', '06:00-10:00'],
    ['any time', '00:00-24:00'],
    ['24 h', '00:00-24:00'],
    ['6–10 & 14–16', '06:00-10:00, 14:00-16:00'],
    ['6-10+14-16', '06:00-10:00, 14:00-16:00'],
    ['06:00 - 10:30 14:00 - 16:30', '06:00-10:30, 14:00-16:30'],
    ['6.00-10.30  14.00-16.30', '06:00-10:30, 14:00-16:30'],
    [' from 6 to 10 ,  14 to 16 ', '06:00-10:00, 14:00-16:00'],
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
    ['11-3, 2-4', 'The span from 14:00 overlaps the one before it. Join them.'],
    ['6-8, 14-16, 15-17', 'The span from 15:00 overlaps the one before it. Join them.'],
    ['14-16, x', '“x” is not a span of hours. Write it like 06:00-10:30, 6-10:30 or 6am-2pm.'],
    ['6:5-7', 'not a span'],
    ['6-10 ampm', 'not a span'],
    ['x6-10', 'not a span'],
    ['6-10x', 'not a span'],
    ['12345-10', 'not a span'],
    ['noon-12:30am', 'past midnight'],
    ['24:01-24:30', 'not a span'],
    ['allday', 'not a span'],
    ['closed today', 'not a span'],
    ['not closed', 'not a span'],
    ['10-10am', 'starts and ends'],
    ['12am-12am', 'starts and ends'],
    ['midnight-12am', 'starts and ends'],
    ['24-24', 'starts and ends'],
    ['10-12am', 'past midnight'],
    ['5pm-12:30am', 'past midnight'],
    ['13-1', 'past midnight'],
    ['13-12:30', 'past midnight'],
    ['12:00pm-4', 'past midnight'],
    ['midnight-6', 'past midnight'],
    ['7-03:30', 'past midnight'],
    ['07:00-3', '“07:00-3” runs past midnight. End it at 24:00 and put the rest on the next day.'],
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
    ['M-S 6-8', 'Mon-Sat 06:00-08:00'],
    ['m - sat 6-8', 'Mon-Sat 06:00-08:00'],
    ['m - f: 6-8', 'Mon-Fri 06:00-08:00'],
    ['Mon.-Fri. 6-8', 'Mon-Fri 06:00-08:00'],
    ['  Mon 6-8 ', 'Mon 06:00-08:00'],
    ['Sat + Sun 6-8', 'Sat-Sun 06:00-08:00'],
    ['Mon & Tue and Wed 6-8', 'Mon-Wed 06:00-08:00'],
    ['Weekday 6-8', 'Mon-Fri 06:00-08:00'],
    ['week days 6-8', 'Mon-Fri 06:00-08:00'],
    ['week end 7-9', 'Sat-Sun 07:00-09:00'],
    ['weekends 7-9', 'Sat-Sun 07:00-09:00'],
    ['all week 6-8', 'Mon-Sun 06:00-08:00'],
    ['all days 6-8', 'Mon-Sun 06:00-08:00'],
    ['7 days 6-8', 'Mon-Sun 06:00-08:00'],
    ['Mon until Wed 6-8', 'Mon-Wed 06:00-08:00'],
    ['Mon—Wed 6-8', 'Mon-Wed 06:00-08:00'],
    ['Mon through Wed 6-8', 'Mon-Wed 06:00-08:00'],
    ['Mon noon-4', 'Mon 12:00-16:00'],
    ['Mon from 6 to 10', 'Mon 06:00-10:00'],
    ['Mon any time', 'Mon 00:00-24:00'],
    ['Mon: 24h', 'Mon 00:00-24:00'],
    ['Mon none; Tue 6-8', 'Tue 06:00-08:00'],
    ['Mon-Fri 14-16, 6-8', 'Mon-Fri 06:00-08:00, 14:00-16:00'],
    ['6-8\n14-16', 'Mon-Sun 06:00-08:00, 14:00-16:00'],
    // A day's name after hours begins the next day, whatever stands between.
    ['Mon 6-8, Tue 7-9', 'Mon 06:00-08:00; Tue 07:00-09:00'],
    ['Mon-Fri 6-10, 2-4, Sat 7-9', 'Mon-Fri 06:00-10:00, 14:00-16:00; Sat 07:00-09:00'],
    ['Mon–Thu 6am–10am and Fri 7am-9am', 'Mon-Thu 06:00-10:00; Fri 07:00-09:00'],
    ['Mon to Fri 6:30 to 10 Sat-Sun closed', 'Mon-Fri 06:30-10:00'],
    ['Mon closed, Tue all day & Wed 6-noon', 'Tue 00:00-24:00; Wed 06:00-12:00'],
    ['weekdays 6-8 weekends 7-9', 'Mon-Fri 06:00-08:00; Sat-Sun 07:00-09:00'],
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
    ['am-s 6-8', 'not understood'],
    ['am-f 6-8', 'not understood'],
    ['M-Su 6-8', '“M-Su 6-8” is not understood. Write it like Mon-Fri 06:00-10:30; Sat 07:00-09:00, or 06:00-10:30 for every day.'],
    ['T 6-8', 'not understood'],
    ['Mon1 6-8', 'not understood'],
    ['not weekdays 6-8', 'not understood'],
    ['weekdaysish 6-8', 'not understood'],
    ['no weekends 6-8', 'not understood'],
    ['none', 'not understood'],
    // Where a number begins it the hours are at fault, behind a blank or not; else the words.
    [' 6-8, x', '“x” is not a span'],
    ['6-8; bad', '“bad” is not a span'],
    ['x6-8', '“x6-8” is not understood'],
    ['about 6-8', '“about 6-8” is not understood'],
  ])('%j is refused: %s', (text, why) => expect(week(text)).toContain(why));

  it('is written in the order of the day, however it is kept', () => {
    const kept = [
      { weekday: 2, from: '14:00', to: '16:00' },
      { weekday: 1, from: '07:00', to: '09:00' },
      { weekday: 2, from: '06:00', to: '08:00' },
      { weekday: 2, from: '09:30', to: '10:30' },
    ] as const;
    expect(writeDayHours(kept, 2)).toBe('06:00-08:00, 09:30-10:30, 14:00-16:00');
    expect(writeDayHours(kept, 3)).toBe('');
    expect(writeWeekHours(kept)).toBe('Tue 07:00-09:00; Wed 06:00-08:00, 09:30-10:30, 14:00-16:00');
  });

  it('stands on the weekday that was named', () => {
    const read = readWeekHours('Mon 6-7; Sun 8-9');
    expect('windows' in read && read.windows).toEqual([
      { weekday: 0, from: '06:00', to: '07:00' },
      { weekday: 6, from: '08:00', to: '09:00' },
    ]);
  });
});
