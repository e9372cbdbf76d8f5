import 'server-only';
import { DEFAULT_HYPER, type FoulingPosterior } from '../../../core/fouling';
import { type FleetBelief } from '../../../core/evidence';
import { DEFAULT_POLICY, readPolicy, type ShopPolicy } from '../../../core/intervals';
import { STORED_FLEET_BELIEF, STORED_POSTERIOR } from '../../../database/stored/fouling';
import { STORED_POLICY } from '../../../database/stored/shop';
import type { Tx } from '../../../database/client';

/** What the fleet taught at its last fitting; the room's own priors before any. Fits of an older model are left alone. */
export async function fleetBelief(db: Tx): Promise<FleetBelief> {
  const version = DEFAULT_HYPER.modelVersion;
  const last = await db.fleetPrior.findFirst({
    where: { OR: [{ modelVersion: version }, { modelVersion: { startsWith: `${version}+` } }] },
    orderBy: { fittedAt: 'desc' },
  });
  return last ? STORED_FLEET_BELIEF.read(last.hyper) : { fouling: DEFAULT_HYPER, failures: {} };
}

/** The shop's policy, whole: what was never set is as the program brings it. */
export async function policyOnFile(db: Tx): Promise<ShopPolicy> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { policy: true } });
  return shop ? readPolicy(STORED_POLICY.read(shop.policy)) : DEFAULT_POLICY;
}

/** Posteriors on file of a kitchen's units, of one model only: others speak another language. */
export async function kitchenPosteriors(db: Tx, kitchenId: string, modelVersion: string): Promise<Map<string, FoulingPosterior>> {
  const rows = await db.unitFouling.findMany({
    where: { unit: { kitchenId, archivedAt: null }, modelVersion },
    select: { unitId: true, posterior: true },
  });
  return new Map(rows.map((r) => [r.unitId, STORED_POSTERIOR.read(r.posterior)]));
}
