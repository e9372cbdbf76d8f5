import { expect, it } from 'vitest';
import { isNight } from '@/lib/core/calendar';

const hoursOf = (from: string, days: number, when: Parameters<typeof isNight>[2], zone = 'America/Chicago') => {
  const start = Date.parse(from);
  return Array.from({ length: 24 * days }, (_, h) => new Date(start + h * 3_600_000 + 1_800_000)).filter((at) =>
    isNight(zone, at.getTime(), when),
  );
};

it('once a night by the clock of the place, whatever the season', () => {
  const found = hoursOf('2026-01-01T00:00:00Z', 365, { hour: 4 });
  expect(found).toHaveLength(365);
  expect([...new Set(found.map((at) => at.getUTCHours()))]).toEqual([10, 9]);
});

it('once a week where it is of one weekday', () => {
  const found = hoursOf('2026-06-01T00:00:00Z', 28, { hour: 3, weekday: 6 });
  expect(found.map((at) => at.toISOString().slice(0, 13))).toEqual(['2026-06-07T08', '2026-06-14T08', '2026-06-21T08', '2026-06-28T08']);
});
