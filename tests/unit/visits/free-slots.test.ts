import { describe, expect, it } from 'vitest';
import { clockOf, instantOf, localDate } from '@/lib/core/calendar';
import { boardRows } from '@/lib/core/visits/board-rows';
import { bookingConcerns, SKILL_WORDS, type BookingQuestion } from '@/lib/core/visits/concerns';
import { freeSlots, isFree, type FreeSlotQuestion } from '@/lib/core/visits/free-slots';
import { isFlammable, needsOf } from '@/lib/core/visits/needs';
import { USUAL_KITCHEN_HOURS } from '@/lib/core/visits/service-hours';
import { dayMinutes, hoursShown, spansOn, withinHours } from '@/lib/core/visits/time-grid';

// 30 November 2026 is a Monday, by any printed calendar. The kitchen is an hour ahead of the shop.
const MONDAY = localDate('2026-11-30');
const KITCHEN = 'America/Chicago';
const SHOP = 'America/Denver';
const at = (time: string, date = MONDAY, zone = KITCHEN) => instantOf(date, time, zone);
const span = (from: string, to: string) => ({ start: at(from), end: at(to) });
const off = (startsOn: string, endsOn: string, reason = '') => ({ startsOn: localDate(startsOn), endsOn: localDate(endsOn), reason });
const days = (from: string, to: string) => ([0, 1, 2, 3, 4] as const).map((weekday) => ({ weekday, from, to }));

type Technician = FreeSlotQuestion['technicians'][number];
const technician = (id: string, over: Partial<Technician> = {}): Technician => ({
  id,
  shifts: days('07:00', '15:00'),
  timeOff: [],
  busy: [],
  ...over,
});

describe('free times', () => {
  const ask = (over: Partial<FreeSlotQuestion> = {}) =>
    freeSlots({
      from: MONDAY,
      until: localDate('2026-12-02'),
      notBefore: 0,
      minutes: 60,
      stepMinutes: 30,
      kitchen: { timeZone: KITCHEN, serviceHours: days('08:00', '10:00'), blackouts: [] },
      shopTimeZone: SHOP,
      technicians: [technician('tova')],
      limit: 99,
      ...over,
    });
  const told = (slots: ReturnType<typeof ask>) =>
    slots.map(
      (s) => `${dayMinutes(s.start, s.end, KITCHEN).date.slice(-2)} ${clockOf(dayMinutes(s.start, s.end, KITCHEN).from)} ${s.technicianId}`,
    );

  it('are every half hour at which the kitchen can spare its equipment to the end, day by day', () => {
    expect(told(ask())).toEqual(['30 08:00 tova', '30 08:30 tova', '30 09:00 tova', '01 08:00 tova', '01 08:30 tova', '01 09:00 tova']);
    expect(ask().every((s) => s.end - s.start === 3_600_000)).toBe(true);
    expect(ask({ minutes: 121 })).toEqual([]);
    expect(told(ask({ minutes: 120 }))).toEqual(['30 08:00 tova', '01 08:00 tova']);
  });

  it('begin no sooner than asked, and are no more than asked', () => {
    expect(told(ask({ notBefore: at('08:30') })).slice(0, 2)).toEqual(['30 08:30 tova', '30 09:00 tova']);
    expect(told(ask({ limit: 2 }))).toEqual(['30 08:00 tova', '30 08:30 tova']);
    expect(ask({ limit: 0 })).toEqual([]);
    expect(ask({ until: MONDAY })).toEqual([]);
  });

  it('leave out days on which the kitchen is closed to us, the first day counted and the last not', () => {
    const kitchen = { timeZone: KITCHEN, serviceHours: days('08:00', '09:00'), blackouts: [off('2026-11-30', '2026-12-01')] };
    expect(told(ask({ kitchen }))).toEqual(['01 08:00 tova']);
  });

  it('are offered at the usual hours where a kitchen has none on file', () => {
    const kitchen = { timeZone: KITCHEN, serviceHours: [], blackouts: [] };
    const all = told(ask({ kitchen, until: localDate('2026-12-01') }));
    // The technician’s shift begins at seven by the shop’s clock, eight by the kitchen’s.
    expect([all[0], all.at(-1)]).toEqual(['30 08:00 tova', '30 15:00 tova']);
    expect(USUAL_KITCHEN_HOURS.map((w) => [w.weekday, w.from, w.to])).toEqual([0, 1, 2, 3, 4, 5, 6].map((d) => [d, '06:00', '18:00']));
  });

  it('go to the first who is free, the drive there and away counted in', () => {
    const busy = [{ ...span('10:00', '11:00'), driveMinutes: 30 }];
    const technicians = [technician('tova', { busy }), technician('bram')];
    expect(told(ask({ technicians, until: localDate('2026-12-01') }))).toEqual(['30 08:00 tova', '30 08:30 tova', '30 09:00 bram']);
    const early = [{ ...span('07:00', '07:45'), driveMinutes: 30 }];
    expect(told(ask({ technicians: [technician('tova', { busy: early })], until: localDate('2026-12-01') }))).toEqual([
      '30 08:30 tova',
      '30 09:00 tova',
    ]);
  });
});

