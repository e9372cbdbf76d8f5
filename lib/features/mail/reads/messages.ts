import 'server-only';
import type { Tx } from '../../../database/client';

/** Messages to kitchens, newest first. */
export const recentMessages = (db: Tx, most = 100) => db.outboxMessage.findMany({ orderBy: { createdAt: 'desc' }, take: most });
