import { CUSTOMER_REPLIES } from '../../core/visits/events';
import { z } from 'zod';
import { longText, text } from '../values/text';

/** Messages are keys of `visit.errors` in the customers' catalogue. */
export const CustomerReply = z
  .object({
    token: text(),
    answer: z.enum(CUSTOMER_REPLIES, 'two'),
    /** Epoch milliseconds of the free time asked for. */
    startsAt: z.coerce.number().int().optional(),
    note: longText().max(500, 'long').optional().default(''),
  })
  .refine((r) => r.answer === 'confirmed' || r.startsAt !== undefined, { path: ['startsAt'], message: 'choose' });
export type CustomerReply = z.output<typeof CustomerReply>;