describe('somebody is free', () => {
  const free = (over: Partial<Technician>, when = span('09:00', '10:00')) => isFree(technician('tova', over), when, SHOP);

  it('within the shift to its very ends, by the shop’s clock', () => {
    expect(free({ shifts: days('08:00', '09:00') })).toBe(true);
    expect(free({ shifts: days('08:01', '09:00') })).toBe(false);
    expect(free({ shifts: days('08:00', '08:59') })).toBe(false);
    expect(free({ shifts: [{ weekday: 1, from: '00:00', to: '24:00' }] })).toBe(false);
    expect(free({ shifts: [] })).toBe(false);
  });

  it('not on a day off, though another day off is none of this day’s', () => {
    expect(free({ timeOff: [off('2026-11-30', '2026-12-01')] })).toBe(false);
    expect(free({ timeOff: [off('2026-12-01', '2026-12-02'), off('2026-11-29', '2026-11-30')] })).toBe(true);
    expect(free({ timeOff: [off('2026-12-01', '2026-12-02'), off('2026-11-30', '2026-12-01')] })).toBe(false);
  });

  it('with the drive before and after, to the minute', () => {
    const busy = (from: string, to: string, driveMinutes: number) => ({ busy: [{ ...span(from, to), driveMinutes }] });
    expect(free(busy('10:15', '11:00', 15))).toBe(true);
    expect(free(busy('10:15', '11:00', 16))).toBe(false);
    expect(free(busy('07:00', '08:45', 15))).toBe(true);
    expect(free(busy('07:00', '08:45', 16))).toBe(false);
    expect(free(busy('09:10', '09:20', 0))).toBe(false);
  });
});

