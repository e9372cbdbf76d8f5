import 'server-only';
import { todayIn } from '../../../core/calendar';
import { seasonsOf, type Season } from '../../../core/evidence';
import type { Tx } from '../../../database/client';
import { unitFiles } from '../../evidence/reads/findings-history';
import { fleetBelief } from '../../evidence/reads/fouling';

/** How fast a kitchen's coils, or one of them, fouled season by season; only coils that air cools. */
export async function kitchenSeasons(
  db: Tx,
  kitchen: { id: string; timeZone: string },
  unitId: string | null,
  now: Date,
): Promise<Season[]> {
  const files = (await unitFiles(db, { kitchenId: kitchen.id })).filter(
    (f) => f.unit.condenserKind !== 'water_cooled' && (unitId === null || f.unitId === unitId),
  );
  return seasonsOf(files, await fleetBelief(db), todayIn(kitchen.timeZone, now.getTime()));
}
