import { addDays, instantOf, wallClock, weekdayOf, type LocalDate, type Weekday } from '../calendar';

/** A weekly window in the place's own wall time, half-open: `from` ≤ t < `to`. `to` may be "24:00". */
export type WeeklyWindow = { weekday: Weekday; from: string; to: string };

/** When a kitchen is taken to spare its equipment while no hours of it are on file; common practice. */
export const USUAL_KITCHEN_HOURS: readonly WeeklyWindow[] = ([0, 1, 2, 3, 4, 5, 6] as const).map((weekday) => ({
  weekday,
  from: '06:00',
  to: '18:00',
}));
/** Epoch milliseconds, half-open. */
export type Span = { start: number; end: number };

/** Windows of one date as instants. No windows on file means the whole day is free. */
export function windowsOn(windows: readonly WeeklyWindow[], date: LocalDate, timeZone: string): Span[] {
  if (windows.length === 0) return [{ start: instantOf(date, '00:00', timeZone), end: instantOf(addDays(date, 1), '00:00', timeZone) }];
  return windows
    .filter((w) => w.weekday === weekdayOf(date))
    .map((w) => ({
      start: instantOf(date, w.from, timeZone),
      end: w.to === '24:00' ? instantOf(addDays(date, 1), '00:00', timeZone) : instantOf(date, w.to, timeZone),
    }))
    .filter((s) => s.end > s.start)
    .sort((a, b) => a.start - b.start);
}

/** Whether one window of the span's own date holds all of it. */
export function insideWindows(windows: readonly WeeklyWindow[], span: Span, timeZone: string): boolean {
  const { date } = wallClock(timeZone, span.start);
  return windowsOn(windows, date, timeZone).some((w) => w.start <= span.start && span.end <= w.end);
}

/** The first date from `start` on with a window, and when that opens: what a booking form may offer. Null where no hours are on file. */
export function firstOpening(windows: readonly WeeklyWindow[], start: LocalDate): { date: LocalDate; from: string } | null {
  for (let d = 0; d < 7; d++) {
    const date = addDays(start, d);
    const opens = windows
      .filter((w) => w.weekday === weekdayOf(date))
      .map((w) => w.from)
      .sort()[0];
    if (opens !== undefined) return { date, from: opens };
  }
  return null;
}
