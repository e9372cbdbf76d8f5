import { z } from 'zod';
import { text } from './text';
import { LocalDateField } from './visits';

export const StartPlan = z.object({ day: LocalDateField });
export const PlanId = z.object({ runId: z.uuid() });
export const AcceptPlan = z.object({ runId: z.uuid(), keys: z.array(text()).min(1, 'Choose at least one visit.') });
