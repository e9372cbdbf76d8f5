import { addDays, isLocalDate, type LocalDate } from '../calendar';

/** Days from `from` to before `to`. */
export type Period = { from: LocalDate; to: LocalDate };

/**
 * A period as it stands in an address: `from` and `until`, both days in it. What is missing or no date falls back on the
 * last `days` up to today; ends that are the wrong way round are turned.
 */
export function periodOf(query: { from?: string; until?: string }, today: LocalDate, days: number): Period {
  const until = query.until && isLocalDate(query.until) ? query.until : today;
  const from = query.from && isLocalDate(query.from) ? query.from : addDays(until, 1 - days);
  return from <= until ? { from, to: addDays(until, 1) } : { from: until, to: addDays(from, 1) };
}
