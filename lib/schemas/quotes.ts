import { z } from 'zod';
import { QUOTE_LINE_KINDS } from '../core/jobs';
import { Ticked, Words } from './fields';
import { longText, text } from './text';
import { LocalDateField } from './visits';

const MOST_LINES = 40;
const number = (ask: string) => z.number({ error: ask });
/** Money as it is typed, kept in whole cents. */
const Cents = number('Write a price, with a point for cents.')
  .min(0, 'A price is zero or more.')
  .max(1_000_000, 'At most 1,000,000.')
  .transform((x) => Math.round(x * 100));

const Line = z.object({
  kind: z.enum(QUOTE_LINE_KINDS),
  what: text('Say what it is.').min(1, 'Say what it is.').max(200, 'At most 200 characters.'),
  partNumber: Words(60),
  quantity: number('How many?').positive('More than zero.').max(10_000, 'At most 10,000.'),
  unit: Words(12),
  price: Cents,
  taxed: Ticked,
});

/** A quote as it is written. */
export const SaveQuote = z.object({
  jobId: z.uuid(),
  lines: z.array(Line).min(1, 'At least one line.').max(MOST_LINES, `At most ${MOST_LINES} lines.`),
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

export const AnswerQuote = z.object({
  token: text(),
  answer: z.enum(['accepted', 'declined'], 'Choose one of the two.'),
  name: text('Write your name.').min(2, 'Write your name.').max(120, 'At most 120 characters.'),
  note: longText().max(500, 'At most 500 characters.').optional().default(''),
});
export type AnswerQuote = z.output<typeof AnswerQuote>;
