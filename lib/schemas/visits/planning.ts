import { z } from 'zod';
import { text } from '../values/text';
import { LocalDateField } from '../values/days';

export const StartPlan = z.object({ day: LocalDateField });
export const PlanId = z.object({ runId: z.uuid() });
/** The visits chosen, each as proposed but for what was changed before accepting. */
export const AcceptPlan = z.object({
  runId: z.uuid(),
  visits: z
    .array(
      z.object({
        key: text(),
        technicianId: z.uuid().optional(),
        startMs: z.int().min(0).max(8.64e15).optional(),
        /** Agreed as it stands: planning leaves it there from now on. */
        fixed: z.boolean().optional().default(false),
      }),
    )
    .min(1, 'Choose at least one visit.'),
});
export type AcceptPlan = z.output<typeof AcceptPlan>;
