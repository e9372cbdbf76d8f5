import 'server-only';
import { daysBetween, todayIn } from '../../core/calendar';
import type { OwnLimits, UnitStanding } from '../../core/evidence';
import { toLocalDate } from '../dates';
import type { Tx } from '../client';

export type StandingUnit = UnitStanding & {
  id: string;
  name: string;
  kind: string;
  placement: string;
  refrigerant: string;
  kitchenId: string;
  evidenceCount: number;
};

/** Where the coils of some kitchens stand, fastest first. Units nobody has looked at have no row yet. */
export async function standings(db: Tx, kitchenIds: readonly string[], now: Date): Promise<StandingUnit[]> {
  const rows = await db.unitFouling.findMany({
    where: { unit: { kitchenId: { in: [...kitchenIds] }, archivedAt: null } },
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
    own: own as unknown as OwnLimits | null,
  }));
}
