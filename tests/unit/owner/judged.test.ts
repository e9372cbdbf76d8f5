import { describe, expect, it } from 'vitest';
import type { LocalDate } from '@/lib/core/calendar';
import { shareInterval } from '@/lib/core/numerics';
import { deviateFor, judgeDates, judged, judgeMatted, type JudgedCounts } from '@/lib/core/owner/judged';
import { periodOf } from '@/lib/core/owner/period';
import { kendallTau } from '../../support/kendall';

const counts = (over: Partial<JudgedCounts>): JudgedCounts => ({
  graded: 100, gradeHits: 80, gradeExpected: 80, matted: 10, mattedExpected: 10, mattedVariance: 9, tooEarly: 0, tooLate: 0, read: 0, readHits: 0, ...over,
}); // prettier-ignore

describe('a share and its interval', () => {
  // R. G. Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, score method without continuity correction; from memory.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%i of %i', (hits, n, lo, hi) => {
    expect(shareInterval(hits, n)?.lo).toBeCloseTo(lo, 4);
    expect(shareInterval(hits, n)?.hi).toBeCloseTo(hi, 4);
  });

  it('is nothing where nothing was counted', () => expect(shareInterval(0, 0)).toBeNull());

  it('widens with the number of groups looked at together', () => {
    expect(deviateFor(1)).toBeCloseTo(1.96, 2);
    expect(deviateFor(10)).toBeCloseTo(2.807, 2);
  });
});

describe('what was promised beside what came', () => {
  it('is not judged before there are enough visits', () => {
    expect(judged(0, 19, 0.8).verdict).toBe('not_enough');
    expect(judged(0, 20, 0.8).verdict).toBe('too_sure');
  });
  it('holds within chance, is too sure beyond it, and too wary the other way', () => {
    expect(judged(160, 200, 0.8).verdict).toBe('holds');
    expect(judged(140, 200, 0.8).verdict).toBe('too_sure');
    expect(judged(180, 200, 0.8).verdict).toBe('too_wary');
    // The same share in one row of twelve may be chance.
    expect(judged(147, 200, 0.8, 1).verdict).toBe('too_sure');
    expect(judged(147, 200, 0.8, 12).verdict).toBe('holds');
  });
  it('never praises a day that a look could not prove wrong', () => {
    expect(judgeDates(counts({})).verdict).toBe('holds');
    expect(judgeDates(counts({ tooLate: 35 })).verdict).toBe('too_sure');
  });
  it('says on which side coils mat', () => {
    expect(judgeMatted(counts({ matted: 17 })).verdict).toBe('more');
    expect(judgeMatted(counts({ matted: 3 })).verdict).toBe('fewer');
    expect(judgeMatted(counts({ matted: 12 })).verdict).toBe('holds');
  });
});

const day = (text: string) => text as LocalDate;

describe('a period in an address', () => {
  it('has both its days in it, falls back on the last days, and is turned where it stands on its head', () => {
    expect(periodOf({ from: '2026-01-01', until: '2026-01-31' }, day('2026-03-01'), 30)).toEqual({ from: '2026-01-01', to: '2026-02-01' });
    expect(periodOf({}, day('2026-03-02'), 2)).toEqual({ from: '2026-03-01', to: '2026-03-03' });
    expect(periodOf({ from: 'x', until: '2026-02-31x' }, day('2026-03-02'), 1)).toEqual({ from: '2026-03-02', to: '2026-03-03' });
    expect(periodOf({ from: '2026-02-02', until: '2026-01-01' }, day('2026-03-02'), 1)).toEqual({ from: '2026-01-01', to: '2026-02-03' });
    // A day that no month has.
    expect(periodOf({ until: '2026-02-31' }, day('2026-03-02'), 1)).toEqual({ from: '2026-03-02', to: '2026-03-03' });
  });
});

describe("Kendall's tau", () => {
  it('counts pairs', () => {
    expect(kendallTau([[1, 1], [2, 2], [3, 3]])).toBe(1); // prettier-ignore
    expect(kendallTau([[1, 3], [2, 2], [3, 1]])).toBe(-1); // prettier-ignore
    expect(kendallTau([[1, 1], [2, 3], [3, 2]])).toBeCloseTo(1 / 3, 12); // prettier-ignore
  });
});
