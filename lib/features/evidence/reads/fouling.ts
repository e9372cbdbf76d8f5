import 'server-only';
import { DEFAULT_HYPER, type FoulingPosterior } from '../../../core/fouling';
import {
  DEFAULT_SHOP_RULES,
  readShopRules,
  type FleetBelief,
  type OwnLimits,
  type ShopRules,
  type UnitBelief,
} from '../../../core/evidence';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { Prisma, type Tx } from '../../../database/client';

const json = (value: unknown) => value as Prisma.InputJsonValue;

/** What the fleet taught at its last fitting; the room's own priors before any. Fits of an older model are left alone. */
export async function fleetBelief(db: Tx): Promise<FleetBelief> {
  const version = DEFAULT_HYPER.modelVersion;
  const last = await db.fleetPrior.findFirst({
    where: { OR: [{ modelVersion: version }, { modelVersion: { startsWith: `${version}+` } }] },
    orderBy: { fittedAt: 'desc' },
  });
  return last ? (last.hyper as unknown as FleetBelief) : { fouling: DEFAULT_HYPER, failures: {} };
}

export const saveFleetBelief = (db: Tx, belief: FleetBelief, fittedAt: Date) =>
  db.fleetPrior.create({ data: { hyper: json(belief), modelVersion: belief.fouling.modelVersion, fittedAt } });

/** The shop's policy, whole: what was never set is as the program brings it. */
export async function shopRules(db: Tx): Promise<ShopRules> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { policy: true } });
  return shop ? readShopRules(shop.policy) : DEFAULT_SHOP_RULES;
}

/** A policy as it is kept. */
export const policyJson = (rules: ShopRules): Prisma.InputJsonValue => json(rules);

/** A belief as plain values under the names of its columns, dates as text. */
export function foulingJson({ file, evidence, fouling }: UnitBelief) {
  const { grades, readings, cleanings } = fouling.evidence;
  return {
    unitId: file.unitId,
    posterior: fouling,
    ratePerDay: fouling.rate.mean,
    rateSdPerDay: fouling.rate.sd,
    evidenceCount: grades + readings + cleanings,
    modelVersion: fouling.modelVersion,
    lnK: fouling.lnK.mean,
    lnKSd: fouling.lnK.sd,
    asOf: fouling.asOf,
    baseline: evidence.baseline,
  };
}

/** A belief as its row. `own` is left as it is on file where it is not given; null says that there are no numbers. */
export function foulingRow(belief: UnitBelief, own?: OwnLimits | null) {
  const { posterior, asOf, baseline, ...row } = foulingJson(belief);
  return {
    ...row,
    posterior: json(posterior),
    asOf: fromLocalDate(asOf),
    baseline: json(baseline),
    ...(own === undefined ? {} : { own: own ? json(own) : Prisma.DbNull }),
  };
}

export async function saveBelief(db: Tx, belief: UnitBelief, own?: OwnLimits | null): Promise<void> {
  const row = foulingRow(belief, own);
  await db.unitFouling.upsert({ where: { unitId: row.unitId }, create: row, update: row });
}

/** Posteriors on file of a kitchen's units, of one model only: others speak another language. */
export async function kitchenPosteriors(db: Tx, kitchenId: string, modelVersion: string): Promise<Map<string, FoulingPosterior>> {
  const rows = await db.unitFouling.findMany({
    where: { unit: { kitchenId, archivedAt: null }, modelVersion },
    select: { unitId: true, posterior: true },
  });
  return new Map(rows.map((r) => [r.unitId, r.posterior as unknown as FoulingPosterior]));
}
