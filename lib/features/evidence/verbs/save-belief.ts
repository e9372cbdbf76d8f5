import 'server-only';
import { fromLocalDate } from '../../../core/calendar/date-column';
import type { FleetBelief, OwnLimits, CoilBelief } from '../../../core/evidence';
import { STORED_BASELINE } from '../../../database/stored/estimate';
import { STORED_FLEET_BELIEF, STORED_OWN_LIMITS, STORED_POSTERIOR } from '../../../database/stored/fouling';
import { Prisma, type Tx } from '../../../database/client';

export const saveFleetBelief = (db: Tx, belief: FleetBelief, fittedAt: Date) =>
  db.fleetPrior.create({ data: { hyper: STORED_FLEET_BELIEF.write(belief), modelVersion: belief.fouling.modelVersion, fittedAt } });

/** A belief as plain values under the names of its columns, dates as text. */
function foulingJson({ file, evidence, fouling }: CoilBelief) {
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
export function foulingRow(belief: CoilBelief, own?: OwnLimits | null) {
  const { asOf, ...row } = foulingJson(belief);
  return {
    ...row,
    asOf: fromLocalDate(asOf),
    ...(own === undefined ? {} : { own: own ? STORED_OWN_LIMITS.write(own) : Prisma.DbNull, ownKey: null }),
  };
}

/** Its own limits stay as they are on file. */
export async function saveBelief(db: Tx, belief: CoilBelief): Promise<void> {
  const row = foulingRow(belief);
  await db.unitFouling.upsert({ where: { unitId: row.unitId }, create: row, update: row });
}

/** Limits that are not given stay as they are on file. `ownKey` says what they were worked out from. */
export type BeliefToSave = { belief: CoilBelief; own?: OwnLimits | null; ownKey?: string };

/** Many beliefs in one statement. */
export async function saveBeliefs(tx: Tx, beliefs: readonly BeliefToSave[], now: Date): Promise<void> {
  if (beliefs.length === 0) return;
  const rows = beliefs.map(({ belief, own, ownKey }) => ({
    ...foulingJson(belief),
    updatedAt: now,
    own: own ? STORED_OWN_LIMITS.write(own) : null,
    ownKey: ownKey ?? null,
    keepOwn: own === undefined,
  }));
  await tx.$executeRaw(Prisma.sql`
    INSERT INTO "UnitFouling" AS kept ("unitId", posterior, "ratePerDay", "rateSdPerDay", "evidenceCount", "modelVersion", "updatedAt", "lnK", "lnKSd", "asOf", baseline, own, "ownKey")
    SELECT r."unitId", r.posterior, r."ratePerDay", r."rateSdPerDay", r."evidenceCount", r."modelVersion", r."updatedAt", r."lnK", r."lnKSd", r."asOf", r.baseline, r.own, r."ownKey"
    FROM jsonb_populate_recordset(null::"UnitFouling", ${JSON.stringify(rows)}::jsonb) r ORDER BY r."unitId"
    ON CONFLICT ("unitId") DO UPDATE SET posterior = excluded.posterior, "ratePerDay" = excluded."ratePerDay", "rateSdPerDay" = excluded."rateSdPerDay",
      "evidenceCount" = excluded."evidenceCount", "modelVersion" = excluded."modelVersion", "updatedAt" = excluded."updatedAt", "lnK" = excluded."lnK",
      "lnKSd" = excluded."lnKSd", "asOf" = excluded."asOf", baseline = excluded.baseline,
      own = CASE WHEN excluded."unitId" = ANY(${keeping(rows)}::uuid[]) THEN kept.own ELSE excluded.own END,
      "ownKey" = CASE WHEN excluded."unitId" = ANY(${keeping(rows)}::uuid[]) THEN kept."ownKey" ELSE excluded."ownKey" END`);
}

const keeping = (rows: readonly { unitId: string; keepOwn: boolean }[]) => rows.filter((r) => r.keepOwn).map((r) => r.unitId);
