import { localDate, type LocalDate } from './local-date';

// Times where the clock's lead over UTC is known: they need no calendar from the browser, and waking that on a tablet takes
// longer than drawing a screen.

/** "09:30" at an instant (epoch milliseconds), from the minutes that the clock is ahead of UTC. */
export const timeAt = (ms: number, utcOffsetMinutes: number): string =>
  new Date(ms + utcOffsetMinutes * 60_000).toISOString().slice(11, 16);

/** "Tue 3 Nov" in the same way. */
export function dayAt(ms: number, utcOffsetMinutes: number): string {
  const [weekday, day, month] = new Date(ms + utcOffsetMinutes * 60_000).toUTCString().split(/,? /);
  return `${weekday} ${Number(day)} ${month}`;
}

/** The calendar date, in the same way. */
export const dateAt = (ms: number, utcOffsetMinutes: number): LocalDate =>
  localDate(new Date(ms + utcOffsetMinutes * 60_000).toISOString().slice(0, 10));
