import { describe, expect, it } from 'vitest';
import { addDays } from '@/lib/core/calendar';
import { DEFAULT_POLICY as P } from '@/lib/core/intervals';
import { WEEKS } from '@/lib/core/intervals/cycle';
import { sharedTrip } from '@/lib/core/intervals/shared-trip';
import { historyOf, revised, visit } from './support';

const STORY = [visit(84, 'furred'), visit(84, 'furred')];

describe('a date that can ride along', () => {
  it('is cheaper: the rule moves to the week in which somebody comes anyway, and says so', () => {
    const alone = revised(STORY, 8);
    const near = addDays(historyOf(STORY).last, 7 * (alone.weeks + 1));
    const shared = revised(STORY, 8, { alsoDue: [near] });
    expect(shared.weeks).toBe(alone.weeks + 1);
    expect(shared.reason).toContain('somebody comes that week anyway');
    expect(alone.reason).not.toContain('anyway');
    const free = revised(STORY, 8, { alsoDue: [near], settings: { ...P, tripCost: 0 } });
    expect(free.weeks).toBe(alone.weeks);
    expect(free.reason).toBe(alone.reason);
  });

  it('does not wait for a trip that is far off, nor for one that was before', () => {
    const { last } = historyOf(STORY);
    const alone = revised(STORY, 8);
    for (const days of [7 * alone.weeks * 4, 0, -7])
      expect(revised(STORY, 8, { alsoDue: [addDays(last, days)] })).toMatchObject({ weeks: alone.weeks, reason: alone.reason });
  });
});

describe('what a shared trip spares', () => {
  const costs = (policy: Partial<typeof P>, due: number[], weeks: number[]) => {
    const cost = sharedTrip({ ...P, lateDays: 0, cleaningCost: 60, ...policy }, due);
    return cost && weeks.map((w) => cost(WEEKS.indexOf(w)));
  };
  it.each([
    ['the trip’s part, in that week alone', { tripCost: 20 }, [42], [60, 40, 60]],
    ['within three days before', { tripCost: 20 }, [39], [60, 40, 60]],
    ['within three days after', { tripCost: 20 }, [45], [60, 40, 60]],
    ['with the next week’s from the fourth day on', { tripCost: 20 }, [46], [60, 60, 40]],
    ['with any of several', { tripCost: 20 }, [200, 35, 49], [40, 60, 40]],
    ['never more than the cleaning costs', { tripCost: 1000 }, [42], [60, 0, 60]],
    ['nothing where nobody is due', { tripCost: 20 }, [], undefined],
    ['nothing where the trip costs nothing', { tripCost: 0 }, [42], undefined],
    ['nothing where the cleaning costs nothing', { tripCost: 20, cleaningCost: 0 }, [42], undefined],
    // Six weeks wanted are written as five where visits come four days late, and five as four.
    ['by the rule as it is written, shorter by lateness', { tripCost: 20, lateDays: 4 }, [35], [60, 40, 60]],
  ])('%s', (_, policy, due, expected) => {
    expect(costs(policy, due, [5, 6, 7])).toEqual(expected);
  });

  it('spares nothing by a rule of no whole week', () => {
    expect(costs({ tripCost: 20, lateDays: 4 }, [1], [1, 2])).toEqual([60, 60]);
  });
});
