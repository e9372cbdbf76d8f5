import { z } from 'zod';
import { longText } from '../values/text';
import { LocalDateField, MinutesField, TimeField } from '../values/days';

const Slot = { technicianId: z.uuid('Choose a technician.'), date: LocalDateField, from: TimeField, minutes: MinutesField };
/** Set once the dispatcher has read what speaks against the slot. */
const Anyway = z.stringbool().optional().default(false);

export const BookVisit = z.object({
  kitchenId: z.uuid(),
  ...Slot,
  taskIds: z.array(z.uuid(), 'Choose at least one task.').min(1, 'Choose at least one task.'),
  note: longText().max(2000, 'At most 2000 letters.').optional().default(''),
  fixed: z.stringbool().optional().default(false),
  anyway: Anyway,
});
export type BookVisit = z.output<typeof BookVisit>;

export const MoveVisit = z.object({
  visitId: z.uuid(),
  version: z.coerce.number().int(),
  ...Slot,
  reason: longText('Say why it moves.').min(3, 'Say why it moves.').max(500, 'At most 500 letters.'),
  anyway: Anyway,
  /** Undoes a move: agreed to once, and pointless once that time is past. */
  back: z.stringbool().optional(),
});
export type MoveVisit = z.output<typeof MoveVisit>;

export const CancelVisit = z.object({
  visitId: z.uuid(),
  version: z.coerce.number().int(),
  reason: longText('Say why it is cancelled.').min(3, 'Say why it is cancelled.').max(500, 'At most 500 letters.'),
});
export type CancelVisit = z.output<typeof CancelVisit>;

export const GiveVisit = z.object({
  visitId: z.uuid(),
  version: z.coerce.number().int(),
  technicianId: z.uuid('Choose a technician.'),
  reason: longText('Say why someone else has it.').min(3, 'Say why someone else has it.').max(500, 'At most 500 letters.'),
});
export type GiveVisit = z.output<typeof GiveVisit>;

/** What a booked visit does, tells the technician, and whether planning leaves it alone. */
export const ChangeVisit = z.object({
  visitId: z.uuid(),
  version: z.coerce.number().int(),
  taskIds: z.array(z.uuid()).optional().default([]),
  minutes: MinutesField,
  note: longText().max(2000, 'At most 2000 letters.').optional().default(''),
  fixed: z.stringbool().optional().default(false),
});
export type ChangeVisit = z.output<typeof ChangeVisit>;

export const RestoreVisit = z.object({ visitId: z.uuid(), version: z.coerce.number().int() });
export type RestoreVisit = z.output<typeof RestoreVisit>;

export const ReviseVisit = z.object({ visitId: z.uuid() });
