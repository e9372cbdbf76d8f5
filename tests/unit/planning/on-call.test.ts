import { describe, expect, it } from 'vitest';
import { withOnCall } from '@/lib/core/planning';

const HOUR = 3_600_000;
const place = { lat: 0, lng: 0 };
const shift = (from: number, to: number, over = {}) => ({
  day: 0,
  hours: { startMs: from * HOUR, endMs: to * HOUR },
  startPlace: place,
  endPlace: place,
  ...over,
});
const spans = (rows: ReturnType<typeof withOnCall>) =>
  rows.map((s) => [s.hours.startMs / HOUR, s.hours.endMs / HOUR, s.overtimeMinutes, s.onCallMinutes ?? null, s.onCall ?? false]);

describe('hours on call beside a shift', () => {
  it('lengthen the shift they follow, and stand alone where they follow none', () => {
    const rows = withOnCall([shift(8, 16, { overtimeMinutes: 60 })], [shift(16, 24), shift(30, 32)]);
    expect(spans(rows)).toEqual([
      [8, 16, 480, 420, false],
      [30, 32, 0, null, true],
    ]);
  });

  it('end where the next shift begins, and an emergency may ask for three hours more of anybody', () => {
    const rows = withOnCall([shift(8, 16, { overtimeMinutes: 60 })], [shift(0, 9)]);
    expect(spans(rows)).toEqual([
      [0, 8, 0, null, true],
      [8, 16, 180, 120, false],
    ]);
  });
});
