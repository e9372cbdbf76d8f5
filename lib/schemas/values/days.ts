import { z } from 'zod';
import { isLocalDate, localDate } from '../../core/calendar';
import { text } from './text';

export const LocalDateField = text()
  // What is no date is before or after none.
  .refine(isLocalDate, { error: 'Give a date as year-month-day.', abort: true })
  .transform(localDate);
export const TimeField = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'Give a time as hours and minutes, for instance 09:30.');
export const MinutesField = z.coerce
  .number('Give the minutes as a number.')
  .int('Whole minutes.')
  .min(10, 'At least 10 minutes.')
  .max(720, 'At most 12 hours.');
