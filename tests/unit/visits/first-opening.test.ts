import { describe, expect, it } from 'vitest';
import { firstOpening } from '@/lib/core/visits/service-hours';
import { localDate } from '@/lib/core/calendar';

describe('what a booking form offers', () => {
  const thursday = localDate('2026-11-26');
  it('is the first date with hours from the start on, at its earliest window', () => {
    const windows = [
      { weekday: 3, from: '14:00', to: '16:00' },
      { weekday: 3, from: '06:30', to: '10:30' },
    ] as const;
    expect(firstOpening(windows, thursday)).toEqual({ date: '2026-11-26', from: '06:30' });
  });
  it('passes over closed days', () => {
    expect(firstOpening([{ weekday: 1, from: '13:30', to: '16:00' }], thursday)).toEqual({ date: '2026-12-01', from: '13:30' });
  });
  it('has nothing to say where no hours are on file', () => {
    expect(firstOpening([], thursday)).toBeNull();
  });
});
