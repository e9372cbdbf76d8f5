import type { Role } from './access';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/**
 * How long a sign-in lasts untouched, and at all, in milliseconds: the more it opens, the shorter. The owner's limits are
 * those of NIST SP 800-63B-3 4.2.3 (AAL2: 12 hours) but for its half hour untouched; a tablet spends days in kitchens
 * without signal, and what is written on it must still be sent by whoever wrote it.
 */
export const SESSION_LIMITS: Record<Role, { idle: number; most: number }> = {
  owner: { idle: 4 * HOUR, most: 12 * HOUR },
  dispatcher: { idle: 12 * HOUR, most: 7 * DAY },
  technician: { idle: 14 * DAY, most: 30 * DAY },
};

/** The cookie lives as long as the longest; the sessions on file say when each ends. */
export const LONGEST_SESSION_MS = Math.max(...Object.values(SESSION_LIMITS).map((l) => l.most));

export type SessionTimes = { createdAt: Date; lastSeenAt: Date; expiresAt: Date };

/** Whether a session still holds, by the role that the person has now: given more to open, it lasts less long. */
export function sessionHolds(role: Role, s: SessionTimes, now: Date): boolean {
  const { idle, most } = SESSION_LIMITS[role];
  const t = now.getTime();
  return t < s.expiresAt.getTime() && t - s.createdAt.getTime() < most && t - s.lastSeenAt.getTime() < idle;
}
