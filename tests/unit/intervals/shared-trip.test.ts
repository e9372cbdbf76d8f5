import { describe, expect, it } from 'vitest';
import { addDays } from '@/lib/core/calendar';
import { DEFAULT_POLICY as P } from '@/lib/core/intervals';
import { sharedTrip } from '@/lib/core/intervals/shared-trip';
import { historyOf, revised, visit } from './support';

const STORY = [visit(84, 'furred'), visit(84, 'furred')];
const { last } = historyOf(STORY);
const alone = revised(STORY, 8);
const near = addDays(last, 7 * (alone.weeks + 1));

describe('a date that can ride along', () => {
  it('is cheaper: the rule moves to the week in which somebody comes anyway, and says so', () => {
    const shared = revised(STORY, 8, { alsoDue: [near] });
    expect(shared.weeks).toBe(alone.weeks + 1);
    expect(shared.reason).toContain('somebody comes that week anyway');
    expect(alone.reason).not.toContain('anyway');
  });

  it('does not wait for a trip that is far off, nor for one that costs nothing', () => {
    const far = { alsoDue: [addDays(last, 7 * alone.weeks * 4)] };
    expect(revised(STORY, 8, far).weeks).toBe(alone.weeks);
    expect(revised(STORY, 8, { alsoDue: [near], settings: { ...P, tripCost: 0 } }).weeks).toBe(alone.weeks);
  });

  it('spares the trip’s part alone, and never more than the cleaning costs', () => {
    const cost = sharedTrip({ ...P, lateDays: 0, tripCost: 20 }, [42]);
    expect([4, 5, 6].map((k) => cost?.(k))).toEqual([P.cleaningCost, P.cleaningCost - 20, P.cleaningCost]);
    expect(sharedTrip({ ...P, lateDays: 0, tripCost: 1000 }, [42])?.(5)).toBe(0);
    expect(sharedTrip(P, [])).toBeUndefined();
  });
});
