import 'server-only';
import type { Travel } from '../../../core/planning';
import type { Habits } from '../../../core/measures/habits';
import { REGIONS, type DistanceUnit, type Region } from '../../../core/measures/region';
import type { MeasureUnits } from '../../../core/measures/preferred';
import type { Position } from '../../../core/position';
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

/** Where the shop works: what distances and customers’ units follow. */
async function shopRegion(db: Tx): Promise<Region> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { region: true } });
  return shop?.region ?? 'us';
}

/** How dates, times and money are written, and on what paper. */
export async function shopHabits(db: Tx): Promise<Partial<Habits>> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { dates: true, region: true } });
  if (!shop) return {};
  const { english, paper } = REGIONS[shop.region];
  return { dates: shop.dates, english, paper };
}

/** Of roads. */
export const shopDistance = async (db: Tx): Promise<DistanceUnit> => REGIONS[await shopRegion(db)].distance;

/** What customers read in, who have no setting of their own. */
export const customersUnits = async (db: Tx): Promise<MeasureUnits> => REGIONS[await shopRegion(db)].customers;

/** Where the shop stands, if that is on file. */
export async function shopPosition(db: Tx): Promise<Position | null> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { lat: true, lng: true } });
  return shop?.lat != null && shop.lng !== null ? { lat: shop.lat, lng: shop.lng } : null;
}
