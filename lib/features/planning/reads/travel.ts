import 'server-only';
import type { NamedKitchen, Place, Travel } from '../../../core/planning';
import { shopRoad } from '../../shop/reads/shop';
import type { Tx } from '../../../database/client';

type Placed = { id: string; lat: number | null; lng: number | null };

/**
 * How the shop's vans get about between these kitchens: imported minutes where a pair has them, coordinates otherwise.
 * `placeOf` gives a kitchen's place for `travelMinutes`; null without coordinates, for nobody could be sent there from home.
 */
export async function travelBetween(
  db: Tx,
  kitchenIds: readonly string[],
): Promise<{ travel: Travel; placeOf: (kitchen: Placed) => Place | null }> {
  const ids = [...new Set(kitchenIds)];
  const road = await shopRoad(db);
  const times = await db.travelTime.findMany({ where: { fromKitchenId: { in: ids }, toKitchenId: { in: ids } } });
  if (times.length === 0)
    return {
      travel: { circuity: road.circuity, speedKmh: road.speedKmh },
      placeOf: (k) => (k.lat === null ? null : { lat: k.lat, lng: k.lng }),
    };
  const row = new Map(ids.map((id, i) => [id, i]));
  // Not a number: not imported, so that coordinates answer for the pair.
  const matrix = ids.map((_, i) => ids.map((__, j) => (i === j ? 0 : NaN)));
  for (const t of times) {
    const [from, to] = [row.get(t.fromKitchenId), row.get(t.toKitchenId)];
    const line = from === undefined ? undefined : matrix[from];
    if (line && to !== undefined) line[to] = t.minutes;
  }
  return {
    travel: { circuity: road.circuity, speedKmh: road.speedKmh, matrix },
    placeOf: (k) => (k.lat === null ? null : { lat: k.lat, lng: k.lng, matrixRow: row.get(k.id) ?? null }),
  };
}

/** Kitchens on file as a travel file may name them, customers in order. */
export async function namedKitchens(db: Tx): Promise<NamedKitchen[]> {
  const rows = await db.kitchen.findMany({
    where: { archivedAt: null, customer: { archivedAt: null } },
    select: {
      id: true,
      name: true,
      lat: true,
      lng: true,
      customer: { select: { name: true } },
      units: { where: { archivedAt: null }, select: { tag: true } },
    },
    orderBy: [{ customer: { name: 'asc' } }, { name: 'asc' }],
  });
  return rows.map(({ customer, units, ...k }) => ({ ...k, customer: customer.name, tags: units.map((u) => u.tag) }));
}

/** Imported pairs, of kitchens taken out of use too. */
export const countTravelTimes = (db: Tx): Promise<number> => db.travelTime.count();
