import { z } from 'zod';
import { LANGUAGES } from '../../core/customer-words/languages';
import { quarterOf } from '../../core/reports/quarter';
import { Email } from '../values/fields';
import { LocalDateField } from '../values/days';

/** The summary of a quarter, by any of its days. */
export const SendQuarter = z.object({
  customerId: z.uuid(),
  quarter: LocalDateField.transform(quarterOf),
  toEmail: Email,
  language: z.enum(LANGUAGES, { error: 'Choose a language.' }),
});
export type SendQuarter = z.output<typeof SendQuarter>;

export const RevokeQuarter = z.object({ id: z.uuid() });
export type RevokeQuarter = z.output<typeof RevokeQuarter>;
