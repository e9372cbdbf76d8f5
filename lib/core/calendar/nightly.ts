import { weekdayOf, type Weekday } from './local-date';
import { wallClock } from './zone';

/** What is done once a night: in this hour by the clock of its place, on one weekday (Monday 0) or on each. */
export type Nightly = { hour: number; weekday?: Weekday };

/** Whether that hour is now (epoch milliseconds). In the night that loses an hour, 2 o'clock does not come. */
export function isNight(timeZone: string, nowMs: number, { hour, weekday }: Nightly): boolean {
  const { date, minutes } = wallClock(timeZone, nowMs);
  return Math.floor(minutes / 60) === hour && (weekday === undefined || weekdayOf(date) === weekday);
}
