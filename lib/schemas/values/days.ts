import { z } from 'zod';
import { isLocalDate, localDate } from '../../core/calendar';
import { text } from './text';

const NO_DATE = 'Give a date as year-month-day.';
export const LocalDateField = text({ error: NO_DATE })
  // What is no date is before or after none.
  .refine(isLocalDate, { error: NO_DATE, abort: true })
  .transform(localDate);
/** A date, or none. */
export const MaybeDate = z
  .union([z.literal('').transform(() => null), LocalDateField], { error: NO_DATE })
  .optional()
  .default(null);
const NO_TIME = 'Give a time as hours and minutes, for instance 09:30.';
export const TimeField = z.string({ error: NO_TIME }).regex(/^([01]\d|2[0-3]):[0-5]\d$/, NO_TIME);
export const MinutesField = z.coerce
  .number('Give the minutes as a number.')
  .int('Whole minutes.')
  .min(10, 'At least 10 minutes.')
  .max(720, 'At most 12 hours.');
