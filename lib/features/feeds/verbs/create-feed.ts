import 'server-only';
import type { Db } from '../../../database/client';
import { calendarOwners } from '../reads/calendar-feeds';
import { hashToken, newToken } from '../../links/reads/link-token';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

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

/** Addresses for every technician or kitchen that has none yet; those that live stay. Each is shown this once. */
export async function createFeeds(
  ctx: { db: Db; now: Date; baseUrl: string },
  { whose }: { whose: 'technicians' | 'kitchens' },
): Promise<{ name: string; address: string }[]> {
  const owners = await calendarOwners(ctx.db);
  const rows = [];
  if (whose === 'technicians')
    for (const t of owners.technicians.filter((o) => !o.live))
      rows.push({ name: t.name, address: await createFeed(ctx, { userId: t.id }) });
  else
    for (const k of owners.kitchens.filter((o) => !o.live))
      rows.push({ name: fullKitchenName(k), address: await createFeed(ctx, { kitchenId: k.id }) });
  return rows;
}
