import 'server-only';
import { travelMinutes, type Place } from '../../../core/planning';
import type { Tx } from '../../../database/client';
import { travelBetween } from '../../planning/reads/travel';
import { shopSettings } from '../../shop/reads/settings';
import type { BoardVisit } from './visits';

const SAME_ROUND_MS = 10 * 3_600_000;

/**
 * Minutes on the road to each visit: from the technician's stop before on the same round, or from where the round
 * begins; null when that cannot be told.
 */
export async function drivesBefore(db: Tx, visits: readonly BoardVisit[]): Promise<Map<string, number | null>> {
  const { travel, placeOf } = await travelBetween(
    db,
    visits.map((v) => v.kitchenId),
  );
  const shop = await shopSettings(db);
  const people = await db.user.findMany({
    where: { id: { in: [...new Set(visits.map((v) => v.technicianId))] } },
    select: { id: true, homeLat: true, homeLng: true },
  });
  const home = new Map(
    people.map((p): [string, Place] => [
      p.id,
      p.homeLat === null ? { lat: shop?.lat, lng: shop?.lng } : { lat: p.homeLat, lng: p.homeLng },
    ]),
  );
  const place = (v: BoardVisit) => placeOf({ id: v.kitchenId, lat: v.lat, lng: v.lng }) ?? {};
  return new Map(
    visits.map((v) => {
      const before = visits.findLast(
        (o) => o.technicianId === v.technicianId && o.endsAt <= v.startsAt && v.startsAt - o.endsAt < SAME_ROUND_MS,
      );
      return [v.id, travelMinutes(before ? place(before) : (home.get(v.technicianId) ?? {}), place(v), travel)];
    }),
  );
}
