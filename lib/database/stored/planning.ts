import { z } from 'zod';
import { MEND_AT } from '../../core/planning/input/check-input';
import type { Proposal } from '../../core/planning/proposal';
import { REASONS } from '../../core/planning/types';
import { renamed, stored } from './stored';

const cost = z.object({
  total: z.number(), driving: z.number(), drivingMinutes: z.number(), visits: z.number(), overtime: z.number(), overtimeMinutes: z.number(),
  lateness: z.number(), latenessMinutes: z.number(), early: z.number(), overdue: z.number(), left: z.number(),
}); // prettier-ignore

const reason = z.looseObject({
  overdue: z.number(), longestOverdueDays: z.number(), due: z.number(), along: z.number(), furthestDays: z.number(), detourMinutes: z.number(),
  drivingCost: z.number(), earlyCost: z.number(), nextDueDay: z.number().nullable(), only: z.string().nullable(),
}); // prettier-ignore

const visit = z.looseObject({
  key: z.string(),
  kitchenId: z.string(),
  kitchen: z.string(),
  customer: z.string(),
  timeZone: z.string(),
  technicianId: z.string(),
  technician: z.string(),
  startMs: z.number(),
  endMs: z.number(),
  driveMinutes: z.number(),
  taskIds: z.array(z.string()),
  units: z.number(),
  overdue: z.number(),
  reason: reason.optional(),
});

const finding = z.looseObject({
  code: z.string(),
  message: z.string(),
  mend: z.object({ at: z.enum(MEND_AT), id: z.string().optional(), label: z.string() }),
  tasks: z.number(),
  weight: z.enum(['stops', 'keeps out', 'assumed']),
});

const proposal: z.ZodType<Proposal> = z.looseObject({
  visits: z.array(visit),
  unplaced: z.array(
    z.looseObject({ what: z.string(), kitchen: z.string(), kitchenId: z.string(), code: z.enum(REASONS), message: z.string() }),
  ),
  later: z.number(),
  cost,
  input: z.array(finding),
  due: z.object({ tasks: z.number(), kitchens: z.number(), searched: z.number() }),
  couldSaveMinutes: z.number().nullable(),
  proven: z.boolean(),
  kept: z.number(),
  searchMs: z.number(),
  seed: z.number(),
});

/** What a search has found so far. */
export const STORED_PROPOSAL = stored<Proposal>('proposal for a week', 2, proposal, { 1: renamed(['words', 'message']) });

/** What was booked of a proposal, so that it can be taken back. */
export const STORED_BOOKED = stored<{ booked?: string[] }>('note of what a proposal booked', 1, z.looseObject({ booked: z.array(z.string()).optional() })); // prettier-ignore
