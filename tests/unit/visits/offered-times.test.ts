import { expect, it } from 'vitest';
import { detourMinutes, offeredTimes } from '@/lib/core/visits/offered-times';

const ZONE = 'America/Chicago';
const at = (day: number, time: string) => Date.parse(`2026-12-0${day}T${time}:00-06:00`);
const slot = (day: number, time: string, detourMinutes = 0) => ({
  technicianId: 'tova',
  start: at(day, time),
  end: at(day, time) + 3_600_000,
  detourMinutes,
});

it('adds the way there and on, less the way that it breaks, on that technician’s day alone', () => {
  const drive = (a: number, b: number) => Math.abs(a - b);
  const stop = (technicianId: string, day: number, from: string, to: string, place: number) => ({
    technicianId,
    start: at(day, from),
    end: at(day, to),
    at: place,
  });
  const stops = [stop('tova', 1, '08:00', '09:00', 0), stop('tova', 1, '14:00', '15:00', 10), stop('tova', 2, '08:00', '09:00', 90)];
  const detour = (place: number, day: number, who = 'tova') =>
    detourMinutes({ ...slot(day, '11:00'), technicianId: who }, stops, place, drive, ZONE);
  expect(detour(4, 1)).toBe(0);
  expect(detour(15, 1)).toBe(10);
  expect(detour(-5, 1)).toBe(10);
  expect(detour(60, 2)).toBe(30);
  expect(detour(60, 2, 'mats')).toBe(0);
});

it('offers of each half day the time least out of the way, the first among equals, in order and no more than asked for', () => {
  const free = [slot(1, '08:00', 9), slot(1, '08:30', 4), slot(1, '09:00', 4), slot(1, '13:00'), slot(2, '11:30'), slot(2, '12:00')];
  expect(offeredTimes(free, ZONE, 3).map((s) => s.start)).toEqual([at(1, '08:30'), at(1, '13:00'), at(2, '11:30')]);
  expect(offeredTimes([], ZONE, 3)).toEqual([]);
});
