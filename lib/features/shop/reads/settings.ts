import 'server-only';
import { STORED_POLICY } from '../../../database/stored/shop';
import type { Tx } from '../../../database/client';

/** The shop's settings, or null before set-up. */
export const shopSettings = (db: Tx) => db.shopSettings.findUnique({ where: { id: 1 }, omit: { logoPng: true } });

/** Whether a picture stands at the head of reports. */
export const hasLogo = async (db: Tx): Promise<boolean> => (await db.shopSettings.count({ where: { id: 1, NOT: { logoPng: null } } })) > 0;

/** Where the shop has not said it. */
export const OVERDUE_LIMIT_DAYS = 14;

/** Days past due beyond which a task goes to the top of the list. */
export async function overdueLimit(db: Tx): Promise<number> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { overdueLimitDays: true } });
  return shop?.overdueLimitDays ?? OVERDUE_LIMIT_DAYS;
}

type Costs = { labourPerHour: number | null; vehiclePerKm: number | null; policy: unknown };

/** Whether the shop has said what an hour, a kilometre, a cleaning and a breakdown cost it. */
export function costsSet(shop: Costs | null): boolean {
  const policy = STORED_POLICY.readOrNull(shop?.policy) ?? {};
  return shop?.labourPerHour != null && shop.vehiclePerKm != null && 'cleaningCost' in policy && 'failureCost' in policy;
}

/** What the shop said things cost; null for what it has not said. */
export function costsOf(shop: Costs & { energyPricePerKwh: number | null }) {
  const policy = STORED_POLICY.read(shop.policy);
  const said = (key: string) => (typeof policy[key] === 'number' ? policy[key] : null);
  return {
    labourPerHour: shop.labourPerHour,
    vehiclePerKm: shop.vehiclePerKm,
    energyPricePerKwh: shop.energyPricePerKwh,
    cleaningCost: said('cleaningCost'),
    inspectionCost: said('inspectionCost'),
    failureCost: said('failureCost'),
  };
}

/** What a cleaning and a breakdown cost, as the shop said; null where it has not said both. */
export function cleaningPrices(shop: Costs & { energyPricePerKwh: number | null }): { cleaningCost: number; failureCost: number } | null {
  const { cleaningCost, failureCost } = costsOf(shop);
  return cleaningCost !== null && failureCost !== null ? { cleaningCost, failureCost } : null;
}
