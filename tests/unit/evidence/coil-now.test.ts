import { describe, expect, it } from 'vitest';
import { coilNow } from '@/lib/core/evidence/coil-now';
import { localDate } from '@/lib/core/calendar';

const d = localDate;
type Facts = Parameters<typeof coilNow>[0];
const facts = (over: Partial<Facts> = {}): Facts => ({
  today: d('2026-11-27'),
  grades: [],
  cleanings: [],
  latest: null,
  limitDates: [],
  byWater: false,
  fanDead: false,
  next: { dueOn: d('2027-01-21'), visitId: null },
  ...over,
});
const look = (on: string, grade: string, phase: 'found' | 'left' = 'found') => ({ on: d(on), aspect: 'coil' as const, grade, phase });
const reading = (on: string, phase: 'before' | 'after', verdict: string, leading = 'coil_fouling') =>
  ({ on: d(on), reading: { phase }, estimate: { status: 'ok', verdict, causes: [{ id: leading }] } }) as unknown as Facts['latest'];
const limit = (name: string, p50: string | null) =>
  ({
    limit: { name, lnK: -0.4 },
    quantiles: { p10: null, p20: null, p50: p50 && d(p50), p80: null, p90: null },
    ever: 1,
  }) as Facts['limitDates'][number];

describe('one answer about a coil', () => {
  it('says to clean what was seen matted and not cleaned since, whatever the date and an old reading say', () => {
    const now = coilNow(
      facts({ grades: [look('2026-11-24', 'matted')], cleanings: [d('2026-08-20')], latest: reading('2026-08-20', 'after', 'fine') }),
    );
    expect(now.verdict).toBe('clean_now');
    expect(now.seen).toMatchObject({ grade: 'matted', cleanedOn: null });
  });

  it('says nothing of limits where water cools the condenser', () => {
    const passed = { limitDates: [limit('Cooling lost', '2026-11-27')] };
    expect(coilNow(facts(passed)).passes?.name).toBe('Cooling lost');
    expect(coilNow(facts({ ...passed, byWater: true }))).toMatchObject({ verdict: 'by_water', passes: null });
  });

  it('counts a cleaning of the same day, and one that did not help', () => {
    const met = facts({ grades: [look('2026-11-24', 'matted')], cleanings: [d('2026-11-24')] });
    expect(coilNow(met).verdict).toBe('in_order');
    expect(coilNow(met).seen?.cleanedOn).toBe('2026-11-24');
    const left = facts({ grades: [look('2026-11-24', 'packed'), look('2026-11-24', 'matted', 'left')], cleanings: [d('2026-11-24')] });
    expect(coilNow(left).verdict).toBe('past_cleaning');
  });

  it('puts a dead fan before the coil, and another cause before the date', () => {
    expect(coilNow(facts({ fanDead: true, grades: [look('2026-11-24', 'packed')] })).verdict).toBe('mend_fan');
    const other = facts({ latest: reading('2026-11-20', 'before', 'look_elsewhere', 'low_charge') });
    expect(coilNow(other).verdict).toBe('look_elsewhere');
    // A reading before the last cleaning no longer speaks.
    expect(coilNow({ ...other, cleanings: [d('2026-11-20')] }).verdict).toBe('in_order');
  });

  it('holds the date against the limits that are likely passed by then', () => {
    const seen = { grades: [look('2026-11-02', 'furred')] };
    expect(
      coilNow(facts({ ...seen, limitDates: [limit('Discharge temperature', null), limit('Cooling lost', '2027-01-20')] })),
    ).toMatchObject({
      verdict: 'too_late',
      passes: { name: 'Cooling lost', on: '2027-01-20' },
    });
    expect(coilNow(facts({ ...seen, limitDates: [limit('Cooling lost', '2027-01-21')] })).verdict).toBe('in_order');
    expect(coilNow(facts({ ...seen, next: { dueOn: d('2026-11-26'), visitId: null } })).verdict).toBe('overdue');
  });

  it('goes by the latest look and the latest reading, in whatever order they are told', () => {
    const looks = [look('2026-11-24', 'bare', 'left'), look('2026-08-01', 'packed'), look('2026-11-24', 'packed')];
    for (const grades of [looks, looks.toReversed()]) {
      expect(coilNow(facts({ grades })).seen).toEqual({ on: '2026-11-24', grade: 'bare', phase: 'left', cleanedOn: null });
      expect(coilNow(facts({ grades })).verdict).toBe('in_order');
    }
    const after = facts({ latest: reading('2026-11-20', 'after', 'fine'), cleanings: [d('2026-11-20')] });
    expect(coilNow(after).read).toMatchObject({ cleanedSince: false, aside: false });
    expect(coilNow({ ...after, cleanings: [d('2026-11-21')] }).read).toMatchObject({ cleanedSince: true });
    expect(coilNow(facts({ latest: reading('2026-11-20', 'before', 'clean_it') })).verdict).toBe('clean_now');
  });

  it('says nothing of what nobody saw, nor of a condenser cooled by water', () => {
    expect(coilNow(facts()).verdict).toBe('nothing_known');
    expect(coilNow(facts({ byWater: true, fanDead: true })).verdict).toBe('by_water');
  });
});
