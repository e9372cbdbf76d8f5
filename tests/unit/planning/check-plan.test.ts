import { describe, expect, it } from 'vitest';
import { checkPlan, type PlannedVisit, type Round, type WeekProblem } from '@/lib/core/planning';
import { MONDAY_DAY, PRICES, at } from '../../support/planning-weeks';

const shop = { lat: 41, lng: -87 };
const DAY = MONDAY_DAY;
const span = (from: number, to: number) => ({ startMs: at(DAY, from), endMs: at(DAY, to) });
const task = { kitchenId: 'k', name: 'Coil', minutes: 30, dueDay: DAY, intervalDays: 30, unitId: 'u' } as const;
const WEEK: WeekProblem = {
  technicians: [
    {
      id: 'a',
      name: 'Ann',
      skills: ['roof'],
      shifts: [{ day: DAY, hours: span(8, 16), startPlace: shop, endPlace: shop, overtimeMinutes: 60 }],
    },
    { id: 'b', name: 'Bo', skills: [], shifts: [{ day: DAY, hours: span(8, 16), startPlace: shop, endPlace: shop }] },
  ],
  kitchens: [
    { id: 'k', name: 'Near', place: { lat: 41.01, lng: -87 }, open: [span(8, 11), span(14, 17)] },
    { id: 'far', name: 'Far', place: { lat: 41.4, lng: -87 }, open: [span(6, 20)], skills: ['roof'] },
  ],
  tasks: [
    { ...task, id: 'coil', role: 'coil_cleaning' },
    { ...task, id: 'low', role: 'low_side_inspection' },
    { ...task, id: 'part', unitId: 'w', notBeforeDay: DAY + 1, name: 'Fan' },
    { ...task, id: 'top', kitchenId: 'far', unitId: 'x' },
  ],
  fixed: [{ id: 'f', technicianId: 'b', kitchenId: 'k', hours: span(14, 15), mayRunLateMinutes: 10, taskIds: ['promised'] }],
  travel: { circuity: 1.3, speedKmh: 35 },
  prices: PRICES,
  startsEveryMinutes: 5,
  nextDay: DAY + 1,
};
const visit = (over: Partial<PlannedVisit> = {}): PlannedVisit => ({ kitchenId: 'k', technicianId: 'a', day: DAY, hours: span(9, 10), taskIds: ['coil', 'low'], driveMinutes: 3, fixedId: null, lateMinutes: 0, ...over }); // prettier-ignore
const round = (over: Partial<Round> = {}): Round => ({ technicianId: 'a', day: DAY, leaveMs: at(DAY, 8), backMs: at(DAY, 16), driveMinutes: 6, homeDriveMinutes: 3, overtimeMinutes: 0, visits: [0], ...over }); // prettier-ignore
const broken = (visits: PlannedVisit[], rounds: Round[] = [], week = WEEK) => checkPlan(week, { visits, rounds }).map((v) => v.code);

