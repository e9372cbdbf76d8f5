import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY, type Bounds, type UnitPolicy } from '@/lib/core/intervals';
import { allowed, railed } from '@/lib/core/intervals/guards';

const P: UnitPolicy = {
  ...DEFAULT_POLICY,
  minWeeks: 2,
  minWeeksUnlessSevere: 4,
  maxWeeks: { ...DEFAULT_POLICY.maxWeeks, coil_cleaning: 26, drain_inspection: 13 },
  deadBand: 0.1,
  loosenFactor: 1.5,
  cleanFindings: 2,
};

describe('what is allowed', () => {
  it.each<[string, Bounds, { min: number; max: number; maxGuard: string }]>([
    ['by the shop alone', {}, { min: 2, max: 26, maxGuard: 'maximum' }],
    ['by a warranty, in whole weeks', { maxWeeks: 13.7, maxReason: 'warranty' }, { min: 2, max: 13, maxGuard: 'warranty' }],
    ['by a bound of nobody’s name: a contract', { maxWeeks: 12 }, { min: 2, max: 12, maxGuard: 'contract' }],
    ['by a contract as long as the shop’s own', { maxWeeks: 26 }, { min: 2, max: 26, maxGuard: 'contract' }],
    ['by the shop within a longer contract', { maxWeeks: 30, maxReason: 'contract' }, { min: 2, max: 26, maxGuard: 'maximum' }],
    ['no shorter than asked, in whole weeks', { minWeeks: 5.2 }, { min: 6, max: 26, maxGuard: 'maximum' }],
    ['a shortest beyond the longest', { minWeeks: 40 }, { min: 26, max: 26, maxGuard: 'maximum' }],
    ['less than a week', { maxWeeks: 0.4, maxReason: 'warranty' }, { min: 1, max: 1, maxGuard: 'warranty' }],
    ['a shortest of nothing', { minWeeks: 0 }, { min: 1, max: 26, maxGuard: 'maximum' }],
  ])('%s', (_, bounds, expected) => {
    expect(allowed('coil_cleaning', P, bounds)).toEqual(expected);
  });

  it('of each task by its own longest', () => {
    expect(allowed('drain_inspection', P, {}).max).toBe(13);
  });
});

describe('rails', () => {
  type Row = [
    name: string,
    current: number,
    wanted: number,
    clean: number | 'severe',
    weeks: number,
    guard: string | null,
    bounds?: Bounds,
  ];
  it.each<Row>([
    ['a bad find tightens as far as it asks', 12, 3.9, 'severe', 3, 'severe'],
    ['but not below the shortest', 12, 1.2, 'severe', 2, 'minimum'],
    ['and never lengthens', 12, 20, 'severe', 12, 'severe'],
    ['nor at the shortest', 2, 1, 'severe', 2, 'minimum'],
    ['nor where a contract allows no more', 12, 40, 'severe', 10, 'contract', { maxWeeks: 10 }],
    ['less than wanted tightens without a bad find', 12, 10.9, 0, 10, null],
    ['to what only a bad find goes below', 12, 3, 0, 4, 'minimum'],
    ['within the dead band nothing moves', 12, 11.9, 0, 12, 'dead_band'],
    ['its edge moves', 10, 9, 0, 9, null],
    ['and so upwards', 12, 13, 4, 12, 'dead_band'],
    ['what is wanted already stays without a word', 12, 12.5, 4, 12, null],
    ['a rule beyond the longest comes back to it', 30, 50, 0, 26, 'maximum'],
    ['as does one that wants just that', 30, 26, 0, 26, 'maximum'],
    ['the evidence may ask for less', 30, 20, 0, 20, null],
    ['down to the shortest', 30, 1, 0, 2, 'minimum'],
    ['by a warranty', 30, Infinity, 0, 8, 'warranty', { maxWeeks: 8, maxReason: 'warranty' }],
    ['longer by one step at most', 12, 30, 2, 18, 'loosen_limit'],
    ['only after clean finds', 12, 30, 1, 12, 'needs_clean_findings'],
    ['no further than wanted', 12, 14.2, 2, 14, null],
    ['no further than the longest', 20, Infinity, 2, 26, 'maximum'],
    ['at the longest it stays, by that', 26, 40, 2, 26, 'maximum'],
    ['near the longest too', 25, 40, 2, 25, 'maximum'],
    ['a step below a week waits', 1, 9, 3, 1, 'loosen_step_below_week'],
    ['until clean finds have earned a week together', 1, 9, 4, 2, 'loosen_limit'],
  ])('%s', (_, currentWeeks, wantedWeeks, clean, weeks, guard, bounds = {}) => {
    const severe = clean === 'severe';
    const s = { currentWeeks, wantedWeeks, severe, cleanRunning: clean === 'severe' ? 0 : clean };
    expect(railed(s, 'coil_cleaning', P, bounds)).toEqual({ weeks, guard });
  });

  it('loosens by the first clean find where the shop asks for none', () => {
    const s = { currentWeeks: 12, wantedWeeks: 30, severe: false, cleanRunning: 1 };
    expect(railed(s, 'coil_cleaning', { ...P, cleanFindings: 0 }, {})).toEqual({ weeks: 18, guard: 'loosen_limit' });
  });
});
