import { fromDay, toDay, type LocalDate } from '../calendar';
import { civilToDay, daysInMonth, dayToCivil } from '../calendar/local-date';

/** Last day of a warranty of so many months from a day: the same day of the month, or the month's last where that is sooner. */
export function coveredUntil(from: LocalDate, months: number): LocalDate {
  const { year, month, day } = dayToCivil(toDay(from));
  const index = year * 12 + (month - 1) + months;
  const [y, m] = [Math.floor(index / 12), (index % 12) + 1];
  return fromDay(civilToDay(y, m, Math.min(day, daysInMonth(y, m))));
}
