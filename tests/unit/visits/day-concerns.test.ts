import { describe, expect, it } from 'vitest';
import { boardRows } from '@/lib/core/visits/board-rows';
import { dayConcerns } from '@/lib/core/visits/concerns';
import { localDate } from '@/lib/core/calendar';

const day = (date: string, reason = '') => ({
  startsOn: localDate(date),
  endsOn: localDate(`${date.slice(0, 9)}${Number(date[9]) + 1}`),
  reason,
});
// 22:30 on Wednesday the 1st in Denver, 00:30 on the 2nd in New York.
const start = Date.parse('2026-07-02T04:30:00Z');
const asked = (closed: string, off: string) =>
  dayConcerns({
    start,
    kitchen: { timeZone: 'America/New_York', blackouts: [day(closed, 'Hood cleaning')] },
    technician: { name: 'Tova', timeOff: [day(off)] },
    shopTimeZone: 'America/Denver',
  });

describe('a visit on the board', () => {
  it('is told to stand on a closed day by the kitchen’s calendar and on a day off by the shop’s', () => {
    expect(asked('2026-07-02', '2026-07-01')).toEqual({
      closed: 'The kitchen is closed to us that day: Hood cleaning.',
      off: 'Tova is off that day.',
    });
    expect(asked('2026-07-01', '2026-07-02')).toEqual({ closed: null, off: null });
  });

  it('has a row, whoever has it', () => {
    const visits = [
      { technicianId: 'b', technician: 'Bastian' },
      { technicianId: 't', technician: 'Tova' },
      { technicianId: 'b', technician: 'Bastian' },
    ];
    expect(boardRows([{ id: 't', name: 'Tova' }], visits)).toEqual([
      { id: 't', name: 'Tova', works: true },
      { id: 'b', name: 'Bastian', works: false },
    ]);
  });
});
