import 'server-only';
import { STORED_OWN_LIMITS } from '../../../database/stored/fouling';
import { daysBetween, todayIn } from '../../../core/calendar';
import type { UnitStanding } from '../../../core/evidence';
import { toLocalDate } from '../../../core/calendar/date-column';
import { Prisma, type Tx } from '../../../database/client';

export type StandingUnit = UnitStanding & {
  id: string;
  name: string;
  kind: string;
  placement: string;
  refrigerant: string;
  kitchenId: string;
  evidenceCount: number;
};

/** Units that no sum or rate may count, and why. */
export type LeftOut = {
  /** Nothing but a first guess is on file: nobody looked at the coil yet. */
  unseen: number;
  /** Cooled by water: air tells nothing of the condenser. */
  water: number;
};

const WATER = 'water_cooled';
/** On a unit `u` and its row `f`, if any: somebody looked at its coil, and air can tell of it. */
export const TELLS = Prisma.sql`(u."condenserKind"::text <> ${WATER} AND coalesce(f."evidenceCount", 0) > 0)`;

/** Where the coils of some kitchens stand, fastest first: only those that somebody looked at and that air cools. */
export async function standings(db: Tx, kitchenIds: readonly string[], now: Date): Promise<StandingUnit[]> {
  const rows = await db.unitFouling.findMany({
    where: { evidenceCount: { gt: 0 }, unit: { kitchenId: { in: [...kitchenIds] }, archivedAt: null, condenserKind: { not: WATER } } },
    orderBy: [{ ratePerDay: 'desc' }, { unitId: 'asc' }],
    select: {
      ratePerDay: true, rateSdPerDay: true, evidenceCount: true, lnK: true, lnKSd: true, asOf: true, own: true,
      unit: { select: { id: true, name: true, kind: true, placement: true, refrigerant: true, kitchenId: true, kitchen: { select: { timeZone: true } } } },
    },
  }); // prettier-ignore
  return rows.map(({ unit: { kitchen, ...unit }, asOf, own, ...f }) => ({
    ...unit,
    ...f,
    days: daysBetween(toLocalDate(asOf), todayIn(kitchen.timeZone, now.getTime())),
    own: STORED_OWN_LIMITS.readOrNull(own),
  }));
}
