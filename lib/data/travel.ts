import 'server-only';
import type { Place, Travel } from '../core/planning';
import { shopRoad } from './shop';
import type { Tx } from './client';

type Placed = { id: string; lat: number | null; lng: number | null };

/**
 * How the shop's vans get about between these kitchens: imported minutes where a pair has them, coordinates otherwise.
 * `placeOf` gives a kitchen's place for `travelMinutes`; null without coordinates, for nobody could be sent there from home.
 */
export async function travelBetween(db: Tx, kitchenIds: readonly string[]): Promise<{ travel: Travel; placeOf: (kitchen: Placed) => Place | null }> {
  const ids = [...new Set(kitchenIds)];
  const road = await shopRoad(db);
  const times = await db.travelTime.findMany({ where: { fromKitchenId: { in: ids }, toKitchenId: { in: ids } } });
  if (times.length === 0) return { travel: { circuity: road.circuity, speedKmh: road.speedKmh }, placeOf: (k) => (k.lat === null ? null : { lat: k.lat, lng: k.lng }) };
  const row = new Map(ids.map((id, i) => [id, i]));
  // Not a number: not imported, so that coordinates answer for the pair.
  const matrix = ids.map((_, i) => ids.map((__, j) => (i === j ? 0 : NaN)));
  for (const t of times) matrix[row.get(t.fromKitchenId)!]![row.get(t.toKitchenId)!] = t.minutes;
  return {
    travel: { circuity: road.circuity, speedKmh: road.speedKmh, matrix },
    placeOf: (k) => (k.lat === null ? null : { lat: k.lat, lng: k.lng, matrixRow: row.get(k.id) ?? null }),
  };
}
