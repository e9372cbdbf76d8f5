import type { TimeRange } from './types';

/** A weekly opening: weekday 0 (Monday) to 6, local times 'HH:mm'. An end of '24:00', or at or before its beginning, is on the next day. */
export interface WeeklyHours {
  readonly weekday: number;
  readonly from: string;
  readonly to: string;
}

/** Turns a local day and time into an instant; the calendar's `instantOf` in the kitchen's zone. */
export type InstantAt = (day: number, time: string) => number;

/**
 * Openings of the given days (day numbers) as ranges of instants, closed days left out.
 * A night opening that begins on a listed day is kept whole.
 */
export function openings(
  hours: readonly WeeklyHours[],
  days: readonly number[],
  closed: ReadonlySet<number>,
  instantAt: InstantAt,
): TimeRange[] {
  const ranges: TimeRange[] = [];
  for (const day of days) {
    if (closed.has(day)) continue;
    // 1970-01-01 was a Thursday.
    const weekday = (((day + 3) % 7) + 7) % 7;
    for (const opening of hours) {
      if (opening.weekday !== weekday) continue;
      const midnight = opening.to === '24:00';
      const endDay = midnight || opening.to <= opening.from ? day + 1 : day;
      ranges.push({ startMs: instantAt(day, opening.from), endMs: instantAt(endDay, midnight ? '00:00' : opening.to) });
    }
  }
  return joined(ranges);
}

/** Ranges without what lies in `taken`. Reversed ranges throw. */
export function without(ranges: readonly TimeRange[], taken: readonly TimeRange[]): TimeRange[] {
  let rest = joined(ranges);
  for (const cut of joined(taken)) {
    rest = rest.flatMap((range) => {
      if (cut.endMs <= range.startMs || cut.startMs >= range.endMs) return [range];
      const parts: TimeRange[] = [];
      if (cut.startMs > range.startMs) parts.push({ startMs: range.startMs, endMs: cut.startMs });
      if (cut.endMs < range.endMs) parts.push({ startMs: cut.endMs, endMs: range.endMs });
      return parts;
    });
  }
  return rest;
}

/** Ascending, with those that touch or overlap made one, and empty ones dropped. Reversed ranges throw. */
export function joined(ranges: readonly TimeRange[]): TimeRange[] {
  const sorted = ranges.filter((range) => {
    if (!(range.endMs >= range.startMs)) throw new RangeError(`A range ends (${range.endMs}) before it begins (${range.startMs}).`);
    return range.endMs > range.startMs;
  });
  sorted.sort((a, b) => a.startMs - b.startMs);
  const result: TimeRange[] = [];
  for (const range of sorted) {
    const last = result[result.length - 1];
    if (last && range.startMs <= last.endMs)
      result[result.length - 1] = { startMs: last.startMs, endMs: Math.max(last.endMs, range.endMs) };
    else result.push(range);
  }
  return result;
}
