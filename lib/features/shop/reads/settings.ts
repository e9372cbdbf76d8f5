import 'server-only';
import type { Tx } from '../../../database/client';

/** The shop's settings, or null before set-up. */
export const shopSettings = (db: Tx) => db.shopSettings.findUnique({ where: { id: 1 } });

/** Days past due beyond which a task goes to the top of the list. */
export async function overdueLimit(db: Tx): Promise<number> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { overdueLimitDays: true } });
  return shop?.overdueLimitDays ?? 14;
}
