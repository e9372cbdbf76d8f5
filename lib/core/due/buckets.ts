import { addDays, todayIn, weekdayOf, type LocalDate } from '../calendar';

/** The due list's three parts. Weeks begin on Monday. */
export const BUCKETS = ['overdue', 'week', 'month'] as const;
export type Bucket = (typeof BUCKETS)[number];
export const BUCKET_LABEL: Record<Bucket, string> = { overdue: 'Overdue', week: 'This week', month: 'Next four weeks' };

/** Half-open [from, to) in a place's own calendar; `overdue` has no beginning. */
export type BucketDates = {
  today: LocalDate;
  overdue: { to: LocalDate };
  week: { from: LocalDate; to: LocalDate };
  month: { from: LocalDate; to: LocalDate };
};

/** What overdue, this week and the next four weeks are in a time zone at an instant (epoch milliseconds). */
export function bucketDates(timeZone: string, now: number): BucketDates {
  const today = todayIn(timeZone, now);
  const monday = addDays(today, 7 - weekdayOf(today));
  return { today, overdue: { to: today }, week: { from: today, to: monday }, month: { from: monday, to: addDays(monday, 28) } };
}
