import { shareInterval } from '../numerics';

/** What looks are summed up by, beside the day; and what a page tells them by. */
export const FORESIGHT_BY = ['kind', 'who'] as const;
export type JudgedBy = 'all' | 'month' | (typeof FORESIGHT_BY)[number];

/** Counts of one group of looks: what was expected, and how often it came so. */
export type JudgedCounts = {
  /** Coils that were graded; of them how many had a grade among the likely ones, and how many should have. */
  graded: number; gradeHits: number; gradeExpected: number;
  /** Coils found matted or worse, and how many were expected to be, with the variance of that number. */
  matted: number; mattedExpected: number; mattedVariance: number;
  /** Dates that could be proved wrong: matted before the band began, or not yet when it was over. */
  tooEarly: number; tooLate: number;
  /** Coils that were read; of them how many within the 80 % band. */
  read: number; readHits: number;
}; // prettier-ignore

/** Below so many looks a share says too little to be judged. */
export const ENOUGH = 20;

export type Verdict = 'not_enough' | 'holds' | 'too_sure' | 'too_wary';
export type Judged = { n: number; share: { value: number; lo: number; hi: number } | null; expected: number; verdict: Verdict };

/**
 * Standard normal deviate that keeps the chance of one false alarm over `groups` looked at together at 5 % (Bonferroni).
 * By Abramowitz & Stegun 26.2.23, good to 4.5e-4.
 */
export function deviateFor(groups: number): number {
  const tail = 0.025 / Math.max(1, groups);
  const t = Math.sqrt(-2 * Math.log(tail));
  return t - (2.515517 + 0.802853 * t + 0.010328 * t * t) / (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t * t * t);
}

/** A share that came true beside the one that was promised. Too sure: fewer came true than promised, beyond chance. */
export function judged(hits: number, n: number, expected: number, groups = 1): Judged {
  const share = shareInterval(hits, n, deviateFor(groups));
  if (!share || n < ENOUGH) return { n, share, expected, verdict: 'not_enough' };
  return { n, share, expected, verdict: share.hi < expected ? 'too_sure' : share.lo > expected ? 'too_wary' : 'holds' };
}

export const judgeGrades = (c: JudgedCounts, groups = 1): Judged =>
  judged(c.gradeHits, c.graded, c.graded ? c.gradeExpected / c.graded : 0.8, groups);
export const judgeReadings = (c: JudgedCounts, groups = 1): Judged => judged(c.readHits, c.read, 0.8, groups);

/**
 * Dates. A look says on which side of it the day of matting lies, no more: one that is outside the band for certain was
 * missed. At most a fifth may be, so the share not proved wrong is an upper limit on how often the band held.
 */
export const judgeDates = (c: JudgedCounts, groups = 1): Judged => {
  const at = judged(c.graded - c.tooEarly - c.tooLate, c.graded, 0.8, groups);
  return at.verdict === 'too_wary' ? { ...at, verdict: 'holds' } : at;
};

/** Whether as many coils had matted as was expected: standard deviations off, and what that means. */
export function judgeMatted(c: JudgedCounts, groups = 1): { off: number; verdict: 'not_enough' | 'holds' | 'more' | 'fewer' } {
  if (c.graded < ENOUGH || !(c.mattedVariance > 0)) return { off: 0, verdict: 'not_enough' };
  const off = (c.matted - c.mattedExpected) / Math.sqrt(c.mattedVariance);
  const limit = deviateFor(groups);
  return { off, verdict: off > limit ? 'more' : off < -limit ? 'fewer' : 'holds' };
}
