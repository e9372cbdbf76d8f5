import 'server-only';
import type { Tx } from '../../../database/client';
import { hashToken, looksLikeToken } from './link-token';

/** The booked visit behind a customer's link; null for one unknown, expired, revoked or past its use. */
export async function visitByLink(db: Tx, token: string, now: Date) {
  if (!looksLikeToken(token)) return null;
  const link = await db.customerLink.findUnique({
    where: { tokenHash: hashToken(token) },
    include: {
      visit: { include: { kitchen: { include: { customer: { select: { language: true } } } }, technician: { select: { name: true } } } },
    },
  });
  if (!link || link.revokedAt || link.expiresAt <= now || link.visit.status !== 'booked') return null;
  return link.visit;
}
