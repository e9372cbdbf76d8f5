import { addDays, localDate, type LocalDate } from '../calendar';

/** A quarter of the calendar by its first day. */
export type Quarter = { startsOn: LocalDate; endsBefore: LocalDate };

const MONTHS = 3;

const LAST_DAY = localDate('9999-12-31');

/** The quarter that a day lies in; for the last there is, its end is the last day that can be written. */
export function quarterOf(day: LocalDate): Quarter {
  const [year = 0, month = 1] = day.split('-').map(Number);
  const first = Math.floor((month - 1) / MONTHS) * MONTHS + 1;
  const at = (y: number, m: number) => localDate(`${String(y).padStart(4, '0')}-${String(m).padStart(2, '0')}-01`);
  if (first + MONTHS <= 12) return { startsOn: at(year, first), endsBefore: at(year, first + MONTHS) };
  return { startsOn: at(year, first), endsBefore: year < 9999 ? at(year + 1, 1) : LAST_DAY };
}

export const quarterBefore = (day: LocalDate): Quarter => quarterOf(addDays(quarterOf(day).startsOn, -1));
