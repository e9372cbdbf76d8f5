import 'server-only';
import type { PlannedUpdate } from '../../../core/fleet-csv';
import type { Tx } from '../../../database/client';
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
