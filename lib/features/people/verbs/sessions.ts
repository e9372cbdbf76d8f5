import 'server-only';
import type { Db, Tx } from '../../../database/client';

/** Ends one session; ending it twice is no error. */
export async function revokeSession({ db, now }: { db: Db; now: Date }, sessionId: string): Promise<void> {
  await db.staffSession.updateMany({ where: { id: sessionId, revokedAt: null }, data: { revokedAt: now } });
}

export const createSession = (db: Tx, data: { userId: string; userAgent: string; createdAt: Date; expiresAt: Date }) =>
  db.staffSession.create({ data: { ...data, lastSeenAt: data.createdAt, provenAt: data.createdAt } });

/** Revokes one session, or all of a person's. */
export const revokeSessions = (db: Tx, where: { userId: string; id?: string | { not: string } }, now: Date) =>
  db.staffSession.updateMany({ where: { ...where, revokedAt: null }, data: { revokedAt: now } });
