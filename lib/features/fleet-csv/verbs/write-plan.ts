import 'server-only';
import { STORED_HOURS } from '../../../database/stored/shop';
import { randomUUID } from 'node:crypto';
import { fold, type FleetPlan } from '../../../core/fleet-csv';
import { shortCode } from '../../../core/tablet/short-code';
import type { Tx } from '../../../database/client';
import type { Made } from '../reads/imports';
import { insertMany } from '../../../database/insert-many';

const BATCH = 500;
type Row = Record<string, unknown>;

async function inBatches(rows: readonly Row[], write: (batch: Row[]) => Promise<unknown>, wrote?: (n: number) => Promise<void>) {
  for (let i = 0; i < rows.length; i += BATCH) {
    const batch = rows.slice(i, i + BATCH);
    await write(batch);
    await wrote?.(batch.length);
  }
}

/** A label code that neither the file nor the fleet on file has. */
function newTag(unitId: string, taken: Set<string>): string {
  for (let length = 6; ; length++) {
    const tag = shortCode(unitId, length);
    if (!taken.has(tag)) return tag;
  }
}

/** Rows of customers and kitchens that are new, and the id of every kitchen by its key. */
function placesOf(plan: FleetPlan, createdAt: Date) {
  const customerIds = new Map<string, string>();
  const customers: Row[] = [];
  const kitchenIds = new Map<string, string>();
  const kitchens: Row[] = [];
  for (const k of plan.kitchens) {
    const key = fold(k.customer);
    const customerId = k.customerId ?? customerIds.get(key) ?? randomUUID();
    if (!k.customerId && !customerIds.has(key)) customers.push({ id: customerId, name: k.customer, createdAt });
    customerIds.set(key, customerId);
    const id = k.kitchenId ?? randomUUID();
    kitchenIds.set(k.key, id);
    if (!k.kitchenId)
      kitchens.push({ id, customerId, name: k.name, ...k.values, serviceHours: STORED_HOURS.write(k.values.serviceHours), createdAt });
  }
  return { customers, kitchens, kitchenIds };
}

/** Writes a plan without errors. `wrote` is told how many units are in, after each batch. Returns what was made. */
export async function writePlan(
  tx: Tx,
  plan: FleetPlan,
  createdAt: Date,
  tagsOnFile: ReadonlySet<string>,
  wrote: (units: number) => Promise<void>,
): Promise<Made> {
  const { customers, kitchens, kitchenIds } = placesOf(plan, createdAt);
  const taken = new Set([...tagsOnFile, ...plan.units.map((u) => u.tag).filter(Boolean)]);
  await inBatches(customers, (rows) => insertMany(tx, 'Customer', rows));
  await inBatches(kitchens, (rows) => insertMany(tx, 'Kitchen', rows));
  const tasksOf = new Map<string, Row[]>();
  const units = plan.units.map(({ line: _, kitchen, tasks, tag, ...fields }): Row & { id: string } => {
    const id = randomUUID();
    const kitchenId = kitchenIds.get(kitchen.key);
    const ownTag = tag || newTag(id, taken);
    taken.add(ownTag);
    tasksOf.set(
      id,
      tasks.map((t) => ({ ...t, id: randomUUID(), unitId: id, kitchenId, createdAt })),
    );
    return { ...fields, id, kitchenId, tag: ownTag, createdAt };
  });
  await inBatches(
    units,
    async (rows) => {
      await insertMany(tx, 'Unit', rows);
      await insertMany(
        tx,
        'Task',
        rows.flatMap((u) => tasksOf.get(u.id as string) ?? []),
      );
    },
    wrote,
  );
  const ids = (rows: readonly Row[]) => rows.map((r) => String(r.id));
  return { customers: ids(customers), kitchens: ids(kitchens), units: ids(units), changed: [], changedKitchens: [] };
}
