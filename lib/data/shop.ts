import 'server-only';
import type { Tx } from './client';

/** The shop's own time zone; UTC until the shop is set up. */
export async function shopTimeZone(db: Tx): Promise<string> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { timeZone: true } });
  return shop?.timeZone ?? 'UTC';
}