describe('what speaks against a booking', () => {
  const say = (over: Partial<Omit<BookingQuestion, 'technician'>> & { technician?: Partial<BookingQuestion['technician']> } = {}) =>
    bookingConcerns({
      span: span('09:00', '10:00'),
      kitchen: { timeZone: KITCHEN, serviceHours: days('08:00', '10:00'), blackouts: [] },
      shopTimeZone: SHOP,
      needs: ['flammable'],
      ...over,
      technician: { name: 'Tova', skills: ['flammable'], shifts: days('07:00', '15:00'), timeOff: [], ...over.technician },
    });

  it('is nothing where all fits', () => expect(say()).toEqual([]));

  it('is each skill that is lacking: that alone refuses', () => {
    expect(say({ needs: ['flammable', 'roof'], technician: { skills: [] } })).toEqual([
      { message: 'Tova is not on file for flammable refrigerants.', refuses: true },
      { message: 'Tova is not on file for roof work.', refuses: true },
    ]);
    expect(Object.values(SKILL_WORDS)).toEqual(['flammable refrigerants', 'roof work']);
  });

  it('is the kitchen’s hours, or that it is closed, not both', () => {
    const hours = 'That is outside the hours in which the kitchen can spare its equipment.';
    expect(say({ span: span('09:30', '10:30') })).toEqual([{ message: hours, refuses: false }]);
    const kitchen = { timeZone: KITCHEN, serviceHours: days('11:00', '12:00'), blackouts: [off('2026-11-30', '2026-12-01', 'Inventory')] };
    expect(say({ kitchen })).toEqual([{ message: 'The kitchen is closed to us that day: Inventory.', refuses: false }]);
  });

  it('is the day off, or the shift, or that there is none', () => {
    const words = (technician: Partial<BookingQuestion['technician']>) => say({ technician }).map((c) => c.message);
    expect(words({ timeOff: [off('2026-11-30', '2026-12-01')], shifts: [] })).toEqual(['Tova is off that day.']);
    expect(words({ shifts: [] })).toEqual(['Tova has no shift on file.']);
    expect(words({ shifts: days('12:00', '15:00') })).toEqual(['That is outside Tova’s shift.']);
  });
});

describe('what the units of a visit ask of whoever does it', () => {
  const unit = (refrigerant: string, roofWork = false) => ({ refrigerant, roofWork });
  it('is what burns, by its safety class, and the roof; each once', () => {
    expect(needsOf([unit('R134a'), unit('R744'), unit('unknown')])).toEqual([]);
    expect(needsOf([unit('R290'), unit('R600a'), unit('R134a', true)])).toEqual(['flammable', 'roof']);
    expect(['R290', 'R454C', 'R134a', 'R744', 'unknown'].map(isFlammable)).toEqual([true, true, false, false, false]);
  });
});

describe('the picture of days', () => {
  it('shows a working day at least, in whole hours, and no more than the day has', () => {
    expect(hoursShown([])).toEqual({ from: 480, to: 960 });
    expect(hoursShown([{ from: 390, to: 1000 }])).toEqual({ from: 360, to: 1020 });
    expect(hoursShown([{ from: 600, to: 1500 }])).toEqual({ from: 480, to: 1440 });
  });

  it('has each span by its own clock, on past midnight where it ends there', () => {
    expect(dayMinutes(at('22:30'), at('22:30') + 3 * 3_600_000, KITCHEN)).toEqual({ date: '2026-11-30', from: 1350, to: 1530 });
    expect(spansOn(days('08:30', '10:15'), MONDAY)).toEqual([{ from: 510, to: 615 }]);
    expect(spansOn(days('08:30', '10:15'), localDate('2026-12-05'))).toEqual([]);
    expect([clockOf(570), clockOf(0), clockOf(1500), clockOf(65)]).toEqual(['09:30', '00:00', '01:00', '01:05']);
  });

  it('says whether a visit is within the kitchen’s hours; without any on file it is', () => {
    expect(withinHours(days('08:00', '10:00'), at('08:00'), at('10:00'), KITCHEN)).toBe(true);
    expect(withinHours(days('08:00', '10:00'), at('08:00'), at('10:01'), KITCHEN)).toBe(false);
    expect(withinHours([], at('03:00'), at('04:00'), KITCHEN)).toBe(true);
  });

  it('has a row for everybody who has a visit in it, those who do none any more last, by name', () => {
    const visits = [
      { technicianId: 'x', technician: 'Zoe' },
      { technicianId: 'a', technician: 'Ann' },
      { technicianId: 'y', technician: 'Bo' },
    ];
    expect(boardRows([{ id: 'a', name: 'Ann' }], visits)).toEqual([
      { id: 'a', name: 'Ann', works: true },
      { id: 'y', name: 'Bo', works: false },
      { id: 'x', name: 'Zoe', works: false },
    ]);
  });
});
