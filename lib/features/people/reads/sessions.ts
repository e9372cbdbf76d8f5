import 'server-only';
import type { Actor } from '../../../core/people/access';
import type { Tx } from '../../../database/client';

const LAST_SEEN_EVERY_MS = 60_000;

/** The actor of a session that is neither revoked nor expired, of a person still active. */
export async function findLiveSession(db: Tx, sessionId: string, now: Date): Promise<Actor | null> {
  const s = await db.staffSession.findUnique({ where: { id: sessionId }, include: { user: true } });
  if (!s || s.revokedAt || s.expiresAt <= now || !s.user.active) return null;
  if (now.getTime() - s.lastSeenAt.getTime() > LAST_SEEN_EVERY_MS)
    await db.staffSession.updateMany({ where: { id: sessionId }, data: { lastSeenAt: now } });
  return { userId: s.userId, role: s.user.role, name: s.user.name, sessionId: s.id };
}

export const createSession = (db: Tx, data: { userId: string; userAgent: string; createdAt: Date; expiresAt: Date }) =>
  db.staffSession.create({ data: { ...data, lastSeenAt: data.createdAt } });

/** Sessions still open, newest first. */
export const liveSessions = (db: Tx, userId: string, now: Date) =>
  db.staffSession.findMany({ where: { userId, revokedAt: null, expiresAt: { gt: now } }, orderBy: { lastSeenAt: 'desc' } });

/** Revokes one session, or all of a person's. */
export const revokeSessions = (db: Tx, where: { userId: string; id?: string | { not: string } }, now: Date) =>
  db.staffSession.updateMany({ where: { ...where, revokedAt: null }, data: { revokedAt: now } });
