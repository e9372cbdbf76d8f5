/** Recurrences and dates in the kitchen's own time zone. Ranges are half-open, [start, end); reversed ones throw. */
export {
  addDays,
  addMonths,
  CalendarError,
  daysBetween,
  fromDay,
  isLocalDate,
  isWeekday,
  localDate,
  toDay,
  weekdayOf,
  WEEKDAY_CODES,
  WEEKDAY_NAMES,
  type LocalDate,
  type Weekday,
} from './local-date';
export { isNight, type Nightly } from './nightly';
export { clockIn, clockOf, instantOf, todayIn, utcOffsetMinutes, wallClock } from './zone';
export { endOf, isDayRule, parseRule, typedRule, weeksRule } from './rule';
export { approximateWeeks, describeRule } from './describe';
export { dueBetween, dueDays, nextDue, type Anchor, type Plan } from './due';
export { wallTimes, type LocalDateTime } from './rrule-library';
export { readSureDate } from './read-date';
