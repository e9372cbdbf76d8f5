import 'server-only';
import { STORED_OWN_LIMITS, STORED_POSTERIOR } from '../../../database/stored/fouling';
import { COIL_CLEANING } from '../../../core/tasks';
import { approximateWeeks } from '../../../core/calendar';
import type { CleanBaseline, CondenserUnit, Conditions } from '../../../core/condenser';
import { condenserUnitOf, conditionsOf, baselineOf } from '../../../core/condenser/from-record';
import type { OwnLimits } from '../../../core/evidence';
import type { FoulingOutlook } from '../../../core/fouling';
import { priced } from '../../shop/reads/energy-price';
import type { Tx } from '../../../database/client';

/** Coils looked at in one question; of a larger fleet every n-th kitchen, whole. */
const MOST_COILS = 600;

export type CoilOnFile = {
  unitId: string; unit: string; kitchenId: string; kitchen: string; customer: string;
  core: CondenserUnit; conditions: Conditions & { priceKnown: boolean }; baseline: CleanBaseline | null;
  posterior: FoulingOutlook; own: OwnLimits | null; minWeeks: number; maxWeeks: number; weeks: number; held: boolean;
}; // prettier-ignore

/** Coils with a belief and a cleaning task. `scale` brings sums over them up to the whole fleet. */
export async function coilsOnFile(db: Tx): Promise<{ coils: CoilOnFile[]; scale: number }> {
  const where = { archivedAt: null, fouling: { isNot: null }, tasks: { some: { kindKey: COIL_CLEANING, active: true } } };
  const all = await db.unit.count({ where });
  const kitchens = (
    await db.kitchen.findMany({ where: { archivedAt: null, units: { some: where } }, orderBy: { id: 'asc' }, select: { id: true } })
  ).map((k) => k.id);
  const stride = Math.max(1, Math.ceil(all / MOST_COILS));
  const rows = await db.unit.findMany({
    where: { ...where, kitchenId: { in: kitchens.filter((_, i) => i % stride === 0) } },
    orderBy: [{ kitchenId: 'asc' }, { id: 'asc' }],
    include: {
      kitchen: { include: { customer: { select: { name: true } } } },
      fouling: true,
      tasks: { where: { kindKey: COIL_CLEANING, active: true } },
    },
  });
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { currency: true, energyPricePerKwh: true } });
  const currency = shop?.currency ?? 'USD';
  const coils = rows.flatMap((u): CoilOnFile[] => {
    const [task] = u.tasks;
    if (!task || !u.fouling) return [];
    const core = condenserUnitOf(u, u.kitchen);
    return [{
      unitId: u.id, unit: u.name, kitchenId: u.kitchenId, kitchen: u.kitchen.name, customer: u.kitchen.customer.name, core, conditions: conditionsOf(core, priced(u.kitchen, shop), currency), baseline: baselineOf(u.fouling.baseline),
      posterior: STORED_POSTERIOR.read(u.fouling.posterior), own: STORED_OWN_LIMITS.readOrNull(u.fouling.own),
      minWeeks: task.minWeeks, maxWeeks: task.maxWeeks, weeks: approximateWeeks(task.rule), held: task.locked || task.anchor === 'calendar',
    }]; // prettier-ignore
  });
  return { coils, scale: coils.length === 0 ? 1 : all / coils.length };
}
