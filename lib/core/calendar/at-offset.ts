import { habits } from '../measures/habits';
import { localDate, type LocalDate } from './local-date';

// Times where the clock's lead over UTC is known: they need no calendar from the browser, and waking that on a tablet takes
// longer than drawing a screen.

/** "09:30" or "9:30 AM" at an instant (epoch milliseconds), from the minutes that the clock is ahead of UTC. */
export function timeAt(ms: number, utcOffsetMinutes: number): string {
  const clock = new Date(ms + utcOffsetMinutes * 60_000).toISOString().slice(11, 16);
  if (habits().dates === 'day_first') return clock;
  const hour = Number(clock.slice(0, 2));
  return `${hour % 12 || 12}${clock.slice(2)} ${hour < 12 ? 'AM' : 'PM'}`;
}

/** The same of minutes since midnight. */
export const timeOfDay = (minutes: number): string => timeAt(minutes * 60_000, 0);

/** An hour on an axis: "13", or "1". */
export const hourOfDay = (hour: number): string => String(habits().dates === 'day_first' ? hour : hour % 12 || 12);

/** "Tue 3 Nov" or "Tue, Nov 3" in the same way. */
export function dayAt(ms: number, utcOffsetMinutes: number): string {
  const [weekday, day, month] = new Date(ms + utcOffsetMinutes * 60_000).toUTCString().split(/,? /);
  return habits().dates === 'day_first' ? `${weekday} ${Number(day)} ${month}` : `${weekday}, ${month} ${Number(day)}`;
}

/** The calendar date, in the same way. */
export const dateAt = (ms: number, utcOffsetMinutes: number): LocalDate =>
  localDate(new Date(ms + utcOffsetMinutes * 60_000).toISOString().slice(0, 10));
