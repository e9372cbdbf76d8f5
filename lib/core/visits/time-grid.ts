import { wallClock, weekdayOf, type LocalDate } from '../calendar';
import { insideWindows, type WeeklyWindow } from './service-hours';

/** Minutes since midnight of one day, half-open. */
export type MinuteSpan = { from: number; to: number };

const minutesOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));

/** Hours of a weekly pattern on one date, as minutes of that day. */
export const spansOn = (hours: readonly WeeklyWindow[], date: LocalDate): MinuteSpan[] =>
  hours.filter((w) => w.weekday === weekdayOf(date)).map((w) => ({ from: minutesOf(w.from), to: minutesOf(w.to) }));

/** A span of instants on the day on which it begins, counted on past midnight where it ends there. */
export function dayMinutes(startMs: number, endMs: number, timeZone: string): MinuteSpan & { date: LocalDate } {
  const { date, minutes } = wallClock(timeZone, startMs);
  return { date, from: minutes, to: minutes + (endMs - startMs) / 60_000 };
}

/** Whole hours that a picture of days has to show, at least a working day. */
export function hoursShown(spans: readonly MinuteSpan[]): MinuteSpan {
  const from = Math.min(8 * 60, ...spans.map((s) => s.from));
  const to = Math.max(16 * 60, ...spans.map((s) => Math.min(s.to, 24 * 60)));
  return { from: Math.floor(from / 60) * 60, to: Math.ceil(to / 60) * 60 };
}

/** Whether a visit stands within the hours in which its kitchen can spare its equipment; true where none are on file. */
export const withinHours = (hours: readonly WeeklyWindow[], startMs: number, endMs: number, timeZone: string): boolean =>
  hours.length === 0 || insideWindows(hours, { start: startMs, end: endMs }, timeZone);
