import 'server-only';
import { longDayIn, timeIn } from '../../../core/calendar/when';

/** "Tuesday 24 November, 09:00, is past", by the kitchen's clock; null for a time still to come. */
export function pastWords(start: number, timeZone: string, now: Date): string | null {
  if (start >= now.getTime()) return null;
  return `${longDayIn(start, timeZone)}, ${timeIn(start, timeZone)}, is past`;
}
