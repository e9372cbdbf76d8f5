import 'server-only';
import type { Tx } from '../../../database/client';
import { hashToken, looksLikeToken } from '../../links/reads/link-token';

/** The report behind a link; null for one unknown, expired or taken back, all alike. */
export async function reportByLink(db: Tx, token: string, now: Date) {
  if (!looksLikeToken(token)) return null;
  const sent = await db.reportSent.findUnique({ where: { tokenHash: hashToken(token) } });
  return sent && !sent.revokedAt && sent.expiresAt > now ? { id: sent.id, visitId: sent.visitId, language: sent.language } : null;
}

/** A picture of the visit that the link stands for, and of no other. */
export async function pictureByLink(db: Tx, token: string, fileId: string, now: Date) {
  const link = await reportByLink(db, token, now);
  if (!link) return null;
  return db.storedFile.findFirst({
    where: { id: fileId, photos: { some: { visitId: link.visitId } } },
    select: { mime: true, content: true },
  });
}

/** Notes that somebody opened it: looking is what is noted, no page would call a verb for it. */
export const noteOpening = (db: Tx, id: string, now: Date) =>
  // eslint-disable-next-line no-restricted-syntax -- see above
  db.$executeRaw`UPDATE "ReportSent" SET openings = openings + 1, "openedAt" = coalesce("openedAt", ${now}) WHERE id = ${id}::uuid`;
