import 'server-only';
import type { Db } from '../../../database/client';

/** Ends one session; ending it twice is no error. */
export async function revokeSession({ db, now }: { db: Db; now: Date }, sessionId: string): Promise<void> {
  await db.staffSession.updateMany({ where: { id: sessionId, revokedAt: null }, data: { revokedAt: now } });
}
