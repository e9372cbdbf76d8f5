import 'server-only';
import type { Tx } from '../../../database/client';
import { hashToken, looksLikeToken } from '../../links/reads/link-token';

/** The link, while it is good and its person may sign in; null otherwise, whatever is wrong with it. */
export async function openPasswordLink(db: Tx, token: string, now: Date) {
  if (!looksLikeToken(token)) return null;
  const link = await db.passwordLink.findUnique({
    where: { tokenHash: hashToken(token) },
    include: { user: { select: { name: true, email: true, active: true } } },
  });
  return link && !link.usedAt && link.expiresAt > now && link.user.active ? link : null;
}
