import 'server-only';
import { Prisma } from '../../../database/client';

const DAY_MS = 86_400_000;

/** How many jobs customers wrote on their pages and nobody took up: pressing ones for as long as they wait, others for a day. A statement's part. */
export const askedOnPages = (now: Date) => Prisma.sql`
  SELECT count(*)::int FROM "Job" WHERE source = 'customer' AND state = 'asked' AND "closedAt" IS NULL
    AND (urgency IN ('now', 'today') OR "createdAt" > ${new Date(now.getTime() - DAY_MS)})`;
