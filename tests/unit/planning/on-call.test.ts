import fc from 'fast-check';
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

  it('leave no hour on call uncovered, and none covered twice', () => {
    // Shifts of 8 hours on some of three days; on call from any hour for some.
    const hours = fc.array(fc.tuple(fc.integer({ min: 0, max: 70 }), fc.integer({ min: 1, max: 20 })), { maxLength: 1 });
    const worked = fc.subarray([8, 32, 56]);
    fc.assert(
      fc.property(worked, hours, fc.constantFrom(0, 60), (days, calls, overtimeMinutes) => {
        const rows = withOnCall(
          days.map((from) => shift(from, from + 8, { overtimeMinutes })),
          calls.map(([from, length]) => shift(from, from + length)),
        );
        const working = rows.filter((r) => !r.onCall);
        const apart = rows.filter((r) => r.onCall);
        expect(working.map((r) => r.hours)).toEqual(days.map((from) => shift(from, from + 8).hours));
        for (const r of working) expect((r.overtimeMinutes ?? 0) - (r.onCallMinutes ?? 0)).toBe(overtimeMinutes);
        for (const r of working) expect(r.overtimeMinutes).toBeGreaterThanOrEqual(180);
        for (let h = 0.5; h < 96; h++) {
          const at = h * HOUR;
          const called = calls.some(([from, length]) => h > from && h < from + length);
          const inShift = working.some((r) => r.hours.startMs < at && at < r.hours.endMs);
          const after = working.some((r) => r.hours.startMs < at && at < r.hours.endMs + (r.overtimeMinutes ?? 0) * 60_000);
          const alone = apart.filter((r) => r.hours.startMs < at && at < r.hours.endMs).length;
          if (alone > 0) expect([called, inShift]).toEqual([true, false]);
          expect(alone).toBeLessThanOrEqual(1);
          if (called) expect(after || alone === 1, `hour ${h}`).toBe(true);
        }
        expect(rows.map((r) => r.hours.startMs)).toEqual(rows.map((r) => r.hours.startMs).sort((a, b) => a - b));
      }),
      { numRuns: 100, seed: 20251128 },
    );
  });

  it('that begin with a shift are what is left after it', () => {
    expect(spans(withOnCall([shift(8, 16)], [shift(8, 30)]))).toEqual([[8, 16, 840, 840, false]]);
    expect(spans(withOnCall([shift(8, 16)], [shift(8, 16)]))).toEqual([[8, 16, 180, 180, false]]);
    expect(spans(withOnCall([], [shift(8, 16)]))).toEqual([[8, 16, 0, null, true]]);
    // One that begins within three hours of the end follows on from the overtime that anybody may be asked for.
    expect(spans(withOnCall([shift(8, 16)], [shift(18, 24)]))).toEqual([
      [8, 16, 180, 180, false],
      [19, 24, 0, null, true],
    ]);
  });
});
