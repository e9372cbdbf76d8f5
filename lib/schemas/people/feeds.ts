import { z } from 'zod';

/** Whose calendar: a technician's or a kitchen's. */
export const FeedOf = z.union([z.object({ userId: z.uuid() }), z.object({ kitchenId: z.uuid() })]);

/** Addresses for everybody of a kind who has none yet. */
export const FeedsFor = z.object({ whose: z.enum(['technicians', 'kitchens']) });
