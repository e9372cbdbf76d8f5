import { tzOffset } from '@date-fns/tz';
import { CalendarError, fromDay, toDay, type LocalDate } from './local-date';

const MINUTE = 60_000;
const DAY = 1440 * MINUTE;

/** Offset of a zone at an instant, in milliseconds east of UTC. */
function offsetAt(timeZone: string, ms: number): number {
  const minutes = tzOffset(timeZone, new Date(ms));
  if (Number.isNaN(minutes)) throw new CalendarError('invalid_zone', `"${timeZone}" is not a known time zone.`);
  return Math.round(minutes * MINUTE);
}

/** Whole minutes that a zone's clock is ahead of UTC at an instant (epoch milliseconds). @throws CalendarError invalid_zone */
export const utcOffsetMinutes = (timeZone: string, ms: number): number => Math.round(offsetAt(timeZone, ms) / MINUTE);

/** The date it is in `timeZone` at the instant `nowMs` (epoch milliseconds). */
export function todayIn(timeZone: string, nowMs: number): LocalDate {
  return fromDay(Math.floor((nowMs + offsetAt(timeZone, nowMs)) / DAY));
}

function minutesOf(time: string): number {
  const m = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(time);
  if (!m) throw new CalendarError('invalid_time', `"${time}" is not a time of the form HH:mm.`);
  return Number(m[1]) * 60 + Number(m[2]);
}

/**
 * Epoch milliseconds of a wall-clock time ('HH:mm', 24 h) on a date in a zone.
 * A time that comes twice is the first of the two; a time that is skipped is read with the offset in force before
 * the gap (RFC 5545 §3.3.5, form 3).
 */
export function instantOf(date: LocalDate, time: string, timeZone: string): number {
  const wall = toDay(date) * DAY + minutesOf(time) * MINUTE;
  // No zone changes its offset twice in two days, so the offsets a day either side bracket any change.
  const before = offsetAt(timeZone, wall - DAY);
  const after = offsetAt(timeZone, wall + DAY);
  if (before === after) return wall - before;
  const early = wall - before;
  if (offsetAt(timeZone, early) === before) return early;
  const late = wall - after;
  return offsetAt(timeZone, late) === after ? late : early;
}

/** Wall-clock minutes since midnight in `timeZone` at an instant, with the date they belong to. */
export function wallClock(timeZone: string, ms: number): { date: LocalDate; minutes: number } {
  const local = ms + offsetAt(timeZone, ms);
  const day = Math.floor(local / DAY);
  return { date: fromDay(day), minutes: Math.floor((local - day * DAY) / MINUTE) };
}

/** "09:30" of minutes since midnight, as fields of forms and what is kept take it, however the shop writes times. */
export const clockOf = (minutes: number): string => {
  const rounded = Math.round(minutes);
  return `${String(Math.floor(rounded / 60) % 24).padStart(2, '0')}:${String(rounded % 60).padStart(2, '0')}`;
};

/** The same of an instant (epoch milliseconds), by the kitchen's clock. */
export const clockIn = (timeZone: string, ms: number): string => clockOf(wallClock(timeZone, ms).minutes);
