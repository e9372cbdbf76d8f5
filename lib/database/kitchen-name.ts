import { Prisma } from './client';

/** `fullKitchenName` of kitchen `k` and its customer `c`, where a statement has to say it. */
export const FULL_KITCHEN_NAME = Prisma.sql`concat_ws(', ', c.name, nullif(k.name, c.name))`;
