import { z } from 'zod';
import { longText } from '../values/text';
import { LocalDateField, MinutesField, TimeField } from '../values/days';

/** An emergency as it is told on the telephone. Date and time in the kitchen's own zone. */
export const SqueezeAsk = z.object({
  kitchenId: z.uuid('Choose a kitchen.'),
  /** The job that it is for, where there is one. */
  jobId: z.uuid().optional(),
  unitIds: z.array(z.uuid()).optional().default([]),
  taskIds: z.array(z.uuid()).optional().default([]),
  what: longText('Say what is wrong.')
    .min(3, 'Say what is wrong.')
    .max(500, 'At most 500 letters; the rest goes into the note on the visit.'),
  minutes: MinutesField,
  date: LocalDateField,
  from: TimeField,
  /** The kitchen lets someone in whenever they come, not only when it can spare its equipment. */
  anyHour: z.stringbool().optional().default(false),
});
export type SqueezeAsk = z.output<typeof SqueezeAsk>;

const Instant = z.int().min(0).max(8.64e15);

/** One of the ways offered, taken. Times are epoch milliseconds. */
export const SqueezeTake = z.object({
  kitchenId: z.uuid(),
  jobId: z.uuid().optional(),
  unitIds: z.array(z.uuid()),
  taskIds: z.array(z.uuid()),
  what: longText().min(3).max(500),
  minutes: z.int().min(10).max(720),
  technicianId: z.uuid(),
  startMs: Instant,
  moves: z.array(z.object({ visitId: z.uuid(), version: z.int(), technicianId: z.uuid(), startMs: Instant, endMs: Instant })).max(50),
});
export type SqueezeTake = z.output<typeof SqueezeTake>;
