import 'server-only';
import { counted } from '../../../core/wording/counted';
import type { Tx } from '../../../database/client';
import type { Made } from './imports';

/** What was done with the units and kitchens of an import since, in words; empty where nothing hangs on them. */
export async function whatHangsOn(db: Tx, { units, kitchens, customers }: Made): Promise<string[]> {
  const unitId = { in: units };
  const found: [n: number, what: string, many?: string][] = [
    [await db.visit.count({ where: { kitchenId: { in: kitchens } } }), 'visit'],
    [await db.visitTask.count({ where: { unitId } }), 'booked task'],
    [await db.finding.count({ where: { unitId } }), 'finding'],
    [await db.reading.count({ where: { unitId } }), 'reading'],
    [await db.unitEvent.count({ where: { unitId } }), 'event'],
    [await db.job.count({ where: { OR: [{ kitchenId: { in: kitchens } }, { units: { some: { unitId } } }] } }), 'job'],
    [await db.warranty.count({ where: { unitId } }), 'warranty', 'warranties'],
    [await db.cylinderEntry.count({ where: { unitId } }), 'line of the refrigerant book', 'lines of the refrigerant book'],
    [await db.leakTest.count({ where: { unitId } }), 'leak test'],
    [await db.sealedRecord.count({ where: { unitId } }), 'repair record'],
    [await db.unitChoice.count({ where: { unitId } }), 'choice about a unit', 'choices about a unit'],
    [await db.unit.count({ where: { replacesId: unitId, id: { notIn: units } } }), 'unit put in place of one since'],
    [await db.ruleChange.count({ where: { task: { unitId } } }), 'changed rule'],
    [await db.unit.count({ where: { id: unitId, version: { gt: 1 } } }), 'unit changed since'],
    [await db.unit.count({ where: { kitchenId: { in: kitchens }, id: { notIn: units } } }), 'unit added since'],
    [await db.kitchen.count({ where: { customerId: { in: customers }, id: { notIn: kitchens } } }), 'kitchen added since'],
  ];
  return found.filter(([n]) => n > 0).map(([n, what, many]) => (what.endsWith('since') ? `${n} ${what}` : counted(n, what, many)));
}
