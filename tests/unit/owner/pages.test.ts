import { describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { OVERDUE_REASONS, overdueTable, type Crew, type OverdueGroup } from '@/lib/core/owner/overdue';
import { filterAddress, foulingFilter } from '@/lib/core/owner/fouling-filter';
import { followHabits } from '@/lib/core/measures/habits';
import { weeklyLetter, type WeekFacts } from '@/lib/core/owner/weekly';

const day = (weekday: 1 | 2, from: string, to: string) => ({ weekday, from, to });
const group = (over: Partial<OverdueGroup> = {}): OverdueGroup => ({ age: 'week', tasks: 3, refrigerant: 'R134a', roofWork: false, hours: [day(1, '08:00', '12:00')], booked: false, otherTime: false, nobodyThere: false, ...over }); // prettier-ignore
const CREW: Crew[] = [{ skills: [], shifts: [day(1, '07:00', '15:00')] }];

describe('why overdue work waits', () => {
  const why = (over: Partial<OverdueGroup>, crew = CREW) => overdueTable([group(over)], crew).map((r) => r.reason);
  it('is the first reason that holds', () => {
    expect(why({})).toEqual(['nobody_booked']);
    expect(why({ nobodyThere: true })).toEqual(['no_answer']);
    expect(why({ booked: true, nobodyThere: true })).toEqual(['booked']);
    expect(why({ booked: true, otherTime: true })).toEqual(['other_time']);
    expect(why({ roofWork: true })).toEqual(['skill']);
    expect(why({ refrigerant: 'R290' })).toEqual(['skill']);
    expect(why({ refrigerant: 'R290', roofWork: true }, [{ skills: ['flammable', 'roof'], shifts: CREW[0]!.shifts }])).toEqual(['nobody_booked']); // prettier-ignore
    expect(why({ roofWork: true }, [{ skills: ['roof'], shifts: [day(2, '07:00', '15:00')] }, ...CREW])).toEqual(['hours']);
    expect(why({}, [])).toEqual(['skill']);
  });
  it('is hours where nobody works then: touching is not meeting', () => {
    expect(why({ hours: [day(1, '15:00', '18:00')] })).toEqual(['hours']);
    expect(why({ hours: [day(1, '14:59', '18:00')] })).toEqual(['nobody_booked']);
    expect(why({ hours: [day(1, '05:00', '07:00')] })).toEqual(['hours']);
    expect(why({ hours: [day(2, '08:00', '12:00')] })).toEqual(['hours']);
    expect(why({ hours: [] })).toEqual(['nobody_booked']);
  });
  it('is summed by age, in one order, without what nobody has', () => {
    const groups = [
      group({ age: 'month', tasks: 2 }),
      group({ tasks: 1 }),
      group({ age: 'older', tasks: 4, booked: true }),
      group({ age: 'quarter', tasks: 5 }),
    ];
    expect(overdueTable(groups, CREW)).toEqual([
      { reason: 'booked', total: 4, by: { week: 0, month: 0, quarter: 0, older: 4 } },
      { reason: 'nobody_booked', total: 8, by: { week: 1, month: 2, quarter: 5, older: 0 } },
    ]);
    expect(OVERDUE_REASONS).toHaveLength(6);
    expect(overdueTable([], CREW)).toEqual([]);
  });
});

const FACTS: WeekFacts = {
  shop: 'Lark Point', name: 'Ruth', monday: localDate('2026-11-30'), baseUrl: 'https://shop.example', last: { planned: 12, done: 11, hours: 31.6 }, next: { planned: 9 },
  overdue: { tasks: 4, toBook: 2, pastLimit: 1, limitDays: 14 }, callsLastWeek: 1, failing: 2, changes: { groups: 2, odd: 1, all: 7 },
  quotes: [{ currency: 'USD', waiting: 2, waitingCents: 123_450 }, { currency: 'EUR', waiting: 0, waitingCents: 0 }], distrust: ['Grades come out worse than expected.'],
}; // prettier-ignore

describe('the letter of Monday', () => {
  it('says what happened, what waits and what to decide, each with its page', () => {
    const { subject, text } = weeklyLetter(FACTS);
    expect(subject).toBe('Lark Point: the week of Mon 30 Nov');
    // As the shop writes its dates.
    followHabits({ dates: 'month_first' });
    expect(weeklyLetter(FACTS).subject).toBe('Lark Point: the week of Mon, Nov 30');
    followHabits({ dates: 'day_first' });
    const lines = text.split('\n');
    expect(lines[0]).toBe('Ruth,');
    expect(lines[2]).toMatch(/^Last week: 11 of 12 visits done, 32 h in kitchens\. Kitchens rang 1 time/);
    expect(lines.slice(3)).toEqual([
      'This week: 9 visits booked.',
      'https://shop.example/owner/shop',
      '',
      'Overdue: 4 tasks, 2 not booked yet, 1 more than 14 days over.',
      'https://shop.example/due?show=overdue&booked=1',
      '',
      'To decide: 2 failing units; 1 change of rules to look at one by one; 6 usual changes in 2 groups.',
      'https://shop.example/owner',
      'In quotes that wait: $1,234.50 in 2 quotes.',
      '',
      'Grades come out worse than expected.',
      'https://shop.example/owner/right',
      '',
      'Lark Point',
      'You get this on Mondays. An owner turns it off under Shop: https://shop.example/shop',
    ]);
  });

  it('says of a quiet week that there was nothing, and opens rules where only they wait', () => {
    const quiet = { ...FACTS, last: { planned: 0, done: 0, hours: 0 }, overdue: { ...FACTS.overdue, tasks: 0 }, failing: 0, changes: { groups: 0, odd: 0, all: 0 }, quotes: [], distrust: [] }; // prettier-ignore
    const { text } = weeklyLetter(quiet);
    expect(text).toContain('Last week: no visit was planned.');
    expect(text).toContain('Nothing is overdue.');
    expect(text).toContain('Nothing waits for your word.');
    expect(text).not.toMatch(/quotes|right|\/due|\/rules/);
    expect(weeklyLetter({ ...FACTS, failing: 0 }).text).toContain('https://shop.example/rules');
    expect(weeklyLetter({ ...FACTS, callsLastWeek: 0 }).text).toContain('Kitchens rang not once');
  });
});

describe('what a ranking is narrowed by', () => {
  const today = localDate('2026-11-28');
  const id = '0d4a3b1e-7f60-4a9c-8d10-2b5f3c6a7e81';
  it('takes what is on the lists and leaves the rest', () => {
    expect(foulingFilter({ by: 'unit', kind: 'display', place: 'wok', customer: id, who: id }, today)).toEqual({ by: 'unit', kind: 'display', place: 'wok', customer: id, who: id }); // prettier-ignore
    expect(foulingFilter({ by: 'x', kind: 'boat', place: 'moon', customer: '7', who: '' }, today)).toEqual({ by: 'kitchen' });
    expect(foulingFilter({ from: '2026-10-01' }, today).days).toEqual({ from: '2026-10-01', to: '2026-11-29' });
    expect(foulingFilter({ until: '2026-10-01' }, today).days).toEqual({ from: '2025-10-02', to: '2026-10-02' });
  });
  it('goes on in the address of the next page', () => {
    expect(filterAddress({ by: 'unit', page: '3', place: 'wok', kind: '' }, { page: '4' })).toBe('by=unit&place=wok&page=4');
  });
});
