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

type Row = Omit<StandingUnit, 'days' | 'own'> & { asOf: Date; own: unknown; timeZone: string };

/** Where the coils of some kitchens stand, fastest first: only those that somebody looked at and that air cools. */
export async function standings(db: Tx, kitchenIds: readonly string[], now: Date): Promise<StandingUnit[]> {
  const rows = await db.$queryRaw<Row[]>(Prisma.sql`
    SELECT u.id, u.name, u.kind::text AS kind, u.placement::text AS placement, u.refrigerant, u."kitchenId", f."ratePerDay", f."rateSdPerDay", f."evidenceCount",
      f."lnK", f."lnKSd", f."asOf", f.own, k."timeZone"
    FROM "Unit" u JOIN "UnitFouling" f ON f."unitId" = u.id JOIN "Kitchen" k ON k.id = u."kitchenId"
    WHERE u."kitchenId" = ANY(${[...kitchenIds]}::uuid[]) AND u."archivedAt" IS NULL AND ${TELLS} ORDER BY f."ratePerDay" DESC, u.id`);
  return rows.map(({ asOf, own, timeZone, ...unit }) => ({
    ...unit,
    days: daysBetween(toLocalDate(asOf), todayIn(timeZone, now.getTime())),
    own: STORED_OWN_LIMITS.readOrNull(own),
  }));
}
