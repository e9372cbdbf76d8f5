import 'server-only';
import type { Travel } from '../../../core/planning';
import type { Tx } from '../../../database/client';

/** The shop's own time zone; UTC until the shop is set up. */
export async function shopTimeZone(db: Tx): Promise<string> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { timeZone: true } });
  return shop?.timeZone ?? 'UTC';
}

/** How the shop's vans get about: circuity and mean speed. */
export async function shopRoad(db: Tx): Promise<Travel> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { circuity: true, speedKmh: true } });
  return shop ?? { circuity: 1.3, speedKmh: 35 };
}
