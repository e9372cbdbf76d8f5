import 'server-only';
import type { KitchenUpdate, PlannedUpdate } from '../../../core/fleet-csv';
import { isKeyOf } from '../../../core/typed/closed-set';
import type { Tx } from '../../../database/client';
import { STORED_HOURS } from '../../../database/stored/shop';
import type { Made } from '../reads/imports';

/** Changes units on file as a sheet says, and notes in `made` what they were. One that was changed meanwhile is left as it is. */
export async function writeUpdates(tx: Tx, updates: readonly PlannedUpdate[], made: Made): Promise<void> {
  for (const { unitId, version, set } of updates) {
    const before = await tx.unit.findUnique({ where: { id: unitId } });
    if (!before) continue;
    const { count } = await tx.unit.updateMany({ where: { id: unitId, version }, data: { ...set, version: version + 1 } });
    if (count > 0)
      made.changed.push({
        id: unitId,
        version: version + 1,
        before: Object.fromEntries(Object.keys(set).map((k) => [k, before[k as keyof typeof before]])),
      });
  }
}

/** The same for kitchens. A position that comes with a sheet was set by a person, whoever found the one before. */
export async function writeKitchenUpdates(tx: Tx, updates: readonly KitchenUpdate[], made: Made): Promise<void> {
  for (const { kitchenId, version, set } of updates) {
    const found = await tx.kitchen.findUnique({ where: { id: kitchenId } });
    if (!found) continue;
    const { serviceHours, ...plain } = set;
    const data = {
      ...plain,
      ...(serviceHours && { serviceHours: STORED_HOURS.write(serviceHours) }),
      ...(set.lat !== undefined || set.lng !== undefined ? { positionFrom: 'hand' as const } : {}),
    };
    const { count } = await tx.kitchen.updateMany({ where: { id: kitchenId, version }, data: { ...data, version: version + 1 } });
    if (count === 0) continue;
    const before = Object.fromEntries(Object.entries(found).filter(([key]) => isKeyOf(data, key)));
    made.changedKitchens.push({ id: kitchenId, version: version + 1, before });
  }
}
