/** Weekly hours of a kitchen or a person, read from and written as a person writes them. */
export { readDayHours, writeDayHours } from './day-hours';
export { closedDays } from './closed-days';
export { readDayLines, readWeekHours, writeWeekHours } from './week-hours';
