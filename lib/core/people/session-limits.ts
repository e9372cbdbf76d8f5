import { roleInfo, ROLES, type Role } from './access';

/** The cookie lives as long as the longest; the sessions on file say when each ends. */
export const LONGEST_SESSION_MS = Math.max(...ROLES.map((role) => roleInfo(role).sessionMs.most));

export type SessionTimes = { createdAt: Date; lastSeenAt: Date; expiresAt: Date };

/** Whether a session still holds, by the role that the person has now: given more to open, it lasts less long. */
export function sessionHolds(role: Role, s: SessionTimes, now: Date): boolean {
  const { idle, most } = roleInfo(role).sessionMs;
  const t = now.getTime();
  return t < s.expiresAt.getTime() && t - s.createdAt.getTime() < most && t - s.lastSeenAt.getTime() < idle;
}
