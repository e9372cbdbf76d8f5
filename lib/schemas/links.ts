import { CUSTOMER_REPLIES } from '../core/visits/events';
import { z } from 'zod';
import { longText, text } from './text';

export const CustomerReply = z
  .object({
    token: text(),
    answer: z.enum(CUSTOMER_REPLIES, 'Choose one of the two.'),
    /** Epoch milliseconds of the free time asked for. */
    startsAt: z.coerce.number().int().optional(),
    note: longText().max(500, 'At most 500 letters.').optional().default(''),
  })
  .refine((r) => r.answer === 'confirmed' || r.startsAt !== undefined, { path: ['startsAt'], message: 'Choose one of the times.' });
export type CustomerReply = z.output<typeof CustomerReply>;
