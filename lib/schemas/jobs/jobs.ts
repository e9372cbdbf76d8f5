import { z } from 'zod';
import { JOB_STATES, JOB_STEPS, JOB_URGENCIES } from '../../core/jobs';
import { FreeText } from '../values/fields';
import { longText } from '../values/text';

const What = longText('Say what is wrong.').min(3, 'Say what is wrong.').max(500, 'At most 500 letters.');

/** A call as it is taken, or work that the office wants done. */
export const TakeCall = z.object({
  kitchenId: z.uuid('Choose a kitchen.'),
  unitIds: z.array(z.uuid()).optional().default([]),
  what: What,
  urgency: z.enum(JOB_URGENCIES, 'Say how soon.'),
  source: z.enum(['call', 'office']).optional().default('call'),
  callerName: FreeText(120),
  callerPhone: FreeText(40),
});
export type TakeCall = z.output<typeof TakeCall>;

export const JobStepTaken = z.object({
  jobId: z.uuid(),
  /** As the page showed it: what changed meanwhile is not overrun. */
  from: z.enum(JOB_STATES),
  step: z.enum(JOB_STEPS),
  reason: FreeText(500),
});
export type JobStepTaken = z.output<typeof JobStepTaken>;

export const EditJob = z.object({
  jobId: z.uuid(),
  version: z.coerce.number().int(),
  what: What,
  urgency: z.enum(JOB_URGENCIES),
  unitIds: z.array(z.uuid()).optional().default([]),
});
export type EditJob = z.output<typeof EditJob>;

export const PutOnVisit = z.object({ jobId: z.uuid(), visitId: z.uuid('Choose a visit.') });
export type PutOnVisit = z.output<typeof PutOnVisit>;
