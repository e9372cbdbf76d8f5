import { z } from 'zod';
import { LANGUAGES } from '../../core/customer-words/languages';
import { Name, OptionalEmail, Reason, Version, FreeText } from '../values/fields';

const Ticked = z
  .literal('on')
  .optional()
  .transform((v) => v === 'on');
const fields = {
  name: Name('the customer'),
  contactName: FreeText(120),
  email: OptionalEmail,
  phone: FreeText(60),
  notes: FreeText(),
  /** In which reports and letters are written. */
  language: z.enum(LANGUAGES).optional().default('en'),
};

export const NewCustomer = z.object(fields);
export type NewCustomer = z.output<typeof NewCustomer>;

export const EditCustomer = z.object({ id: z.uuid(), version: Version, ...fields });
export type EditCustomer = z.output<typeof EditCustomer>;

/** What goes out to a customer by itself: the report of each visit, the summary of each quarter. */
export const SetSending = z.object({ id: z.uuid(), sendsReports: Ticked, sendsQuarters: Ticked });
export type SetSending = z.output<typeof SetSending>;

/** Taking something off file, or putting it back. */
export const Archive = z.object({ id: z.uuid(), version: Version, reason: Reason('Say why it is taken off file.') });
export type Archive = z.output<typeof Archive>;

export const Restore = z.object({ id: z.uuid(), version: Version });
export type Restore = z.output<typeof Restore>;
