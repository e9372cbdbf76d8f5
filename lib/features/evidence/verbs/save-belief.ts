import 'server-only';
import { fromLocalDate } from '../../../core/calendar/date-column';
import type { FleetBelief, OwnLimits, UnitBelief } from '../../../core/evidence';
import { STORED_BASELINE } from '../../../database/stored/estimate';
import { STORED_FLEET_BELIEF, STORED_OWN_LIMITS, STORED_POSTERIOR } from '../../../database/stored/fouling';
import { Prisma, type Tx } from '../../../database/client';

export const saveFleetBelief = (db: Tx, belief: FleetBelief, fittedAt: Date) =>
  db.fleetPrior.create({ data: { hyper: STORED_FLEET_BELIEF.write(belief), modelVersion: belief.fouling.modelVersion, fittedAt } });

/** A belief as plain values under the names of its columns, dates as text. */
export function foulingJson({ file, evidence, fouling }: UnitBelief) {
  const { grades, readings, cleanings } = fouling.evidence;
  return {
    unitId: file.unitId,
    posterior: STORED_POSTERIOR.write(fouling),
    ratePerDay: fouling.rate.mean,
    rateSdPerDay: fouling.rate.sd,
    evidenceCount: grades + readings + cleanings,
    modelVersion: fouling.modelVersion,
    lnK: fouling.lnK.mean,
    lnKSd: fouling.lnK.sd,
    asOf: fouling.asOf,
    baseline: STORED_BASELINE.write(evidence.baseline),
  };
}

/** A belief as its row. `own` is left as it is on file where it is not given; null says that there are no numbers. */
export function foulingRow(belief: UnitBelief, own?: OwnLimits | null) {
  const { asOf, ...row } = foulingJson(belief);
  return {
    ...row,
    asOf: fromLocalDate(asOf),
    ...(own === undefined ? {} : { own: own ? STORED_OWN_LIMITS.write(own) : Prisma.DbNull }),
  };
}

export async function saveBelief(db: Tx, belief: UnitBelief, own?: OwnLimits | null): Promise<void> {
  const row = foulingRow(belief, own);
  await db.unitFouling.upsert({ where: { unitId: row.unitId }, create: row, update: row });
}
