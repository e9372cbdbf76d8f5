import { z } from 'zod';
import { LANGUAGES } from '../../core/customer-words/languages';
import { JOB_URGENCIES } from '../../core/jobs';
import { CUSTOMER_REPLIES } from '../../core/visits/events';
import { OptionalEmail } from '../values/fields';
import { longText, text } from '../values/text';

const On = z
  .literal('on')
  .optional()
  .transform((v) => v === 'on');

/** A link to a customer's page, as the office makes it. An empty kitchen is all of them. */
export const MakePage = z.object({
  customerId: z.uuid(),
  kitchenId: z.uuid('Choose a kitchen.').optional(),
  holder: text('Say whom it is for.').min(2, 'Say whom it is for.').max(120, 'At most 120 characters.'),
  toEmail: OptionalEmail,
  language: z.enum(LANGUAGES, 'Choose a language.'),
  answersQuotes: On,
});
export type MakePage = z.output<typeof MakePage>;

export const RevokePage = z.object({ id: z.uuid() });
export type RevokePage = z.output<typeof RevokePage>;

/** What holders of a page send. Messages are keys of the catalogue, which the page says in its language. */
export const AskToBeRung = z.object({
  token: text(),
  /** Made with the form, so that sending it twice is once. */
  once: z.uuid(),
  kitchenId: z.uuid('kitchen'),
  unitId: z.uuid().optional(),
  what: longText('what').min(3, 'what').max(500, 'long'),
  urgency: z.enum(JOB_URGENCIES, 'urgency'),
  name: text('name').min(2, 'name').max(120, 'long'),
  phone: text('phone').min(5, 'phone').max(40, 'long'),
});
export type AskToBeRung = z.output<typeof AskToBeRung>;

export const AnswerVisit = z
  .object({
    token: text(),
    visitId: z.uuid(),
    answer: z.enum(CUSTOMER_REPLIES),
    /** Epoch milliseconds of the free time asked for. */
    startsAt: z.coerce.number().int().optional(),
    note: longText().max(500, 'long').optional().default(''),
  })
  .refine((r) => r.answer === 'confirmed' || r.startsAt !== undefined, { path: ['startsAt'], message: 'choose' });
export type AnswerVisit = z.output<typeof AnswerVisit>;

export const AnswerQuoteOnPage = z.object({
  token: text(),
  quoteId: z.uuid(),
  answer: z.enum(['accepted', 'declined']),
  name: text('name').min(2, 'name').max(120, 'long'),
  note: longText().max(500, 'long').optional().default(''),
});
export type AnswerQuoteOnPage = z.output<typeof AnswerQuoteOnPage>;
