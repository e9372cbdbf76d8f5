import { addDays, localDate, type LocalDate } from '../calendar';

/** A quarter of the calendar by its first day. */
export type Quarter = { startsOn: LocalDate; endsBefore: LocalDate };

const MONTHS = 3;

export function quarterOf(day: LocalDate): Quarter {
  const [year = 0, month = 1] = day.split('-').map(Number);
  const first = Math.floor((month - 1) / MONTHS) * MONTHS + 1;
  const at = (y: number, m: number) => localDate(`${y}-${String(m).padStart(2, '0')}-01`);
  return { startsOn: at(year, first), endsBefore: first + MONTHS > 12 ? at(year + 1, 1) : at(year, first + MONTHS) };
}

export const quarterBefore = (day: LocalDate): Quarter => quarterOf(addDays(quarterOf(day).startsOn, -1));
