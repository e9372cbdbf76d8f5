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
    // A day alone goes with the closed one that it stands beside, on the side where the word leaves room.
    ['Fri, Sat, Sun closed', [4, 5, 6], ''],
    ['closed Fri, Sat, and Sun', [4, 5, 6], ''],
    ['closed Mon, Sat closed', [0, 5], ''],
    ['closed Mon; Sat', [0, 5], ''],
    ['Sat, closed Sun', [6], 'Sat'],
    ['Tue closed, Wed', [1], 'Wed'],
    ['Sat, Sun closed, Mon', [5, 6], 'Mon'],
    ['Fri, closed Mon, Tue', [0, 1], 'Fri'],
    ['Sat, ring twice, Sun closed', [6], 'Sat, ring twice'],
    ['closed Mon, ring twice, Sat', [0], 'ring twice, Sat'],
    ['always closed Mon', [0], ''],
    ['Mon always closed', [0], ''],
    ['Mon: shut', [0], ''],
    ['closed each Mon', [0], ''],
    ['closed: Mon', [0], ''],
    ['closed day: Mon', [0], ''],
    ['closed on Mon + Tue', [0, 1], ''],
    ['closed Mon–Wed', [0, 1, 2], ''],
    ['closed Mon to Wed', [0, 1, 2], ''],
    ['closed Mon thru Wed', [0, 1, 2], ''],
    ['weekend closed', [5, 6], ''],
    ['closed week ends', [5, 6], ''],
    ['note: shut Sun', [6], ''],
    ['Kitchen info:  closed Fri', [4], ''],
    ['ring (closed Wed) twice | key', [2], 'ring; twice; key'],
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
    'and Tue',
    'Mon, Tue',
    'door closed, Mon',
    'Mon, door closed',
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
    // Copied to the days that it names, it says the same.
    expect(readDayLines(lines({ 0: 'Mon-Fri 6-10', 1: 'Mon-Fri 6-10', 2: 'Mon-Fri 6-10', 3: 'Mon-Fri 6-10', 4: ' Mon-Fri 6-10' }))).toEqual({ windows: five }); // prettier-ignore
    expect(readDayLines(lines({ 1: 'Tue 6-10' }))).toEqual({ windows: [day(1, '06:00', '10:00')] });
    expect(readDayLines(lines({ 0: 'Mon 6-8; Tue 7-9', 1: 'Mon 6-8; Tue 7-9' }))).toEqual({ windows: [day(0, '06:00', '08:00'), day(1, '07:00', '09:00')] }); // prettier-ignore
    expect(readDayLines(lines({ 0: 'Mon–Tue 6-10', 1: '  ' }))).toEqual({ windows: [day(0, '06:00', '10:00'), day(1, '06:00', '10:00')] });
    expect(readDayLines(lines({ 5: 'Sat-Sun 6-8', 6: 'Sat-Sun 6-8' }))).toEqual({ windows: [day(5, '06:00', '08:00'), day(6, '06:00', '08:00')] }); // prettier-ignore
  });
  it('says in the line what is wrong, where two lines say the same day or the line is another day’s', () => {
    expect(readDayLines(lines({ 0: 'Mon-Fri 6-10', 2: '7-9' }))).toEqual({ problems: [{ at: 0, problem: 'Wed’s own line is filled in too. Write Mon’s alone here, like 6-10.' }] }); // prettier-ignore
    expect(readDayLines(lines({ 0: 'Mon-Fri 6-10', 3: 'closed' }))).toHaveProperty('problems');
    expect(readDayLines(lines({ 1: 'Wed 6-10' }))).toEqual({ problems: [{ at: 1, problem: 'This is Tue’s line. Write its hours alone, like 6-10.' }] }); // prettier-ignore
    const taken = (of: string, own: string) => `${of}’s own line is filled in too. Write ${own}’s alone here, like 6-10.`;
    expect(readDayLines(lines({ 0: 'Mon-Tue 6-10', 1: 'Mon-Tue 7-8' }))).toEqual({ problems: [{ at: 0, problem: taken('Tue', 'Mon') }, { at: 1, problem: taken('Mon', 'Tue') }] }); // prettier-ignore
    expect(readDayLines(lines({ 0: '6-10', 1: 'Mon-Fri 7-9' }))).toEqual({ problems: [{ at: 1, problem: taken('Mon', 'Tue') }] });
    expect(readDayLines(lines({ 0: 'Sat-Sun 6-8', 5: 'Sat-Sun 6-8' }))).toEqual({ problems: [{ at: 0, problem: 'This is Mon’s line. Write its hours alone, like 6-10.' }] }); // prettier-ignore
    expect(readDayLines(lines({ 0: 'whenever', 5: '22-2' }))).toEqual({ problems: [
      { at: 0, problem: '“whenever” is not a span of hours. Write it like 06:00-10:30, 6-10:30 or 6am-2pm.' },
      { at: 5, problem: '“22-2” runs past midnight. End it at 24:00 and put the rest on the next day.' },
    ] }); // prettier-ignore
    for (const odd of ['Mon-Fri', 'Mon-Fri 6-6', 'Mon closed']) expect(readDayLines(lines({ 0: odd })), odd).toHaveProperty('problems');
  });
});
