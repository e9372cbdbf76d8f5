import { describe, expect, it } from 'vitest';
import { instantOf, localDate } from '@/lib/core/calendar';
import { handRound, type HandQuestion, type VisitToHand } from '@/lib/core/visits/hand-round';

// 30 November 2026 is a Monday, by any printed calendar. Who goes where is worked out by hand beside each case.
const ZONE = 'America/Denver';
const at = (time: string, date = '2026-11-30') => instantOf(localDate(date), time, ZONE);
const days = (from: string, to: string) => ([0, 1, 2, 3, 4] as const).map((weekday) => ({ weekday, from, to }));
const off = (startsOn: string, endsOn: string) => ({ startsOn: localDate(startsOn), endsOn: localDate(endsOn), reason: '' });

type Person = HandQuestion['technicians'][number];
const person = (id: string, over: Partial<Person> = {}): Person => ({
  ...{ id, shifts: days('08:00', '16:00'), timeOff: [], skills: [] },
  ...over,
});
const away = person('tova', { timeOff: [off('2026-11-30', '2026-12-01')], skills: ['flammable'] });
const visit = (id: string, from: string, to: string, over: Partial<VisitToHand> = {}): VisitToHand => ({
  ...{ id, start: at(from), end: at(to), kitchenId: `k-${id}`, needs: [], fixed: false, emergency: false },
  kitchen: { timeZone: ZONE, serviceHours: days('08:00', '16:00'), blackouts: [] },
  ...over,
});
const ask = (visits: VisitToHand[], over: Partial<HandQuestion> = {}) =>
  handRound({
    ...{ visits, technicians: [away, person('otis')], held: [], shopTimeZone: ZONE },
    ...{ notBefore: at('06:00'), daysAhead: 3, drive: () => 0, ...over },
  }).map((h) =>
    'start' in h ? `${h.visitId} ${h.technicianId} ${new Date(h.start).toISOString().slice(8, 16)} ${h.changes}` : `${h.visitId} ${h.why}`,
  );
const held = (from: string, to: string, technicianId = 'otis', date?: string) => ({
  ...{ technicianId, kitchenId: 'k-held', start: at(from, date), end: at(to, date) },
});

describe('visits of somebody who is away', () => {
  it('go to whoever is free at their own time', () => {
    expect(ask([visit('a', '09:00', '10:00')])).toEqual(['a otis 30T16:00 who']);
    // Free to the minute: what ends as it begins is not in the way.
    expect(ask([visit('a', '09:00', '10:00')], { held: [held('08:00', '09:00'), held('10:00', '11:00')] })).toEqual([
      'a otis 30T16:00 who',
    ]);
  });

  it('else to the nearest time of their day, the drive counted in, else to the first day after', () => {
    const booked = { held: [held('09:30', '10:00')] };
    expect(ask([visit('a', '09:00', '10:00')], booked)).toEqual(['a otis 30T15:30 time']);
    expect(ask([visit('a', '09:00', '10:00')], { ...booked, drive: () => 20 })).toEqual(['a otis 30T15:00 time']);
    expect(ask([visit('a', '09:00', '10:00')], { held: [held('08:00', '16:00')] })).toEqual(['a tova 01T16:00 day']);
    const full = {
      held: [held('08:00', '16:00'), held('08:00', '16:00', 'otis', '2026-12-01'), held('08:00', '12:00', 'tova', '2026-12-01')],
    };
    expect(ask([visit('a', '09:00', '10:00')], full)).toEqual(['a tova 01T19:00 day']);
  });

  it('hold their time against one another: what cannot wait first, then what was promised, then in order of time', () => {
    const all = [visit('plain', '08:30', '09:30'), visit('now', '09:00', '10:00', { emergency: true })];
    expect(ask(all)).toEqual(['plain otis 30T15:00 time', 'now otis 30T16:00 who']);
    expect(ask([visit('plain', '08:30', '09:30'), visit('promised', '09:00', '10:00', { fixed: true })])).toEqual([
      'plain otis 30T15:00 time',
      'promised otis 30T16:00 who',
    ]);
  });

  it('stay where nobody may, nobody can or the time was promised', () => {
    expect(ask([visit('roof', '09:00', '10:00', { needs: ['roof'] })])).toEqual(['roof skill']);
    expect(ask([visit('gas', '09:00', '10:00', { needs: ['flammable'] })])).toEqual(['gas tova 01T16:00 day']);
    const taken = { held: [held('08:00', '16:00')] };
    expect(ask([visit('a', '09:00', '10:00', { fixed: true })], taken)).toEqual(['a fixed']);
    expect(ask([visit('a', '09:00', '10:00')], { ...taken, daysAhead: 0 })).toEqual(['a full']);
  });

  it('never go into the past, to a closed kitchen, or outside its hours', () => {
    expect(ask([visit('a', '09:00', '10:00')], { notBefore: at('11:10') })).toEqual(['a otis 30T18:15 time']);
    const closed = { ...visit('a', '09:00', '10:00').kitchen, blackouts: [off('2026-12-01', '2026-12-02')] };
    expect(ask([visit('a', '09:00', '10:00', { kitchen: closed })], { held: [held('08:00', '16:00')] })).toEqual(['a tova 02T16:00 day']);
    const late = { ...visit('a', '09:00', '10:00').kitchen, serviceHours: days('13:00', '14:00') };
    expect(ask([visit('a', '09:00', '10:00', { kitchen: late })], { held: [held('09:00', '10:00')] })).toEqual(['a otis 30T20:00 time']);
    // No hours on file: the usual ones.
    const unsaid = { ...late, serviceHours: [] };
    expect(ask([visit('a', '09:00', '10:00', { kitchen: unsaid })], { held: [held('09:00', '10:00')] })).toEqual(['a otis 30T15:00 time']);
  });
});
