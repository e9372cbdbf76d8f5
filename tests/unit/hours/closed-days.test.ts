import { describe, expect, it } from 'vitest';
import { closedDays, readDayLines } from '@/lib/core/hours';

const NONE: number[] = [];

describe('closed days in a note', () => {
  it.each([
    ['closed Mon', [0], ''],
    ['Closed Mondays.', [0], ''],
    ['CLOSED ON SUNDAYS', [6], ''],
    ['shut every Tues', [1], ''],
    ['Mon closed', [0], ''],
    ['Wednesdays: closed', [2], ''],
    ['closed Sat & Sun', [5, 6], ''],
    ['closed Sat, Sun', [5, 6], ''],
    ['Sat, Sun closed', [5, 6], ''],
    ['closed Mon and Thurs', [0, 3], ''],
    ['closed Sun-Tue', [0, 1, 6], ''],
    ['closed Mon through Wed', [0, 1, 2], ''],
    ['closed weekends', [5, 6], ''],
    ['Days closed: Mon/Tue', [0, 1], ''],
    ['Kitchen info: closed Fri', [4], ''],
    ['use back door, closed Mon', [0], 'use back door'],
    ['closed Mon; key at the bar (ring twice)', [0], 'key at the bar; ring twice'],
    ['Fri belt worn, closed Mon, and Tue', [0, 1], 'Fri belt worn'],
    ['Closed Sunday.\nCall ahead', [6], 'Call ahead'],
    ['6-10, 14-16; closed Mon', [0], '6-10, 14-16'],
  ] as const)('“%s” is %j', (note, days, rest) => expect(closedDays(note)).toEqual({ days, unclear: false, rest }));

  it.each([
    'closed Mon in winter', 'closed Mon 2-4', 'not closed Mon', 'closed Mon until June', 'closed first Mon of the month', 'use back door when closed Mon',
    'open Mon if not closed', 'closed Mon-Sun', 'closed Mon; closed Tue mornings', 'Mon closed for deliveries', 'closed Mon Jan 5', 'closed most Mondays', 'shut Sunday?',
  ])('“%s” is left unread, and said to be', (note) => expect(closedDays(note)).toMatchObject({ days: [], unclear: true })); // prettier-ignore

  it.each([
    '',
    'door closed',
    'closed for holidays',
    'Monday is delivery',
    'Sun side of the roof',
    'gasket shut tight, monkey bars',
    'keep lid closed',
    'Sat',
  ])('“%s” says nothing of it', (note) => expect(closedDays(note)).toMatchObject({ days: NONE, unclear: false }));
});

describe('a line for each day', () => {
  const lines = (over: Record<number, string>) => Array.from({ length: 7 }, (_, i) => over[i] ?? '');
  const day = (weekday: number, from: string, to: string) => ({ weekday, from, to });
  it('takes hours alone, each for its day', () => {
    expect(readDayLines(lines({ 0: '6-10', 4: 'closed', 6: '7-9, 14-16' }))).toEqual({ windows: [day(0, '06:00', '10:00'), day(6, '07:00', '09:00'), day(6, '14:00', '16:00')] }); // prettier-ignore
    expect(readDayLines([])).toEqual({ windows: [] });
  });
  it('takes the days as well, for the lines that stand empty', () => {
    const five = [0, 1, 2, 3, 4].map((d) => day(d, '06:00', '10:00'));
    expect(readDayLines(lines({ 0: 'Mon-Fri 6-10' }))).toEqual({ windows: five });
    expect(readDayLines(lines({ 0: 'Mon–Fri 6-10; Sat 7-9', 6: '8-9' }))).toEqual({ windows: [...five, day(5, '07:00', '09:00'), day(6, '08:00', '09:00')] }); // prettier-ignore
    expect(readDayLines(lines({ 2: 'weekdays 6-10' }))).toEqual({ windows: five });
    expect(readDayLines(lines({ 1: 'Tue 6-10' }))).toEqual({ windows: [day(1, '06:00', '10:00')] });
  });
  it('says in the line what is wrong, where two lines say the same day or the line is another day’s', () => {
    expect(readDayLines(lines({ 0: 'Mon-Fri 6-10', 2: '7-9' }))).toEqual({ problems: [{ at: 0, problem: 'Wed’s own line is filled in too. Write Mon’s alone here, like 6-10.' }] }); // prettier-ignore
    expect(readDayLines(lines({ 0: 'Mon-Fri 6-10', 3: 'closed' }))).toHaveProperty('problems');
    expect(readDayLines(lines({ 1: 'Wed 6-10' }))).toEqual({ problems: [{ at: 1, problem: 'This is Tue’s line. Write its hours alone, like 6-10.' }] }); // prettier-ignore
    expect(readDayLines(lines({ 0: 'whenever', 5: '22-2' }))).toEqual({ problems: [
      { at: 0, problem: '“whenever” is not a span of hours. Write it like 06:00-10:30, 6-10:30 or 6am-2pm.' },
      { at: 5, problem: '“22-2” runs past midnight. End it at 24:00 and put the rest on the next day.' },
    ] }); // prettier-ignore
    for (const odd of ['Mon-Fri', 'Mon-Fri 6-6', 'Mon closed']) expect(readDayLines(lines({ 0: odd })), odd).toHaveProperty('problems');
  });
});
