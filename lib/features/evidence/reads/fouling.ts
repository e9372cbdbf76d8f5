import 'server-only';
import { DEFAULT_HYPER } from '../../../core/fouling';
import { type FleetBelief } from '../../../core/evidence';
import { DEFAULT_POLICY, readPolicy, type ShopPolicy } from '../../../core/intervals';
import { STORED_FLEET_BELIEF } from '../../../database/stored/fouling';
import { numbers } from '../../../database/stored/parts';
import { STORED_POLICY } from '../../../database/stored/shop';
import type { Tx } from '../../../database/client';
import { OVERDUE_LIMIT_DAYS } from '../../shop/reads/settings';

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
  return (await shopFacts(db)).policy;
}

export type ShopFacts = { policy: ShopPolicy; currency: string; energyPricePerKwh: number | null; overdueLimitDays: number };

/** Of the shop's settings what its coils and tasks are judged by. */
export async function shopFacts(db: Tx): Promise<ShopFacts> {
  const shop = await db.shopSettings.findUnique({
    where: { id: 1 },
    select: { policy: true, currency: true, energyPricePerKwh: true, overdueLimitDays: true },
  });
  if (!shop) return { policy: DEFAULT_POLICY, currency: 'USD', energyPricePerKwh: null, overdueLimitDays: OVERDUE_LIMIT_DAYS };
  return { ...shop, policy: readPolicy(STORED_POLICY.read(shop.policy)) };
}

/** What a kitchen's units tell each other, of one model only: others speak another language. */
export async function kitchenMessages(db: Tx, kitchenId: string, modelVersion: string) {
  const rows = await db.$queryRaw<{ unitId: string; message: unknown }[]>`
    SELECT f."unitId", f.posterior -> 'message' AS message FROM "UnitFouling" f JOIN "Unit" u ON u.id = f."unitId"
    WHERE u."kitchenId" = ${kitchenId}::uuid AND u."archivedAt" IS NULL AND f."modelVersion" = ${modelVersion}`;
  return new Map(rows.map((r) => [r.unitId, { message: numbers.parse(r.message) }]));
}
