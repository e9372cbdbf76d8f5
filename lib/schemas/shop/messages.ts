import { z } from 'zod';

export const DecideMessage = z.object({ messageId: z.uuid(), decision: z.enum(['again', 'leave']) });
export type DecideMessage = z.output<typeof DecideMessage>;
