import { describe, expect, it } from 'vitest';
import { changesOpen, slotOf } from '@/lib/core/visits/changes';

const HOUR = 3_600_000;
const startsAt = Date.parse('2026-11-03T15:30:00Z');
const visit = { startsAt, endsAt: startsAt + HOUR };
const allowed = (status: 'booked' | 'started' | 'done' | 'cancelled', now: number) =>
  Object.entries(changesOpen({ ...visit, status }, now)).flatMap(([what, may]) => (may ? [what] : []));

describe('what the office may still do to a visit', () => {
  it.each([
    ['booked', -HOUR, ['edit', 'cancel', 'kitchenHears']],
    ['booked', 2 * HOUR, ['edit', 'cancel']],
    ['started', HOUR / 2, ['give', 'cancel', 'kitchenHears']],
    ['done', HOUR, []],
    ['cancelled', -1, ['restore']],
    ['cancelled', 0, []],
  ] as const)('%s, %d ms after its start: %j', (status, after, what) => {
    expect(allowed(status, startsAt + after)).toEqual(what);
  });
});

it('tells a slot by the clock of the kitchen', () => {
  expect(slotOf({ technicianId: 't', ...visit }, 'America/Denver')).toEqual({
    technicianId: 't',
    date: '2026-11-03',
    from: '08:30',
    minutes: '60',
  });
});
