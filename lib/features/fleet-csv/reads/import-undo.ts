import 'server-only';
import { counted } from '../../../core/wording/counted';
import type { Tx } from '../../../database/client';
import type { Made } from './imports';

/** What was done with the units and kitchens of an import since, in words; empty where nothing hangs on them. */
export async function whatHangsOn(db: Tx, { units, kitchens, customers }: Made): Promise<string[]> {
  const unitId = { in: units };
  const found: [number, string][] = [
    [await db.visit.count({ where: { kitchenId: { in: kitchens } } }), 'visit'],
    [await db.visitTask.count({ where: { unitId } }), 'booked task'],
    [await db.finding.count({ where: { unitId } }), 'finding'],
    [await db.reading.count({ where: { unitId } }), 'reading'],
    [await db.unitEvent.count({ where: { unitId } }), 'event'],
    [await db.job.count({ where: { OR: [{ kitchenId: { in: kitchens } }, { units: { some: { unitId } } }] } }), 'job'],
    [await db.ruleChange.count({ where: { task: { unitId } } }), 'changed rule'],
    [await db.unit.count({ where: { id: unitId, version: { gt: 1 } } }), 'unit changed since'],
    [await db.unit.count({ where: { kitchenId: { in: kitchens }, id: { notIn: units } } }), 'unit added since'],
    [await db.kitchen.count({ where: { customerId: { in: customers }, id: { notIn: kitchens } } }), 'kitchen added since'],
  ];
  return found.filter(([n]) => n > 0).map(([n, what]) => (what.endsWith('since') ? `${n} ${what}` : counted(n, what)));
}