describe('a plan is checked from scratch before it is saved', () => {
  it('finds nothing in one that keeps everything, to the minute', () => {
    expect(broken([visit()], [round()])).toEqual([]);
    expect(broken([visit({ hours: span(8, 11) })])).toEqual([]);
    expect(broken([visit({ hours: span(14, 17) })], [round({ backMs: at(DAY, 17.25) })])).toEqual(['off_shift']);
    expect(broken([visit({ hours: span(14, 16.5) })], [round({ backMs: at(DAY, 17) })])).toEqual([]);
  });

  it.each<[string, Partial<PlannedVisit>]>([
    ['outside_hours', { hours: span(10.5, 11.5) }],
    ['outside_hours', { hours: span(7.5, 9) }],
    ['outside_hours', { hours: span(10, 15) }],
    ['off_step', { hours: { startMs: at(DAY, 9) + 60_000, endMs: at(DAY, 10) } }],
    ['low_side', { taskIds: ['coil'] }],
    ['too_early', { taskIds: ['part'] }],
    ['unknown', { taskIds: ['low', 'nothing'] }],
    ['unknown', { taskIds: ['top'] }],
    ['unknown', { kitchenId: 'nowhere' }],
    ['unknown', { technicianId: 'nobody' }],
    ['two_places', { technicianId: 'b', hours: span(14.5, 15.5) }],
    ['fixed_moved', { fixedId: 'f', technicianId: 'a', hours: span(14, 15) }],
    ['fixed_moved', { fixedId: 'f', technicianId: 'b', hours: span(13.9, 15) }],
    ['fixed_moved', { fixedId: 'f', technicianId: 'b', hours: span(14.2, 15.2) }],
    ['fixed_moved', { fixedId: 'other', technicianId: 'b', hours: span(14, 15) }],
  ])('says %s', (code, over) => {
    expect(broken([visit(over)])).toEqual([code]);
  });

  it('lets a visit follow a booked one, and a booked one begin as late as it may', () => {
    expect(broken([visit({ technicianId: 'b', hours: span(15, 16) })])).toEqual([]);
    expect(broken([visit({ fixedId: 'f', technicianId: 'b', taskIds: ['promised'], hours: span(14 + 10 / 60, 15.2) })])).toEqual([]);
  });

  it('takes a booked visit for where the plan has it, and one that the plan does not hold for where it was booked', () => {
    const late = visit({ fixedId: 'f', technicianId: 'b', taskIds: ['promised'], hours: span(14 + 10 / 60, 15 + 10 / 60) });
    const before = visit({ technicianId: 'b', taskIds: [], hours: span(14, 14 + 10 / 60) });
    expect(broken([before, late])).toEqual([]);
    expect(broken([before])).toEqual(['two_places']);
    expect(broken([late, visit({ technicianId: 'b', taskIds: [], hours: span(15, 16) })])).toEqual(['two_places']);
  });

  it('asks of each visit that it lies in one of the shifts of the day, not between two of them', () => {
    const [ann] = WEEK.technicians;
    if (!ann) throw new Error('Ann');
    const shifts = [[8, 10], [13, 16]].map(([from, to]) => ({ day: DAY, hours: span(from ?? 0, to ?? 0), startPlace: shop, endPlace: shop })); // prettier-ignore
    const split = { ...WEEK, technicians: [{ ...ann, shifts }] };
    const out = (from: number, to: number, leave: number, back: number) =>
      broken([visit({ taskIds: [], hours: span(from, to) })], [round({ leaveMs: at(DAY, leave), backMs: at(DAY, back) })], split);
    expect(out(8.5, 9.5, 8, 10)).toEqual([]);
    expect(out(14, 15, 13, 16)).toEqual([]);
    expect(out(9.5, 10.5, 9, 11)).toEqual(['off_shift']);
    expect(out(14, 16.5, 13, 17)).toEqual(['off_shift']);
    expect(out(14, 15, 12.5, 16)).toEqual(['off_shift']);
    const both = [visit({ taskIds: [], hours: span(8.5, 9.5) }), visit({ taskIds: [], hours: span(14, 15) })];
    expect(broken(both, [round({ visits: [0, 1] })], split)).toEqual(['off_shift']);
    // What was promised may lie anywhere, and takes the day with it.
    const promised = [visit({ fixedId: 'f', technicianId: 'b', taskIds: ['promised'], hours: span(14, 15) })];
    expect(broken(promised, [round({ technicianId: 'b', day: DAY + 5, leaveMs: at(DAY, 13), backMs: at(DAY, 20) })], split)).toEqual(['unknown', 'off_shift']); // prettier-ignore
    expect(broken(promised, [round({ technicianId: 'b', day: DAY + 5, leaveMs: at(DAY, 13), backMs: at(DAY, 20) })])).toEqual([]);
  });

  it('says what is wrong, of whom and where', () => {
    const said = (visits: PlannedVisit[], rounds: Round[] = []) => checkPlan(WEEK, { visits, rounds }).map((v) => v.message);
    expect(said([visit({ hours: span(10.5, 11.5) })])).toEqual(['The visit at Near is outside its service hours.']);
    expect(said([visit({ hours: { startMs: at(DAY, 9) + 60_000, endMs: at(DAY, 10) } })])).toEqual(['The visit at Near begins on an odd minute.']); // prettier-ignore
    expect(said([visit({ taskIds: ['coil'] })])).toEqual(['Near: Coil does not ride along with the coil cleaning.']);
    expect(said([visit({ taskIds: ['part'] })])).toEqual(['Fan may not be done yet on that day.']);
    expect(said([visit({ taskIds: ['top'] })])).toEqual(['A visit at Near has a task that is not its own.']);
    expect(said([visit({ technicianId: 'x' })])).toEqual(['A visit is at k with x; one of them is not in the week.']);
    expect(said([visit({ technicianId: 'b', hours: span(14.5, 15.5) })])).toEqual(['Bo is booked elsewhere at the time of the visit at Near.']); // prettier-ignore
    expect(said([visit({ technicianId: 'b', kitchenId: 'far', taskIds: ['top'] })])).toEqual(['Bo lacks roof for Far.']);
    expect(said([visit({ fixedId: 'other' })])).toEqual(['The fixed visit other does not stay where it was.']);
    expect(said([visit(), visit({ hours: span(14, 15) })])).toEqual(['coil is in two visits.', 'low is in two visits.']);
    expect(said([visit()], [round({ leaveMs: at(DAY, 7.9) })])).toEqual([`Ann is on the road outside the shift of day ${DAY}.`]);
    expect(said([visit()], [round({ technicianId: 'nobody' })])).toEqual([`nobody has no shift on day ${DAY}.`]);
    const far = visit({ kitchenId: 'far', taskIds: ['top'], hours: span(9.5, 14.5) });
    expect(said([far], [round()])).toEqual(['Ann cannot be at Far in time.', 'Ann cannot be at the last stop in time.']);
    expect(said([visit(), visit({ taskIds: [], hours: span(14, 15) })], [round({ backMs: at(DAY, 12) }), round({ leaveMs: at(DAY, 11), visits: [1] })])).toEqual([`a has two rounds that overlap on day ${DAY}.`]); // prettier-ignore
  });

  it('asks for the skills of kitchen and task', () => {
    const far = visit({ kitchenId: 'far', taskIds: ['top'] });
    expect(broken([far])).toEqual([]);
    expect(broken([{ ...far, technicianId: 'b' }])).toEqual(['skill']);
    const tasks = WEEK.tasks.map((t) => (t.id === 'coil' ? { ...t, skills: ['flammable'] } : t));
    expect(broken([visit()], [], { ...WEEK, tasks })).toEqual(['skill']);
  });

  it('does no task twice, and takes a low side that a booked visit looks at as looked at', () => {
    expect(broken([visit(), visit({ hours: span(14, 15) })])).toEqual(['twice', 'twice']);
    const fixed = [{ ...WEEK.fixed![0]!, taskIds: ['low'] }];
    expect(broken([visit({ taskIds: ['coil'] })], [], { ...WEEK, fixed })).toEqual([]);
  });

  it('keeps rounds within their shift, overtime included', () => {
    expect(broken([visit()], [round({ leaveMs: at(DAY, 7.9) })])).toEqual(['off_shift']);
    expect(broken([visit({ technicianId: 'b' })], [round({ technicianId: 'b', backMs: at(DAY, 16.1) })])).toEqual(['off_shift']);
    expect(broken([visit()], [round({ day: DAY + 1 })])).toEqual(['off_shift']);
    expect(broken([visit()], [round({ technicianId: 'nobody' })])).toEqual(['off_shift']);
  });

  it('reaches each stop from the one before, and the last place in time', () => {
    const far = visit({ kitchenId: 'far', taskIds: ['top'], hours: span(9.5, 10) });
    // 44.5 km × 1.3 at 35 km/h are 100 minutes: from the shop at 8 o'clock it is 9:40 at the earliest.
    expect(broken([far], [round()])).toEqual(['two_places']);
    expect(broken([{ ...far, hours: span(9.75, 10) }], [round()])).toEqual([]);
    expect(broken([{ ...far, hours: span(9.75, 14.5) }], [round()])).toEqual(['two_places']);
    expect(broken([visit(), { ...far, hours: span(11, 12) }], [round({ visits: [0, 1] })])).toEqual(['two_places']);
  });

  it('finds two rounds at once in whatever order rounds are written, of whoever', () => {
    const rounds = [
      round({ backMs: at(DAY, 12) }),
      round({ leaveMs: at(DAY, 11.5), backMs: at(DAY, 15) }),
      round({ technicianId: 'b', leaveMs: at(DAY, 9), backMs: at(DAY, 11) }),
      round({ technicianId: 'b', leaveMs: at(DAY, 11), backMs: at(DAY, 14) }),
    ].map((one) => ({ ...one, visits: [] }));
    const orders = (list: Round[]): Round[][] => (list.length < 2 ? [list] : list.flatMap((one, i) => orders(list.filter((_, k) => k !== i)).map((rest) => [one, ...rest]))); // prettier-ignore
    for (const order of orders(rounds)) expect(checkPlan(WEEK, { visits: [], rounds: order }).map((v) => v.message)).toEqual([`a has two rounds that overlap on day ${DAY}.`]); // prettier-ignore
  });

  it('sends nobody on two rounds at once', () => {
    const two = (leaveMs: number) => [round({ backMs: at(DAY, 12) }), round({ leaveMs, visits: [1] })];
    const visits = [visit(), visit({ taskIds: [], hours: span(14, 15) })];
    expect(broken(visits, two(at(DAY, 12)))).toEqual([]);
    expect(broken(visits, two(at(DAY, 11.9)))).toEqual(['two_places']);
    expect(broken([visit(), visit({ technicianId: 'b', taskIds: [], hours: span(8.5, 9) })], [round(), round({ technicianId: 'b', visits: [1] })])).toEqual([]); // prettier-ignore
  });
});
