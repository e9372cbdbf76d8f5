import 'server-only';
import type { Db } from '../../../database/client';
import { hashToken, newToken } from '../../links/reads/link-token';

/** A secret calendar address for a technician or a kitchen. The old ones stop working; the new one is shown once. */
export async function createFeed(
  { db, now, baseUrl }: { db: Db; now: Date; baseUrl: string },
  of: { userId: string } | { kitchenId: string },
): Promise<string> {
  const token = newToken();
  await db.$transaction([
    db.calendarFeed.updateMany({ where: { ...of, revokedAt: null }, data: { revokedAt: now } }),
    db.calendarFeed.create({ data: { ...of, tokenHash: hashToken(token), createdAt: now } }),
  ]);
  return `${baseUrl}/api/feeds/${token}`;
}

/** Ends every calendar address of a technician or kitchen. */
export async function revokeFeeds({ db, now }: { db: Db; now: Date }, of: { userId: string } | { kitchenId: string }): Promise<void> {
  await db.calendarFeed.updateMany({ where: { ...of, revokedAt: null }, data: { revokedAt: now } });
}
