import { z } from 'zod';
import { QUOTE_LINE_KINDS } from '../../core/jobs';
import { Ticked, FreeText } from '../values/fields';
import { longText, text } from '../values/text';
import { LocalDateField } from '../values/days';

const MOST_LINES = 40;
const number = (ask: string) => z.number({ error: ask });
/** Money as it is typed, kept in whole cents. */
const Cents = number('Write a price.')
  .min(0, 'A price is zero or more.')
  .max(1_000_000, 'At most 1,000,000.')
  .transform((x) => Math.round(x * 100));

type Typed = { what: string; partNumber: string; quantity?: number; price?: number };
/** A line nobody wrote on: where there is no script, some stand ready. */
const isBlank = ({ what, partNumber, price }: Typed) => what === '' && partNumber === '' && price === undefined;

/** A number of the list brings name and price along where they are left out. */
const Line = z
  .object({
    kind: z.enum(QUOTE_LINE_KINDS),
    what: FreeText(200),
    partNumber: FreeText(60),
    quantity: number('How many?').positive('More than zero.').max(10_000, 'At most 10,000.').optional(),
    unit: FreeText(12),
    price: Cents.optional(),
    taxed: Ticked,
  })
  .superRefine((line, ctx) => {
    if (isBlank(line)) return;
    const lacks = (field: string, message: string) => ctx.addIssue({ code: 'custom', path: [field], message });
    if (line.what === '' && line.partNumber === '') lacks('what', 'Say what it is.');
    if (line.quantity === undefined) lacks('quantity', 'How many?');
    if (line.price === undefined && line.partNumber === '') lacks('price', 'Write a price.');
  });

/** A quote as it is written. */
export const SaveQuote = z.object({
  jobId: z.uuid(),
  lines: z
    .array(Line)
    .max(MOST_LINES, `At most ${MOST_LINES} lines.`)
    .transform((lines) => lines.filter((l) => !isBlank(l)))
    .refine((lines) => lines.length > 0, 'At least one line.'),
  taxPercent: number('Write a percentage.').min(0, 'From 0 to 100.').max(100, 'From 0 to 100.').optional().default(0),
  validUntil: LocalDateField,
  reason: longText('Say why, in two sentences.')
    .min(10, 'Say why, in two sentences.')
    .max(600, 'At most 600 characters; the customer reads two sentences.'),
  photoIds: z.array(z.uuid()).max(6, 'At most six pictures.').optional().default([]),
});
export type SaveQuote = z.output<typeof SaveQuote>;

export const SendQuote = z.object({
  quoteId: z.uuid(),
  to: z
    .union([z.literal(''), z.email('That is not an e-mail address.')])
    .optional()
    .default(''),
});
export type SendQuote = z.output<typeof SendQuote>;

/** Messages are keys of what the form says in the customer's language. */
export const AnswerQuote = z.object({
  token: text(),
  answer: z.enum(['accepted', 'declined'], 'two'),
  name: text('name').min(2, 'name').max(120, 'long'),
  note: longText().max(500, 'long').optional().default(''),
});
export type AnswerQuote = z.output<typeof AnswerQuote>;

/** When the work of an accepted quote is done: a free time, or another in words. */
const time = {
  /** Epoch milliseconds of the free time chosen. */
  startsAt: z.coerce.number().int().optional(),
  otherTime: longText().max(500, 'long').optional().default(''),
};
const said = (t: { startsAt?: number; otherTime: string }) => t.startsAt !== undefined || t.otherTime.trim().length >= 3;
const SAY_WHEN = { path: ['startsAt'], message: 'choose' };

export const ChooseTime = z.object({ token: text(), ...time }).refine(said, SAY_WHEN);
export type ChooseTime = z.output<typeof ChooseTime>;
export const ChooseTimeOnPage = z.object({ token: text(), quoteId: z.uuid(), ...time }).refine(said, SAY_WHEN);
export type ChooseTimeOnPage = z.output<typeof ChooseTimeOnPage>;
