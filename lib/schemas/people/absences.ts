import { z } from 'zod';
import { FreeText } from '../values/fields';
import { LocalDateField } from '../values/days';

const Instant = z.int().min(0).max(8.64e15);

/** Somebody is away, first and last day included, with the visits that are handed round for it. */
export const SendAway = z
  .object({
    userId: z.uuid('Choose who is away.'),
    from: LocalDateField,
    to: LocalDateField,
    reason: FreeText(200),
    moves: z.array(z.object({ visitId: z.uuid(), version: z.int(), technicianId: z.uuid(), startMs: Instant, endMs: Instant })).max(200),
  })
  .refine((t) => t.to >= t.from, { path: ['to'], message: 'The last day comes before the first.' });
export type SendAway = z.output<typeof SendAway>;

export const UndoAway = z.object({ absenceId: z.uuid() });
