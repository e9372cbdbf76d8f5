import 'server-only';
import type { Actor } from '../../../core/people/access';
import { sessionHolds } from '../../../core/people/session-limits';
import type { Tx } from '../../../database/client';

const LAST_SEEN_EVERY_MS = 60_000;

/** With when the password was last given, and whether a code belongs to signing in. */
export type SignedIn = Actor & { provenAt: Date; secondStep: boolean };

/** The actor of a session that is neither revoked nor expired, of a person still active. */
export async function findLiveSession(db: Tx, sessionId: string, now: Date): Promise<SignedIn | null> {
  const s = await db.staffSession.findUnique({ where: { id: sessionId }, include: { user: true } });
  if (!s || s.revokedAt || !s.user.active || !sessionHolds(s.user.role, s, now)) return null;
  if (now.getTime() - s.lastSeenAt.getTime() > LAST_SEEN_EVERY_MS)
    // eslint-disable-next-line no-restricted-syntax -- looking is what is noted: no page would call a verb for it
    await db.staffSession.updateMany({ where: { id: sessionId }, data: { lastSeenAt: now } });
  return {
    userId: s.userId,
    role: s.user.role,
    name: s.user.name,
    sessionId: s.id,
    provenAt: s.provenAt,
    secondStep: s.user.secondStep !== null,
  };
}

/** Sessions still open, newest first. */
export async function liveSessions(db: Tx, userId: string, now: Date) {
  const sessions = await db.staffSession.findMany({
    where: { userId, revokedAt: null, expiresAt: { gt: now } },
    orderBy: { lastSeenAt: 'desc' },
    include: { user: { select: { role: true } } },
  });
  return sessions.filter((s) => sessionHolds(s.user.role, s, now));
}
